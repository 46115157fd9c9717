use super::ahead::likely_factor_of_all;
use super::{Likely, Outlook, Standing, WaterError, demand_until};
use crate::almanac::{CivilDay, Latitude};
use crate::quantity::Range;
use crate::working::{Working, value};

/// Days away that can be planned.
pub const DAYS_AWAY_RANGE: Range = Range {
    what: "Days away",
    low: 1.0,
    high: 60.0,
    unit: "",
};

/// Share of what a plant would take at which its store counts as spent (choice: as it slows with the drying, the last drop is
/// never drawn).
const SPENT: f64 = 0.2;

/// Days without anyone at home.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Absence {
    /// The first day away; everything is watered full that morning.
    pub first: CivilDay,
    /// How many days.
    pub days: u32,
    /// What they are taken to be like.
    pub outlook: Outlook,
}

/// What one group needs meanwhile.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AwayGroup {
    /// Litres that each plant uses over the absence, if it is kept supplied.
    pub each: Likely,
    /// The same for all plants of the group.
    pub all: Likely,
    /// Litres to pour for each plant on an average day.
    pub a_day: f64,
    /// Days from the first morning until the easy water (RAW) of a full store is gone; beyond the absence when it outlasts that.
    pub easy_water_lasts: Likely,
    /// Days until the store (TAW) is as good as spent.
    pub store_lasts: Likely,
}

impl AwayGroup {
    /// The day on which the easy water of a full store is gone, and the same if the plants are thirsty; nothing when that is likely
    /// to outlast the absence.
    #[must_use]
    pub fn runs_short(&self, absence: Absence) -> Option<(CivilDay, CivilDay)> {
        let Likely { low, value, .. } = self.easy_water_lasts;
        let day = |days| absence.first.days_later(whole(days));
        (low < f64::from(absence.days)).then(|| (day(value), day(low)))
    }

    /// Litres to pour for each plant when somebody comes every so many days.
    #[must_use]
    pub fn a_visit(&self, every: u32) -> f64 {
        self.a_day * f64::from(every)
    }
}

/// When someone has to come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SomeoneComes {
    /// Position of the group that runs short first.
    pub group: usize,
    /// The morning on which it has to be watered again.
    pub by: CivilDay,
    /// The same if the plants are thirsty: with four in five that is soon enough.
    pub early: CivilDay,
    /// Days from one watering to the next, 1 and up.
    pub every: u32,
    /// Whether even daily watering leaves it short on a usual day.
    pub daily_is_too_seldom: bool,
}

/// A plan for days away.
#[derive(Clone, Debug, PartialEq)]
pub struct AwayPlan {
    /// Each group, in the order given.
    pub groups: Vec<AwayGroup>,
    /// Litres for all groups together.
    pub total: Likely,
    /// Litres that a reservoir should hold, so that four in five such absences, and the milder ones, are covered.
    pub reservoir: f64,
    /// When someone has to come; nothing when every store outlasts the absence even of thirsty plants.
    pub someone_comes: Option<SomeoneComes>,
    /// How the group whose water is gone first was worked out, whether or not within the absence.
    pub working: Working,
}

/// What every group needs while nobody is at home, each from a full store on the first morning. Plants grow meanwhile by the
/// usual temperatures; rain is not counted on.
///
/// # Errors
/// [`WaterError`]: days out of range, or the first group that has no dose.
pub fn away_plan(standings: &[Standing], absence: Absence, latitude: Latitude) -> Result<AwayPlan, WaterError> {
    DAYS_AWAY_RANGE.check(f64::from(absence.days))?;
    let mut plan = AwayPlan {
        groups: Vec::new(),
        total: Likely::default(),
        reservoir: 0.0,
        someone_comes: None,
        working: Working::default(),
    };
    let (mut soonest, mut outlasts) = (f64::INFINITY, f64::INFINITY);
    for standing in standings {
        let mut working = Working::default();
        let group = away_group(standing, absence, latitude, &mut working)?;
        plan.total = plan.total.plus(group.all);
        let lasts = group.easy_water_lasts;
        if let Some((by, early)) = group.runs_short(absence)
            && standing.group.count > 0
            && lasts.value < soonest
        {
            soonest = lasts.value;
            plan.working = working;
            plan.someone_comes = Some(SomeoneComes {
                group: plan.groups.len(),
                by,
                early,
                every: whole(lasts.value).unsigned_abs().max(1),
                daily_is_too_seldom: lasts.value < 1.0,
            });
        } else if plan.someone_comes.is_none() && standing.group.count > 0 && lasts.value < outlasts {
            outlasts = lasts.value;
            plan.working = working;
        }
        plan.groups.push(group);
    }
    plan.reservoir = plan.total.high;
    Ok(plan)
}

fn away_group(standing: &Standing, absence: Absence, latitude: Latitude, working: &mut Working) -> Result<AwayGroup, WaterError> {
    let mut standing = standing.clone();
    let days = f64::from(absence.days);
    let mut day = absence.first;
    let mut ahead = standing.on(day, absence.outlook, latitude)?;
    let (zone, first_day, far_guess) = (ahead.zone, ahead.used, ahead.far_guess);
    let mut daily = vec![first_day];
    let (mut used, mut poured) = (ahead.used, ahead.poured());
    for _ in 1..absence.days {
        standing.grow(day, day.tomorrow(), latitude);
        day = day.tomorrow();
        ahead = standing.on(day, absence.outlook, latitude)?;
        used += ahead.used;
        poured += ahead.poured();
        daily.push(ahead.used);
    }
    let used = working.step(
        "Used while away",
        "each day’s use, added up",
        &[value("days", days, "", 0), value("first day", first_day, "litres", 2)],
        value("used", used, "litres", 1),
        "As in the morning’s sum, with the outlook for yesterday; plants grow meanwhile; no rain counted",
    );
    let easy = lasting(
        &daily,
        demand_until(1.0, 0.0, zone.easy_water, zone.all_water),
        &standing,
        far_guess,
    );
    let store = lasting(
        &daily,
        demand_until(SPENT, 0.0, zone.easy_water, zone.all_water),
        &standing,
        far_guess,
    );
    working.step(
        "Until the easy water is gone",
        "RAW ÷ use a day, from a full store",
        &[value("RAW", zone.easy_water, "litres", 1)],
        value("days", easy.value, "", 1),
        "FAO-56 Eq. 84: up to RAW a plant takes what it would",
    );
    working.step(
        "Until the store is as good as spent",
        "demand = RAW + (TAW − RAW) × ln(1 ÷ 0.2)",
        &[
            value("RAW", zone.easy_water, "litres", 1),
            value("TAW", zone.all_water, "litres", 1),
        ],
        value("days", store.value, "", 1),
        "FAO-56 Eq. 84 followed through the drying, until a fifth of the need is met (choice)",
    );
    let each = Likely::about(used, likely_factor_of_all(std::slice::from_ref(&standing), days, far_guess));
    Ok(AwayGroup {
        each,
        all: each.times(standing.count()),
        a_day: poured / days,
        easy_water_lasts: easy,
        store_lasts: store,
    })
}

/// Days until so much is used, with their range.
fn lasting(daily: &[f64], need: f64, standing: &Standing, far_guess: bool) -> Likely {
    let value = days_until(daily, need);
    let factor = likely_factor_of_all(std::slice::from_ref(standing), value, far_guess);
    Likely {
        low: days_until(daily, need / factor),
        value,
        high: days_until(daily, need * factor),
    }
}

/// Days until so much is used; the last day's use goes on for ever.
fn days_until(daily: &[f64], need: f64) -> f64 {
    let (mut left, mut days, mut last) = (need, 0.0, 0.0);
    for &used in daily {
        if used >= left {
            return days + left / used;
        }
        left -= used;
        days += 1.0;
        last = used;
    }
    days + left / last
}

/// Whole days that have gone by.
#[expect(clippy::cast_possible_truncation, reason = "a float cast saturates")]
const fn whole(days: f64) -> i32 {
    days as i32
}
