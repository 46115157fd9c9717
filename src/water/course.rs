use super::balance::{DayWater, Store};
use super::belief::{Belief, OVERRULED, Readings, possible_litres};
use super::dose::{
    DAY_SPREAD, FAR_SPREAD, MOST_WATERINGS, Missing, Refill, SKY_SPREAD, held_of, left_open, likely_factor_over, waterings_for,
};
use super::morning::{UseOfDay, assumptions};
use super::poured::Poured;
use super::records::{DayRecord, MOST_NOTED};
use super::thirst::{Learner, Thirst};
use super::{DayRow, Dose, Feel, Group, Handed};
use crate::almanac::{CivilDay, ClearnessFrom, Yesterday};
use crate::working::{Working, value};

/// Days without a record after which the count of water begins anew (choice). What was learnt stays.
pub const LONGEST_GAP: i32 = 14;

/// How the count of water begins.
#[derive(Clone, Copy, Debug)]
enum Begins {
    /// With as much missing as a day's waterings leave open.
    BySum,
    /// As another notebook handed it over.
    Handed(Belief),
}

/// A day made ready for the balance.
#[derive(Clone, Debug)]
struct ReadyDay {
    day: CivilDay,
    store: Store,
    readings: Readings,
    /// With the sum's demand, before the plants' own thirst.
    water: DayWater,
    /// What is missing on this morning, where the count of water begins.
    begins: Option<Begins>,
    /// Whether the count begins with an ordinary day, which ended as it had begun.
    ordinary: bool,
    poured: Poured,
    /// Variance of the day's use over the square of its mean.
    of_day: f64,
    reached: f64,
    air_when_full: f64,
    mean_temperature: f64,
    trusses: f64,
    assumed_sky: bool,
    assumed_pour: bool,
}

/// The days as they go by.
#[derive(Clone, Debug)]
pub(super) struct Course {
    learner: Learner,
    ready: Vec<ReadyDay>,
    /// Whether a pour was ever noted.
    notes_pours: bool,
    /// What the last day took, litres, by the sum.
    used: Option<f64>,
    /// Days in a row of which nothing was told.
    silent: i32,
    handed: Option<Handed>,
    /// What was handed over of the plants, where they teach nothing more.
    settled: Option<(Thirst, f64)>,
}

/// The morning that the days lead to.
pub(super) struct Answer {
    pub days: Vec<DayRow>,
    pub thirst: Thirst,
    pub store: Store,
    pub deficit: f64,
    pub corrected: f64,
    pub handed: Option<Handed>,
    pub dose: Dose,
}

impl Course {
    /// A course that begins with its first day, or goes on from what was handed over; the plants then teach nothing more, unless it
    /// `goes_on_learning`.
    pub fn new(reads: bool, handed: Option<Handed>, goes_on_learning: bool) -> Self {
        let learns = reads && goes_on_learning;
        Self {
            learner: match &handed {
                Some(handed) if learns => Learner::going_on(handed),
                Some(handed) => Learner::handed(handed),
                None => Learner::new(reads),
            },
            settled: handed.filter(|_| !learns).map(|handed| (handed.thirst, handed.off)),
            ready: Vec::new(),
            notes_pours: false,
            used: None,
            silent: 0,
            handed,
        }
    }

    /// Makes a day ready and lets the learner live it; it stands in a silence about its water of so many days.
    pub fn live(&mut self, record: Option<&DayRecord>, silence: i32, use_of_day: &UseOfDay, plants: &Group, learns: bool) {
        let zone = &use_of_day.root_zone;
        let demand = use_of_day.demand.total();
        let used_before = self.used.replace(demand).unwrap_or(demand);
        let store = Store::from(zone).after_use(used_before);
        let day = use_of_day.weather.day;
        let handed = self.handed.filter(|handed| handed.day == day);
        let record = record.filter(|record| record.is_told());
        let mut readings = record.map(|record| record.readings.possible()).unwrap_or_default();
        if handed.is_some() {
            // They are in what was handed over.
            readings = Readings::default();
        }
        let begins_anew = self.ready.is_empty() || self.silent >= LONGEST_GAP;
        let stays = self.handed.and_then(|handed| handed.stay?.is_watered_on(day));
        self.silent = if record.is_some() || stays.is_some() { 0 } else { self.silent + 1 };

        let of_day = variance_of(use_of_day);
        // As many as the morning asked for, which knew the day before.
        let pours = waterings_for(used_before, zone.easy_water).min(MOST_WATERINGS);
        let begins = match (&handed, begins_anew) {
            (Some(handed), _) => Some(Begins::Handed(handed.belief(OVERRULED))),
            (None, true) => Some(Begins::BySum),
            (None, false) => None,
        };
        let missing = |factor: f64| left_open(demand * factor, zone.easy_water).min(zone.easy_water);
        if let Some(Begins::BySum) = begins {
            self.learner.begin(missing, of_day);
        }
        self.learner.morning(&store, &readings, learns);

        let given = record
            .filter(|_| handed.is_none())
            .and_then(|record| record.given)
            .map(possible_litres);
        self.notes_pours |= given.is_some();
        let noted = match (given, readings.drip) {
            (Some(given), Some(drip)) => Some(given.max(drip)),
            (given, drip) => given.or(drip),
        };
        let ordinary = begins.is_some() && handed.is_none() && noted.is_none() && readings.count() == 0;
        let all_is_noted = !ordinary && stays.map_or(self.notes_pours, |is_watered| !is_watered);
        let poured = match noted {
            _ if let Some(handed) = &handed => Poured::noted(handed.given, handed.pour_spread),
            Some(litres) => Poured::noted(litres, 0.0),
            None if all_is_noted && readings.count() == 0 => {
                let silence = if stays.is_none() { silence } else { 0 };
                Poured::unheard(silence, record.is_some(), demand, zone.drained)
            }
            None if all_is_noted || readings.feel == Some(Feel::Sodden) => Poured::default(),
            None => {
                let (held, _) = held_of(self.learner.deficit(), demand, zone.easy_water);
                Poured::asked(held, zone.drained, record.is_some())
            }
        };
        let ready = ReadyDay {
            day,
            store,
            readings,
            water: DayWater {
                given: poured.litres,
                pours: match &handed {
                    Some(handed) => handed.pours,
                    None => record
                        .and_then(|record| record.waterings)
                        .map_or(whole(pours), |count| count.min(MOST_NOTED)),
                },
                in_parts: match &handed {
                    Some(handed) => handed.in_parts,
                    None => record.is_some_and(|record| record.in_parts),
                },
                rain: use_of_day.rain,
                demand,
            },
            begins,
            ordinary,
            poured,
            of_day,
            reached: zone.reached,
            air_when_full: zone.air_when_full,
            mean_temperature: use_of_day.demand.mean_temperature,
            trusses: plants.size.settled().1,
            assumed_sky: has_assumed_sky(use_of_day),
            assumed_pour: noted.is_none() && handed.is_none_or(|handed| handed.pour_spread > 0.0),
        };
        if ordinary {
            let left = |factor: f64| {
                let (start, demand) = (missing(factor), demand * factor);
                let (given, _) = held_of(start, demand, zone.easy_water);
                store
                    .day(
                        start,
                        &DayWater {
                            given,
                            demand,
                            ..ready.water
                        },
                    )
                    .end
            };
            self.learner.begin(left, of_day);
        } else {
            self.learner.day(&store, &ready.water, &poured, of_day);
        }
        self.ready.push(ready);
    }

    /// The morning after the last day, with its readings; by what such a day takes of the plants as they stand.
    pub fn answer(
        mut self,
        told: &Yesterday,
        use_of_day: UseOfDay,
        readings: &Readings,
        plants: &Group,
        learns: bool,
        mut working: Working,
    ) -> Answer {
        let demand = use_of_day.demand.total();
        let store = Store::from(&use_of_day.root_zone).after_use(self.used.unwrap_or(demand));
        self.learner.morning(&store, readings, learns);
        let (thirst, off) = self.settled.unwrap_or_else(|| (self.learner.thirst(), self.learner.off()));

        let mut belief = Belief::default();
        let mut handed = None;
        let row = |day: &ReadyDay| {
            let (row, before_pouring) = day.row(&mut belief, thirst.factor, off);
            handed = Some(Handed {
                day: row.day,
                deficit: before_pouring.deficit,
                spread: before_pouring.spread,
                thirst,
                off,
                given: row.flows.given,
                pour_spread: day.poured.spread,
                pours: day.water.pours,
                in_parts: day.water.in_parts,
                stay: None,
            });
            row
        };
        let days: Vec<DayRow> = self.ready.iter().map(row).collect();
        let before = belief.deficit;
        belief.heed(&store, readings, off);
        let corrected = before - belief.deficit;

        let assumptions = assumptions(plants, told, &use_of_day.weather);
        let missing = Missing {
            deficit: missing(days.last(), demand, &thirst, belief.deficit, corrected, &mut working),
            demand: demand * thirst.factor,
            likely_factor: likely_factor_over(1.0, thirst.spread, &assumptions),
        };
        let refill = Refill::of_balance(&missing, readings.feel, &use_of_day, &mut working);
        Answer {
            days,
            thirst,
            store,
            deficit: belief.deficit,
            corrected,
            handed,
            dose: use_of_day.dose(&refill, readings.feel, assumptions, working),
        }
    }
}

impl ReadyDay {
    /// The day with the plants' own thirst, and what is believed of its morning before anything is poured.
    fn row(&self, belief: &mut Belief, factor: f64, off: f64) -> (DayRow, Belief) {
        let mut water = DayWater {
            demand: self.water.demand * factor,
            ..self.water
        };
        match self.begins {
            Some(Begins::BySum) => {
                let deficit = left_open(water.demand, self.store.easy_water).min(self.store.easy_water);
                *belief = Belief::begin(deficit, self.of_day, OVERRULED);
                if self.ordinary {
                    water.given = held_of(deficit, water.demand, self.store.easy_water).0;
                }
            }
            Some(Begins::Handed(handed)) => *belief = handed,
            None => {}
        }
        let before = belief.deficit;
        belief.heed(&self.store, &self.readings, off);
        let corrected = before - belief.deficit;
        let before_pouring = *belief;
        if let Some(drained) = self.poured.as_asked.filter(|_| !self.ordinary) {
            // As the morning asked, by the same belief: the learner expects more where more is open.
            water.given = held_of(belief.deficit, water.demand, self.store.easy_water).0 / (1.0 - drained);
        }
        let flows = belief.day(&self.store, &self.poured.on(water), self.of_day, self.poured.variance());
        let row = DayRow {
            day: self.day,
            flows,
            store: self.store,
            corrected,
            readings: self.readings,
            demand: water.demand,
            mean_temperature: self.mean_temperature,
            air: self.air_when_full + f64::midpoint(flows.after_pour, flows.end) / self.reached,
            trusses: self.trusses,
            assumed_sky: self.assumed_sky,
            assumed_pour: self.assumed_pour,
        };
        (row, before_pouring)
    }
}

fn has_assumed_sky(use_of_day: &UseOfDay) -> bool {
    use_of_day.weather.clearness_from == ClearnessFrom::Assumed
}

/// Variance of a day's use over the square of its mean.
fn variance_of(use_of_day: &UseOfDay) -> f64 {
    let of_sky = if has_assumed_sky(use_of_day) { SKY_SPREAD } else { 0.0 };
    let of_guess = if use_of_day.weather.far_guess { FAR_SPREAD } else { 0.0 };
    (DAY_SPREAD * DAY_SPREAD + of_sky * of_sky + of_guess * of_guess).exp() - 1.0
}

/// What is missing this morning, litres, with its steps: yesterday's count, then what was felt.
fn missing(yesterday: Option<&DayRow>, demand: f64, thirst: &Thirst, deficit: f64, corrected: f64, working: &mut Working) -> f64 {
    if thirst.readings > 0 {
        working.step(
            "Your plants’ own thirst",
            "E × factor, by Bayes from feels, weights and drip tests",
            &[
                value("E", demand, "litres", 2),
                value("factor", thirst.factor, "", 2),
                value("readings", f64::from(thirst.readings), "", 0),
            ],
            value("E", demand * thirst.factor, "litres", 2),
            "Before any reading: 1, spread 25 % (choice); one day’s own spread of 15 % is never learnt",
        );
    }
    let flows = yesterday.map(|day| day.flows).unwrap_or_default();
    working.step(
        "Missing from the compost this morning",
        "missing yesterday − given − rain + drained + used − found to be there by feel, weight or drip test",
        &[
            value("missing yesterday", flows.start, "litres", 2),
            value("given", flows.given, "litres", 2),
            value("rain", flows.rain, "litres", 2),
            value("drained", flows.drained, "litres", 2),
            value("used", flows.used, "litres", 2),
            value("found", corrected, "litres", 2),
        ],
        value("missing", deficit, "litres", 2),
        "Water balance with FAO-56 Eq. 84 over the day; the plant overrules the sum (choice)",
    )
}

/// A small count that is already whole and not negative.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "1 to 3 by the limits of waterings"
)]
const fn whole(count: f64) -> u32 {
    count as u32
}
