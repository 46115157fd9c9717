use super::biological::is_warm_enough;
use super::programme::whole;
use super::schedule::{Allowance, numbered};
use super::{
    Cleared, Control, Course, Extent, Limits, Outline, Pest, Product, Programme, Rule, Schedule, Standing, Visit, continued, repeat,
};
use crate::almanac::CivilDay;
use crate::working::value;

/// Days that a programme goes on for when the cycle stalls (choice): then it is time to clean up.
const LONGEST_WHEN_STALLED: usize = 56;
/// Month, of the north, from which spider mites hide for the winter and no spray meets them (choice; short days, read).
const MITES_HIDE_FROM: u8 = 10;
/// Last month of the north in which they are hidden (choice).
const MITES_HIDE_UNTIL: u8 = 2;
/// Days before the next spray within which nothing is done by hand any more (choice).
const CLEAR_BEFORE_SPRAY: usize = 2;

/// A product whose label was read and lets it be used.
pub(super) struct Open {
    pub product: Product,
    pub label: Cleared,
}

/// What is planned, in days of the course.
struct Plan<'a> {
    course: &'a Course,
    /// Days of the main treatment that stand, done or left out.
    before: Vec<usize>,
    /// Those of them on which it was done.
    done: Vec<usize>,
    /// Days on which something was done by hand, or left out.
    by_hand: Vec<usize>,
    /// Today.
    now: usize,
    /// Visits to come: the day, with what, and the number of the product.
    ahead: Vec<(usize, Control, u8)>,
}

impl Programme<'_> {
    /// The visits to come.
    pub(super) fn plan_visits(&self, outline: &mut Outline, course: &Course, open: &[Open], today: CivilDay) {
        let control = outline.control;
        let Some(repeat) = repeat(self.pest, control) else {
            return;
        };
        let number_of = |day: CivilDay| usize::try_from(day.days_since(course.start)).ok();
        let mut now = number_of(today).unwrap_or(0);
        if control.is_living() {
            // What lives is brought in, and again, once it is warm enough.
            match outline.introduction.as_ref().and_then(|coming| coming.day).and_then(number_of) {
                Some(day) => now = day.max(now),
                None => return,
            }
        }
        let counts =
            |visit: &&Visit| visit.control == control || control.needs_label() && visit.control.needs_label() || control.is_by_hand();
        let mut plan = Plan {
            course,
            before: outline
                .visits
                .iter()
                .filter(counts)
                .filter_map(|visit| number_of(visit.day))
                .collect(),
            done: outline
                .visits
                .iter()
                .filter(counts)
                .filter(|visit| visit.standing == Standing::Done)
                .filter_map(|visit| number_of(visit.day))
                .collect(),
            by_hand: outline
                .visits
                .iter()
                .filter(|visit| visit.control.is_by_hand())
                .filter_map(|visit| number_of(visit.day))
                .collect(),
            now,
            ahead: Vec::new(),
        };
        // Several jobs of one day are one for the days between.
        plan.before.dedup();
        plan.done.dedup();
        let allowed = self.allowances(outline, course, open);
        let with = |place: usize| {
            open.get(place)
                .map_or((control, 0), |open| (open.product.control, open.product.number))
        };
        let rule = Rule {
            repeat,
            in_full: self.extent != Extent::Least,
            longest: self.longest(outline),
            generation: self.pest.species().and_then(|species| species.cycle).unwrap_or(f64::INFINITY),
        };
        super::conflicts::note_uses(outline, open, &allowed);
        if self.extent == Extent::Chosen {
            let chosen = self.chosen.iter().map(|day| day.days_since(course.start)).collect::<Vec<_>>();
            let chosen = to_come(&chosen, &plan.before, now);
            plan.ahead = kept_to(chosen, allowed, plan.before.last().copied())
                .map(|(day, place)| (day, with(place).0, with(place).1))
                .collect();
            self.fill_gaps(outline, &mut plan, rule, None);
        } else {
            let schedule = continued(course, rule, &allowed, &plan.before, &plan.done, now);
            let days = schedule.days.iter().skip(plan.before.len());
            plan.ahead = days
                .zip(&schedule.with)
                .map(|(day, place)| (*day, with(*place).0, with(*place).1))
                .collect();
            super::conflicts::note(outline, open, &schedule, &allowed, plan.before.len() - plan.done.len());
            self.fill_gaps(outline, &mut plan, rule, Some(&schedule));
        }
        // What lives is brought in again only while it stays warm enough for it.
        plan.ahead
            .retain(|(day, control, _)| is_warm_enough(self.pest, *control, &self.warmth, course.date(*day)));
        let visits = plan.ahead.iter().map(|(day, control, product)| Visit {
            day: course.date(*day),
            control: *control,
            product: *product,
            standing: Standing::Ahead,
        });
        outline.visits.extend(visits);
        self.mind_winter(outline);
        let last = plan.before.last().copied().unwrap_or(0);
        let between = repeat.days_to_next(course, last, plan.before.len().max(1)).unwrap_or(0);
        let (how, source) = repeat.told();
        outline.working.step(
            "Days to the next treatment",
            how,
            &[value("treatments", whole(outline.treatments()), "", 0)],
            value("days between", whole(between), "", 0),
            source,
        );
    }

    /// The last day of a programme, counted from its first: where the cycle stalls it is time to clean up.
    fn longest(&self, outline: &Outline) -> usize {
        let is_known = self.pest.species().is_some_and(|species| species.life.is_some());
        if outline.stalls && is_known {
            LONGEST_WHEN_STALLED
        } else {
            usize::MAX
        }
    }

    /// What the labels allow; without a product one thing that nothing limits.
    fn allowances(&self, outline: &Outline, course: &Course, open: &[Open]) -> Vec<Allowance> {
        let number_of = |day: CivilDay| usize::try_from(day.days_since(course.start)).ok();
        let of = |open: &Open| {
            let uses = outline
                .visits
                .iter()
                .filter(|visit| visit.standing == Standing::Done && visit.control.needs_label() && visit.product == open.product.number);
            let mut limits = Limits {
                least_days: usize::from(open.label.least_days()).max(1),
                most: usize::from(open.label.most_uses()),
                ..Limits::default()
            };
            if let Some(day) = open.label.label().latest_use {
                match number_of(day) {
                    Some(day) => limits.latest = day,
                    None => limits.most = 0,
                }
            }
            let mut allowance = Allowance {
                limits,
                ..Allowance::default()
            };
            for visit in uses {
                allowance.note(visit.day.days_since(course.start));
            }
            let own = allowance.used.len();
            for shared in self.shared.iter().filter(|shared| shared.product == open.product.number) {
                allowance.note(shared.day.days_since(course.start));
            }
            allowance.elsewhere = allowance.used.len() - own;
            allowance
        };
        if open.is_empty() {
            return vec![Allowance::default()];
        }
        open.iter().map(of).collect()
    }

    /// No spray is planned for mites that hide.
    fn mind_winter(&self, outline: &mut Outline) {
        if self.pest != Pest::SpiderMite {
            return;
        }
        let latitude = self.warmth.latitude;
        let hidden = |day: CivilDay| {
            let month = day.northern_month(latitude);
            month >= MITES_HIDE_FROM || month <= MITES_HIDE_UNTIL
        };
        let before = outline.visits.len();
        outline
            .visits
            .retain(|visit| visit.standing != Standing::Ahead || !hidden(visit.day));
        outline.hides = outline.visits.len() < before;
    }

    /// What needs no label goes on between sprays that a label keeps apart, and after its uses have ended; between all of them if the
    /// grower does it beside.
    fn fill_gaps(&self, outline: &Outline, plan: &mut Plan, rule: Rule, schedule: Option<&Schedule>) {
        let control = outline.control;
        if !(control.needs_label() || control == Control::StickyCards) {
            return;
        }
        let mut fillers: Vec<Control> = self.beside.iter().copied().filter(|beside| beside.is_by_hand()).collect();
        let is_asked = !fillers.is_empty();
        if !is_asked {
            if !self.fills_gaps {
                return;
            }
            fillers.push(self.pest.physical_control());
        }
        let is_stretched = schedule.is_some_and(|schedule| schedule.is_stretched);
        let ends = schedule
            .filter(|schedule| control.needs_label() && schedule.days.len() < schedule.wanted)
            .and_then(|schedule| schedule.covered_by)
            .map(|day| day.min(rule.longest));
        let mut filled = Vec::new();
        let main: Vec<usize> = plan.before.iter().copied().chain(plan.ahead.iter().map(|(day, ..)| *day)).collect();
        for (place, day) in main.iter().enumerate() {
            let next = main.get(place + 1);
            let until = match next {
                Some(next) => {
                    let gap = rule.repeat.days_to_next(plan.course, *day, 1);
                    let is_long = is_asked || is_stretched && gap.is_some_and(|gap| *next > *day + gap);
                    is_long.then(|| next.saturating_sub(CLEAR_BEFORE_SPRAY))
                }
                None => ends,
            };
            self.fill(plan, *day, until, next.is_none(), &fillers, &mut filled);
        }
        if main.is_empty() {
            self.fill(plan, plan.now, ends, true, &fillers, &mut filled);
        }
        for visit in filled {
            let place = plan.ahead.partition_point(|(day, ..)| *day < visit.0);
            plan.ahead.insert(place, visit);
        }
    }

    /// Fills from the day after `day` until `until`: up to it, or so that it is reached when nothing follows.
    fn fill(
        &self,
        plan: &Plan,
        day: usize,
        until: Option<usize>,
        is_end: bool,
        fillers: &[Control],
        filled: &mut Vec<(usize, Control, u8)>,
    ) {
        let Some(until) = until else { return };
        // What was done by hand meanwhile counts, and what was left out too.
        let stands = plan.by_hand.iter().copied().filter(|stands| is_end || *stands <= until);
        let mut number = stands.fold(day, usize::max);
        while is_end && number < until || !is_end && number <= until {
            let Some(control) = fillers.get(filled.len() % fillers.len().max(1)).copied() else {
                return;
            };
            let rule = repeat(self.pest, control);
            let Some(gap) = rule.and_then(|rule| rule.days_to_next(plan.course, number, 1)) else {
                return;
            };
            // Late is due today.
            number = (number + gap).max(plan.now);
            if is_end || number <= until {
                filled.push((number, control, 0));
            }
        }
    }
}

/// The days of a best plan that are still to come, counted from day 0, none before `now`: each treatment that stands takes up one of them,
/// and those after one that was late, or is, move on by as many days, so that what lies between them stays.
fn to_come<'a>(chosen: &'a [i32], before: &[usize], now: usize) -> impl Iterator<Item = usize> + use<'a> {
    let left = chosen.get(before.len()..).unwrap_or_default();
    let last = before.last().map(|day| numbered(*day));
    let planned = before.len().checked_sub(1).and_then(|place| chosen.get(place)).copied();
    let late = last.zip(planned).map_or(0, |(last, planned)| (last - planned).max(0));
    let waits = left.first().map_or(0, |next| (numbered(now) - next - late).max(0));
    left.iter().filter_map(move |day| usize::try_from(day + late + waits).ok())
}

/// Days of a best plan that still hold, with which of the things each is done: after what stands, and within the limits.
fn kept_to(
    chosen: impl Iterator<Item = usize>,
    mut allowed: Vec<Allowance>,
    mut last: Option<usize>,
) -> impl Iterator<Item = (usize, usize)> {
    chosen.filter_map(move |day| {
        if last.is_some_and(|last| day <= last) {
            return None;
        }
        let place = allowed.iter().position(|allowance| allowance.earliest(day) == Some(day))?;
        allowed.get_mut(place)?.note(numbered(day));
        last = Some(day);
        Some((day, place))
    })
}
