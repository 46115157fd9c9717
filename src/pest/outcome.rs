use super::Curve;

/// Animals counted on one day, always on the same card or the same ten leaves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Count {
    /// Days after day 0.
    pub day: usize,
    /// How many.
    pub seen: f64,
    /// Whether only what flies was counted, as on a card.
    pub adults_only: bool,
}

/// What weekly counts say of a treatment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// About as few as expected: go on.
    Working,
    /// More than expected, as when the undersides were missed: aim better.
    MissedUndersides,
    /// Hardly fewer than without any treatment, twice: they tolerate it, so change the method, or stop early.
    Tolerant,
}

/// Seen over expected, no unit, from which undersides were missed (choice: half of them left dry).
const MISSED_FROM: f64 = 2.0;
/// Seen over untreated, no unit, from which a treatment does nothing (choice).
const USELESS_FROM: f64 = 0.7;
/// Number of animals, no unit, below which a count says nothing (choice).
const FEW: f64 = 5.0;

/// What counts say, the first of them as the yardstick; nothing with fewer than two, or before day 5 (choice). Only counts of the kind of the last
/// one are looked at: what a card catches and what sits on ten leaves are no measure of each other, and either is enough.
///
/// Seen over expected, both over the first count. What would be expected stands in the curve of what was done, before that day's
/// treatment: one counts first.
#[must_use]
pub fn outcome(counts: &[Count], curve: &Curve) -> Option<Outcome> {
    let adults_only = counts.last()?.adults_only;
    let mut counts = counts.iter().filter(|count| count.adults_only == adults_only);
    let first = counts.next()?;
    let (expected_first, _) = expected(first, curve)?;
    let mut useless = 0;
    let mut latest = None;
    for count in counts.filter(|count| count.day >= first.day + 5) {
        let (expected_now, untreated_now) = expected(count, curve)?;
        let scale = first.seen.max(1.0) / expected_first;
        let (expected, untreated) = ((scale * expected_now).max(FEW), scale * untreated_now);
        let is_useless = count.seen >= USELESS_FROM * untreated && count.seen >= MISSED_FROM * expected;
        useless = if is_useless { useless + 1 } else { 0 };
        latest = Some(if useless >= 2 {
            Outcome::Tolerant
        } else if count.seen >= MISSED_FROM * expected {
            Outcome::MissedUndersides
        } else {
            Outcome::Working
        });
    }
    latest
}

/// Numbers of a day in the curve, with the plan and without; never quite nought, for they divide (limit).
fn expected(count: &Count, curve: &Curve) -> Option<(f64, f64)> {
    let stages = curve.before.get(count.day)?;
    let untreated = *curve.without.get(count.day)?;
    let total: f64 = stages.iter().sum();
    if count.adults_only {
        // In a steady mixture adults are the same share of all as on day 0.
        let adults = stages.last()?;
        let share = curve.before.first()?.last()?;
        Some((adults.max(1e-9), untreated * share.max(1e-9)))
    } else {
        Some((total.max(1e-9), untreated))
    }
}
