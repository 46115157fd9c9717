use super::{Area, Length, Temperature, Volume};

/// Kilograms in a pound avoirdupois (exact: Weights and Measures Act 1985).
const KILOGRAMS_PER_POUND: f64 = 0.453_592_37;
/// One mile an hour, m/s (exact: 1,609.344 m in 3,600 s).
const METRES_A_SECOND_PER_MILE_AN_HOUR: f64 = 0.447_04;

/// The measures a grower uses for volume, length and area.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitSystem {
    /// Imperial pints and gallons, feet and inches.
    #[default]
    Imperial,
    /// Litres, metres, millimetres.
    Metric,
    /// US liquid pints and gallons, feet and inches.
    Us,
}

/// The scale of the grower's thermometer.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum TemperatureScale {
    /// Degrees Celsius.
    #[default]
    Celsius,
    /// Degrees Fahrenheit.
    Fahrenheit,
}

/// All the units that one grower reads and types.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Volume, length and area.
    pub system: UnitSystem,
    /// Temperature.
    pub temperature: TemperatureScale,
}

/// The country that a tag of BCP 47 names, two letters such as `US`; empty where it names none.
#[must_use]
pub fn country_in(language: &str) -> &str {
    // A part of one letter begins what is no country.
    let mut parts = language.split('-').skip(1).take_while(|part| part.len() > 1);
    parts.find(|part| part.len() == 2).unwrap_or_default()
}

impl Units {
    /// How people usually measure where a browser speaks this language, a tag of BCP 47 such as `en-US`: by their own measures and in °F
    /// in the United States, as in Britain where it is told by the country or by the language alone, elsewhere in litres and metres
    /// (common practice, no source).
    #[must_use]
    pub fn usual_for(language: &str) -> Self {
        let spoken = language.split('-').next().unwrap_or_default();
        let country = country_in(language);
        let is = |country: &str, other: &str| country.eq_ignore_ascii_case(other);
        if is(country, "us") {
            return Self {
                system: UnitSystem::Us,
                temperature: TemperatureScale::Fahrenheit,
            };
        }
        let is_british = is(country, "gb") || (country.is_empty() && ["", "en", "cy", "gd"].iter().any(|own| is(spoken, own)));
        Self {
            system: if is_british { UnitSystem::Imperial } else { UnitSystem::Metric },
            temperature: TemperatureScale::Celsius,
        }
    }

    /// A typed temperature, in this grower's scale.
    #[must_use]
    pub const fn temperature(self, typed: f64) -> Temperature {
        match self.temperature {
            TemperatureScale::Celsius => Temperature::from_celsius(typed),
            TemperatureScale::Fahrenheit => Temperature::from_fahrenheit(typed),
        }
    }

    /// A temperature as this grower types it.
    #[must_use]
    pub const fn temperature_number(self, temperature: Temperature) -> f64 {
        match self.temperature {
            TemperatureScale::Celsius => temperature.celsius(),
            TemperatureScale::Fahrenheit => temperature.fahrenheit(),
        }
    }

    /// A typed height: feet, or metres.
    #[must_use]
    pub const fn height(self, typed: f64) -> Length {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => Length::from_feet(typed),
            UnitSystem::Metric => Length::from_metres(typed),
        }
    }

    /// A height as this grower types it: feet, or metres.
    #[must_use]
    pub const fn height_number(self, height: Length) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => height.feet(),
            UnitSystem::Metric => height.metres(),
        }
    }

    /// A typed depth of rain: inches in US units, otherwise millimetres (the unit of the rain gauges sold elsewhere).
    #[must_use]
    pub const fn rain(self, typed: f64) -> Length {
        match self.system {
            UnitSystem::Us => Length::from_inches(typed),
            UnitSystem::Imperial | UnitSystem::Metric => Length::from_millimetres(typed),
        }
    }

    /// A depth of rain as this grower types it.
    #[must_use]
    pub const fn rain_number(self, rain: Length) -> f64 {
        match self.system {
            UnitSystem::Us => rain.inches(),
            UnitSystem::Imperial | UnitSystem::Metric => rain.millimetres(),
        }
    }

    /// A typed width of a pot: inches, or centimetres.
    #[must_use]
    pub const fn width(self, typed: f64) -> Length {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => Length::from_inches(typed),
            UnitSystem::Metric => Length::from_centimetres(typed),
        }
    }

    /// A width of a pot as this grower types it: inches, or centimetres.
    #[must_use]
    pub const fn width_number(self, width: Length) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => width.inches(),
            UnitSystem::Metric => width.centimetres(),
        }
    }

    /// A typed area of ground: square feet, or square metres.
    #[must_use]
    pub const fn ground(self, typed: f64) -> Area {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => Area::from_square_feet(typed),
            UnitSystem::Metric => Area::from_square_metres(typed),
        }
    }

    /// An area of ground as this grower types it: square feet, or square metres.
    #[must_use]
    pub const fn ground_number(self, ground: Area) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => ground.square_feet(),
            UnitSystem::Metric => ground.square_metres(),
        }
    }

    /// A typed size of can: gallons of the system, or litres.
    #[must_use]
    pub const fn can(self, typed: f64) -> Volume {
        match self.system {
            UnitSystem::Imperial => Volume::from_imperial_gallons(typed),
            UnitSystem::Metric => Volume::from_litres(typed),
            UnitSystem::Us => Volume::from_us_gallons(typed),
        }
    }

    /// A size of can as this grower types it: gallons of the system, or litres.
    #[must_use]
    pub const fn can_number(self, can: Volume) -> f64 {
        match self.system {
            UnitSystem::Imperial => can.imperial_gallons(),
            UnitSystem::Metric => can.litres(),
            UnitSystem::Us => can.us_gallons(),
        }
    }

    /// A typed amount for a plant: pints of the system, or litres, as a jug is marked.
    #[must_use]
    pub const fn poured(self, typed: f64) -> Volume {
        match self.system {
            UnitSystem::Imperial => Volume::from_imperial_pints(typed),
            UnitSystem::Metric => Volume::from_litres(typed),
            UnitSystem::Us => Volume::from_us_pints(typed),
        }
    }

    /// A typed weight in kilograms: pounds, or kilograms.
    #[must_use]
    pub const fn weight(self, typed: f64) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => typed * KILOGRAMS_PER_POUND,
            UnitSystem::Metric => typed,
        }
    }

    /// A weight in kilograms as this grower types it: pounds, or kilograms.
    #[must_use]
    pub const fn weight_number(self, kilograms: f64) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => kilograms / KILOGRAMS_PER_POUND,
            UnitSystem::Metric => kilograms,
        }
    }

    /// A typed wind in metres a second: miles an hour, or metres a second.
    #[must_use]
    pub const fn wind(self, typed: f64) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => typed * METRES_A_SECOND_PER_MILE_AN_HOUR,
            UnitSystem::Metric => typed,
        }
    }

    /// A wind in metres a second as this grower types it: miles an hour, or metres a second.
    #[must_use]
    pub const fn wind_number(self, metres_a_second: f64) -> f64 {
        match self.system {
            UnitSystem::Imperial | UnitSystem::Us => metres_a_second / METRES_A_SECOND_PER_MILE_AN_HOUR,
            UnitSystem::Metric => metres_a_second,
        }
    }

    /// An amount for a plant in the unit that this grower's jug is marked in.
    #[must_use]
    pub const fn poured_number(self, poured: Volume) -> f64 {
        match self.system {
            UnitSystem::Imperial => poured.imperial_pints(),
            UnitSystem::Metric => poured.litres(),
            UnitSystem::Us => poured.us_pints(),
        }
    }
}
