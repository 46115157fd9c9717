use std::fmt;

use super::dose::Refill;
use super::group::COUNT_RANGE;
use super::{Assumption, Canopy, Demand, Dose, Feel, Group, HEIGHT_RANGE, RootZone, TRUSSES_RANGE};
use crate::almanac::{CivilDay, ClearnessFrom, Latitude, Reading, Weather, WeatherError, Yesterday};
use crate::quantity::{OutOfRange, Units, Volume};
use crate::working::Working;

/// Latitudes within which the sum was tried, degrees from the equator (choice).
const TRIED_LATITUDES: (f64, f64) = (45.0, 60.0);
/// Months of the year within which it was tried in the north; half a year later in the south (choice).
const TRIED_MONTHS: (u8, u8) = (4, 10);

/// Why there is no dose.
#[derive(Clone, Debug, PartialEq)]
pub enum WaterError {
    /// Yesterday cannot have been so, or had no sun.
    Weather(WeatherError),
    /// A value of the group is outside what can be.
    OutOfRange(OutOfRange),
    /// The day of planting is still to come.
    PlantedLater(CivilDay),
}

impl WaterError {
    /// The sentence for a grower with these units.
    #[must_use]
    pub fn sentence(&self, units: Units) -> String {
        match self {
            Self::Weather(error) => error.sentence(units),
            Self::OutOfRange(error) => error.to_string(),
            Self::PlantedLater(day) => format!("Planted on {} is still to come: give a day up to today.", day.spoken()),
        }
    }
}

impl fmt::Display for WaterError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(Units::default()))
    }
}

impl std::error::Error for WaterError {}

impl From<WeatherError> for WaterError {
    fn from(error: WeatherError) -> Self {
        Self::Weather(error)
    }
}

impl From<OutOfRange> for WaterError {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

/// The water for each plant of a group on the morning of `today`, from what yesterday was like and how the compost feels.
///
/// Yesterday is taken to have begun with full compost.
///
/// # Errors
/// [`WaterError`]: a value outside its range, a planting day to come, or a day without sun.
pub fn morning_water(
    group: &Group,
    yesterday: &Yesterday,
    feel: Option<Feel>,
    latitude: Latitude,
    today: CivilDay,
) -> Result<Dose, WaterError> {
    let mut working = Working::default();
    let use_of_day = UseOfDay::of(group, yesterday, latitude, today, &mut working)?;
    let assumptions = assumptions(group, yesterday, &use_of_day.weather);
    let refill = Refill::new(&use_of_day, feel, &assumptions, &mut working);
    Ok(use_of_day.dose(&refill, feel, assumptions, working))
}

/// What the plants of a group used on one day, and what their roots can reach on the next morning.
pub(super) struct UseOfDay {
    pub weather: Weather,
    pub canopy: Canopy,
    pub root_zone: RootZone,
    pub demand: Demand,
    pub rain: f64,
}

impl UseOfDay {
    /// The day before `morning`. Weeks have seven days (exact).
    pub fn of(group: &Group, told: &Yesterday, latitude: Latitude, morning: CivilDay, working: &mut Working) -> Result<Self, WaterError> {
        let weather = told.at(latitude, morning.yesterday())?;
        let (height, trusses) = group.size.settled();
        HEIGHT_RANGE.check(height)?;
        TRUSSES_RANGE.check(trusses)?;
        COUNT_RANGE.check(f64::from(group.count))?;
        group.placement().check()?;
        let ground = group.ground_for_each();
        let weeks = match group.planted {
            Some(planted) if planted > morning => return Err(WaterError::PlantedLater(planted)),
            Some(planted) => Some(f64::from(morning.days_since(planted)) / 7.0),
            None => None,
        };

        let canopy = Canopy::new(height, group.leafiness, ground, working);
        let mut compost_working = working.alike();
        let root_zone = RootZone::new(group.container, group.compost(weeks), ground, &mut compost_working);
        let demand = Demand::of(
            &weather,
            group.place,
            &canopy,
            (height, trusses),
            ground,
            root_zone.wet_surface,
            working,
        );
        let rain = demand.rain_reaching(&weather, group, &canopy, ground, root_zone.wet_surface, working);
        working.extend(compost_working);
        Ok(Self {
            weather,
            canopy,
            root_zone,
            demand,
            rain,
        })
    }

    /// The morning's answer, once it is known what is missing.
    pub fn dose(self, refill: &Refill, feel: Option<Feel>, assumptions: Vec<Assumption>, working: Working) -> Dose {
        Dose {
            per_plant: Volume::from_litres(refill.dose),
            low: Volume::from_litres(refill.low),
            high: Volume::from_litres(refill.high),
            rest: Volume::from_litres(refill.rest),
            waterings: refill.waterings,
            parts: refill.parts,
            container_too_small: refill.container_too_small,
            hold_off: feel == Some(Feel::Sodden),
            feel,
            assumptions,
            within_tried: within_tried(self.weather.latitude, self.weather.day.tomorrow()),
            weather: self.weather,
            canopy: self.canopy,
            root_zone: self.root_zone,
            demand: self.demand,
            rain: self.rain,
            rooted: self.root_zone.reached / self.root_zone.volume,
            working,
        }
    }
}

pub(super) fn assumptions(group: &Group, yesterday: &Yesterday, weather: &Weather) -> Vec<Assumption> {
    let usual = weather.maximum_from == Reading::Usual || weather.minimum_from == Reading::Usual;
    [
        (weather.clearness_from == ClearnessFrom::Assumed, Assumption::Sky),
        (usual, Assumption::Temperatures),
        (weather.far_guess, Assumption::FarGuess),
        (group.size.height_metres.is_none() && group.size.trusses.is_none(), Assumption::Size),
        (
            group.place.is_outdoors() && yesterday.rain_millimetres.is_none(),
            Assumption::NoRain,
        ),
    ]
    .into_iter()
    .filter_map(|(holds, assumption)| holds.then_some(assumption))
    .collect()
}

fn within_tried(latitude: Latitude, day: CivilDay) -> bool {
    let (south, north) = TRIED_LATITUDES;
    let (first, last) = TRIED_MONTHS;
    (south..=north).contains(&latitude.degrees_north().abs()) && (first..=last).contains(&day.northern_month(latitude))
}
