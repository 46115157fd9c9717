use super::balance::{DayWater, Flows, Store};
use super::belief::{Belief, Readings};
use super::dose::{DAY_SPREAD, MOST_WATERINGS, Missing, Refill, SKY_SPREAD, held_of, size_variance};
use super::morning::{UseOfDay, assumptions};
use super::thirst::{Learner, Thirst};
use super::{Dose, Feel, Group, WaterError};
use crate::almanac::{CivilDay, ClearnessFrom, Latitude, Yesterday};
use crate::working::{Working, value};

/// Days without a record after which the count begins anew with full compost (choice).
const LONGEST_GAP: i32 = 14;
/// Spread of a pour that nobody noted but that is taken to have been poured as advised, as a share of it (choice).
const UNNOTED_POUR: f64 = 0.3;
/// Spread of what may have been poured on a day that nobody wrote anything of, as a share of the day's use (choice).
const MISSED_POUR: f64 = 0.5;

/// What the grower keeps of one civil day for one group. Everything may be missing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DayRecord {
    /// What this day was like; told on the morning after.
    pub weather: Option<Yesterday>,
    /// Poured on this day for each plant, litres; nought when it is known that nothing was.
    pub given: Option<f64>,
    /// Whether it went on in parts with pauses.
    pub in_parts: bool,
    /// What was seen of the compost on its morning, before pouring. A drip test counts as poured.
    pub readings: Readings,
    /// The plants as they stand from this day on, when something about them changed.
    pub plants: Option<Group>,
}

impl DayRecord {
    /// Whether anything was written down of the day itself.
    fn is_told(&self) -> bool {
        self.weather.is_some() || self.given.is_some() || self.readings.count() > 0
    }
}

/// The records of one group, by civil day. In whatever order they come in, they are the same records.
#[derive(Clone, Debug, PartialEq)]
pub struct GroupDays {
    group: Group,
    latitude: Latitude,
    days: Vec<(CivilDay, DayRecord)>,
}

/// One day of a group's water, for one plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayFlow {
    /// The day.
    pub day: CivilDay,
    /// Where its water went.
    pub flows: Flows,
    /// What the compost could hold.
    pub store: Store,
    /// What the morning's readings took off the deficit, litres; negative when they found the compost drier. No flow: the sum
    /// was wrong by so much.
    pub corrected: f64,
    /// What was felt that morning.
    pub feel: Option<Feel>,
    /// What the plant would have used from full compost, litres, its own thirst with it.
    pub demand: f64,
    /// Mean temperature at the plants, °C.
    pub mean_temperature: f64,
    /// Share of the rooted compost that was air, mean over the day, 0 to 1.
    pub air: f64,
    /// Trusses set.
    pub trusses: f64,
    /// Whether the sky was only assumed.
    pub assumed_sky: bool,
    /// Whether what was poured was only assumed.
    pub assumed_pour: bool,
}

impl DayFlow {
    /// What the store held in the morning, 0 (dry) to 1 (full).
    #[must_use]
    pub fn filled_at_start(&self) -> f64 {
        self.store.filled(self.flows.start)
    }

    /// What it held after the first pour.
    #[must_use]
    pub fn filled_after_pour(&self) -> f64 {
        self.store.filled(self.flows.after_pour)
    }

    /// What it held at the end of the day.
    #[must_use]
    pub fn filled_at_end(&self) -> f64 {
        self.store.filled(self.flows.end)
    }
}

/// A group's season up to this morning, worked out from its records alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    /// Every day from the first record to yesterday.
    pub days: Vec<DayFlow>,
    /// What the plants taught.
    pub thirst: Thirst,
    /// What the compost can hold this morning.
    pub store: Store,
    /// Deficit this morning after its readings, litres.
    pub deficit: f64,
    /// What this morning's readings took off the deficit, litres.
    pub corrected: f64,
    /// What was felt this morning.
    pub feel: Option<Feel>,
    /// Today's dose.
    pub dose: Dose,
}

/// A day made ready for the balances.
struct ReadyDay {
    day: CivilDay,
    store: Store,
    readings: Readings,
    /// With the sum's demand, before the plants' own thirst.
    water: DayWater,
    /// Variance of the day's use over the square of its mean.
    of_day: f64,
    /// Variance of what was poured, litres².
    of_pour: f64,
    reached: f64,
    air_when_full: f64,
    mean_temperature: f64,
    trusses: f64,
    assumed_sky: bool,
    assumed_pour: bool,
}

impl GroupDays {
    /// No records yet, for plants that stand as told unless a record says otherwise.
    #[must_use]
    pub const fn new(group: Group, latitude: Latitude) -> Self {
        Self {
            group,
            latitude,
            days: Vec::new(),
        }
    }

    /// Writes a day down, in the place of what was written of it before.
    pub fn put(&mut self, day: CivilDay, record: DayRecord) {
        match self.place(day) {
            Ok(place) => {
                if let Some(kept) = self.days.get_mut(place) {
                    kept.1 = record;
                }
            }
            Err(place) => self.days.insert(place, (day, record)),
        }
    }

    /// Forgets a day.
    pub fn remove(&mut self, day: CivilDay) {
        if let Ok(place) = self.place(day) {
            self.days.remove(place);
        }
    }

    /// What is written of a day.
    #[must_use]
    pub fn get(&self, day: CivilDay) -> Option<&DayRecord> {
        self.days.get(self.place(day).ok()?).map(|(_, record)| record)
    }

    fn place(&self, day: CivilDay) -> Result<usize, usize> {
        self.days.binary_search_by(|(kept, _)| kept.cmp(&day))
    }

    /// First day of the season that is still going on: the first record without a long gap after it.
    fn first_day(&self, yesterday: CivilDay) -> CivilDay {
        let mut first = yesterday;
        for (day, record) in self.days.iter().rev() {
            if *day > first || !record.is_told() {
                continue;
            }
            if first.days_since(*day) > LONGEST_GAP {
                break;
            }
            first = *day;
        }
        first
    }

    /// The plants as last told by a day, else as first told, else as the group stands.
    fn plants_on(&self, day: CivilDay) -> &Group {
        let mut told = self
            .days
            .iter()
            .filter_map(|(day, record)| record.plants.as_ref().map(|plants| (*day, plants)));
        let Some((_, mut plants)) = told.next() else {
            return &self.group;
        };
        for (from, later) in told {
            if from <= day {
                plants = later;
            }
        }
        plants
    }

    /// Works the season out up to the morning of `today`; later records are passed over.
    ///
    /// Days without weather count as mixed with the usual temperatures of the month. A day without a noted pour got none; only
    /// when no pour was ever noted, each day of which something was told is taken to have been watered as advised.
    ///
    /// # Errors
    /// [`WaterError`], as [`super::morning_water`] about yesterday. An earlier day that cannot have been so counts as not told.
    pub fn season(&self, today: CivilDay) -> Result<Season, WaterError> {
        let yesterday = today.yesterday();
        let notes_pours = self.days.iter().any(|(day, record)| *day < today && record.given.is_some());
        let nothing = DayRecord::default();
        let mut day = self.first_day(yesterday);
        let mut learner = Learner::new();
        let mut ready = Vec::new();
        while day < yesterday {
            let record = self.get(day).unwrap_or(&nothing);
            let plants = self.plants_on(day.tomorrow());
            let told = record.weather.unwrap_or_default();
            let of = |told: &Yesterday| UseOfDay::of(plants, told, self.latitude, day.tomorrow(), &mut Working::silent());
            if let Ok(use_of_day) = of(&told).or_else(|_| of(&Yesterday::default())) {
                ready.push(ReadyDay::of(record, &use_of_day, plants, notes_pours, &mut learner));
            } else {
                // Not planted yet, or a day without sun: the count begins after it.
                ready.clear();
                learner = Learner::new();
            }
            day = day.tomorrow();
        }
        let record = self.get(yesterday).unwrap_or(&nothing);
        let plants = self.plants_on(today);
        let told = record.weather.unwrap_or_default();
        let mut working = Working::default();
        let use_of_yesterday = UseOfDay::of(plants, &told, self.latitude, today, &mut working)?;
        ready.push(ReadyDay::of(record, &use_of_yesterday, plants, notes_pours, &mut learner));

        let store = Store::from(&use_of_yesterday.root_zone);
        let readings = self.get(today).map(|record| record.readings).unwrap_or_default();
        learner.morning(&store, &readings);
        let (thirst, off) = (learner.thirst(), learner.off());

        let mut belief = Belief::default();
        let mut days = Vec::with_capacity(ready.len());
        for day in &ready {
            days.push(day.flow(&mut belief, thirst.factor, off));
        }
        let corrected = belief.corrected(&store, &readings, off);
        let assumptions = assumptions(plants, &told, &use_of_yesterday.weather);
        let demand = use_of_yesterday.demand.total();
        let missing = Missing {
            deficit: missing(days.last(), demand, &thirst, belief.deficit, corrected, &mut working),
            demand: demand * thirst.factor,
            variance: learner.deficit().1 + size_variance(&assumptions),
        };
        let refill = Refill::of_balance(&missing, readings.feel, &use_of_yesterday, &mut working);
        Ok(Season {
            days,
            thirst,
            store,
            deficit: belief.deficit,
            corrected,
            feel: readings.feel,
            dose: use_of_yesterday.dose(&refill, readings.feel, assumptions, working),
        })
    }
}

impl ReadyDay {
    /// Makes a day ready and lets the learner live it.
    fn of(record: &DayRecord, use_of_day: &UseOfDay, plants: &Group, notes_pours: bool, learner: &mut Learner) -> Self {
        let zone = &use_of_day.root_zone;
        let store = Store::from(zone);
        let readings = record.readings;
        learner.morning(&store, &readings);
        let demand = use_of_day.demand.total();
        let (held, waterings) = held_of(learner.deficit().0, demand, zone);
        let noted = match (record.given, readings.drip) {
            (Some(given), Some(drip)) => Some(given.max(drip)),
            (given, drip) => given.or(drip),
        };
        let (given, of_pour) = match noted {
            Some(litres) => (litres, 0.0),
            None if !record.is_told() => (0.0, MISSED_POUR * demand),
            None if notes_pours || readings.feel == Some(Feel::Sodden) => (0.0, 0.0),
            None => (held / (1.0 - zone.drained), UNNOTED_POUR * held),
        };
        let assumed_sky = use_of_day.weather.clearness_from == ClearnessFrom::Assumed;
        let variance = DAY_SPREAD * DAY_SPREAD + if assumed_sky { SKY_SPREAD * SKY_SPREAD } else { 0.0 };
        let ready = Self {
            day: use_of_day.weather.day,
            store,
            readings,
            water: DayWater {
                given,
                pours: whole(waterings.min(MOST_WATERINGS)),
                in_parts: record.in_parts,
                rain: use_of_day.rain,
                demand,
            },
            of_day: variance.exp_m1(),
            of_pour: of_pour * of_pour,
            reached: zone.reached,
            air_when_full: zone.air_when_full,
            mean_temperature: use_of_day.demand.mean_temperature,
            trusses: plants.size.settled().1,
            assumed_sky,
            assumed_pour: noted.is_none(),
        };
        learner.day(&store, &ready.water, ready.of_day, ready.of_pour);
        ready
    }

    /// The day with the plants' own thirst.
    fn flow(&self, belief: &mut Belief, factor: f64, off: f64) -> DayFlow {
        let corrected = belief.corrected(&self.store, &self.readings, off);
        let demand = self.water.demand * factor;
        let flows = belief.day(&self.store, &DayWater { demand, ..self.water }, self.of_day, self.of_pour);
        DayFlow {
            day: self.day,
            flows,
            store: self.store,
            corrected,
            feel: self.readings.feel,
            demand,
            mean_temperature: self.mean_temperature,
            air: self.air_when_full + f64::midpoint(flows.after_pour, flows.end) / self.reached,
            trusses: self.trusses,
            assumed_sky: self.assumed_sky,
            assumed_pour: self.assumed_pour,
        }
    }
}

/// What is missing this morning, litres, with its steps: yesterday's count, then what was felt.
fn missing(yesterday: Option<&DayFlow>, demand: f64, thirst: &Thirst, deficit: f64, corrected: f64, working: &mut Working) -> f64 {
    if thirst.readings > 0 {
        working.step(
            "Your plants' own thirst",
            "E × factor, by Bayes from feels, weights and drip tests",
            &[
                value("E", demand, "litres", 2),
                value("factor", thirst.factor, "", 2),
                value("readings", f64::from(thirst.readings), "", 0),
            ],
            value("E", demand * thirst.factor, "litres", 2),
            "Before any reading: 1, spread 25 % (choice); one day's own spread of 15 % is never learnt",
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
        "Water balance with FAO-56 Eq. 84 over the day; the first day is taken to have begun full; the plant overrules the sum (choice)",
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
