//! The random cases: what goes in, and what the program makes of it.

use first_truss::almanac::{self, CivilDay, Latitude, STANDARD_ELEVATION_METRES, Sky, Sun, Thermometer, Yesterday, sun_on};
use first_truss::feed::{self, Contents, Country, Measured, OunceKind, Rate, Straight, Told, blend};
use first_truss::notebook::Field;
use first_truss::pest::{Control, DayShape, LifeTable, Pest, Population, Thresholds, growth};
use first_truss::quantity::{TemperatureScale, UnitSystem, Units};
use first_truss::water::{self, Container, Cover, Exposure, Group, Leafiness, Place, PlantSize, ReferenceDay, morning_water};
use serde_json::{Value, json};

use crate::random::Numbers;

/// Cases of each kind.
const MANY: usize = 100;
/// Populations, each of which takes a library a tenth of a second.
const FEW: usize = 24;

/// All cases of a seed, as JSON.
pub fn cases(seed: u64) -> String {
    let numbers = &mut Numbers::of_seed(seed);
    json!({
        "seed": seed,
        "sun": many(numbers, sun),
        "air": many(numbers, air),
        "evaporation": many(numbers, evaporation),
        "plants": accepted(numbers, MANY, plant),
        "fields": fields(numbers),
        "doses": accepted(numbers, 2 * MANY, dose),
        "salts": Straight::ALL.map(salt),
        "oxides": oxides(),
        "blends": accepted(numbers, 3 * MANY, blended),
        "warmth": many(numbers, warmth),
        "populations": accepted(numbers, FEW, population),
    })
    .to_string()
}

fn many(numbers: &mut Numbers, of: fn(&mut Numbers) -> Value) -> Vec<Value> {
    (0..MANY).map(|_| of(numbers)).collect()
}

/// What the program refuses is no case; a hundred times as many tries as cases are enough.
fn accepted(numbers: &mut Numbers, count: usize, of: fn(&mut Numbers) -> Option<Value>) -> Vec<Value> {
    (0..100 * count).filter_map(|_| of(numbers)).take(count).collect()
}

/// A day of a year, and a latitude at which the sun rises and sets on it.
fn day_and_latitude(numbers: &mut Numbers) -> (CivilDay, f64) {
    let new_year = CivilDay::new(2026, 1, 1).unwrap_or_default();
    let day = new_year.days_later(i32::try_from(numbers.below(365)).unwrap_or(0));
    (day, numbers.between(-60.0, 60.0))
}

fn sun(numbers: &mut Numbers) -> Value {
    let (day, latitude) = day_and_latitude(numbers);
    let found = sun_on(latitude, day.day_of_year());
    json!({
        "day": day.to_string(), "number": day.day_of_year(), "latitude": latitude,
        "distance": found.relative_distance, "declination": found.declination_radians, "sunset": found.sunset_hour_angle_radians,
        "radiation": found.extraterrestrial_radiation, "daylight": found.daylight_hours,
    })
}

fn air(numbers: &mut Numbers) -> Value {
    let (celsius, elevation) = (numbers.between(0.5, 45.0), numbers.between(-100.0, 1500.0));
    let depression = numbers.between(0.0, 0.3) * celsius;
    let humidity = numbers.between(10.0, 100.0);
    let pressure = almanac::atmospheric_pressure(elevation);
    let wet = celsius - depression;
    json!({
        "celsius": celsius, "elevation": elevation, "wet": wet, "humidity": humidity,
        "saturation": almanac::saturation_vapour_pressure(celsius),
        "slope": almanac::saturation_slope(celsius),
        "pressure": pressure,
        "psychrometric": almanac::psychrometric_constant(pressure),
        "from_wet_bulb": almanac::vapour_pressure_from_wet_bulb(celsius, wet, pressure, almanac::Psychrometer::Aspirated),
        "from_humidity": almanac::vapour_pressure_from_mean_humidity(celsius, celsius, humidity),
        "from_dew_point": almanac::vapour_pressure_from_dew_point(wet),
    })
}

/// A day's reference evapotranspiration, piece by piece.
fn evaporation(numbers: &mut Numbers) -> Value {
    let (day, latitude) = day_and_latitude(numbers);
    let warmest = numbers.between(4.0, 38.0);
    let coolest = warmest - numbers.between(1.0, 18.0);
    let (humidity, bright) = (numbers.between(15.0, 100.0), numbers.between(0.0, 1.0));
    let (wind, height, elevation) = (numbers.between(1.0, 6.0), numbers.between(2.0, 10.0), numbers.between(0.0, 1500.0));
    let found = sun_on(latitude, day.day_of_year());
    let above = found.extraterrestrial_radiation;
    let solar = almanac::solar_radiation(almanac::clearness_from_sunshine(bright), above);
    let clear = almanac::clear_sky_radiation(above, elevation);
    let vapour = almanac::vapour_pressure_from_mean_humidity(warmest, coolest, humidity);
    let short = almanac::net_shortwave(solar);
    let long = almanac::net_longwave(warmest, coolest, vapour, solar, clear);
    let net = almanac::net_radiation(short, long);
    let wind_speed = almanac::wind_speed_at_two_metres(wind, height);
    let pressure = almanac::atmospheric_pressure(elevation);
    let saturation = almanac::mean_saturation_vapour_pressure(warmest, coolest);
    let mean = f64::midpoint(warmest, coolest);
    let reference = water::penman_monteith(&ReferenceDay {
        mean_celsius: mean,
        net_radiation: net,
        soil_heat_flux: almanac::DAILY_SOIL_HEAT_FLUX,
        wind_speed,
        saturation_vapour_pressure: saturation,
        actual_vapour_pressure: vapour,
        pressure_kilopascals: pressure,
    });
    json!({
        "number": day.day_of_year(), "latitude": latitude, "warmest": warmest, "coolest": coolest, "humidity": humidity,
        "bright": bright, "wind": wind, "height": height, "elevation": elevation,
        "found": {
            "Ra": above, "N": found.daylight_hours, "Rs": solar, "Rso": clear, "es": saturation, "ea": vapour, "Rns": short, "Rnl": long,
            "Rn": net, "u2": wind_speed, "P": pressure, "ET0": reference,
            "hargreaves": water::hargreaves_samani(warmest, coolest, above),
            "makkink": water::makkink(mean, solar, pressure),
            "priestley_taylor": water::priestley_taylor(mean, net, 0.0, pressure),
            "turc": water::turc(mean, solar, humidity),
            "ks": water::water_stress_coefficient(50.0 + bright * 100.0, 64.0, 160.0),
            "kc": water::climatic_adjustment(wind_speed, humidity.clamp(20.0, 80.0), height / 5.0),
        },
    })
}

/// What a plant used on a day, by the whole sum, with a store that is large enough not to matter.
fn plant(numbers: &mut Numbers) -> Option<Value> {
    let (day, latitude) = day_and_latitude(numbers);
    let sky = numbers.one_of(&Sky::ALL);
    let warmest = numbers.between(8.0, 32.0);
    let coolest = warmest - numbers.between(1.0, 14.0);
    let (height, trusses) = (numbers.between(0.1, 2.5), numbers.between(0.0, 9.0));
    let (ground, litres) = (numbers.between(0.2, 0.8), numbers.between(40.0, 60.0));
    let leafiness = numbers.one_of(&[Leafiness::Sparse, Leafiness::Usual, Leafiness::Bushy]);
    let (humidity, wind) = (numbers.chance(0.5).then(|| numbers.between(30.0, 95.0)), numbers.between(0.6, 5.0));
    let drains = numbers.chance(0.5);
    let outdoors = numbers.chance(0.4);
    let shaded = numbers.chance(0.3);
    let cover = numbers.one_of(&[
        Cover::CleanGlass,
        Cover::Glass,
        Cover::OldGlass,
        Cover::TwinWall,
        Cover::NewPolythene,
    ]);
    let exposure = numbers.one_of(&[Exposure::Sheltered, Exposure::Usual, Exposure::Exposed]);
    let place = if outdoors {
        Place::Outdoors { exposure }
    } else {
        Place::Covered { cover, shaded }
    };
    let group = Group {
        count: 1,
        place,
        container: Container::Pot { litres },
        drains: Some(drains),
        size: PlantSize {
            height_metres: Some(height),
            trusses: Some(trusses),
        },
        leafiness,
        ground: Some(ground),
        ..Group::default()
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Word(sky)),
        warmest: Some(warmest),
        coolest: Some(coolest),
        thermometer: Thermometer::Outside,
        humidity_percent: humidity,
        wind_metres_per_second: Some(wind),
        ..Yesterday::default()
    };
    let place_on_earth = Latitude::from_degrees_north(latitude).ok()?;
    let dose = morning_water(&group, &yesterday, None, place_on_earth, day.tomorrow()).ok()?;
    let demand = dose.demand;
    Some(json!({
        "number": day.day_of_year(), "latitude": place_on_earth.degrees_north(), "clearness": sky.clearness(), "warmest": warmest, "coolest": coolest,
        "height": height, "trusses": trusses, "leafiness": leafiness.factor(), "ground": ground, "humidity": humidity, "wind": wind,
        "elevation": STANDARD_ELEVATION_METRES, "drains": drains, "wet": dose.root_zone.wet_surface, "easy": dose.root_zone.easy_water,
        "exposure": outdoors.then(|| exposure.factor()), "transmission": (!outdoors).then(|| cover.transmission() * if shaded { 0.6 } else { 1.0 }),
        "found": {
            "transpiration": demand.transpiration, "evaporation": demand.evaporation, "growth": demand.growth, "total": demand.total(),
            "poured": dose.per_plant.litres(),
        },
    }))
}

/// Every field whose unit the grower chooses, in each choice, a few times.
fn fields(numbers: &mut Numbers) -> Vec<Value> {
    const FIELDS: [Field; 14] = [
        Field::Warmest,
        Field::Rain,
        Field::Height,
        Field::PotDrained,
        Field::PotWidth,
        Field::Ground,
        Field::Roof,
        Field::Can,
        Field::ButtLevel,
        Field::Given,
        Field::FeedEach,
        Field::Fruit,
        Field::StoppedAt,
        Field::PestMean,
    ];
    let mut cases = Vec::new();
    for system in [UnitSystem::Imperial, UnitSystem::Metric, UnitSystem::Us] {
        for temperature in [TemperatureScale::Celsius, TemperatureScale::Fahrenheit] {
            for field in FIELDS.iter().cycle().take(3 * FIELDS.len()) {
                cases.push(typed(numbers, *field, Units { system, temperature }));
            }
        }
    }
    cases
}

/// A number within what can be typed, and what it is held as.
fn typed(numbers: &mut Numbers, field: Field, units: Units) -> Value {
    let range = field.range(units);
    let inset = (range.high - range.low) * 0.02;
    let typed = numbers.between(range.low + inset, range.high - inset);
    let held = field.held(units, typed);
    json!({
        "field": field.word(), "unit": field.unit(units).trim(), "typed": typed, "held": held, "back": field.typed(units, held),
    })
}

/// A dose in words, as labels give it.
fn dose(numbers: &mut Numbers) -> Option<Value> {
    const FEEDS: [&str; 13] = [
        "ml", "cl", "litre", "fl oz", "oz", "lb", "g", "kg", "mg", "tsp", "tbsp", "pint", "quart",
    ];
    const WATERS: [&str; 6] = ["litre", "gallon", "pint", "quart", "ml", "can"];
    let (feed, water) = (numbers.one_of(&FEEDS), numbers.one_of(&WATERS));
    let quarters = |numbers: &mut Numbers, most: usize| f64::from(u32::try_from(1 + numbers.below(most)).unwrap_or(1)) / 4.0;
    let amount = quarters(numbers, 400);
    let water_amount = quarters(numbers, 80);
    let country = numbers.one_of(&[Country::Uk, Country::Us]);
    let ounce = numbers.one_of(&[OunceKind::Weight, OunceKind::Fluid]);
    let can = numbers.between(5.0, 12.0);
    let told = Told {
        country: Some(country),
        ounce: Some(ounce),
        can,
        ..Told::default()
    };
    let rate = Rate::parse(&format!("{amount} {feed} per {water_amount} {water}"), &told).ok()?;
    Some(json!({
        "amount": amount, "feed": feed, "water_amount": water_amount, "water": water, "american": country == Country::Us,
        "fluid": ounce == OunceKind::Fluid, "can": can, "per_litre": rate.per_litre.value, "weighed": rate.measured == Measured::Grams,
    }))
}

/// The salts by the words of a library of molecules, in the order of `Straight::ALL`.
const SMILES: [(Straight, &str); 12] = [
    (Straight::PotassiumNitrate, "[K+].[O-][N+]([O-])=O"),
    (Straight::PotassiumSulphate, "[K+].[K+].[O-]S([O-])(=O)=O"),
    (Straight::PotassiumPhosphate, "[K+].OP(O)([O-])=O"),
    (
        Straight::CalciumNitrate,
        "[Ca+2].[Ca+2].[Ca+2].[Ca+2].[Ca+2].[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.\
         [O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[O-][N+]([O-])=O.[NH4+].\
         O.O.O.O.O.O.O.O.O.O",
    ),
    (Straight::EpsomSalts, "[Mg+2].[O-]S([O-])(=O)=O.O.O.O.O.O.O.O"),
    (Straight::Urea, "NC(N)=O"),
    (Straight::AmmoniumSulphate, "[NH4+].[NH4+].[O-]S([O-])(=O)=O"),
    (Straight::MagnesiumNitrate, "[Mg+2].[O-][N+]([O-])=O.[O-][N+]([O-])=O.O.O.O.O.O.O"),
    (Straight::Kieserite, "[Mg+2].[O-]S([O-])(=O)=O.O"),
    (Straight::PotassiumChloride, "[K+].[Cl-]"),
    (Straight::PureCalciumNitrate, "[Ca+2].[O-][N+]([O-])=O.[O-][N+]([O-])=O.O.O.O.O"),
    (Straight::AmmoniumNitrate, "[NH4+].[O-][N+]([O-])=O"),
];

fn salt(salt: Straight) -> Value {
    let smiles = SMILES.iter().find(|(other, _)| *other == salt).map(|(_, smiles)| *smiles);
    let contents = salt.contents();
    json!({
        "name": format!("{salt:?}"), "smiles": smiles, "mass": salt.molar_mass(),
        "holds": {
            "N": contents.nitrogen(), "P": contents.phosphorus, "K": contents.potassium, "Mg": contents.magnesium,
            "Ca": contents.calcium, "S": contents.sulphur, "Cl": contents.chlorine,
        },
        "ammonium": contents.ammonium_nitrogen,
    })
}

fn oxides() -> Value {
    json!([
        {"oxide": "O=P(=O)OP(=O)=O", "element": "P", "share": feed::PHOSPHORUS_IN_OXIDE},
        {"oxide": "[K+].[K+].[O-2]", "element": "K", "share": feed::POTASSIUM_IN_OXIDE},
        {"oxide": "[Mg+2].[O-2]", "element": "Mg", "share": feed::MAGNESIUM_IN_OXIDE},
        {"oxide": "[Ca+2].[O-2]", "element": "Ca", "share": feed::CALCIUM_IN_OXIDE},
        {"oxide": "O=S(=O)=O", "element": "S", "share": feed::SULPHUR_IN_OXIDE},
        {"oxide": "[Ca+2].[O-]C([O-])=O", "made": "OC([O-])=O", "times": 2, "share": feed::BICARBONATE_IN_ALKALINITY},
    ])
}

/// A shelf of salts and feeds with random numbers, and what comes nearest to a target.
fn blended(numbers: &mut Numbers) -> Option<Value> {
    let count = 1 + numbers.below(8);
    let shelf: Vec<Contents> = (0..count).map(|_| thing(numbers)).collect();
    let target: [f64; 6] = std::array::from_fn(|_| if numbers.chance(0.85) { numbers.between(10.0, 300.0) } else { 0.0 });
    let found = blend(&shelf, &target).ok()?;
    let had = shelf
        .iter()
        .zip(&found.per_litre)
        .fold([0.0; 6], |mut had: [f64; 6], (thing, grams)| {
            for (had, percent) in had.iter_mut().zip(thing.all()) {
                *had += 10.0 * percent * grams;
            }
            had
        });
    Some(json!({
        "percents": shelf.iter().map(Contents::all).collect::<Vec<_>>(), "target": target, "grams": found.per_litre, "had": had,
        "residual": found.residual,
    }))
}

fn thing(numbers: &mut Numbers) -> Contents {
    if numbers.chance(0.6) {
        return numbers.one_of(&Straight::ALL).contents();
    }
    let mut some = |most: f64| if numbers.chance(0.7) { numbers.between(0.0, most) } else { 0.0 };
    Contents {
        nitrate_nitrogen: some(15.0),
        ammonium_nitrogen: some(10.0),
        phosphorus: some(15.0),
        potassium: some(30.0),
        magnesium: some(8.0),
        calcium: some(15.0),
        sulphur: some(15.0),
        ..Contents::default()
    }
}

fn warmth(numbers: &mut Numbers) -> Value {
    let coolest = numbers.between(-10.0, 25.0);
    let warmest = coolest + numbers.between(0.5, 25.0);
    let lower = numbers.between(0.0, 15.0);
    let upper = lower + numbers.between(5.0, 25.0);
    let found = DayShape::Sine.degree_days(coolest, warmest, Thresholds { lower, upper });
    json!({"coolest": coolest, "warmest": warmest, "lower": lower, "upper": upper, "degree_days": found})
}

/// A pest's numbers over some days of warmth, with some treatments; its fertility and deaths are random.
fn population(numbers: &mut Numbers) -> Option<Value> {
    let pest = numbers.one_of(&[Pest::Whitefly, Pest::SpiderMite]);
    let known = pest.species()?.life?;
    let life = LifeTable {
        pre_oviposition: known.pre_oviposition * numbers.between(0.7, 1.4),
        adult_life: known.adult_life * numbers.between(0.6, 1.4),
        eggs: known.eggs * numbers.between(0.3, 1.5),
        females: numbers.between(0.4, 0.8),
        survival: numbers.between(0.5, 0.95),
        ..known
    };
    let controls = [Control::ContactSpray, Control::WaterJet, Control::HandPicking];
    let kills = numbers.one_of(&controls).kills(pest)?;
    let days: Vec<(f64, bool)> = (0..7 + numbers.below(22))
        .map(|_| (numbers.between(0.0, 18.0), numbers.chance(0.2)))
        .collect();
    let mut living = Population::steady(&life, 1000.0);
    let start = living.by_stage();
    for (degree_days, is_treated) in &days {
        living.advance(*degree_days);
        if *is_treated {
            living.treat(&kills);
        }
    }
    let stages: Vec<_> = life
        .immature
        .iter()
        .map(|immature| json!({"stage": format!("{:?}", immature.stage), "degree_days": immature.degree_days}))
        .collect();
    Some(json!({
        "pest": format!("{pest:?}"), "stages": stages, "pre_oviposition": life.pre_oviposition, "adult_life": life.adult_life, "eggs": life.eggs,
        "females": life.females, "survival": life.survival,
        "kills": {"Egg": kills.egg, "Young": kills.young, "Pupa": kills.pupa, "Adult": kills.adult},
        "days": days, "growth": growth(&life), "start": start, "end": living.by_stage(),
    }))
}

#[cfg(test)]
mod tests {
    use serde_json::Value;

    use super::{FEW, MANY, SMILES, Straight, cases};

    #[test]
    fn a_seed_tells_all_cases_and_none_is_left_out() {
        let text = cases(1);
        let given: Value = serde_json::from_str(&text).unwrap();
        let count = |name: &str| given[name].as_array().unwrap().len();
        for name in ["sun", "air", "evaporation", "plants", "warmth"] {
            assert_eq!(count(name), MANY, "{name}");
        }
        assert_eq!((count("fields"), count("doses"), count("populations")), (252, 2 * MANY, FEW));
        assert_eq!(count("blends"), 3 * MANY);
        assert_eq!((count("salts"), count("oxides")), (12, 6));
        assert_eq!(cases(1), text);
        assert_ne!(cases(2), text);
        assert!(Straight::ALL.iter().all(|salt| SMILES.iter().any(|(other, _)| other == salt)));
    }
}
