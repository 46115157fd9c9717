//! The days of a programme as weeks of a calendar.

use super::{Element, element};

/// One day of the strip.
pub struct StripDay {
    /// The day of the month.
    pub number: String,
    /// What stands under it. May be empty.
    pub words: &'static str,
    /// `done`, `next`, `plan`, `today`, `out` or nothing.
    pub class: &'static str,
    /// Whether its lower edge is hatched.
    pub is_hatched: bool,
}

/// Whole weeks from a Monday.
pub struct RepeatsStrip {
    /// What it shows, in words.
    pub caption: String,
    /// The days.
    pub days: Vec<StripDay>,
}

impl RepeatsStrip {
    /// The table.
    #[must_use]
    pub fn view(self) -> Element {
        let heads = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];
        let heads = heads.map(|head| {
            let letter = head.get(..1).unwrap_or_default();
            element("th").set("scope", "col").set("abbr", head).text(letter)
        });
        let mut rows = Vec::new();
        let mut days = self.days.into_iter().peekable();
        while days.peek().is_some() {
            let week = days.by_ref().take(7).map(|day| {
                let mut cell = element("td").class(day.class).text(day.number);
                if day.is_hatched {
                    cell = cell.set("data-egg", "");
                }
                if day.words.is_empty() {
                    cell
                } else {
                    cell.text(" ").child(element("small").text(day.words))
                }
            });
            rows.push(element("tr").children(week.collect::<Vec<_>>()));
        }
        element("table")
            .class("cal")
            .child(element("caption").class("unseen").text(self.caption))
            .child(element("thead").child(element("tr").children(heads)))
            .child(element("tbody").children(rows))
    }
}
