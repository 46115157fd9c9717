use super::species::{SPIDER_MITE_EGG, SPIDER_MITE_HATCHED_TO_LAYING, WHITEFLY_EGG, WHITEFLY_PUPA, WHITEFLY_SCALE};
use super::{Control, Course, Pest, SLACK};

/// Days between two treatments, fewest and most, by the pest alone (choice).
const DAYS_BETWEEN: (usize, usize) = (3, 10);
/// Mean of the coming week from which adults alone are treated every three days, else every four, °C (choice).
const WARM_WEEK: f64 = 20.0;

/// How a treatment is repeated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Repeat {
    /// Before the young that escaped as eggs are past being reached: on the last day within `share` of `window`, °C·d.
    ByWarmth {
        /// Warmth within which they can be reached.
        window: f64,
        /// Share of it that is used (choice, fitted to published recommendations).
        share: f64,
        /// It goes on to the first treatment on or after so much warmth: the least that makes sense.
        least: f64,
        /// The same until nothing that escaped the first treatment is left.
        full: f64,
    },
    /// Every so many days, until so much warmth has gone by.
    Every {
        /// Days, when the coming week is warm.
        warm: usize,
        /// Days, when it is cool.
        cool: usize,
        /// Warmth after which no egg of before the start is left.
        until: f64,
    },
    /// On these days, counted from the first.
    OnDays(&'static [usize]),
}

/// How a treatment of a pest is repeated; nothing where there is no programme.
///
/// The rules are our own (choice), fitted to thirteen published recommendations; days are counted, warmth in °C·d.
#[must_use]
pub fn repeat(pest: Pest, control: Control) -> Option<Repeat> {
    let cycle = pest.species().and_then(|species| species.cycle).unwrap_or(0.0);
    let by_warmth = |window: f64, share: f64, least: f64, full: f64| Repeat::ByWarmth {
        window,
        share,
        least,
        full,
    };
    let every = |warm, cool| Repeat::Every { warm, cool, until: cycle };
    Some(match (control, pest) {
        (_, Pest::LeafMiningFly) => return None,
        (Control::Parasitoid, _) => Repeat::OnDays(&[0, 14, 28, 42]),
        (Control::PredatoryMite, _) => Repeat::OnDays(&[0, 10, 20]),
        (Control::Nematodes, _) => Repeat::OnDays(&[0, 42]),
        (Control::FerricPhosphate, _) => Repeat::OnDays(&[0]),
        (Control::Traps, _) => Repeat::OnDays(&[0, 2, 4, 6, 8, 10, 12]),
        (_, Pest::Slug) => Repeat::OnDays(&[0, 1, 2, 3, 4, 5, 6]),
        // Nightly for a week, then weekly through about a month.
        (Control::HandPicking, Pest::TomatoMoth) => Repeat::OnDays(&[0, 1, 2, 3, 4, 5, 6, 13, 20, 27]),
        (Control::StickyCards, _) | (Control::HandPicking, Pest::LeafMiningMoth) => every(7, 7),
        (Control::ContactSpray | Control::OtherSpray, Pest::Whitefly) => {
            // Pupae come out, lay, and their eggs hatch: no pupa, interval and egg after the first is left.
            let interval = 0.5 * WHITEFLY_SCALE;
            by_warmth(
                WHITEFLY_SCALE,
                0.5,
                WHITEFLY_EGG.max(WHITEFLY_PUPA),
                WHITEFLY_PUPA + interval + WHITEFLY_EGG,
            )
        }
        (Control::ContactSpray | Control::OtherSpray, Pest::SpiderMite) => {
            by_warmth(SPIDER_MITE_HATCHED_TO_LAYING, 0.6, SPIDER_MITE_EGG, SPIDER_MITE_EGG)
        }
        // No egg to wait for: two or three treatments within the time that a young one takes to breed.
        (Control::ContactSpray | Control::OtherSpray, Pest::Aphid) => by_warmth(cycle, 0.5, 0.75 * cycle, 0.75 * cycle),
        // Every three days when hot, seven when cool; eggs in the leaf and pupae in the soil escape.
        (Control::ContactSpray | Control::OtherSpray, Pest::Thrips) => by_warmth(84.0, 0.5, cycle, cycle),
        (Control::ContactSpray | Control::OtherSpray, _) => by_warmth(cycle.max(1.0), 0.6, cycle, cycle),
        (Control::Vacuum | Control::WaterJet | Control::HandPicking, _) => every(3, 4),
    })
}

impl Repeat {
    /// How it follows, in words, and whose rule that is.
    #[must_use]
    pub const fn told(self) -> (&'static str, &'static str) {
        match self {
            Self::ByWarmth { .. } => (
                "the last day on which what escaped can still be reached: 3 to 10 days, and never inside the label’s interval",
                "Rule of this program, fitted to thirteen published recommendations (choice)",
            ),
            Self::Every { warm, cool, .. } if warm == cool => ("every week", "Rule of this program (choice)"),
            Self::Every { .. } => (
                "every three days when the coming week’s mean is 20 °C or more, otherwise every four",
                "Rule of this program, fitted to thirteen published recommendations (choice)",
            ),
            Self::OnDays(_) => (
                "on fixed days, counted from the first",
                "Suppliers’ sheets, textbooks and common practice (choice)",
            ),
        }
    }

    /// Days until the next treatment after the one on day `from`, by the pest alone; nothing when `so_far` treatments are all.
    ///
    /// `min(10, max(3, n))`, where n is the last day on which at most `share · window` has come.
    #[must_use]
    pub fn days_to_next(self, course: &Course, from: usize, so_far: usize) -> Option<usize> {
        Some(match self {
            Self::ByWarmth { window, share, .. } => {
                let (fewest, most) = DAYS_BETWEEN;
                course.days_within(from, share * window).max(fewest).min(most)
            }
            Self::Every { warm, cool, .. } => {
                if course.week_mean(from) >= WARM_WEEK {
                    warm
                } else {
                    cool
                }
            }
            Self::OnDays(days) => days.get(so_far)?.checked_sub(*days.get(so_far.checked_sub(1)?)?)?,
        })
    }

    /// The day on or after which the last treatment falls, when the count of warmth begins on day `from`: nothing for fixed days,
    /// or when so much warmth never comes.
    #[must_use]
    pub fn covered_by(self, course: &Course, from: usize, in_full: bool) -> Option<usize> {
        match self {
            Self::ByWarmth { least, full, .. } => course.days_until(from, if in_full { full } else { least }),
            Self::Every { until, .. } => course.days_until(from, until),
            Self::OnDays(_) => None,
        }
    }

    /// Whether what escaped on day `from` is past being reached on day `to`, so that its eggs count anew.
    #[must_use]
    pub fn is_past(self, course: &Course, from: usize, to: usize) -> bool {
        match self {
            Self::ByWarmth { window, .. } => course.between(from, to) > window + SLACK,
            Self::Every { .. } | Self::OnDays(_) => false,
        }
    }
}

/// What holds a schedule back beside the pest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Least days between two.
    pub least_days: usize,
    /// Most of them altogether.
    pub most: usize,
    /// Last day, counted from day 0.
    pub latest: usize,
}

/// Treatments that one schedule may hold when no label limits it (choice): more is not a plan.
pub const MOST_TREATMENTS: usize = 40;

impl Default for Limits {
    fn default() -> Self {
        Self {
            least_days: 1,
            most: usize::MAX,
            latest: usize::MAX,
        }
    }
}

/// One of the things that are used in turn: its limits, and the days on which it was used.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Allowance {
    /// Its limits.
    pub limits: Limits,
    /// Days of its uses, rising, each once; below 0 before day 0.
    pub used: Vec<i32>,
    /// How many of those were noted in other programmes alone.
    pub elsewhere: usize,
}

impl Allowance {
    /// The first day, from `day` on, on which it may be used. A day on which it was used already is one: that is the same use.
    #[must_use]
    pub fn earliest(&self, day: usize) -> Option<usize> {
        if self.used.contains(&numbered(day)) {
            return Some(day);
        }
        let last = self.used.last();
        let free = last.map_or(0, |last| last.saturating_add(numbered(self.limits.least_days)));
        let earliest = day.max(usize::try_from(free).unwrap_or(0));
        (self.used.len() < self.limits.most && earliest <= self.limits.latest).then_some(earliest)
    }

    /// Notes a use on a day, unless it stands.
    pub fn note(&mut self, day: i32) {
        if let Err(place) = self.used.binary_search(&day) {
            self.used.insert(place, day);
        }
    }
}

/// A day's number with room for those before day 0.
pub(super) fn numbered(day: usize) -> i32 {
    i32::try_from(day).unwrap_or(i32::MAX)
}

/// The days of a schedule, counted from day 0, with what it covers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Schedule {
    /// Treatments, rising.
    pub days: Vec<usize>,
    /// For each of those that are planned, at the end of `days`: which of the things it is done with.
    pub with: Vec<usize>,
    /// The day that the last one has to reach; nothing for fixed days, or when the cycle stalls.
    pub covered_by: Option<usize>,
    /// How many there would be without limits.
    pub wanted: usize,
    /// The shortest number of days that the pest alone asked for between two.
    pub between: Option<usize>,
    /// Whether a label made two wait longer than the pest asked.
    pub is_stretched: bool,
}

/// A schedule that begins on day 0 and goes on until the pest is covered, or the limits end it.
#[must_use]
pub fn schedule(course: &Course, repeat: Repeat, limits: Limits, in_full: bool) -> Schedule {
    let allowed = [Allowance {
        limits,
        ..Allowance::default()
    }];
    let rule = Rule {
        repeat,
        in_full,
        longest: usize::MAX,
        generation: f64::INFINITY,
    };
    continued(course, rule, &allowed, &[], &[], 0)
}

/// What a schedule keeps to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rule {
    /// How a treatment is repeated.
    pub repeat: Repeat,
    /// Whether it goes on until nothing that escaped the first is left.
    pub in_full: bool,
    /// The last day on which there is one at all, counted from day 0: none is wanted later, whatever a label allows.
    pub longest: usize,
    /// Warmth of one generation, °C·d: with each, another of the things comes first. Never the same group of substances on two
    /// generations running is common advice.
    pub generation: f64,
}

/// The schedule from treatments that stand already (`before`, rising; it may be empty), of which some were left out and so reached nothing
/// (the others are `done`): the days after them, none before day `now`. Of the things that are `allowed` the one is taken that may be used
/// soonest; of two, the one whose generation it is.
#[must_use]
pub fn continued(course: &Course, rule: Rule, allowed: &[Allowance], before: &[usize], done: &[usize], now: usize) -> Schedule {
    let repeat = rule.repeat;
    let mut allowed = allowed.to_vec();
    let mut days = before.to_vec();
    let mut counted_from = done.first().copied().unwrap_or(0);
    for pair in done.windows(2) {
        if let [day, next] = pair
            && repeat.is_past(course, *day, *next)
        {
            counted_from = *next;
        }
    }
    let mut plan = Schedule {
        covered_by: repeat.covered_by(course, counted_from, rule.in_full),
        wanted: days.len(),
        with: Vec::new(),
        between: None,
        is_stretched: false,
        days: Vec::new(),
    };
    let (mut last, mut reached) = (before.last().copied(), done.last().copied());
    while plan.wanted < MOST_TREATMENTS {
        let asked = if let Some(last) = last {
            let is_covered = !matches!(repeat, Repeat::OnDays(_)) && plan.covered_by.is_none_or(|day| last >= day);
            let Some(gap) = repeat.days_to_next(course, last, plan.wanted).filter(|_| !is_covered) else {
                break;
            };
            plan.between = Some(plan.between.map_or(gap, |least| least.min(gap)));
            last + gap
        } else {
            0
        };
        if asked.max(now) > rule.longest {
            break;
        }
        plan.wanted += 1;
        let in_time = soonest(&allowed, asked, 0).map_or(asked, |(day, _)| day);
        let first_choice = number_of_generation(course, rule.generation, counted_from, asked);
        let used = soonest(&allowed, asked.max(now), first_choice);
        let day = if let Some((day, place)) = used {
            if let Some(taken) = allowed.get_mut(place) {
                taken.note(numbered(day));
            }
            plan.is_stretched |= last.is_some() && day > asked.max(now);
            plan.with.push(place);
            days.push(day);
            day
        } else {
            // The labels have ended: how many more there would have been.
            let wait = allowed.iter().map(|allowance| allowance.limits.least_days).min().unwrap_or(1);
            asked.max(last.map_or(0, |last| last + wait))
        };
        // Late, or after one that was left out: where what escaped is past being reached meanwhile, the count begins anew with this use.
        let is_late = day > in_time || reached != last;
        if used.is_some() && is_late && repeat.is_past(course, reached.unwrap_or(0), day) {
            counted_from = day;
            plan.covered_by = repeat.covered_by(course, counted_from, rule.in_full);
        }
        last = Some(day);
        reached = last;
    }
    plan.days = days;
    plan
}

/// The soonest day, from `day` on, on which any of these may be used, and which: of several the one that comes first from
/// `first_choice` on.
fn soonest(allowed: &[Allowance], day: usize, first_choice: usize) -> Option<(usize, usize)> {
    let mut found = None;
    for step in 0..allowed.len() {
        let place = (first_choice + step) % allowed.len();
        if let Some(day) = allowed.get(place).and_then(|allowance| allowance.earliest(day))
            && found.is_none_or(|(before, _)| day < before)
        {
            found = Some((day, place));
        }
    }
    found
}

/// In which generation, from 0, a day is.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
fn number_of_generation(course: &Course, generation: f64, from: usize, day: usize) -> usize {
    (course.between(from, day) / generation) as usize
}
