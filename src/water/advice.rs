use super::{Container, Dose, Feel, Group, Level, Risk, Risks, Season};
use crate::almanac::Sky;

/// Clearness, no unit, from which a day counts as bright enough for pollen to run (choice: half-way from mixed to bright).
pub const BRIGHT_FROM: f64 = f64::midpoint(Sky::Mixed.clearness(), Sky::Bright.clearness());
/// Temperatures inside in which tapping helps, °C (common practice, no source).
pub const POLLEN_RUNS: (f64, f64) = (18.0, 30.0);
/// Night below which fruit sets poorly, °C (from memory).
const COLD_NIGHT: f64 = 13.0;
/// Day above which fruit sets poorly, °C (from memory).
const HOT_DAY: f64 = 32.0;
/// Humidity above which pollen clings, % (from memory).
const CLINGING_HUMIDITY: f64 = 85.0;
/// Day above which the path may be damped, °C (common practice, no source).
const DAMP_DOWN_FROM: f64 = 25.0;
/// Humidity above which it should not, % (common practice, no source).
const DRY_AIR: f64 = 60.0;
/// Share of the easy water of a border that may go before it is filled again (choice).
const BORDER_SWING: f64 = 0.6;
/// Days that a border is left at most before it is looked at (common practice, no source).
const MOST_DAYS: f64 = 7.0;

/// What follows from the numbers, each with the figures of its reason.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Advice {
    /// Sodden: no water.
    HoldOff,
    /// Dry: water these first, in parts, and feel again.
    WaterFirst,
    /// Even several waterings leave the compost short.
    ContainerTooSmall {
        /// Litres used in a day.
        used: f64,
        /// Litres that come easily from the compost.
        easy_water: f64,
    },
    /// Several waterings in the day.
    Split {
        /// How many.
        waterings: u32,
        /// Litres in each.
        each: f64,
    },
    /// One watering in several parts.
    InParts {
        /// How many.
        parts: u32,
        /// Litres in each.
        each: f64,
    },
    /// Roots have not filled the compost yet.
    Pour(PourWhere),
    /// A border is filled every few days instead of daily.
    EveryFewDays {
        /// Days between.
        days: u32,
        /// Litres for each plant then.
        litres: f64,
    },
    /// Rain did the watering.
    RainDidIt {
        /// Litres that reached the roots.
        litres: f64,
    },
    /// Tap the trusses in flower.
    TapTrusses,
    /// Fruit sets poorly.
    SetLikelyPoor(SetPoor),
    /// After a drought a part of what is missing waits for tomorrow.
    RestTomorrow {
        /// Litres that wait.
        litres: f64,
    },
    /// Something threatens the plants.
    Threat {
        /// What.
        what: Threat,
        /// Its figure and thresholds.
        risk: Risk,
    },
    /// Wet the path.
    DampPath {
        /// Temperature that the house passes, °C.
        above: f64,
    },
}

/// What threatens plants after the days that they have had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Threat {
    /// They were short of water yesterday.
    Drought,
    /// Young fruit went short or had wide swings: dark sunken ends follow one to three weeks later.
    BlossomEndRot,
    /// The compost was wet for days.
    WetRoots,
    /// Ripening fruit takes up much at once.
    Cracking,
}

/// Where the water of a young plant goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PourWhere {
    /// On the ball it was planted with.
    Ball,
    /// In a ring that widens with the roots.
    Ring,
    /// Over the whole surface.
    WholeSurface,
}

/// What keeps fruit from setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SetPoor {
    /// A cold night.
    ColdNight {
        /// Temperature that it fell below, °C.
        below: f64,
    },
    /// A hot day.
    HotDay {
        /// Temperature that it passed, °C.
        above: f64,
    },
    /// Damp air.
    DampAir,
}

/// Share of the compost filled by roots from which water goes in a ring instead of on the ball (common practice, no source).
const RING_FROM: f64 = 0.25;

/// Where to pour, by the share of the compost that roots have filled, 0 to 1 (common practice, no source).
#[must_use]
pub fn pour_where(rooted: f64) -> PourWhere {
    if rooted < RING_FROM {
        PourWhere::Ball
    } else if rooted < 1.0 {
        PourWhere::Ring
    } else {
        PourWhere::WholeSurface
    }
}

/// Pieces of advice that are given at once (limit).
const MOST_ADVICE: usize = 5;

impl Season {
    /// The advice that follows from the days and from today's dose, most pressing first, five at most.
    #[must_use]
    pub fn advice(&self, group: &Group) -> Vec<Advice> {
        let mut advice = self.dose.advice(group);
        let felt = usize::from(matches!(advice.first(), Some(Advice::HoldOff | Advice::WaterFirst)));
        // Red before amber at once: sorting would bring a tenfold of this code.
        let of_level = |level| self.threats().filter(move |(_, risk)| risk.level == level);
        let threats = of_level(Level::Red).chain(of_level(Level::Amber));
        let threats = threats.map(|(what, risk)| Advice::Threat { what, risk });
        let rest = (self.dose.rest.litres() > 0.0).then(|| Advice::RestTomorrow {
            litres: self.dose.rest.litres(),
        });
        advice.splice(felt..felt, rest.into_iter().chain(threats));
        advice.truncate(MOST_ADVICE);
        advice
    }

    /// What may threaten. What the squeezed compost says already is not said again.
    fn threats(&self) -> impl Iterator<Item = (Threat, Risk)> {
        let Risks {
            drought,
            blossom_end_rot,
            wet,
            cracking,
            ..
        } = self.risks;
        let felt = self.dose.feel;
        [
            // Compost that is moist or sodden was not too dry the day before: the sum was wrong.
            (Threat::Drought, drought, felt.is_none()),
            (Threat::WetRoots, wet, felt != Some(Feel::Sodden)),
            (Threat::BlossomEndRot, blossom_end_rot, true),
            (Threat::Cracking, cracking, felt != Some(Feel::Sodden)),
        ]
        .into_iter()
        .filter_map(|(what, risk, is_news)| is_news.then_some((what, risk)))
    }
}

impl Dose {
    /// The advice that follows, most pressing first, five at most.
    ///
    /// Yesterday's sky and temperatures stand in for today's.
    #[must_use]
    pub fn advice(&self, group: &Group) -> Vec<Advice> {
        let mut advice = Vec::new();
        let litres = self.per_plant.litres();
        let each = litres / f64::from(self.waterings);
        match self.feel {
            Some(Feel::Sodden) => advice.push(Advice::HoldOff),
            Some(Feel::Dry) => advice.push(Advice::WaterFirst),
            Some(Feel::Moist) | None => {}
        }
        let rain_stands = !self.hold_off && self.feel != Some(Feel::Dry);
        if rain_stands && litres < self.rain {
            advice.push(Advice::RainDidIt { litres: self.rain });
        }
        // Once the roots have filled it: before, there is no larger one for them.
        if self.container_too_small && self.rooted >= 1.0 {
            advice.push(Advice::ContainerTooSmall {
                used: self.demand.total(),
                easy_water: self.root_zone.easy_water,
            });
        }
        if litres > 0.0 {
            if self.waterings > 1 {
                advice.push(Advice::Split {
                    waterings: self.waterings,
                    each,
                });
            }
            if self.parts > 1 {
                advice.push(Advice::InParts {
                    parts: self.parts,
                    each: each / f64::from(self.parts),
                });
            }
            if self.rooted < 1.0 {
                advice.push(Advice::Pour(pour_where(self.rooted)));
            }
        }
        advice.extend(self.border_rhythm(group));
        if !group.place.is_outdoors() {
            advice.extend(self.set_advice());
            advice.extend(self.damp_path());
        }
        advice.truncate(MOST_ADVICE);
        advice
    }

    fn border_rhythm(&self, group: &Group) -> Option<Advice> {
        let used = self.demand.total();
        if !matches!(group.container, Container::Border) || self.hold_off || self.feel == Some(Feel::Dry) || used <= 0.0 {
            return None;
        }
        let days = (BORDER_SWING * self.root_zone.easy_water / used).floor().min(MOST_DAYS);
        (days >= 2.0).then(|| Advice::EveryFewDays {
            days: whole_days(days),
            litres: days * used,
        })
    }

    /// Whether to tap the trusses, or why fruit sets poorly; nothing when neither is so. For plants under cover.
    #[must_use]
    pub fn set_advice(&self) -> Option<Advice> {
        let read = |celsius: f64, assumed: bool| (!assumed).then_some(celsius);
        let assumed = self.assumptions.contains(&super::Assumption::Temperatures);
        let (hottest, coldest) = (self.weather.inside_maximum(), self.weather.inside_minimum());
        if read(coldest, assumed).is_some_and(|coldest| coldest < COLD_NIGHT) {
            return Some(Advice::SetLikelyPoor(SetPoor::ColdNight { below: COLD_NIGHT }));
        }
        if read(hottest, assumed).is_some_and(|hottest| hottest > HOT_DAY) {
            return Some(Advice::SetLikelyPoor(SetPoor::HotDay { above: HOT_DAY }));
        }
        if self.weather.humidity_percent.is_some_and(|humidity| humidity > CLINGING_HUMIDITY) {
            return Some(Advice::SetLikelyPoor(SetPoor::DampAir));
        }
        let (coolest, warmest) = POLLEN_RUNS;
        (self.weather.clearness >= BRIGHT_FROM && (coolest..=warmest).contains(&self.late_morning())).then_some(Advice::TapTrusses)
    }

    /// Temperature inside by late morning, °C: half-way from the day's mean to its highest (choice).
    #[must_use]
    pub fn late_morning(&self) -> f64 {
        f64::midpoint(self.demand.mean_temperature, self.weather.inside_maximum())
    }

    /// Whether to wet the path, for plants under cover.
    #[must_use]
    pub fn damp_path(&self) -> Option<Advice> {
        let dry = self.weather.humidity_percent.is_none_or(|humidity| humidity < DRY_AIR);
        (dry && self.weather.clearness >= BRIGHT_FROM && self.weather.inside_maximum() > DAMP_DOWN_FROM)
            .then_some(Advice::DampPath { above: DAMP_DOWN_FROM })
    }
}

/// A small count that is already whole and not negative.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "2 to 7 by the check and the limit above"
)]
const fn whole_days(days: f64) -> u32 {
    days as u32
}
