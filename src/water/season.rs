use super::balance::{Flows, Store};
use super::belief::Readings;
use super::course::Course;
use super::morning::{UseOfDay, morning_water};
use super::records::{DayRecord, Records};
use super::risk::risks;
use super::thirst::Thirst;
use super::{Dose, Feel, Group, Handed, PlantSize, Risks, WaterError};
use crate::almanac::{CivilDay, Latitude, Yesterday};
use crate::working::Working;

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

/// A group's season up to this morning, worked out from its records alone.
#[derive(Clone, Debug, PartialEq)]
pub struct Season {
    /// The days from the first record to yesterday; in a silence of more than a fortnight each is taken for an ordinary one. Empty on a
    /// first morning.
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
    /// What another notebook needs of the past to come to the same dose; nothing on a first morning, which has no past.
    pub handed: Option<Handed>,
    /// The plants' size on the morning before, with which that goes; this morning's on a first morning.
    pub size_before: PlantSize,
}

/// Works a group's season out from its records, up to the morning of `today`; later records are passed over.
///
/// A first morning, of which nothing but yesterday's weather and today's feel are known, is [`morning_water`]'s. Else the day of
/// the first record is taken to have begun as an ordinary morning: with the water missing that the plants use from one watering
/// to the next. Days without weather count as mixed with the usual temperatures. Every day is taken to have been watered as
/// advised until the first pour is noted; from then on nothing was poured where nothing is noted, but for a silence of more than three
/// days: the longer it is, the more of each day's use counts as poured, and all of it after a fortnight.
///
/// ```
/// use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
/// use first_truss::water::{DayRecord, Group, Records, season};
///
/// let today = CivilDay::default();
/// let clear = Yesterday { sun: Some(Sun::Word(Sky::Clear)), ..Yesterday::default() };
/// let days = [
///     DayRecord { day: today.days_later(-2), weather: Some(clear), given: Some(1.0), ..DayRecord::default() },
///     DayRecord { day: today.yesterday(), weather: Some(clear), given: Some(0.0), ..DayRecord::default() },
/// ];
/// let group = Group::default();
/// let skipped = season(&Records { days: &days, ..Records::new(&group) }, STANDARD_LATITUDE, today)?;
/// let poured = season(&Records { days: &days[..1], ..Records::new(&group) }, STANDARD_LATITUDE, today.yesterday())?;
/// assert_eq!(skipped.days.len(), 2);
/// assert!(skipped.dose.per_plant.litres() > poured.dose.per_plant.litres());
/// # Ok::<(), first_truss::water::WaterError>(())
/// ```
///
/// # Errors
/// [`WaterError`], as [`morning_water`] about yesterday. An earlier day that cannot have been so counts as not told.
pub fn season(records: &Records, latitude: Latitude, today: CivilDay) -> Result<Season, WaterError> {
    season_after(&Past::of(records, latitude, today), records, latitude, today)
}

/// The days before yesterday, lived through. While a grower tells of yesterday and of this morning they stay as they are.
#[derive(Clone, Debug)]
pub struct Past {
    course: Course,
    plants: Group,
    estimated: bool,
    kind: Kind,
}

/// What a past depends on of yesterday and of this morning.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Kind {
    /// Whether there is any reading to learn from.
    reads: bool,
    /// How many days there are, yesterday and this morning with them.
    days: usize,
    /// Days without a word about their water that end with yesterday.
    silent: i32,
}

impl Kind {
    fn of(by_day: &[Option<&DayRecord>]) -> Self {
        Self {
            reads: by_day.iter().flatten().any(|record| record.readings.count() > 0),
            days: by_day.len(),
            silent: silences(by_day).last().copied().unwrap_or_default(),
        }
    }
}

/// For each day before this morning how many days in a row, itself among them, nobody told anything of the water of; nought where somebody did.
fn silences(by_day: &[Option<&DayRecord>]) -> Vec<i32> {
    let past = by_day.get(..by_day.len().saturating_sub(1)).unwrap_or_default();
    let is_told = |record: Option<&DayRecord>| record.is_some_and(DayRecord::tells_of_water);
    let mut silences = Vec::with_capacity(past.len());
    for run in past.chunk_by(|one, other| is_told(*one) == is_told(*other)) {
        let days = if run.iter().copied().any(is_told) { 0 } else { run.len() };
        silences.extend(run.iter().map(|_| i32::try_from(days).unwrap_or(i32::MAX)));
    }
    silences
}

impl Past {
    /// Lives through the days of these records up to the day before yesterday.
    #[must_use]
    pub fn of(records: &Records, latitude: Latitude, today: CivilDay) -> Self {
        let mut by_day = records.by_day(today);
        let kind = Kind::of(&by_day);
        let silences = silences(&by_day);
        let handed = records.handed_with(&by_day, today);
        by_day.truncate(by_day.len().saturating_sub(2));
        let back = i32::try_from(by_day.len()).unwrap_or(i32::MAX);
        let mut day = today.yesterday().days_later(-back);
        let (plants, estimated) = records.plants_on(day, latitude);
        let course = || Course::new(kind.reads, handed, records.learn_from.is_some());
        let mut past = Self {
            course: course(),
            plants,
            estimated,
            kind,
        };
        for (record, silence) in by_day.into_iter().zip(silences) {
            let told = record.and_then(|record| record.weather).unwrap_or_default();
            let silent = &mut Working::silent();
            let morning = day.tomorrow();
            let mut of = |told: &Yesterday| UseOfDay::of(&past.plants, told, latitude, morning, silent);
            let use_of_day = of(&told).or_else(|_| of(&Yesterday::default()));
            let mean_temperature = if let Ok(use_of_day) = use_of_day {
                past.live(record, silence, &use_of_day, records.learns_on(day));
                use_of_day.demand.mean_temperature
            } else {
                // Not planted yet, or a day without sun: the count begins after it.
                past.course = course();
                super::usual_mean(past.plants.place, latitude, day)
            };
            past.sleep(records, morning, mean_temperature);
            day = morning;
        }
        past
    }

    fn live(&mut self, record: Option<&DayRecord>, silence: i32, use_of_day: &UseOfDay, learns: bool) {
        self.course.live(record, silence, use_of_day, &self.plants, learns);
    }

    fn sleep(&mut self, records: &Records, morning: CivilDay, mean_temperature: f64) {
        records.next_morning(&mut self.plants, &mut self.estimated, morning, mean_temperature);
    }
}

/// [`season`], as long as nothing but yesterday's and this morning's records has changed since `past` was lived through, and no
/// move in them: that tells where the plants stood before.
///
/// # Errors
/// As [`season`].
pub fn season_after(past: &Past, records: &Records, latitude: Latitude, today: CivilDay) -> Result<Season, WaterError> {
    let mut by_day = records.by_day(today);
    let kind = Kind::of(&by_day);
    let handed = records.handed_with(&by_day, today);
    let of_today = by_day.pop().flatten();
    let readings = of_today.map(|record| record.readings.possible()).unwrap_or_default();
    if handed.is_none()
        && let Some(weather) = first_morning(&by_day, &readings)
    {
        return on_first_morning(records, &weather, readings.feel, latitude, today);
    }
    let mut past = if past.kind == kind {
        past.clone()
    } else {
        Past::of(records, latitude, today)
    };
    let record = by_day.pop().flatten();
    let told = record.and_then(|record| record.weather).unwrap_or_default();
    let mut working = Working::default();
    let use_of_yesterday = UseOfDay::of(&past.plants, &told, latitude, today, &mut working)?;
    let (size_before, placement_before) = (past.plants.size, past.plants.placement());
    past.live(record, kind.silent, &use_of_yesterday, records.learns_on(today.yesterday()));
    past.sleep(records, today, use_of_yesterday.demand.mean_temperature);
    let plants = past.plants;
    let use_of_day = if plants.placement() == placement_before {
        use_of_yesterday
    } else {
        // Moved this morning: what is missing is of yesterday, what such a day takes from now on is of where they stand now.
        working = Working::default();
        let moved = Group {
            size: size_before,
            ..plants.clone()
        };
        // Rain fell where they stood.
        let told = Yesterday {
            rain_millimetres: Some(0.0),
            ..told
        };
        UseOfDay {
            rain: use_of_yesterday.rain,
            ..UseOfDay::of(&moved, &told, latitude, today, &mut working)?
        }
    };
    let answer = past
        .course
        .answer(&told, use_of_day, &readings, &plants, records.learns_on(today), working);
    let risks = risks(&answer.days, answer.deficit, &answer.dose, records.care);
    Ok(Season {
        days: answer.days,
        thirst: answer.thirst,
        store: answer.store,
        deficit: answer.deficit,
        corrected: answer.corrected,
        size: plants.size,
        size_estimated: past.estimated,
        dose: answer.dose,
        risks,
        size_before,
        handed: answer.handed,
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
    let size = plants.size;
    let dose = morning_water(&plants, weather, feel, latitude, today)?;
    let store = Store::from(&dose.root_zone).after_use(dose.demand.total());
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
        size_before: size,
        handed: None,
    })
}
