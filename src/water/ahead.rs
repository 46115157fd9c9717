//! Days to come: what they are taken to be like, and what a group will use on them.

use super::dose::likely_factor_over;
use super::{Assumption, Group, Place, PlantSize, RootZone, Thirst, WaterError, carry_forward, morning_water};
use crate::almanac::{CivilDay, Latitude, Sky, Sun, Yesterday, sun_on, usual_month, usual_temperatures};

/// What days to come are taken to be like. Rain is never counted on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Outlook {
    /// The ordinary sun and temperatures of place and month.
    #[default]
    Usual,
    /// Each day like this one; what it leaves open is usual.
    Like(Yesterday),
}

impl Outlook {
    /// A spell under one sky, with the usual temperatures.
    #[must_use]
    pub fn under(sky: Sky) -> Self {
        Self::Like(Yesterday {
            sun: Some(Sun::Word(sky)),
            ..Yesterday::default()
        })
    }

    /// A day to come, as it would be told afterwards.
    fn told(self, latitude: Latitude, day: CivilDay) -> Yesterday {
        let told = match self {
            Self::Like(told) => told,
            Self::Usual => Yesterday::default(),
        };
        let usual_sun = || {
            let daylight = sun_on(latitude.degrees_north(), day.day_of_year()).daylight_hours;
            usual_month(latitude, day).map(|month| Sun::Hours(month.sunshine_share * daylight))
        };
        Yesterday {
            sun: told.sun.or_else(usual_sun),
            ..told
        }
    }
}

/// A group as it stands today, for plans ahead.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The plants, in their size of today.
    pub group: Group,
    /// What they drink of what the sum says, as far as it is learnt.
    pub thirst: Thirst,
    /// Height at which they are stopped, m: the cane's, or their own once they are; none when they grow on.
    pub stopped_at: Option<f64>,
}

impl From<Group> for Standing {
    fn from(group: Group) -> Self {
        Self {
            group,
            thirst: Thirst::default(),
            stopped_at: None,
        }
    }
}

/// One plant on a day to come.
pub(super) struct DayAhead {
    /// Litres that it uses.
    pub used: f64,
    /// Its compost.
    pub zone: RootZone,
    /// Whether its temperatures are a far guess.
    pub far_guess: bool,
}

impl DayAhead {
    /// Litres to pour, so that as much as is used stays: `used/(1 − LF)`.
    pub fn poured(&self) -> f64 {
        self.used / (1.0 - self.zone.drained)
    }
}

impl Standing {
    /// What one plant uses on a day, if it never runs short.
    pub(super) fn on(&self, day: CivilDay, outlook: Outlook, latitude: Latitude) -> Result<DayAhead, WaterError> {
        let dose = morning_water(&self.group, &outlook.told(latitude, day), None, latitude, day.tomorrow())?;
        Ok(DayAhead {
            used: dose.demand.total() * self.thirst.factor,
            zone: dose.root_zone,
            far_guess: dose.weather.far_guess,
        })
    }

    /// Grows by the usual temperatures from one day to a later one.
    pub(super) fn grow(&mut self, from: CivilDay, to: CivilDay, latitude: Latitude) {
        let place = self.group.place;
        let mean = |day| usual_mean(place, latitude, day);
        self.group.size = carry_forward(self.group.size, from, to, self.stopped_at, &mean).size;
    }

    /// Plants in the group.
    pub(super) fn count(&self) -> f64 {
        f64::from(self.group.count)
    }
}

/// What the likely range of so many days' water for these groups multiplies and divides it by: that of the least known.
pub(super) fn likely_factor_of_all(standings: &[Standing], days: f64, far_guess: bool) -> f64 {
    standings.iter().fold(1.0, |widest, standing| {
        let mut assumed = Vec::new();
        if standing.group.size == PlantSize::default() {
            assumed.push(Assumption::Size);
        }
        if far_guess {
            assumed.push(Assumption::FarGuess);
        }
        f64::max(widest, likely_factor_over(days, standing.thirst.spread, &assumed))
    })
}

/// The usual mean temperature on a day where plants stand, °C: in the open, or in an unheated house.
#[must_use]
pub fn usual_mean(place: Place, latitude: Latitude, day: CivilDay) -> f64 {
    let usual = usual_temperatures(latitude, day);
    if place.is_outdoors() { usual.mean() } else { usual.inside_mean() }
}
