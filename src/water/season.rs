use super::balance::{DayWater, Flows, Store};
use super::belief::{Belief, OVERRULED, Readings, possible_litres};
use super::dose::{DAY_SPREAD, MOST_WATERINGS, Missing, Refill, SKY_SPREAD, held_of, likely_factor_over};
use super::morning::{UseOfDay, assumptions, morning_water};
use super::records::{DayRecord, MOST_NOTED, Records};
use super::risk::risks;
use super::thirst::{Learner, Thirst};
use super::{Dose, Feel, Group, PlantSize, Risks, WaterError};
use crate::almanac::{CivilDay, ClearnessFrom, Latitude, Yesterday};
use crate::working::{Working, value};

/// Days without a record after which the count of water begins anew (choice). What was learnt stays.
const LONGEST_GAP: u32 = 14;
/// Spread of a pour that nobody noted but that is taken to have been poured as advised, as a share of it (choice).
const UNNOTED_POUR: f64 = 0.3;
/// Spread of what may have been poured on a day that nobody wrote anything of, as a share of it or of the day's use (choice).
const MISSED_POUR: f64 = 0.5;

/// One day of a group's water, for one plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayRow {
    /// The day.
    pub day: CivilDay,
    /// Where its water went.
    pub flows: Flows,
    /// What the compost could hold.
    pub store: Store,
    /// What the morning's readings took off the deficit, litres; negative when they found the compost drier. No flow: the sum
    /// was wrong by so much.
    pub corrected: f64,
    /// What was seen that morning.
    pub readings: Readings,
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

impl DayRow {
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
    /// The days from the first record to yesterday; a gap longer than a fortnight is left out. Empty on a first morning.
    pub days: Vec<DayRow>,
    /// What the plants taught.
    pub thirst: Thirst,
    /// What the compost can hold this morning.
    pub store: Store,
    /// Deficit this morning after its readings, litres.
    pub deficit: f64,
    /// What this morning's readings took off the deficit, litres.
    pub corrected: f64,
    /// The plants' size this morning.
    pub size: PlantSize,
    /// Whether that was carried forward since they were last looked at.
    pub size_estimated: bool,
    /// Today's dose.
    pub dose: Dose,
    /// What threatens the plants.
    pub risks: Risks,
}

impl Season {
    /// What the store holds this morning, 0 (dry) to 1 (full).
    #[must_use]
    pub fn filled(&self) -> f64 {
        self.store.filled(self.deficit)
    }
}

/// Works a group's season out from its records, up to the morning of `today`; later records are passed over.
///
/// A first morning, of which nothing but yesterday's weather and today's feel are known, is [`morning_water`]'s. Else the day of
/// the first record is taken to have begun as an ordinary morning: with the water missing that the plants use from one watering
/// to the next. Days without weather count as mixed with the usual temperatures. Every day is taken to have been watered as
/// advised until the first pour is noted; from then on nothing was poured where nothing is noted.
///
/// # Errors
/// [`WaterError`], as [`morning_water`] about yesterday. An earlier day that cannot have been so counts as not told.
pub fn season(records: &Records, latitude: Latitude, today: CivilDay) -> Result<Season, WaterError> {
    let mut by_day = records.by_day(today);
    let of_today = by_day.pop().flatten();
    let readings = of_today.map(|record| record.readings.possible()).unwrap_or_default();
    if let Some(weather) = first_morning(&by_day, &readings) {
        return on_first_morning(records, &weather, readings.feel, latitude, today);
    }
    if by_day.is_empty() {
        by_day.push(None);
    }
    let mut course = Course::new();
    let back = i32::try_from(by_day.len()).unwrap_or(i32::MAX);
    let mut day = today.days_later(-back);
    let (mut plants, mut estimated) = records.plants_on(day, latitude);
    let mut last = None;
    let mut working = Working::default();
    let days = by_day.len();
    for (record, left) in by_day.into_iter().zip((0..days).rev()) {
        let told = record.and_then(|record| record.weather).unwrap_or_default();
        let morning = day.tomorrow();
        let of = |told: &Yesterday, working: &mut Working| UseOfDay::of(&plants, told, latitude, morning, working);
        let use_of_day = if left == 0 {
            Ok(of(&told, &mut working)?)
        } else {
            let silent = &mut Working::silent();
            of(&told, silent).or_else(|_| of(&Yesterday::default(), silent))
        };
        let mean_temperature = if let Ok(use_of_day) = use_of_day {
            let learns = records.learn_from.is_none_or(|from| from <= day);
            course.live(record, &use_of_day, &plants, learns);
            let mean_temperature = use_of_day.demand.mean_temperature;
            last = Some((told, use_of_day));
            mean_temperature
        } else {
            // Not planted yet, or a day without sun: the count begins after it.
            course = Course::new();
            super::usual_mean(plants.place, latitude, day)
        };
        records.next_morning(&mut plants, &mut estimated, morning, mean_temperature);
        day = morning;
    }
    let Some((told, use_of_yesterday)) = last else {
        return on_first_morning(records, &Yesterday::default(), readings.feel, latitude, today);
    };
    let learns = records.learn_from.is_none_or(|from| from <= today);
    let answer = course.answer(&told, use_of_yesterday, &readings, &plants, learns, working);
    let risks = risks(&answer.days, answer.deficit, &answer.dose, records.care);
    Ok(Season {
        days: answer.days,
        thirst: answer.thirst,
        store: answer.store,
        deficit: answer.deficit,
        corrected: answer.corrected,
        size: plants.size,
        size_estimated: estimated,
        dose: answer.dose,
        risks,
    })
}

/// The weather of yesterday when nothing else of the past is known, and the day's readings are no more than a feel.
fn first_morning(by_day: &[Option<&DayRecord>], today: &Readings) -> Option<Yesterday> {
    if today.lighter.is_some() || today.drip.is_some() {
        return None;
    }
    match by_day {
        [] => Some(Yesterday::default()),
        [Some(record)] if record.given.is_none() && record.readings.count() == 0 => record.weather,
        _ => None,
    }
}

fn on_first_morning(
    records: &Records,
    weather: &Yesterday,
    feel: Option<Feel>,
    latitude: Latitude,
    today: CivilDay,
) -> Result<Season, WaterError> {
    let (plants, size_estimated) = records.plants_on(today, latitude);
    let dose = morning_water(&plants, weather, feel, latitude, today)?;
    let store = Store::from(&dose.root_zone);
    let deficit = (dose.demand.total() - dose.rain).max(0.0).min(store.all_water);
    let risks = risks(&[], deficit, &dose, records.care);
    Ok(Season {
        days: Vec::new(),
        thirst: Thirst::default(),
        store,
        deficit,
        corrected: 0.0,
        size: plants.size,
        size_estimated,
        dose,
        risks,
    })
}

/// A day made ready for the balance.
struct ReadyDay {
    day: CivilDay,
    store: Store,
    readings: Readings,
    /// With the sum's demand, before the plants' own thirst.
    water: DayWater,
    /// Litres that the sum has missing on this morning, where the count of water begins.
    begins: Option<f64>,
    /// Whether the count begins with an ordinary day, which ended as it had begun.
    ordinary: bool,
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

/// The days as they go by.
struct Course {
    learner: Learner,
    ready: Vec<ReadyDay>,
    /// Whether a pour was ever noted.
    notes_pours: bool,
    /// Days in a row of which nothing was told.
    silent: u32,
    planted: Option<CivilDay>,
}

/// The morning that the days lead to.
struct Answer {
    days: Vec<DayRow>,
    thirst: Thirst,
    store: Store,
    deficit: f64,
    corrected: f64,
    dose: Dose,
}

impl Course {
    fn new() -> Self {
        Self {
            learner: Learner::new(),
            ready: Vec::new(),
            notes_pours: false,
            silent: 0,
            planted: None,
        }
    }

    /// Makes a day ready and lets the learner live it.
    fn live(&mut self, record: Option<&DayRecord>, use_of_day: &UseOfDay, plants: &Group, learns: bool) {
        let zone = &use_of_day.root_zone;
        let store = Store::from(zone);
        let demand = use_of_day.demand.total();
        let record = record.filter(|record| record.is_told());
        let readings = record.map(|record| record.readings.possible()).unwrap_or_default();
        if self.planted.is_some() && self.planted != plants.planted {
            *self = Self::new();
        } else if self.silent >= LONGEST_GAP {
            self.ready.clear();
        }
        self.planted = plants.planted;
        self.silent = if record.is_some() { 0 } else { self.silent + 1 };

        let assumed_sky = use_of_day.weather.clearness_from == ClearnessFrom::Assumed;
        let of_day = (DAY_SPREAD * DAY_SPREAD + if assumed_sky { SKY_SPREAD * SKY_SPREAD } else { 0.0 }).exp() - 1.0;
        let (_, wished) = held_of(0.0, demand, zone);
        let pours = wished.min(MOST_WATERINGS);
        let begins = self.ready.is_empty().then_some((demand / pours).min(zone.easy_water));
        if let Some(missing) = begins {
            self.learner.begin(missing, of_day);
        }
        self.learner.morning(&store, &readings, learns);

        let given = record.and_then(|record| record.given).map(possible_litres);
        self.notes_pours |= given.is_some();
        let noted = match (given, readings.drip) {
            (Some(given), Some(drip)) => Some(given.max(drip)),
            (given, drip) => given.or(drip),
        };
        let ordinary = begins.is_some() && noted.is_none() && readings.count() == 0;
        let (given, of_pour) = match noted {
            Some(litres) => (litres, 0.0),
            None if self.notes_pours && record.is_none() => (0.0, MISSED_POUR * demand),
            None if self.notes_pours || readings.feel == Some(Feel::Sodden) => (0.0, 0.0),
            None => {
                let (held, _) = held_of(self.learner.deficit(), demand, zone);
                let doubt = if record.is_none() { MISSED_POUR } else { UNNOTED_POUR };
                (held / (1.0 - zone.drained), doubt * held)
            }
        };
        let ready = ReadyDay {
            day: use_of_day.weather.day,
            store,
            readings,
            water: DayWater {
                given,
                pours: record
                    .and_then(|record| record.waterings)
                    .map_or(whole(pours), |count| count.min(MOST_NOTED)),
                in_parts: record.is_some_and(|record| record.in_parts),
                rain: use_of_day.rain,
                demand,
            },
            begins,
            ordinary,
            of_day,
            of_pour: of_pour * of_pour,
            reached: zone.reached,
            air_when_full: zone.air_when_full,
            mean_temperature: use_of_day.demand.mean_temperature,
            trusses: plants.size.settled().1,
            assumed_sky,
            assumed_pour: noted.is_none(),
        };
        if ordinary {
            self.learner
                .begin((ready.begins.unwrap_or(0.0) - ready.water.rain / pours).max(0.0), of_day);
        } else {
            self.learner.day(&store, &ready.water, of_day, ready.of_pour);
        }
        self.ready.push(ready);
    }

    /// The morning after the last day, with its readings.
    fn answer(
        mut self,
        told: &Yesterday,
        use_of_yesterday: UseOfDay,
        readings: &Readings,
        plants: &Group,
        learns: bool,
        mut working: Working,
    ) -> Answer {
        let store = Store::from(&use_of_yesterday.root_zone);
        self.learner.morning(&store, readings, learns);
        let (thirst, off) = (self.learner.thirst(), self.learner.off());

        let mut belief = Belief::default();
        let days: Vec<DayRow> = self.ready.iter().map(|day| day.row(&mut belief, thirst.factor, off)).collect();
        let before = belief.deficit;
        belief.morning(&store, readings, off);
        let corrected = before - belief.deficit;

        let assumptions = assumptions(plants, told, &use_of_yesterday.weather);
        let demand = use_of_yesterday.demand.total();
        let missing = Missing {
            deficit: missing(days.last(), demand, &thirst, belief.deficit, corrected, &mut working),
            demand: demand * thirst.factor,
            likely_factor: likely_factor_over(1.0, thirst.spread, &assumptions),
        };
        let refill = Refill::of_balance(&missing, readings.feel, &use_of_yesterday, &mut working);
        Answer {
            days,
            thirst,
            store,
            deficit: belief.deficit,
            corrected,
            dose: use_of_yesterday.dose(&refill, readings.feel, assumptions, working),
        }
    }
}

impl ReadyDay {
    /// The day with the plants' own thirst.
    fn row(&self, belief: &mut Belief, factor: f64, off: f64) -> DayRow {
        let mut water = DayWater {
            demand: self.water.demand * factor,
            ..self.water
        };
        if let Some(missing) = self.begins {
            let deficit = (missing * factor).min(self.store.all_water);
            *belief = Belief::begin(deficit, self.of_day, OVERRULED);
            if self.ordinary {
                water.given = deficit * f64::from(water.pours);
            }
        }
        let before = belief.deficit;
        belief.morning(&self.store, &self.readings, off);
        let corrected = before - belief.deficit;
        let flows = belief.day(&self.store, &water, self.of_day, self.of_pour);
        DayRow {
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
        }
    }
}

/// What is missing this morning, litres, with its steps: yesterday's count, then what was felt.
fn missing(yesterday: Option<&DayRow>, demand: f64, thirst: &Thirst, deficit: f64, corrected: f64, working: &mut Working) -> f64 {
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
