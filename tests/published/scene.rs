//! A grower's morning, read from the inputs of a case.
//!
//! What a case leaves out is what the program assumes, but for the place: 52° north.

use first_truss::almanac::{CivilDay, Latitude, Sky, Sun, Thermometer, Yesterday, sun_on, sunshine_from_clearness};
use first_truss::water::{
    Advice, Care, Container, Cover, DayRecord, Dose, Exposure, Feel, Group, Leafiness, Medium, Place, PlantSize, PlantedFrom, Readings,
    Records, Season, WaterError, morning_water, season, volume_of_pot,
};

use super::case::Inputs;

/// Latitude of a case that names none, degrees north.
const LATITUDE: f64 = 52.0;

/// Depth of compost in a pot over its width at the rim, as the program states it.
const POT_DEPTH: f64 = 0.82;

/// Volume of a hanging basket over the cube of its width, as the program states it.
const BASKET_SHAPE: f64 = 0.223;

/// Weather of the dose table by its name, as day of the year, sky, warmest and coolest outside, °C.
const NAMED_WEATHER: [(&str, u16, Sky, f64, f64); 12] = [
    ("April clear", 105, Sky::Clear, 16.0, 3.0),
    ("April mixed", 105, Sky::Mixed, 12.5, 4.5),
    ("April dull", 105, Sky::Dull, 9.5, 5.5),
    ("June clear", 166, Sky::Clear, 24.0, 10.0),
    ("June mixed", 166, Sky::Mixed, 19.5, 10.5),
    ("June dull", 166, Sky::Dull, 15.0, 11.0),
    ("July clear", 196, Sky::Clear, 27.0, 13.0),
    ("July mixed", 196, Sky::Mixed, 21.5, 12.5),
    ("July dull", 196, Sky::Dull, 17.5, 13.0),
    ("September clear", 258, Sky::Clear, 22.0, 9.0),
    ("September mixed", 258, Sky::Mixed, 18.0, 10.0),
    ("September dull", 258, Sky::Dull, 15.0, 11.0),
];

/// A named day's weather, where the case names one.
struct NamedWeather {
    day_of_year: u16,
    sky: Sky,
    warmest: f64,
    coolest: f64,
}

impl NamedWeather {
    fn read(inputs: &Inputs) -> Result<Option<Self>, String> {
        if !inputs.has("weather") {
            return Ok(None);
        }
        let wanted = inputs.word("weather")?;
        let found = NAMED_WEATHER.into_iter().find(|(name, ..)| *name == wanted);
        let (_, day_of_year, sky, warmest, coolest) = found.ok_or_else(|| format!("no weather “{wanted}”"))?;
        Ok(Some(Self {
            day_of_year,
            sky,
            warmest,
            coolest,
        }))
    }
}

/// Everything that one dose is worked out from.
#[derive(Clone, Debug)]
pub struct Scene {
    pub group: Group,
    pub yesterday: Yesterday,
    pub feel: Option<Feel>,
    pub latitude: Latitude,
    pub today: CivilDay,
    /// Litres poured for a plant on the days before, yesterday's last; all of them with yesterday's weather.
    pub given: Vec<f64>,
}

impl Scene {
    /// Reads all inputs of a morning.
    pub fn read(inputs: &Inputs) -> Result<Self, String> {
        let latitude = Latitude::from_degrees_north(inputs.number_or("latitude", LATITUDE)?).map_err(|error| error.to_string())?;
        let told_of = day_told_of(inputs)?;
        Ok(Self {
            group: group(inputs)?,
            yesterday: yesterday(inputs, latitude, told_of)?,
            feel: feel(inputs)?,
            latitude,
            today: told_of.tomorrow(),
            given: given(inputs)?,
        })
    }

    /// The dose of that morning.
    pub fn dose(&self) -> Result<Dose, WaterError> {
        if self.given.is_empty() {
            return morning_water(&self.group, &self.yesterday, self.feel, self.latitude, self.today);
        }
        Ok(self.season()?.dose)
    }

    /// The advice of that morning.
    pub fn advice(&self) -> Result<Vec<Advice>, WaterError> {
        if self.given.is_empty() {
            return Ok(self.dose()?.advice(&self.group));
        }
        Ok(self.season()?.advice(&self.group))
    }

    /// The days that led to that morning.
    fn season(&self) -> Result<Season, WaterError> {
        let past = (1..).zip(self.given.iter().rev()).map(|(back, &litres)| DayRecord {
            day: self.today.days_later(-back),
            weather: Some(self.yesterday),
            given: Some(litres),
            ..DayRecord::default()
        });
        let this_morning = DayRecord {
            day: self.today,
            readings: Readings {
                feel: self.feel,
                ..Readings::default()
            },
            ..DayRecord::default()
        };
        let days: Vec<_> = past.chain([this_morning]).collect();
        let records = Records {
            days: &days,
            care: Care::of(&self.group),
            ..Records::new(&self.group)
        };
        season(&records, self.latitude, self.today)
    }
}

/// Litres, parted by spaces.
fn given(inputs: &Inputs) -> Result<Vec<f64>, String> {
    if !inputs.has("given") {
        return Ok(Vec::new());
    }
    let litres = inputs.word("given")?.split(' ').map(str::parse);
    litres.collect::<Result<_, _>>().map_err(|error| format!("given: {error}"))
}

/// The day that yesterday was: the day before a morning, that of a named weather, or by its number in an ordinary year.
pub fn day_told_of(inputs: &Inputs) -> Result<CivilDay, String> {
    if inputs.has("morning") {
        let morning: CivilDay = inputs.word("morning")?.parse().map_err(|error| format!("{error}"))?;
        return Ok(morning.yesterday());
    }
    let day_of_year = match NamedWeather::read(inputs)? {
        Some(weather) => weather.day_of_year,
        None => inputs.whole("day_of_year")?,
    };
    let new_year = CivilDay::new(2025, 1, 1).map_err(|error| error.to_string())?;
    Ok((1..day_of_year).fold(new_year, |day, _| day.tomorrow()))
}

/// A number that may be missing.
fn maybe(inputs: &Inputs, key: &str) -> Result<Option<f64>, String> {
    inputs.has(key).then(|| inputs.number(key)).transpose()
}

fn yesterday(inputs: &Inputs, latitude: Latitude, told_of: CivilDay) -> Result<Yesterday, String> {
    let named = NamedWeather::read(inputs)?;
    let reading = |key: &str, named: Option<f64>| Ok::<_, String>(maybe(inputs, key)?.or(named));
    let sun = if inputs.has("sky") {
        Some(Sun::Word(sky(inputs.word("sky")?)?))
    } else if inputs.has("sun_hours") {
        Some(Sun::Hours(inputs.number("sun_hours")?))
    } else if inputs.has("clearness") {
        let daylight = sun_on(latitude.degrees_north(), told_of.day_of_year()).daylight_hours;
        Some(Sun::Hours(sunshine_from_clearness(inputs.number("clearness")?) * daylight))
    } else {
        named.as_ref().map(|weather| Sun::Word(weather.sky))
    };
    Ok(Yesterday {
        sun,
        warmest: reading("warmest", named.as_ref().map(|weather| weather.warmest))?,
        coolest: reading("coolest", named.as_ref().map(|weather| weather.coolest))?,
        thermometer: if inputs.flag("read_inside")? {
            Thermometer::Inside
        } else {
            Thermometer::Outside
        },
        rain_millimetres: maybe(inputs, "rain")?,
        humidity_percent: maybe(inputs, "humidity")?,
        wind_metres_per_second: maybe(inputs, "wind")?,
    })
}

fn sky(word: &str) -> Result<Sky, String> {
    Ok(match word {
        "clear" => Sky::Clear,
        "bright" => Sky::Bright,
        "mixed" => Sky::Mixed,
        "dull" => Sky::Dull,
        "dark" => Sky::Dark,
        other => return Err(format!("no sky “{other}”")),
    })
}

fn feel(inputs: &Inputs) -> Result<Option<Feel>, String> {
    if !inputs.has("feel") {
        return Ok(None);
    }
    Ok(Some(match inputs.word("feel")? {
        "dry" => Feel::Dry,
        "moist" => Feel::Moist,
        "sodden" => Feel::Sodden,
        other => return Err(format!("no feel “{other}”")),
    }))
}

/// The plants of a case.
pub fn group(inputs: &Inputs) -> Result<Group, String> {
    Ok(Group {
        count: if inputs.has("count") { inputs.whole("count")? } else { 1 },
        place: place(inputs)?,
        container: container(inputs)?,
        medium: medium(inputs)?,
        settled: inputs.flag("settled")?,
        drains: inputs.has("drains").then(|| inputs.flag("drains")).transpose()?,
        size: size(inputs)?,
        leafiness: leafiness(inputs)?,
        ground: maybe(inputs, "ground")?,
        planted: planted(inputs)?,
        planted_from: planted_from(inputs)?,
        ball: None,
    })
}

/// The four plants of the dose table by their letters, or a height and trusses.
fn size(inputs: &Inputs) -> Result<PlantSize, String> {
    if !inputs.has("plant") {
        return Ok(PlantSize {
            height_metres: maybe(inputs, "height")?,
            trusses: maybe(inputs, "trusses")?,
        });
    }
    let (height, trusses) = match inputs.word("plant")? {
        "S" => (0.3, 0.0),
        "M" => (0.7, 2.0),
        "T" => (1.2, 5.0),
        "E" => (1.8, 7.0),
        other => return Err(format!("no plant “{other}”")),
    };
    Ok(PlantSize {
        height_metres: Some(height),
        trusses: Some(trusses),
    })
}

fn place(inputs: &Inputs) -> Result<Place, String> {
    let shaded = inputs.flag("shaded")?;
    let covered = |cover| Place::Covered { cover, shaded };
    let outdoors = |exposure| Place::Outdoors { exposure };
    if !inputs.has("place") {
        return Ok(covered(Cover::Glass));
    }
    Ok(match inputs.word("place")? {
        "clean glass" => covered(Cover::CleanGlass),
        "glass" => covered(Cover::Glass),
        "old glass" => covered(Cover::OldGlass),
        "twin-wall" => covered(Cover::TwinWall),
        "thick twin-wall" => covered(Cover::ThickTwinWall),
        "new polythene" => covered(Cover::NewPolythene),
        "old polythene" => covered(Cover::OldPolythene),
        "sheltered" => outdoors(Exposure::Sheltered),
        "outdoors" => outdoors(Exposure::Usual),
        "exposed" => outdoors(Exposure::Exposed),
        other => return Err(format!("no place “{other}”")),
    })
}

/// A container with its size in litres, in the width or opening of its rim, or in its depth.
fn container(inputs: &Inputs) -> Result<Container, String> {
    let pot = |width: f64| Container::Pot {
        litres: volume_of_pot(width),
    };
    if !inputs.has("container") {
        return Ok(Container::default());
    }
    Ok(match inputs.word("container")? {
        "bag" => Container::GrowBag {
            litres: inputs.number_or("litres", 35.0)?,
            plants: if inputs.has("plants_in_bag") {
                inputs.whole("plants_in_bag")?
            } else {
                3
            },
        },
        "pot" if inputs.has("opening") => pot(2.0 * (inputs.number("opening")? / std::f64::consts::PI).sqrt()),
        "pot" if inputs.has("depth_cm") => pot(inputs.number("depth_cm")? / 100.0 / POT_DEPTH),
        "pot" if inputs.has("width_cm") => pot(inputs.number("width_cm")? / 100.0),
        "pot" => Container::Pot {
            litres: inputs.number("litres")?,
        },
        "basket" if inputs.has("width_cm") => Container::Basket {
            litres: BASKET_SHAPE * (inputs.number("width_cm")? / 100.0).powi(3) * 1000.0,
        },
        "basket" => Container::Basket {
            litres: inputs.number("litres")?,
        },
        "border" => Container::Border,
        "ring" => Container::Ring,
        other => return Err(format!("no container “{other}”")),
    })
}

fn medium(inputs: &Inputs) -> Result<Medium, String> {
    if !inputs.has("medium") {
        return Ok(Medium::default());
    }
    Ok(match inputs.word("medium")? {
        "peat" => Medium::Peat,
        "peat-free" => Medium::PeatFree,
        "coir" => Medium::Coir,
        "loam" => Medium::Loam,
        other => return Err(format!("no medium “{other}”")),
    })
}

fn leafiness(inputs: &Inputs) -> Result<Leafiness, String> {
    if !inputs.has("leafiness") {
        return Ok(Leafiness::default());
    }
    Ok(match inputs.word("leafiness")? {
        "sparse" => Leafiness::Sparse,
        "usual" => Leafiness::Usual,
        "bushy" => Leafiness::Bushy,
        other => return Err(format!("no leafiness “{other}”")),
    })
}

fn planted(inputs: &Inputs) -> Result<Option<CivilDay>, String> {
    if !inputs.has("planted") {
        return Ok(None);
    }
    let day = inputs.word("planted")?.parse::<CivilDay>();
    day.map(Some).map_err(|error| error.to_string())
}

fn planted_from(inputs: &Inputs) -> Result<PlantedFrom, String> {
    if !inputs.has("planted_from") {
        return Ok(PlantedFrom::default());
    }
    Ok(match inputs.word("planted_from")? {
        "7 cm pot" => PlantedFrom::Pot7,
        "9 cm pot" => PlantedFrom::Pot9,
        "13 cm pot" => PlantedFrom::Pot13,
        other => return Err(format!("no pot planted from “{other}”")),
    })
}
