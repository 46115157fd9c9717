use super::ahead::likely_factor_of_all;
use super::{Likely, Outlook, Refill, Roof, Standing, WaterError};
use crate::almanac::{CivilDay, Latitude, Sky, usual_month, usual_temperatures};
use crate::quantity::Range;
use crate::working::{Working, value};

/// Butts and tanks that can be, litres.
pub const BUTT_RANGE: Range = Range {
    what: "Water butt",
    low: 10.0,
    high: 20_000.0,
    unit: " litres",
};
/// Size of a butt until told, litres (common practice, no source: butts are sold from 100 to 350).
pub const USUAL_BUTT_LITRES: f64 = 200.0;

/// A water butt, or several that are joined.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Butt {
    /// Litres that it holds when full.
    pub size: f64,
    /// Litres in it now, at most its size.
    pub level: f64,
    /// The roof that fills it.
    pub roof: Roof,
}

/// What one day took out of a butt and brought into it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ButtDay {
    /// Litres that were poured.
    pub poured: f64,
    /// Rain on the roof, mm.
    pub rain_millimetres: f64,
}

/// Litres that all groups together get in a day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DailyNeed {
    /// After a clear day.
    pub clear: f64,
    /// After a mixed day.
    pub mixed: f64,
    /// After a dull day.
    pub dull: f64,
    /// Whether the usual temperatures are a far guess at the place.
    pub far_guess: bool,
}

/// How long a butt lasts without rain.
#[derive(Clone, Debug, PartialEq)]
pub struct DaysLeft {
    /// Under clear skies, days.
    pub clear: Likely,
    /// Under mixed skies, days.
    pub mixed: Likely,
    /// Under dull skies, days.
    pub dull: Likely,
    /// How they were reached.
    pub working: Working,
}

/// What all groups are given in a day under three skies, with the usual temperatures of the day before `today`, if they are
/// never left short.
///
/// # Errors
/// [`WaterError`] of the first group that has no dose.
pub fn daily_need(standings: &[Standing], latitude: Latitude, today: CivilDay) -> Result<DailyNeed, WaterError> {
    let under = |sky| poured(standings, today.yesterday(), Outlook::under(sky), latitude);
    Ok(DailyNeed {
        clear: under(Sky::Clear)?,
        mixed: under(Sky::Mixed)?,
        dull: under(Sky::Dull)?,
        far_guess: usual_temperatures(latitude, today).far_guess,
    })
}

/// Litres for all groups to replace what they use on a day.
fn poured(standings: &[Standing], day: CivilDay, outlook: Outlook, latitude: Latitude) -> Result<f64, WaterError> {
    standings.iter().try_fold(0.0, |sum, standing| {
        Ok(sum + standing.count() * standing.on(day, outlook, latitude)?.poured())
    })
}

impl Butt {
    /// The butt after a day on which was poured first and then rained (choice: watering is in the morning).
    ///
    /// `level' = min(size, max(0, level − poured) + refill)`, with the refill between its least and its most. What is poured beyond
    /// the level came from elsewhere.
    #[must_use]
    pub fn after(self, day: ButtDay) -> Self {
        let Refill { low, high, .. } = self.roof.refill(day.rain_millimetres);
        let left = (self.level_held() - day.poured).max(0.0);
        Self {
            level: (left + f64::midpoint(low, high)).min(self.size),
            ..self
        }
    }

    /// Days that the water lasts without rain; nothing when nothing is needed.
    ///
    /// `days = level/need`, its range by the spread of plants and days.
    #[must_use]
    pub fn days_left(&self, need: DailyNeed, standings: &[Standing]) -> Option<DaysLeft> {
        if need.clear <= 0.0 || need.mixed <= 0.0 || need.dull <= 0.0 {
            return None;
        }
        let mut working = Working::default();
        let mut under = |title, litres: f64| {
            let days = working.step(
                title,
                "level ÷ litres a day",
                &[value("level", self.level_held(), "litres", 0), value("a day", litres, "litres", 1)],
                value("days", self.level_held() / litres, "", 0),
                "What all groups get in a day in the usual temperatures; no rain counted",
            );
            Likely::about(days, likely_factor_of_all(standings, days, need.far_guess))
        };
        let clear = under("Days left under clear skies", need.clear);
        let mixed = under("Days left under mixed skies", need.mixed);
        let dull = under("Days left under dull skies", need.dull);
        Some(DaysLeft {
            clear,
            mixed,
            dull,
            working,
        })
    }

    /// The level, not above the brim nor below nothing.
    const fn level_held(&self) -> f64 {
        crate::quantity::bounded(self.level, 0.0, self.size)
    }
}

/// A month of the season to come, with the butt carried through it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthAhead {
    /// Its first day that counts: today, or the first of the month.
    pub first: CivilDay,
    /// Days of it that count.
    pub days: u32,
    /// Litres off the roof in an ordinary month.
    pub supply: f64,
    /// Litres for all groups.
    pub demand: f64,
    /// Litres that have to come from elsewhere.
    pub short: f64,
    /// Litres that run over.
    pub over: f64,
    /// Litres in the butt at its end.
    pub left: f64,
}

/// The months from today to the end of the season, in the usual weather: a month's rain comes with its needs, and only what a
/// butt holds is carried into the next. Plants grow by the usual temperatures; rain on plants outdoors is not counted.
///
/// A month's run-off has no wetting of the roof taken off: the coefficients are for long spans. Empty outside the season.
///
/// # Errors
/// [`WaterError`] of the first group that has no dose.
pub fn season_outlook(butt: &Butt, standings: &[Standing], latitude: Latitude, today: CivilDay) -> Result<Vec<MonthAhead>, WaterError> {
    let mut standings = standings.to_vec();
    let (mut months, mut level) = (Vec::new(), butt.level_held());
    let (mut first, mut grown_to) = (today, today);
    while let Some(usual) = usual_month(latitude, first) {
        let days = first.days_in_month() - first.day() + 1;
        let middle = first.days_later(i32::from(days / 2));
        for standing in &mut standings {
            standing.grow(grown_to, middle, latitude);
        }
        grown_to = middle;
        let share = f64::from(days) / f64::from(first.days_in_month());
        let supply = butt.roof.litres_per_millimetre() * usual.rain_millimetres * share;
        let demand = f64::from(days) * poured(&standings, middle, Outlook::Usual, latitude)?;
        let balance = level + supply - demand;
        level = crate::quantity::bounded(balance, 0.0, butt.size);
        months.push(MonthAhead {
            first,
            days: u32::from(days),
            supply,
            demand,
            short: (level - balance).max(0.0),
            over: (balance - level).max(0.0),
            left: level,
        });
        first = first.days_later(i32::from(days));
    }
    Ok(months)
}
