use crate::almanac::{HUMIDITY_RANGE, LATITUDE_RANGE, RAIN_RANGE, TEMPERATURE_RANGE, WIND_RANGE};
use crate::feed::{CAP_RANGE, DENSITY_RANGE, FRUIT_RANGE, STOCK_RANGE};
use crate::pest::{LABEL_DAYS_RANGE, LABEL_USES_RANGE};
use crate::quantity::{Area, Length, Range, Temperature, TemperatureScale, UnitSystem, Units, Volume, bounded};
use crate::water::{
    AREA_RANGE, BAG_RANGE, BUTT_RANGE, COUNT_RANGE, DAYS_AWAY_RANGE, HEIGHT_RANGE, POT_VOLUME_RANGE, POT_WIDTH_RANGE, ROOF_RANGE,
    TRUSSES_RANGE,
};

/// Highest mean of a day, °C (limit: no plant stands more for long).
const MOST_MEAN: f64 = 40.0;
/// Cans that can be, litres.
const CAN_RANGE: Range = Range {
    what: "Can size",
    low: 0.5,
    high: 50.0,
    unit: " litres",
};
/// Plants that can share a bag.
const PLANTS_IN_BAG_RANGE: Range = Range {
    what: "Plants to a bag",
    low: 1.0,
    high: 8.0,
    unit: "",
};
/// Hours of sun that a day can have anywhere; the day's own daylight is checked with the weather.
const SUNSHINE_RANGE: Range = Range {
    what: "Hours of sun",
    low: 0.0,
    high: 24.0,
    unit: " hours",
};

/// Water for one plant on one day that can be, litres.
const GIVEN_RANGE: Range = Range {
    what: "Water given to each",
    low: 0.0,
    high: 50.0,
    unit: " litres",
};

/// Water that can stand in a butt, litres.
const LEVEL_RANGE: Range = Range {
    what: "Water left in the butt",
    low: 0.0,
    ..BUTT_RANGE
};

/// Weights of a pot with its plant that can be, kg.
const WEIGHT_RANGE: Range = Range {
    what: "Weight of a pot",
    low: 0.1,
    high: 100.0,
    unit: " kg",
};

/// Nitrogen that a feed can hold in one form, %.
const NITROGEN_RANGE: Range = Range {
    what: "Nitrate nitrogen",
    low: 0.0,
    high: 46.7,
    unit: " %",
};

/// Animals that can be counted.
const PEST_COUNT_RANGE: Range = Range {
    what: "Animals",
    low: 0.0,
    high: 9999.0,
    unit: "",
};
/// How much warmer it can be inside, K.
const WARMER_RANGE: Range = Range {
    what: "Warmer inside",
    low: -5.0,
    high: 25.0,
    unit: " °C",
};

/// A number that a grower can type, with its unit, its range and the step of its buttons.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Field {
    /// Hours of bright sun yesterday.
    SunshineHours,
    /// Maximum of the thermometer; held in °C.
    Warmest,
    /// Minimum of the thermometer; held in °C.
    Coolest,
    /// Rain yesterday; held in mm.
    Rain,
    /// Mean relative humidity, %.
    Humidity,
    /// Mean wind; held in m/s.
    Wind,
    /// Height of a plant; held in m.
    Height,
    /// Trusses set.
    Trusses,
    /// Plants in the group.
    Plants,
    /// Plants that share a grow-bag.
    PlantsInBag,
    /// Compost in a grow-bag, litres.
    BagSize,
    /// Compost in a pot or basket, litres.
    PotSize,
    /// Width of a pot at the rim; held in m.
    PotWidth,
    /// Ground for each plant; held in m².
    Ground,
    /// Size of the watering can; held in litres.
    Can,
    /// Degrees north.
    Latitude,
    /// Water that was given to each plant on a day; held in litres.
    Given,
    /// A pot when it has just drained; held in kg.
    PotDrained,
    /// The same pot this morning; held in kg.
    PotNow,
    /// Water until a plant's compost began to drip; held in litres.
    Drip,
    /// Height at which the plants are stopped; held in m.
    StoppedAt,
    /// What the water butt holds when full; held in litres.
    ButtSize,
    /// What was in it when it was read; held in litres.
    ButtLevel,
    /// The roof that fills it, from above; held in m².
    Roof,
    /// Days away.
    DaysAway,
    /// What a litre of feed weighs, kg.
    FeedWeighs,
    /// Nitrate nitrogen of the feed, %.
    Nitrate,
    /// Ammonium nitrogen of the feed, %.
    Ammonium,
    /// Urea nitrogen of the feed, %.
    Urea,
    /// What the cap of the feed holds, ml.
    Cap,
    /// Feed for a plant each time; held in litres.
    FeedEach,
    /// Feeds a week.
    FeedsAWeek,
    /// Fruit that is expected of a plant; held in kg.
    Fruit,
    /// How many times as strong as the can a stock is.
    Stock,
    /// Daily mean where a pest is; held in °C.
    PestMean,
    /// How much warmer it is inside by day, in °C whatever the scale.
    WarmerByDay,
    /// The same by night.
    WarmerByNight,
    /// Least days between two uses, by the label.
    LeastDays,
    /// Most uses, by the label.
    MostUses,
    /// Days before picking, by the label.
    DaysBeforePicking,
    /// Animals that were counted.
    PestCount,
}

impl Field {
    /// Its word: the `name` of its field on the page, and its key in what is stored. It never changes.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::SunshineHours => "sunshine-hours",
            Self::Warmest => "warmest",
            Self::Coolest => "coolest",
            Self::Rain => "rain",
            Self::Humidity => "humidity",
            Self::Wind => "wind",
            Self::Height => "height",
            Self::Trusses => "trusses",
            Self::Plants => "plants",
            Self::PlantsInBag => "plants-in-bag",
            Self::BagSize => "bag-size",
            Self::PotSize => "pot-size",
            Self::PotWidth => "pot-width",
            Self::Ground => "ground",
            Self::Can => "can",
            Self::Latitude => "latitude",
            Self::Given => "given",
            Self::PotDrained => "pot-drained",
            Self::PotNow => "pot-now",
            Self::Drip => "drip",
            Self::StoppedAt => "stopped-at",
            Self::ButtSize => "butt-size",
            Self::ButtLevel => "butt-level",
            Self::Roof => "roof",
            Self::DaysAway => "days-away",
            Self::FeedWeighs => "feed-weighs",
            Self::Nitrate => "nitrate-nitrogen",
            Self::Ammonium => "ammonium-nitrogen",
            Self::Urea => "urea-nitrogen",
            Self::Cap => "cap",
            Self::Stock => "stock",
            Self::FeedEach => "feed-each",
            Self::FeedsAWeek => "feeds-a-week",
            Self::Fruit => "fruit",
            Self::PestMean => "pest-mean",
            Self::WarmerByDay => "warmer-by-day",
            Self::WarmerByNight => "warmer-by-night",
            Self::LeastDays => "least-days",
            Self::MostUses => "most-uses",
            Self::DaysBeforePicking => "days-before-picking",
            Self::PestCount => "pest-count",
        }
    }

    /// The range in SI (limit).
    pub(super) const fn si_range(self) -> Range {
        match self {
            Self::SunshineHours => SUNSHINE_RANGE,
            Self::Warmest => Range {
                what: "Warmest",
                ..TEMPERATURE_RANGE
            },
            Self::Coolest => Range {
                what: "Coolest",
                ..TEMPERATURE_RANGE
            },
            Self::Rain => RAIN_RANGE,
            Self::Humidity => HUMIDITY_RANGE,
            Self::Wind => WIND_RANGE,
            Self::Height => HEIGHT_RANGE,
            Self::StoppedAt => Range {
                what: "The height to stop at",
                ..HEIGHT_RANGE
            },
            Self::Trusses => TRUSSES_RANGE,
            Self::Plants => COUNT_RANGE,
            Self::PlantsInBag => PLANTS_IN_BAG_RANGE,
            Self::BagSize => BAG_RANGE,
            Self::PotSize => POT_VOLUME_RANGE,
            Self::PotWidth => POT_WIDTH_RANGE,
            Self::Ground => AREA_RANGE,
            Self::Can => CAN_RANGE,
            Self::Latitude => LATITUDE_RANGE,
            Self::Given => GIVEN_RANGE,
            Self::PotDrained | Self::PotNow => WEIGHT_RANGE,
            Self::Drip => Range {
                what: "Water until it drips",
                ..GIVEN_RANGE
            },
            Self::ButtSize => BUTT_RANGE,
            Self::ButtLevel => LEVEL_RANGE,
            Self::Roof => ROOF_RANGE,
            Self::DaysAway => DAYS_AWAY_RANGE,
            Self::FeedWeighs => DENSITY_RANGE,
            Self::Nitrate => NITROGEN_RANGE,
            Self::Ammonium => Range {
                what: "Ammonium nitrogen",
                ..NITROGEN_RANGE
            },
            Self::Urea => Range {
                what: "Urea nitrogen",
                ..NITROGEN_RANGE
            },
            Self::Cap => CAP_RANGE,
            Self::FeedEach => Range {
                what: "Feed for each",
                low: 0.05,
                high: 10.0,
                unit: " litres",
            },
            Self::FeedsAWeek => Range {
                what: "Feeds a week",
                low: 0.5,
                high: 7.0,
                unit: "",
            },
            Self::Fruit => FRUIT_RANGE,
            Self::Stock => STOCK_RANGE,
            Self::PestMean => Range {
                what: "Daily mean",
                high: MOST_MEAN,
                ..TEMPERATURE_RANGE
            },
            Self::WarmerByDay | Self::WarmerByNight => WARMER_RANGE,
            Self::LeastDays | Self::DaysBeforePicking => LABEL_DAYS_RANGE,
            Self::MostUses => LABEL_USES_RANGE,
            Self::PestCount => PEST_COUNT_RANGE,
        }
    }

    /// The range as this grower types it, with the unit's words. Its ends are moved outwards to what is printed, so that
    /// whoever types a printed end is understood (limit).
    #[must_use]
    pub fn range(self, units: Units) -> Range {
        let range = self.si_range();
        let printed = (0..self.decimals(units)).fold(1.0, |unit: f64, _| unit * 10.0);
        // A hair, so that an end which is printed exactly stays where it is.
        let (low, high) = (
            self.typed(units, range.low) * printed + 1e-6,
            self.typed(units, range.high) * printed - 1e-6,
        );
        Range {
            low: low.floor() / printed,
            high: high.ceil() / printed,
            unit: self.unit(units),
            ..range
        }
    }

    /// The unit's words after a number, with a leading space where one is needed.
    #[must_use]
    pub const fn unit(self, units: Units) -> &'static str {
        let metric = matches!(units.system, UnitSystem::Metric);
        match self {
            Self::Warmest | Self::Coolest | Self::PestMean => match units.temperature {
                TemperatureScale::Celsius => " °C",
                TemperatureScale::Fahrenheit => " °F",
            },
            Self::Rain if matches!(units.system, UnitSystem::Us) => " inches",
            Self::Height | Self::StoppedAt if metric => " m",
            Self::Height | Self::StoppedAt => " ft",
            Self::PotDrained | Self::PotNow | Self::Fruit if !metric => " lb",
            Self::Wind if !metric => " mph",
            Self::PotWidth if metric => " cm",
            Self::PotWidth => " inches",
            Self::Ground | Self::Roof if metric => " m²",
            Self::Ground | Self::Roof => " sq ft",
            Self::Given | Self::Drip | Self::FeedEach if metric => " litres",
            Self::Given | Self::Drip | Self::FeedEach if matches!(units.system, UnitSystem::Us) => " US pints",
            Self::Given | Self::Drip | Self::FeedEach => " pints",
            Self::Can | Self::ButtSize | Self::ButtLevel => match units.system {
                UnitSystem::Imperial => " gallons",
                UnitSystem::Metric => " litres",
                UnitSystem::Us => " US gallons",
            },
            _ => self.si_range().unit,
        }
    }

    /// What one press of the plus button adds, in the typed unit (choice).
    #[must_use]
    pub const fn step(self, units: Units) -> f64 {
        let metric = matches!(units.system, UnitSystem::Metric);
        match self {
            Self::Height | Self::StoppedAt | Self::Given | Self::Drip | Self::FeedEach | Self::PotDrained | Self::PotNow | Self::Fruit
                if metric =>
            {
                0.1
            }
            Self::Rain if matches!(units.system, UnitSystem::Us) => 0.1,
            Self::Ground if metric => 0.05,
            Self::Given | Self::Drip | Self::FeedEach | Self::PotDrained | Self::PotNow | Self::Fruit => 0.25,
            Self::Height
            | Self::StoppedAt
            | Self::SunshineHours
            | Self::Ground
            | Self::Can
            | Self::Latitude
            | Self::FeedsAWeek
            | Self::Nitrate
            | Self::Ammonium
            | Self::Urea => 0.5,
            Self::FeedWeighs => 0.05,
            Self::Humidity | Self::BagSize => 5.0,
            Self::Stock => 10.0,
            Self::ButtLevel if metric => 5.0,
            Self::ButtSize if metric => 10.0,
            Self::Roof if !metric => 10.0,
            _ => 1.0,
        }
    }

    /// A value to start stepping from where nothing stands and nothing is assumed, in SI (choice).
    #[must_use]
    pub const fn middle(self) -> f64 {
        if matches!(self, Self::LeastDays | Self::MostUses | Self::DaysBeforePicking | Self::PestCount) {
            return 0.0;
        }
        match self {
            // A pot of ten litres, a litre of water, a cane of six feet, a cap.
            Self::PotDrained | Self::PotNow => 8.0,
            Self::Cap => 20.0,
            Self::Drip | Self::Nitrate | Self::Ammonium | Self::Urea => 1.0,
            Self::StoppedAt => 1.8,
            _ => {
                let Range { low, high, .. } = self.si_range();
                f64::midpoint(low, high)
            }
        }
    }

    /// Decimals that a converted or stepped value is printed with, at most.
    #[must_use]
    pub const fn decimals(self, units: Units) -> usize {
        let metric = matches!(units.system, UnitSystem::Metric);
        match self {
            Self::Trusses
            | Self::Plants
            | Self::PlantsInBag
            | Self::Humidity
            | Self::DaysAway
            | Self::LeastDays
            | Self::MostUses
            | Self::DaysBeforePicking
            | Self::PestCount => 0,
            Self::Height | Self::StoppedAt | Self::Ground if metric => 2,
            Self::Can
            | Self::Rain
            | Self::Given
            | Self::Drip
            | Self::PotDrained
            | Self::PotNow
            | Self::FeedEach
            | Self::Fruit
            | Self::FeedWeighs
            | Self::Nitrate
            | Self::Ammonium
            | Self::Urea => 2,
            _ => 1,
        }
    }

    /// Whether only whole numbers can be.
    #[must_use]
    pub const fn is_whole(self) -> bool {
        matches!(
            self,
            Self::Trusses
                | Self::Plants
                | Self::PlantsInBag
                | Self::DaysAway
                | Self::LeastDays
                | Self::MostUses
                | Self::DaysBeforePicking
                | Self::PestCount
        )
    }

    /// A typed number in SI, within what can be.
    #[must_use]
    pub const fn held(self, units: Units, typed: f64) -> f64 {
        let held = match self {
            Self::Warmest | Self::Coolest | Self::PestMean => units.temperature(typed).celsius(),
            Self::Rain => units.rain(typed).millimetres(),
            Self::Height | Self::StoppedAt => units.height(typed).metres(),
            Self::PotDrained | Self::PotNow | Self::Fruit => units.weight(typed),
            Self::Wind => units.wind(typed),
            Self::PotWidth => units.width(typed).metres(),
            Self::Ground | Self::Roof => units.ground(typed).square_metres(),
            Self::Can | Self::ButtSize | Self::ButtLevel => units.can(typed).litres(),
            Self::Given | Self::Drip | Self::FeedEach => units.poured(typed).litres(),
            _ => typed,
        };
        let range = self.si_range();
        bounded(held, range.low, range.high)
    }

    /// A number in SI as this grower types it.
    #[must_use]
    pub const fn typed(self, units: Units, held: f64) -> f64 {
        match self {
            Self::Warmest | Self::Coolest | Self::PestMean => units.temperature_number(Temperature::from_celsius(held)),
            Self::Rain => units.rain_number(Length::from_millimetres(held)),
            Self::Height | Self::StoppedAt => units.height_number(Length::from_metres(held)),
            Self::PotDrained | Self::PotNow | Self::Fruit => units.weight_number(held),
            Self::Wind => units.wind_number(held),
            Self::PotWidth => units.width_number(Length::from_metres(held)),
            Self::Ground | Self::Roof => units.ground_number(Area::from_square_metres(held)),
            Self::Can | Self::ButtSize | Self::ButtLevel => units.can_number(Volume::from_litres(held)),
            Self::Given | Self::Drip | Self::FeedEach => units.poured_number(Volume::from_litres(held)),
            _ => held,
        }
    }
}
