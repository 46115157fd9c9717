//! Random mornings: any that the types allow, and those that growers have.

use first_truss::almanac::{CivilDay, Latitude, Sky, Sun, SunOnDay, Thermometer, Yesterday, sun_on};
use first_truss::water::{
    Container, Cover, Dose, Exposure, Feel, Group, Leafiness, Medium, Place, PlantSize, PlantedFrom, WaterError, morning_water,
};
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Radiation above the air from which a clearer sky always leaves more energy outdoors, MJ/m². Below it, from October
/// on and at 60° from the last third of September, a clear sky may lose more heat by Eq. 39 than it lets in.
pub const SUN_WINS_FROM: f64 = 20.0;

/// Everything that one dose is worked out from.
#[derive(Clone, Debug)]
pub struct Morning {
    pub group: Group,
    pub yesterday: Yesterday,
    pub feel: Option<Feel>,
    pub latitude: Latitude,
    pub today: CivilDay,
}

impl Morning {
    pub fn dose(&self) -> Result<Dose, WaterError> {
        morning_water(&self.group, &self.yesterday, self.feel, self.latitude, self.today)
    }

    /// The whole day's litres for a plant, where there is an answer.
    pub fn litres(&self) -> Option<f64> {
        self.dose().ok().map(|dose| dose.per_plant.litres())
    }

    /// The same morning with something about it changed.
    pub fn with(&self, change: impl FnOnce(&mut Self)) -> Self {
        let mut changed = self.clone();
        change(&mut changed);
        changed
    }

    fn sun(&self) -> SunOnDay {
        sun_on(self.latitude.degrees_north(), self.today.yesterday().day_of_year())
    }

    /// Hours from sunrise to sunset of the day that was.
    pub fn daylight(&self) -> f64 {
        self.sun().daylight_hours
    }

    /// Whether more sun means more energy to evaporate with: always under cover, outdoors while the sun is high.
    pub fn gains_by_sun(&self) -> bool {
        !self.group.place.is_outdoors() || self.sun().extraterrestrial_radiation >= SUN_WINS_FROM
    }
}

pub fn civil_day(year: i16, month: i8, day: i8) -> Option<CivilDay> {
    CivilDay::new(year, month, day).ok()
}

/// Any day that the calendar has.
pub fn any_day() -> impl Strategy<Value = CivilDay> {
    (1_i16..=9998, 1_i8..=12, 1_i8..=31).prop_filter_map("no such day", |(year, month, day)| civil_day(year, month, day))
}

/// A day from April to October.
pub fn growing_day() -> impl Strategy<Value = CivilDay> {
    (2024_i16..=2027, 4_i8..=10, 1_i8..=31).prop_filter_map("no such day", |(year, month, day)| civil_day(year, month, day))
}

pub fn latitude_within(degrees: std::ops::RangeInclusive<f64>) -> impl Strategy<Value = Latitude> {
    degrees.prop_filter_map("no such latitude", |degrees| Latitude::from_degrees_north(degrees).ok())
}

/// Mostly a possible number, sometimes any that a computer can hold.
pub fn number(possible: std::ops::RangeInclusive<f64>) -> impl Strategy<Value = f64> {
    prop_oneof![
        8 => possible,
        1 => any::<f64>(),
        1 => select(vec![
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY,
            f64::MAX,
            f64::MIN,
            f64::MIN_POSITIVE,
            5e-324,
            -5e-324,
            0.0,
            -0.0,
            1e9,
            -1e9,
        ]),
    ]
}

pub fn any_cover() -> impl Strategy<Value = Place> {
    let covers = vec![
        Cover::CleanGlass,
        Cover::Glass,
        Cover::OldGlass,
        Cover::TwinWall,
        Cover::ThickTwinWall,
        Cover::NewPolythene,
        Cover::OldPolythene,
    ];
    (select(covers), any::<bool>()).prop_map(|(cover, shaded)| Place::Covered { cover, shaded })
}

pub fn any_outdoors() -> impl Strategy<Value = Place> {
    select(vec![Exposure::Sheltered, Exposure::Usual, Exposure::Exposed]).prop_map(|exposure| Place::Outdoors { exposure })
}

pub fn any_feel() -> impl Strategy<Value = Option<Feel>> {
    select(vec![None, Some(Feel::Dry), Some(Feel::Moist), Some(Feel::Sodden)])
}

pub fn any_container() -> impl Strategy<Value = Container> {
    prop_oneof![
        (number(5.0..=200.0), any::<u32>()).prop_map(|(litres, plants)| Container::GrowBag { litres, plants }),
        number(0.2..=500.0).prop_map(|litres| Container::Pot { litres }),
        number(0.2..=500.0).prop_map(|litres| Container::Basket { litres }),
        Just(Container::Border),
        Just(Container::Ring),
    ]
}

/// A container of a size that is sold.
pub fn usual_container() -> impl Strategy<Value = Container> {
    prop_oneof![
        (20.0..=60.0, 1_u32..=4).prop_map(|(litres, plants)| Container::GrowBag { litres, plants }),
        (1.0..=40.0).prop_map(|litres| Container::Pot { litres }),
        (4.0..=20.0).prop_map(|litres| Container::Basket { litres }),
        Just(Container::Border),
        Just(Container::Ring),
    ]
}

pub fn any_sun() -> impl Strategy<Value = Option<Sun>> {
    prop_oneof![
        Just(None),
        select(Sky::ALL.to_vec()).prop_map(|sky| Some(Sun::Word(sky))),
        number(0.0..=16.0).prop_map(|hours| Some(Sun::Hours(hours))),
    ]
}

pub fn any_thermometer() -> impl Strategy<Value = Thermometer> {
    select(vec![Thermometer::Inside, Thermometer::Outside])
}

pub fn any_leafiness() -> impl Strategy<Value = Leafiness> {
    select(vec![Leafiness::Sparse, Leafiness::Usual, Leafiness::Bushy])
}

pub fn any_medium() -> impl Strategy<Value = Medium> {
    select(vec![Medium::Peat, Medium::PeatFree, Medium::Coir, Medium::Loam])
}

pub fn any_yesterday() -> impl Strategy<Value = Yesterday> {
    (
        any_sun(),
        option::of(number(-30.0..=60.0)),
        option::of(number(-30.0..=60.0)),
        any_thermometer(),
        option::of(number(0.0..=500.0)),
        option::of(number(1.0..=100.0)),
        option::of(number(0.0..=40.0)),
    )
        .prop_map(
            |(sun, warmest, coolest, thermometer, rain_millimetres, humidity_percent, wind_metres_per_second)| Yesterday {
                sun,
                warmest,
                coolest,
                thermometer,
                rain_millimetres,
                humidity_percent,
                wind_metres_per_second,
            },
        )
}

pub fn any_group() -> impl Strategy<Value = Group> {
    let stands = (
        prop_oneof![4 => 0_u32..=999, 1 => any::<u32>()],
        prop_oneof![any_cover(), any_outdoors()],
        any_container(),
        any_medium(),
        any::<bool>(),
        option::of(any::<bool>()),
    );
    let plant = (
        option::of(number(0.0..=4.0)),
        option::of(number(0.0..=20.0)),
        any_leafiness(),
        option::of(number(0.05..=0.8)),
        option::weighted(0.3, any_day()),
        select(vec![PlantedFrom::Pot7, PlantedFrom::Pot9, PlantedFrom::Pot13]),
    );
    (stands, plant).prop_map(
        |((count, place, container, medium, settled, drains), (height_metres, trusses, leafiness, ground, planted, planted_from))| Group {
            count,
            place,
            container,
            medium,
            settled,
            drains,
            size: PlantSize { height_metres, trusses },
            leafiness,
            ground,
            planted,
            planted_from,
            ball: None,
        },
    )
}

/// Anything at all that types allow.
pub fn any_morning() -> impl Strategy<Value = Morning> {
    (any_group(), any_yesterday(), any_feel(), latitude_within(-90.0..=90.0), any_day()).prop_map(
        |(group, yesterday, feel, latitude, today)| Morning {
            group,
            yesterday,
            feel,
            latitude,
            today,
        },
    )
}

/// A morning as growers have them, where the sum was tried: 45 to 60° north, April to October, no number absurd.
pub fn growing_morning(place: impl Strategy<Value = Place>) -> impl Strategy<Value = Morning> {
    let weather = (0.0..=1.0, -5.0..=22.0, 0.5..=18.0, option::of(0.0..=8.0));
    let stands = (place, usual_container(), any_medium(), option::of(any::<bool>()));
    let plant = (0.05..=2.5, option::of(0.0..=12.0), any_leafiness(), 0.1..=0.8);
    let rest = (
        select(vec![None, Some(Feel::Dry), Some(Feel::Moist)]),
        latitude_within(45.0..=60.0),
        growing_day(),
    );
    (weather, stands, plant, rest).prop_map(
        |(
            (sun_share, coolest, range, wind_metres_per_second),
            (place, container, medium, drains),
            (height, trusses, leafiness, ground),
            (feel, latitude, today),
        )| {
            let mut morning = Morning {
                group: Group {
                    count: 1,
                    place,
                    container,
                    medium,
                    drains,
                    size: PlantSize {
                        height_metres: Some(height),
                        trusses,
                    },
                    leafiness,
                    ground: Some(ground),
                    ..Group::default()
                },
                yesterday: Yesterday {
                    warmest: Some(coolest + range),
                    coolest: Some(coolest),
                    wind_metres_per_second,
                    ..Yesterday::default()
                },
                feel,
                latitude,
                today,
            };
            morning.yesterday.sun = Some(Sun::Hours(sun_share * morning.daylight()));
            morning
        },
    )
}
