use super::conflicts::pick;
use super::expected::{back_of, curve, expect_numbers};
use super::visits::Open;
use super::{
    Aim, Application, Back, Cleared, Conflict, Control, Course, Kills, LONGEST_CURVE, LikelyDay, Outline, Pest, Product, SharedUse, Shut,
    Standing, Visit, Warmth, cleared, introduction, spread_of_emergence,
};
use crate::almanac::CivilDay;
use crate::working::{Working, value};

/// Standard deviations to the day by which 95 of 100 are out, no unit: a normal distribution (exact, rounded).
const NINETY_FIVE_OF_HUNDRED: f64 = 1.645;
/// Share of the central time by which all that were eggs may be adult, where no spread of the stages was published: degree-days are good
/// to about 15 % of the days counted (choice, by the spread of whitefly and mites in this program's own course of stages).
const LATE_SHARE_OF_DAYS: f64 = 1.15;
/// Share of the central time from which all eggs may be hatched: the published egg is slow beside two other sources (choice).
const EARLY_SHARE_OF_HATCHING: f64 = 0.75;
/// Days after which a cycle is said to stall (choice).
const STALLS_AFTER: usize = 120;
/// Days over which a best plan is judged (choice).
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
    /// The number of the product that was used; 0 where it was none.
    pub product: u8,
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
    /// What is done beside it: what works all week, and what is done by hand on days between.
    pub beside: &'a [Control],
    /// The day on which the first treatment is meant to be.
    pub first: CivilDay,
    /// What was done and left out so far, in any order.
    pub deeds: &'a [Deed],
    /// The products that are sprayed or laid, with their labels: the first is what is repeated, the others take their turn with it as far
    /// as they are still used.
    pub products: &'a [Product],
    /// What was used outside this programme and may still keep the crop from being picked.
    pub elsewhere: &'a [Application],
    /// What was used of its products in other programmes on the same plants, in any order.
    pub shared: &'a [SharedUse],
    /// What was sprayed on the same plants in other programmes, in any order.
    pub sprayed: &'a [(CivilDay, Control)],
    /// The temperature where the plants stand.
    pub warmth: Warmth<'a>,
    /// How far it goes.
    pub extent: Extent,
    /// Days of a best plan.
    pub chosen: &'a [CivilDay],
    /// Whether what needs no label fills the days on which a label makes the sprays wait, and those after its uses.
    pub fills_gaps: bool,
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
        let (mut outline, course) = self.planned(today);
        if let Some(life) = self.pest.species().and_then(|species| species.life.as_ref()) {
            expect_numbers(&mut outline, self.pest, self.beside, &course, life);
        }
        outline
    }

    /// The programme without the numbers to be expected.
    fn planned(&self, today: CivilDay) -> (Outline, Course) {
        let (open, shut) = self.open();
        let control = match (open.first(), self.control.needs_label()) {
            (Some(open), true) => open.product.control,
            (None, true) => self.pest.physical_control(),
            _ => self.control,
        };
        let is_shut = open.is_empty() && self.control.needs_label();
        // In order at once: sorting would bring a tenfold of this code.
        let mut deeds: Vec<Deed> = Vec::with_capacity(self.deeds.len());
        for deed in self.deeds {
            deeds.insert(deeds.partition_point(|before| before.day <= deed.day), *deed);
        }
        let start = deeds
            .iter()
            .find(|deed| deed.is_done)
            .map_or_else(|| self.first.max(today), |deed| deed.day);
        let own = deeds.iter().filter(|deed| deed.is_done).map(|deed| (deed.day, deed.control));
        let mut sprayed: Vec<_> = own.chain(self.sprayed.iter().copied()).collect();
        let living = [control].iter().chain(self.beside).copied().find(|control| control.is_living());
        let has_cards = control == Control::StickyCards || self.beside.contains(&Control::StickyCards);
        let brought_after =
            |sprayed: &[(CivilDay, Control)]| introduction(self.pest, living?, &self.warmth, sprayed, has_cards, self.first.max(today));
        let mut outline = Outline {
            start,
            control,
            shut: shut.first().map(|(_, why)| *why).filter(|_| is_shut),
            visits: deeds.iter().copied().map(Deed::visit).collect(),
            hatched: None,
            last_adult: None,
            stalls: false,
            hides: false,
            introduction: brought_after(&sprayed),
            pick_now: None,
            pick_after_next: None,
            pick_after_last: None,
            pick_between: Vec::new(),
            conflicts: Vec::new(),
            curve: None,
            back: None,
            working: Working::default(),
        };
        if !is_shut {
            let conflicts = shut.into_iter().map(|(number, why)| (number, Conflict::GivesNone(why)));
            outline.conflicts.extend(conflicts);
        }
        let course = match self.pest.species() {
            Some(species) => Course::after(start, &self.warmth, species.thresholds),
            None => Course {
                start,
                daily: Vec::new(),
                means: Vec::new(),
            },
        };
        self.date(&mut outline, &course);
        self.plan_visits(&mut outline, &course, &open, today);
        if !control.is_living() {
            // Beside sprays it waits for those to come as well.
            let ahead = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead);
            sprayed.extend(ahead.map(|visit| (visit.day, visit.control)));
            outline.introduction = brought_after(&sprayed);
        }
        pick(&mut outline, self.products, self.elsewhere, today);
        (outline, course)
    }

    /// The products that may be used, as the gate lets them through, and those that it does not, with why. The first is always asked:
    /// without any product its label is as good as unread.
    fn open(&self) -> (Vec<Open>, Vec<(u8, Shut)>) {
        let (mut open, mut shut) = (Vec::new(), Vec::new());
        if !self.control.needs_label() {
            return (open, shut);
        }
        for (place, product) in self.products.iter().enumerate() {
            if place == 0 || product.is_used {
                match cleared(&product.label) {
                    Ok(label) => open.push(Open { product: *product, label }),
                    Err(why) => shut.push((product.number, why)),
                }
            }
        }
        if self.products.is_empty() {
            shut.push((0, Shut::Unread));
        }
        (open, shut)
    }

    /// With what a best plan is searched for, and by which label: the first product alone.
    fn aimed_with(&self) -> Option<(Kills, Option<Cleared>)> {
        let label = if self.control.needs_label() {
            let first = self.products.first()?;
            if self.shared.iter().any(|shared| shared.product == first.number) {
                return None;
            }
            Some(cleared(&first.label).ok()?)
        } else {
            None
        };
        self.pest.species()?.life.as_ref()?;
        let kills = self.control.kills(self.pest)?;
        (!self.control.works_all_week() && self.deeds.is_empty()).then_some((kills, label))
    }

    /// Whether there is anything to search for a best plan: no treatment stands, no use of its product counts from elsewhere, a life
    /// table is known, and the label is open.
    #[must_use]
    pub fn can_aim(&self) -> bool {
        self.aimed_with().is_some()
    }

    /// What the best plan from today on is searched for, so that at most `level` times today's numbers are left after six weeks;
    /// nothing where [`Programme::can_aim`] says no. Of several products it is the first alone.
    #[must_use]
    pub fn aim(&self, today: CivilDay, level: f64) -> Option<Aim> {
        let (kills, label) = self.aimed_with()?;
        let species = self.pest.species()?;
        // What is brought in starts after weeks: it is left out.
        let beside = self
            .beside
            .iter()
            .filter(|control| control.works_all_week() && !control.is_living());
        let every_day = beside.filter_map(|control| control.kills(self.pest)).fold(Kills::NONE, Kills::and);
        let alone = Self {
            extent: Extent::Full,
            products: self.products.get(..1).unwrap_or_default(),
            ..*self
        };
        let (simple, _) = alone.planned(today);
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

    /// When there will be as many again as today if it is done on these days from today, by the kills of `aim`; nothing without days.
    #[must_use]
    pub fn comes_back(&self, aim: &Aim, today: CivilDay, days: &[usize]) -> Option<Back> {
        days.first()?;
        let course = Course::after(today, &self.warmth, self.pest.species()?.thresholds);
        let treatments: Vec<_> = days.iter().map(|day| (*day, aim.kills)).collect();
        let shown = curve(&aim.life, &course.daily, LONGEST_CURVE, &treatments, &[(0, aim.every_day)]);
        Some(back_of(&shown, &course))
    }

    /// When the eggs of day 0 hatch, and when the last of them is an adult. Weeks have seven days (exact).
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
                "Counted day by day from the day after the first treatment; an egg’s time differs between sources, so from ¾ of it (choice)",
            );
        }
        let Some(cycle) = species.cycle else { return };
        let adult = course.days_until(0, cycle);
        outline.stalls = adult.is_none_or(|days| days > STALLS_AFTER);
        if let Some(days) = adult.filter(|_| !outline.stalls) {
            let (how, spread, source, late_days) = if let Some(life) = &species.life {
                let late = cycle + NINETY_FIVE_OF_HUNDRED * spread_of_emergence(life);
                (
                    "first day on which the degree-days add up to the whole way, and to that with 1.645 standard deviations",
                    value("with its spread", late, "°C·d", 1),
                    "Distributed delay with 16 steps a stage (choice): 95 of 100 are out by the late date",
                    course.days_until(0, late).unwrap_or(days),
                )
            } else {
                let late = share_of(days, LATE_SHARE_OF_DAYS);
                (
                    "first day on which the degree-days add up to the whole way, and 15 % more days",
                    value("days to the late date", whole(late), "", 0),
                    "No spread was published: dates by degree-days are good to about 15 % of the days (choice)",
                    late,
                )
            };
            outline.last_adult = Some(LikelyDay {
                central: course.date(days),
                other: course.date(late_days),
            });
            let (what, way) = if self.pest == Pest::Aphid {
                ("Days until the young of the first day breed", "birth to breeding")
            } else {
                ("Days until the last old egg is an adult", "egg to adult")
            };
            outline.working.step(
                what,
                how,
                &[value(way, cycle, "°C·d", 1), spread],
                value("days", whole(days), "", 0),
                source,
            );
        }
    }
}

impl Deed {
    const fn visit(self) -> Visit {
        Visit {
            day: self.day,
            control: self.control,
            product: self.product,
            standing: if self.is_done { Standing::Done } else { Standing::Skipped },
        }
    }
}

/// A number of days as a number.
pub(super) fn whole(days: usize) -> f64 {
    u32::try_from(days).map_or(0.0, f64::from)
}

/// A share of some days, rounded up.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
fn share_of(days: usize, share: f64) -> usize {
    (whole(days) * share).ceil() as usize
}
