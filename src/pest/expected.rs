use super::{Basis, ByStage, Control, Course, Kills, LifeTable, Outline, PARASITOID_STARTS_AFTER, Pest, Population, Standing, growth};
use crate::almanac::CivilDay;

/// Days that the curve runs at least (choice).
const SHORTEST_CURVE: usize = 42;
/// Days that it runs at most (limit).
pub const LONGEST_CURVE: usize = 120;
/// Days after the last treatment that the curve still shows (choice).
const CURVE_AFTER_LAST: usize = 14;

/// When there will be as many again as on day 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Back {
    /// They never become fewer for long: the plan slows them only.
    NeverFewer,
    /// From this day on.
    On(CivilDay),
    /// Not within the curve.
    NotWithin,
}

/// What is expected, as shares of the numbers on day 0.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// On the evening of each day, from day 0, with the plan.
    pub with: Vec<ByStage>,
    /// On the same days before anything is done: when animals are counted.
    pub before: Vec<ByStage>,
    /// The total on the same evenings when nothing is done.
    pub without: Vec<f64>,
    /// Whether any of the killed shares is a choice of this program.
    pub assumed: bool,
}

/// The numbers to be expected.
pub(super) fn expect_numbers(outline: &mut Outline, pest: Pest, beside: &[Control], course: &Course, life: &LifeTable) {
    let number_of = |day: CivilDay| usize::try_from(day.days_since(outline.start)).ok();
    let treatments: Vec<(usize, Kills)> = outline
        .visits
        .iter()
        .filter(|visit| visit.standing != Standing::Skipped && !visit.control.works_all_week())
        .filter_map(|visit| Some((number_of(visit.day)?, visit.control.kills(pest)?)))
        .collect();
    let mut every_day: Vec<(usize, Kills)> = Vec::new();
    let others = beside.iter().filter(|control| **control != outline.control);
    for control in others.chain([&outline.control]) {
        if control.works_all_week()
            && let Some(kills) = control.kills(pest)
        {
            // What lives starts some weeks after it was brought in, which is once it is warm enough.
            let brought = outline.visits.iter().find(|visit| visit.control == *control).map(|visit| visit.day);
            let brought = brought.or_else(|| outline.introduction.as_ref()?.day);
            let from = match brought.and_then(number_of) {
                _ if !control.is_living() => 0,
                Some(day) => day + usize::from(PARASITOID_STARTS_AFTER),
                None => continue,
            };
            every_day.push((from, kills));
        }
    }
    if treatments.is_empty() && every_day.is_empty() {
        return;
    }
    let last = treatments.iter().map(|(number, _)| *number).max().unwrap_or(0);
    let days = (last + CURVE_AFTER_LAST).clamp(SHORTEST_CURVE, LONGEST_CURVE);
    let shown = curve(life, &course.daily, LONGEST_CURVE, &treatments, &every_day);
    outline.back = Some(back_of(&shown, course));
    outline.curve = Some(Curve {
        with: shown.with.into_iter().take(days + 1).collect(),
        before: shown.before.into_iter().take(days + 1).collect(),
        without: shown.without.into_iter().take(days + 1).collect(),
        assumed: shown.assumed,
    });
}

/// From when on a curve stays at the numbers of day 0 or above them.
pub(super) fn back_of(curve: &Curve, course: &Course) -> Back {
    let totals = || curve.with.iter().map(|stages| stages.iter().sum::<f64>());
    let last_fewer = totals().zip(0..).skip(1).filter(|(total, _)| *total < 1.0).last();
    match last_fewer {
        None => Back::NeverFewer,
        Some((_, day)) if day + 1 < curve.with.len() => Back::On(course.date(day + 1)),
        Some(_) => Back::NotWithin,
    }
}

/// The numbers on the evening of day 0 to `days`, from a steady mixture of 1 on day 0 before any treatment. `treatments` fall on
/// their days; what works `every_day` does so from its day on.
#[must_use]
pub fn curve(life: &LifeTable, daily: &[f64], days: usize, treatments: &[(usize, Kills)], every_day: &[(usize, Kills)]) -> Curve {
    let mut treated = Population::steady(life, 1.0);
    let mut untreated = 1.0;
    let growth = growth(life);
    let (mut with, mut before, mut without) = (Vec::new(), Vec::new(), Vec::new());
    let warmth = [0.0].into_iter().chain(daily.iter().copied());
    for (number, warmth) in warmth.take(days + 1).enumerate() {
        treated.advance(warmth);
        untreated *= (growth * warmth).exp();
        before.push(treated.by_stage());
        for (_, kills) in treatments.iter().filter(|(day, _)| *day == number) {
            treated.treat(kills);
        }
        for (_, kills) in every_day.iter().filter(|(from, _)| *from <= number) {
            treated.treat(kills);
        }
        with.push(treated.by_stage());
        without.push(untreated);
    }
    Curve {
        with,
        before,
        without,
        assumed: treatments.iter().chain(every_day).any(|(_, kills)| kills.basis == Basis::Assumed),
    }
}
