//! Whether a season's readings teach how thirsty the plants are: simulated growers whose plants' own thirst is known.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{
    Container, DayRecord, DayWater, Feel, Group, PlantSize, Readings, Records, Store, Thirst, morning_water, season,
};

/// Seasons simulated for each row of the table.
const SEASONS: u32 = 200;
/// Days of one.
const DAYS: u16 = 90;
/// Days between two looks at what was learnt.
const FORTNIGHT: u16 = 14;
/// Spread of one day's use, log-normal standard deviation.
const DAY: f64 = 0.15;
/// Reading error of a drip test, log-normal standard deviation: 16 % with the day's own 15 %.
const DRIP: f64 = 0.055_7;

/// SplitMix64, so that each run simulates the same growers.
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 up to 1.
    fn share(&mut self) -> f64 {
        f64::from(u32::try_from(self.next() >> 32).expect("32 bits")) / 4_294_967_296.0
    }

    /// A standard normal number, by Box and Muller.
    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.share()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.share()).cos()
    }
}

/// A grower: what is true of the plants, and how their compost is read.
#[derive(Clone, Copy)]
struct Grower {
    /// What the plants drink of what the sum says.
    factor: f64,
    /// How far the borders of dry and sodden lie off, as a share of the easy water.
    off: f64,
    /// Share of the mornings on which the compost is felt.
    feels: f64,
    /// Drip tests in the season.
    drip_tests: u16,
    container: Container,
}

/// A morning's feel at a deficit that is `gone` of the easy water, with the borders as published for this program.
fn felt(gone: f64, off: f64, chance: &mut Chance) -> Feel {
    let logistic = |x: f64| 1.0 / (1.0 + (-x).exp());
    let dry = logistic((gone - 0.8 - off) / 0.12);
    let sodden = logistic((0.15 + off - gone) / 0.06);
    let draw = chance.share();
    if draw < dry {
        Feel::Dry
    } else if draw < dry + sodden {
        Feel::Sodden
    } else {
        Feel::Moist
    }
}

fn sky(chance: &mut Chance) -> Yesterday {
    let (sky, warmest, coolest) = match chance.share() {
        draw if draw < 0.25 => (Sky::Clear, 26.0, 12.0),
        draw if draw < 0.5 => (Sky::Bright, 24.0, 12.0),
        draw if draw < 0.75 => (Sky::Mixed, 21.5, 12.5),
        draw if draw < 0.95 => (Sky::Dull, 17.5, 13.0),
        _ => (Sky::Dark, 15.0, 12.0),
    };
    Yesterday {
        sun: Some(Sun::Word(sky)),
        warmest: Some(warmest),
        coolest: Some(coolest),
        ..Yesterday::default()
    }
}

/// What the records have taught by a morning.
fn thirst(group: &Group, days: &[DayRecord], today: CivilDay) -> Thirst {
    let records = Records { days, ..Records::new(group) };
    season(&records, STANDARD_LATITUDE, today).expect("a season").thirst
}

/// A season in which the grower pours what the sum says, with what was learnt looked up once a fortnight; nothing on sodden
/// compost, and half as much again on dry compost.
fn simulated(grower: &Grower, chance: &mut Chance) -> Thirst {
    let group = Group {
        container: grower.container,
        size: PlantSize {
            height_metres: Some(1.2),
            trusses: Some(5.0),
        },
        ..Group::default()
    };
    let mut days = Vec::new();
    let mut day = CivilDay::new(2026, 5, 20).expect("a day");
    let (mut deficit, mut yesterdays_sum, mut learnt) = (0.0, 0.0, 1.0);
    for number in 0..DAYS {
        let weather = sky(chance);
        let dose = morning_water(&group, &weather, None, STANDARD_LATITUDE, day.tomorrow()).expect("a dose");
        let store = Store::from(&dose.root_zone);
        let gone = deficit / store.easy_water;
        let mut readings = Readings::default();
        if number > 0 && number % FORTNIGHT == 0 {
            learnt = thirst(&group, &days, day).factor;
        }
        let mut given = learnt * yesterdays_sum / (1.0 - dose.root_zone.drained);
        if grower.drip_tests > 0 && number % (DAYS / (grower.drip_tests + 1)) == 9 && gone < 0.8 {
            given = deficit * (DRIP * chance.normal()).exp();
            readings.drip = Some(given);
        } else if chance.share() < grower.feels {
            let feel = felt(gone, grower.off, chance);
            readings.feel = Some(feel);
            given *= match feel {
                Feel::Dry => 1.5,
                Feel::Moist => 1.0,
                Feel::Sodden => 0.0,
            };
        }
        yesterdays_sum = dose.demand.total();
        let water = DayWater {
            given,
            pours: dose.waterings,
            demand: yesterdays_sum * grower.factor * (DAY * chance.normal()).exp(),
            ..DayWater::default()
        };
        deficit = store.day(deficit, &water).end;
        days.push(DayRecord {
            day,
            weather: Some(weather),
            given: Some(given),
            readings,
            ..DayRecord::default()
        });
        day = day.tomorrow();
    }
    thirst(&group, &days, day)
}

/// What many simulated seasons of one grower taught.
struct Learnt {
    covered: f64,
    median_error: f64,
    bias: f64,
    median_spread: f64,
}

fn learnt(grower: &Grower) -> Learnt {
    let mut chance = Chance(20_260_701);
    let mut biases = Vec::new();
    let (mut covered, mut errors, mut spreads) = (0, Vec::new(), Vec::new());
    for _ in 0..SEASONS {
        let thirst = simulated(grower, &mut chance);
        let (low, high) = thirst.likely();
        covered += u32::from(low <= grower.factor && grower.factor <= high);
        errors.push((thirst.factor / grower.factor - 1.0).abs());
        biases.push(thirst.factor / grower.factor - 1.0);
        spreads.push(thirst.spread);
    }
    Learnt {
        covered: f64::from(covered) / f64::from(SEASONS),
        median_error: median(errors),
        bias: median(biases),
        median_spread: median(spreads),
    }
}

fn median(mut numbers: Vec<f64>) -> f64 {
    numbers.sort_by(f64::total_cmp);
    numbers[numbers.len() / 2]
}

#[test]
fn simulated_seasons_teach_the_plants_own_thirst() {
    let pot = Container::Pot { litres: 12.0 };
    let bag = Container::default();
    println!("container  thirst  borders off  readings      80 % holds it  median error  spread");
    let mut failures = Vec::new();
    for (container, name) in [(pot, "12 l pot"), (bag, "grow-bag")] {
        for (feels, drip_tests, words) in [(0.6, 0, "feels"), (0.6, 3, "feels + drip")] {
            for factor in [0.7, 1.0, 1.4] {
                for off in [0.0, 0.15, -0.15] {
                    let learnt = learnt(&Grower {
                        factor,
                        off,
                        feels,
                        drip_tests,
                        container,
                    });
                    let (least, most) = if off == 0.0 { (0.70, 0.90) } else { (0.60, 1.0) };
                    let fails = learnt.covered < least || learnt.covered > most || learnt.median_error > 0.20;
                    let line = format!(
                        "{name:9}  {factor:6.1}  {off:11.2}  {words:12}  {:13.1} %  {:10.1} %  {:.3} {:+.3} {}",
                        100.0 * learnt.covered,
                        100.0 * learnt.median_error,
                        learnt.median_spread,
                        learnt.bias,
                        if fails { "  fails" } else { "" }
                    );
                    println!("{line}");
                    if fails {
                        failures.push(line);
                    }
                }
            }
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}
