use super::Coded;
use crate::quantity::decimal;
use crate::water::Season;

/// What stands over the columns: ISO dates, litres for each plant.
const HEADS: &str = "date,group,given (litres),given is assumed,used (litres),ran off (litres),missing in the morning (litres),felt\r\n";

/// The season as a table of comma-separated values (RFC 4180): one row a day for each group, with the name that it goes by.
#[must_use]
pub fn season_table<'a>(groups: impl IntoIterator<Item = (String, &'a Season)>) -> String {
    let mut table = HEADS.to_owned();
    for (name, season) in groups {
        let name = quoted(&name);
        for day in &season.days {
            let litres = |litres: f64| decimal(litres, 3);
            let felt = day.readings.feel.map(Coded::code).unwrap_or_default();
            let cells: [&str; 8] = [
                &day.day.to_string(),
                &name,
                &litres(day.flows.given),
                if day.assumed_pour { "yes" } else { "no" },
                &litres(day.flows.used),
                &litres(day.flows.drained),
                &litres(day.flows.start),
                felt,
            ];
            table += &cells.join(",");
            table += "\r\n";
        }
    }
    table
}

/// A cell in quotation marks, with those inside it doubled. One that a spreadsheet would take for a formula begins with a
/// sign that keeps it from that.
fn quoted(text: &str) -> String {
    let begins = if text.starts_with(['=', '+', '-', '@']) { "\"'" } else { "\"" };
    begins.to_owned() + &text.replace('"', "\"\"") + "\""
}
