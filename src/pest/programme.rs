use super::expected::expect_numbers;
use super::{
    Aim, Application, Cleared, Conflict, Control, Course, Kills, Label, LikelyDay, Limits, Outline, Pest, Repeat, Schedule, Standing,
    Visit, Warmth, cleared, continued, picking_day, repeat, spread_of_emergence,
};
use crate::almanac::CivilDay;
use crate::working::{Working, value};

/// Standard deviations to the day by which 95 of 100 are out. A normal distribution.
const NINETY_FIVE_OF_HUNDRED: f64 = 1.645;
/// Share of the central time from which all eggs may be hatched: the published egg is slow beside two other sources (choice).
const EARLY_SHARE_OF_HATCHING: f64 = 0.75;
/// Days after which a cycle is said to stall (choice).
const STALLS_AFTER: usize = 120;
/// Days that a programme goes on for when the cycle stalls (choice): then it is time to clean up.
const LONGEST_WHEN_STALLED: usize = 56;
/// Month, of the north, from which spider mites hide for the winter and no spray meets them (choice; short days, read).
const MITES_HIDE_FROM: u8 = 10;
/// Last month of the north in which they are hidden (choice).
const MITES_HIDE_UNTIL: u8 = 2;
/// Days over which a best plan is judged.
pub const HORIZON: u16 = 42;
/// Fewest days between two visits without a label (choice).
const LEAST_BY_HAND: usize = 3;

/// Something that was done, or left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Deed {
    /// Its day.
    pub day: CivilDay,
    /// With what.
    pub control: Control,
    /// Whether it was done; if not, the grower left it out.
    pub is_done: bool,
}

/// How far a programme goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Extent {
    /// Until nothing that escaped the first treatment is left.
    #[default]
    Full,
    /// Until the eggs of the first day have hatched: fewer treatments, and a rebound.
    Least,
    /// On the days of a best plan: these days, as far as the label allows them.
    Chosen,
}

/// What one programme against one pest is to be worked out from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Programme<'a> {
    /// The pest.
    pub pest: Pest,
    /// What is repeated.
    pub control: Control,
    /// What is done beside it.
    pub beside: &'a [Control],
    /// The day on which the first treatment is meant to be.
    pub first: CivilDay,
    /// What was done and left out so far, in any order.
    pub deeds: &'a [Deed],
    /// The label of what is sprayed or laid.
    pub label: Label,
    /// The temperature where the plants stand.
    pub warmth: Warmth<'a>,
    /// How far it goes.
    pub extent: Extent,
    /// Days of a best plan.
    pub chosen: &'a [CivilDay],
}

impl Programme<'_> {
    /// The programme as it stands this morning: what is done, what is next, and what is to be expected. A visit that is late is
    /// due today.
    ///
    /// Counting (choice): a treatment stands at dusk, and the warmth of the next day is the first to count. One that was left out
    /// counts for the spacing alone. Where the gap between two is so long that what escaped has grown past being reached, the count
    /// begins anew.
    #[must_use]
    pub fn outline(&self, today: CivilDay) -> Outline {
        let gate = if self.control.needs_label() {
            cleared(&self.label).map(Some)
        } else {
            Ok(None)
        };
        let (control, shut) = match gate {
            Ok(_) => (self.control, None),
            Err(shut) => (self.pest.physical_control(), Some(shut)),
        };
        let label = gate.ok().flatten();
        // What was used earlier has to be waited for though something else is repeated now.
        let read = cleared(&self.label).ok();
        // In order at once: sorting would bring a tenfold of this code.
        let mut deeds: Vec<Deed> = Vec::with_capacity(self.deeds.len());
        for deed in self.deeds {
            deeds.insert(deeds.partition_point(|before| before.day <= deed.day), *deed);
        }
        let start = deeds
            .iter()
            .find(|deed| deed.is_done)
            .map_or_else(|| self.first.max(today), |deed| deed.day);
        let mut outline = Outline {
            start,
            control,
            shut,
            visits: deeds.iter().copied().map(Deed::visit).collect(),
            hatched: None,
            last_adult: None,
            stalls: false,
            hides: false,
            pick_now: None,
            pick_after_next: None,
            pick_after_last: None,
            conflicts: Vec::new(),
            curve: None,
            back: None,
            working: Working::default(),
        };
        let Some(species) = self.pest.species() else {
            self.plan_fixed_days(&mut outline, label.as_ref(), today);
            pick(&mut outline, read.as_ref());
            return outline;
        };
        let course = Course::after(start, &self.warmth, species.thresholds);
        self.date(&mut outline, &course);
        self.plan_visits(&mut outline, &course, label.as_ref(), today);
        pick(&mut outline, read.as_ref());
        if let Some(life) = &species.life {
            expect_numbers(&mut outline, self.pest, self.beside, &course, life);
        }
        outline
    }

    /// What the best plan from today on is searched for, so that at most `level` times today's numbers are left after six weeks;
    /// nothing once a treatment stands, without a life table, or while the label is shut.
    #[must_use]
    pub fn aim(&self, today: CivilDay, level: f64) -> Option<Aim> {
        let species = self.pest.species()?;
        let label = if self.control.needs_label() {
            Some(cleared(&self.label).ok()?)
        } else {
            None
        };
        let kills = self
            .control
            .kills(self.pest)
            .filter(|_| !self.control.works_all_week() && self.deeds.is_empty())?;
        let beside = self.beside.iter().filter(|control| control.works_all_week());
        let every_day = beside.filter_map(|control| control.kills(self.pest)).fold(Kills::NONE, Kills::and);
        let simple = Self {
            extent: Extent::Full,
            ..*self
        }
        .outline(today);
        let horizon = usize::from(HORIZON);
        let course = Course::after(today, &self.warmth, species.thresholds);
        let days = simple.visits.iter().filter(|visit| visit.control == self.control);
        let latest = label
            .and_then(|label| label.label().latest_use)
            .map(|day| usize::try_from(day.days_since(today)));
        Some(Aim {
            life: species.life?,
            daily: course.daily.into_iter().take(horizon).collect(),
            kills,
            every_day,
            least_days: label.map_or(LEAST_BY_HAND, |label| usize::from(label.least_days()).max(1)),
            most: match latest {
                Some(Err(_)) => 0,
                _ => label.map_or(horizon, |label| usize::from(label.most_uses())),
            },
            latest: latest.and_then(Result::ok).map_or(horizon, |day| day.min(horizon)),
            level,
            simple: days
                .filter_map(|visit| usize::try_from(visit.day.days_since(today)).ok())
                .filter(|day| *day <= horizon)
                .collect(),
        })
    }

    /// Visits of a pest of whose speed nothing is known.
    fn plan_fixed_days(&self, outline: &mut Outline, label: Option<&Cleared>, today: CivilDay) {
        let none = Course {
            start: outline.start,
            daily: Vec::new(),
            means: Vec::new(),
        };
        self.plan_visits(outline, &none, label, today);
    }

    /// When the eggs of day 0 hatch, and when the last of them is an adult.
    fn date(&self, outline: &mut Outline, course: &Course) {
        let Some(species) = self.pest.species() else { return };
        let rate = course.daily.iter().take(7).sum::<f64>() / 7.0;
        outline.working.step(
            "Warmth above the base",
            "each day one sine between coolest and warmest, above the lower and below the upper threshold",
            &[
                value("lower threshold", species.thresholds.lower, "°C", 1),
                value("upper threshold", species.thresholds.upper, "°C", 1),
                value("mean of the first week", course.week_mean(0), "°C", 1),
            ],
            value("degree-days a day", rate, "°C·d", 1),
            species.source,
        );
        if let Some((egg, days)) = species.egg.and_then(|egg| Some((egg, course.days_until(0, egg)?))) {
            outline.hatched = Some(LikelyDay {
                central: course.date(days),
                other: course.date(share_of(days, EARLY_SHARE_OF_HATCHING)),
            });
            outline.working.step(
                "Days until the eggs of the first day have hatched",
                "first day on which the degree-days add up to those of an egg",
                &[value("egg", egg, "°C·d", 1)],
                value("days", whole(days), "", 0),
                "Counted day by day from the day after the first treatment; the egg looks slow beside other sources, so from ¾ of it",
            );
        }
        let Some(cycle) = species.cycle else { return };
        let adult = course.days_until(0, cycle);
        outline.stalls = adult.is_none_or(|days| days > STALLS_AFTER);
        if let Some(days) = adult.filter(|_| !outline.stalls) {
            let spread = species.life.as_ref().map_or(0.0, spread_of_emergence);
            let late = cycle + NINETY_FIVE_OF_HUNDRED * spread;
            let late_days = course.days_until(0, late).unwrap_or(days);
            outline.last_adult = Some(LikelyDay {
                central: course.date(days),
                other: course.date(late_days),
            });
            outline.working.step(
                "Days until the last old egg is an adult",
                "first day on which the degree-days add up to the whole way, and to that with 1.645 standard deviations",
                &[value("egg to adult", cycle, "°C·d", 1), value("with its spread", late, "°C·d", 1)],
                value("days", whole(days), "", 0),
                "Distributed delay with 16 steps a stage (choice): 95 of 100 are out by the late date",
            );
        }
    }

    /// The visits to come.
    fn plan_visits(&self, outline: &mut Outline, course: &Course, label: Option<&Cleared>, today: CivilDay) {
        let Some(rule) = repeat(self.pest, outline.control) else {
            return;
        };
        let number_of = |day: CivilDay| usize::try_from(day.days_since(outline.start)).ok();
        let before: Vec<usize> = outline.visits.iter().filter_map(|visit| number_of(visit.day)).collect();
        let now = number_of(today).unwrap_or(0);
        let done = |visit: &&Visit| visit.standing == Standing::Done && visit.control == outline.control;
        let used: Vec<usize> = outline
            .visits
            .iter()
            .filter(done)
            .filter_map(|visit| number_of(visit.day))
            .collect();
        let limits = self.limits(outline, label, before.len() - used.len());
        let in_full = self.extent != Extent::Least;
        let (schedule, planned) = if self.extent == Extent::Chosen {
            let chosen: Vec<usize> = self.chosen.iter().filter_map(|day| number_of((*day).max(today))).collect();
            (None, kept_to(&chosen, &used, &before, limits))
        } else {
            let schedule = next_days(course, rule, limits, &before, &used, now, in_full);
            let planned = schedule.days.iter().skip(before.len()).copied().collect();
            (Some(schedule), planned)
        };
        let control = outline.control;
        outline.visits.extend(planned.iter().map(|number| Visit {
            day: course.date(*number),
            control,
            standing: Standing::Ahead,
        }));
        self.mind_winter(outline);
        if let (Some(label), Some(schedule)) = (label, schedule) {
            note_conflicts(outline, label, &schedule, &used);
            self.fill_gaps(outline, course, &schedule, now);
        }
        outline.working.step(
            "Days to the next treatment",
            "the last day on which what escaped as eggs can still be reached: 3 to 10 days, and never inside the label's interval",
            &[value("treatments", whole(outline.treatments()), "", 0)],
            value(
                "days between",
                whole(
                    rule.days_to_next(course, before.last().copied().unwrap_or(0), before.len().max(1))
                        .unwrap_or(0),
                ),
                "",
                0,
            ),
            "Rule of this program, fitted to thirteen published recommendations (choice)",
        );
    }

    /// What the label and the season allow; `skipped` visits are no uses.
    fn limits(&self, outline: &Outline, label: Option<&Cleared>, skipped: usize) -> Limits {
        let mut limits = Limits::default();
        if outline.stalls && outline.last_adult.is_none() && self.pest.species().is_some_and(|species| species.life.is_some()) {
            limits.latest = LONGEST_WHEN_STALLED;
        }
        if let Some(label) = label {
            limits.least_days = usize::from(label.least_days()).max(1);
            limits.most = usize::from(label.most_uses()) + skipped;
            if let Some(day) = label.label().latest_use {
                match usize::try_from(day.days_since(outline.start)) {
                    Ok(latest) => limits.latest = limits.latest.min(latest),
                    Err(_) => limits.most = 0,
                }
            }
        }
        limits
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

    /// Where the label's uses end before the eggs do, what needs no label goes on in their place.
    fn fill_gaps(&self, outline: &mut Outline, course: &Course, schedule: &Schedule, now: usize) {
        let (Some(last), Some(until)) = (schedule.days.last().copied(), schedule.covered_by) else {
            return;
        };
        let control = self.pest.physical_control();
        if last >= until || outline.hides {
            return;
        }
        let Some(rule) = repeat(self.pest, control) else { return };
        let mut number = last;
        while let Some(gap) = rule.days_to_next(course, number, 1).filter(|_| number < until) {
            number = (number + gap).max(now);
            outline.visits.push(Visit {
                day: course.date(number),
                control,
                standing: Standing::Ahead,
            });
        }
    }
}

impl Deed {
    const fn visit(self) -> Visit {
        Visit {
            day: self.day,
            control: self.control,
            standing: if self.is_done { Standing::Done } else { Standing::Skipped },
        }
    }
}

/// The days of the rule, with the next not before today.
fn next_days(course: &Course, rule: Repeat, limits: Limits, before: &[usize], used: &[usize], now: usize, in_full: bool) -> Schedule {
    let Some(last) = before.last() else {
        let mut schedule = continued(course, rule, limits, in_full, &[0]);
        if limits.most == 0 {
            schedule.days.clear();
        }
        return schedule;
    };
    let plan = continued(course, rule, limits, in_full, before);
    let Some(next) = plan.days.get(before.len()).copied() else {
        return plan;
    };
    let too_soon = used.last().map_or(0, |day| day + limits.least_days);
    let due = next.max(now).max(too_soon);
    if due == next || due <= *last {
        return plan;
    }
    if due > limits.latest {
        return Schedule {
            days: before.to_vec(),
            ..plan
        };
    }
    // Late: what follows is counted from the day on which it is made up for.
    let mut moved = before.to_vec();
    moved.push(due);
    continued(course, rule, limits, in_full, &moved)
}

/// Days of a best plan that still hold: after what was done, and within the limits.
fn kept_to(chosen: &[usize], used: &[usize], before: &[usize], limits: Limits) -> Vec<usize> {
    let mut kept = Vec::new();
    let mut last = used.last().copied();
    for day in chosen {
        let is_free = last.is_none_or(|last| *day >= last + limits.least_days) && before.last().is_none_or(|last| day > last);
        if is_free && *day <= limits.latest && before.len() + kept.len() < limits.most {
            kept.push(*day);
            last = Some(*day);
        }
    }
    kept
}

/// From when the labels let the crop be picked.
fn pick(outline: &mut Outline, label: Option<&Cleared>) {
    let sprayed = |visit: &&Visit| visit.control.needs_label() && visit.standing != Standing::Skipped;
    let Some(label) = label else {
        if outline.visits.iter().any(|visit| sprayed(&visit)) {
            outline.conflicts.push(Conflict::PickingUnknown);
        }
        return;
    };
    let days_before_picking = label.label().days_before_picking;
    let application = |visit: &Visit| Application {
        day: visit.day,
        days_before_picking,
    };
    let uses: Vec<Visit> = outline.visits.iter().filter(sprayed).copied().collect();
    let done: Vec<Application> = uses
        .iter()
        .filter(|visit| visit.standing == Standing::Done)
        .map(application)
        .collect();
    let next = uses.iter().find(|visit| visit.standing == Standing::Ahead);
    outline.pick_now = picking_day(&done);
    outline.pick_after_next = next.and_then(|visit| picking_day(&[application(visit)]));
    outline.pick_after_last = picking_day(&uses.iter().map(application).collect::<Vec<_>>());
    if !uses.is_empty() && days_before_picking.is_none() {
        outline.conflicts.push(Conflict::PickingUnknown);
    }
}

/// What the label and the pest disagree about.
fn note_conflicts(outline: &mut Outline, label: &Cleared, schedule: &Schedule, used: &[usize]) {
    let conflicts = &mut outline.conflicts;
    let least = label.least_days();
    let between = schedule.between.and_then(|days| u16::try_from(days).ok());
    if let Some(pest) = between.filter(|pest| *pest < least) {
        conflicts.push(Conflict::LongerBetween { label: least, pest });
    }
    if let Some(needed) = u16::try_from(schedule.wanted).ok().filter(|wanted| *wanted > label.most_uses()) {
        conflicts.push(Conflict::UsesEnd {
            allowed: label.most_uses(),
            needed,
        });
    }
    let real = between.map_or(least, |pest| pest.max(least));
    if let Some(picking) = label
        .label()
        .days_before_picking
        .filter(|picking| *picking >= real && schedule.days.len() > 1)
    {
        conflicts.push(Conflict::NoPickingBetween { picking, between: real });
    }
    if let Some(day) = label.label().latest_use
        && schedule.days.len() < schedule.wanted.min(usize::from(label.most_uses()))
    {
        conflicts.push(Conflict::PastLatestUse(day));
    }
    if used.len() > usize::from(label.most_uses()) {
        conflicts.push(Conflict::UsedTooOften);
    }
    if used
        .windows(2)
        .any(|pair| matches!(pair, [day, next] if *next < *day + usize::from(least)))
    {
        conflicts.push(Conflict::UsedTooSoon);
    }
}

/// A number of days as a number.
fn whole(days: usize) -> f64 {
    u32::try_from(days).map_or(0.0, f64::from)
}

/// A share of some days, rounded up.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
fn share_of(days: usize, share: f64) -> usize {
    (whole(days) * share).ceil() as usize
}
