//! How long one group's morning takes, and a pest's curve and best plan: `cargo bench`. The aims on an ordinary computer: at most 20 µs for a morning, 1 µs for one
//! day of the balance. And how long a notebook of five seasons and eight groups takes to be opened, sealed, joined and worked out.

// What `cargo task measure` puts into the page's storage.
#[path = "../src/bin/task/measure/five_seasons.rs"]
mod five_seasons;

use divan::{Bencher, black_box};
use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::feed::{Contents, Country, Feed, Grade, Label, Rate, Straight, Told, Water, blend, mix};
use first_truss::notebook::{Notebook, joined, open, seal};
use first_truss::pest::{Aim, Control, Kills, LifeTable, Pest, Search, curve};
use first_truss::water::{DayRecord, DayWater, Exposure, Feel, Group, Place, PlantSize, Readings, Records, Store, morning_water, season};

fn main() {
    divan::main();
}

/// A plant under glass: Makkink's equation inside.
#[divan::bench]
fn under_glass(bencher: Bencher) {
    morning(bencher, Place::default());
}

/// A plant in the open: Penman-Monteith, and rain.
#[divan::bench]
fn outdoors(bencher: Bencher) {
    morning(bencher, Place::Outdoors { exposure: Exposure::Usual });
}

fn morning(bencher: Bencher, place: Place) {
    let size = PlantSize {
        height_metres: Some(1.2),
        trusses: Some(5.0),
    };
    let group = Group {
        count: 12,
        place,
        size,
        ..Group::default()
    };
    let yesterday = Yesterday {
        sun: Some(Sun::Word(Sky::Clear)),
        warmest: Some(27.0),
        coolest: Some(13.0),
        rain_millimetres: Some(4.0),
        ..Yesterday::default()
    };
    bencher.bench(|| {
        morning_water(
            black_box(&group),
            black_box(&yesterday),
            Some(Feel::Moist),
            STANDARD_LATITUDE,
            CivilDay::default(),
        )
    });
}

/// One day of the balance of one group, as dry as it gets: two pours, bypass, and loss from both parts of the store.
#[divan::bench]
fn day_of_balance(bencher: Bencher) {
    let store = Store::new(3.0, 3.96);
    let water = DayWater {
        given: 0.5,
        pours: 2,
        rain: 0.1,
        demand: 1.5,
        ..DayWater::default()
    };
    bencher.bench(|| store.day(black_box(3.2), black_box(&water)));
}

/// A season of 150 days, felt on every second morning: balance, learning and today's dose.
#[divan::bench]
fn season_with_readings(bencher: Bencher) {
    whole_season(bencher, Some(Feel::Moist));
}

/// The same when the compost was never felt.
#[divan::bench]
fn season_without_readings(bencher: Bencher) {
    whole_season(bencher, None);
}

fn whole_season(bencher: Bencher, feel: Option<Feel>) {
    let group = Group {
        count: 12,
        ..Group::default()
    };
    let first = CivilDay::default();
    let days: Vec<DayRecord> = (0..150)
        .map(|number| DayRecord {
            day: first.days_later(number),
            weather: Some(Yesterday {
                sun: Some(Sun::Word(if number % 3 == 0 { Sky::Clear } else { Sky::Dull })),
                ..Yesterday::default()
            }),
            given: Some(0.8),
            readings: Readings {
                feel: feel.filter(|_| number % 2 == 0),
                ..Readings::default()
            },
            ..DayRecord::default()
        })
        .collect();
    let records = Records {
        days: &days,
        ..Records::new(&group)
    };
    bencher.bench(|| season(black_box(&records), STANDARD_LATITUDE, first.days_later(150)));
}

/// Opening the text of five seasons and eight groups.
#[divan::bench]
fn open_five_seasons(bencher: Bencher) {
    let text = seal(&five_seasons::notebook_of(5), 900);
    bencher.bench(|| open(black_box(&text)));
}

/// Sealing it, as after every change.
#[divan::bench]
fn seal_five_seasons(bencher: Bencher) {
    let notebook = five_seasons::notebook_of(5);
    bencher.bench(|| seal(black_box(&notebook), 900));
}

/// Joining what two tabs noted in it.
#[divan::bench]
fn join_five_seasons(bencher: Bencher) {
    let base = five_seasons::notebook_of(5);
    let noted = |place: usize| {
        let (mut side, id) = (base.clone(), base.groups.get(place).map_or(0, |group| group.id));
        side.note(five_seasons::morning_after(5), |page| {
            page.note(id, |group| group.given = Some(1.0));
        });
        side
    };
    let (here, there) = (noted(0), noted(1));
    bencher.bench(|| joined(black_box(&base), black_box(&here), black_box(&there)));
}

/// Joining it with nothing in common, as after the store was emptied.
#[divan::bench]
fn join_five_seasons_from_nothing(bencher: Bencher) {
    let here = five_seasons::notebook_of(5);
    let mut there = here.clone();
    there.plot.name.push('2');
    bencher.bench(|| joined(black_box(&Notebook::default()), black_box(&here), black_box(&there)));
}

/// The answers of all eight groups after five seasons, with their records.
#[divan::bench]
fn answers_after_five_seasons(bencher: Bencher) {
    let (notebook, today) = (five_seasons::notebook_of(5), five_seasons::morning_after(5));
    bencher.bench(|| {
        for record in &notebook.groups {
            let (group, days) = (record.group(), notebook.records(record, today));
            let records = Records {
                days: &days,
                ..Records::new(&group)
            };
            let _ = black_box(season(&records, notebook.place(), today));
        }
    });
}

/// Of that, only the records: they are looked at after every change.
#[divan::bench]
fn records_after_five_seasons(bencher: Bencher) {
    let (notebook, today) = (five_seasons::notebook_of(5), five_seasons::morning_after(5));
    bencher.bench(|| {
        for record in &notebook.groups {
            black_box(notebook.records(record, today));
        }
    });
}

/// The 120 days of a spider mite curve at 25 °C with six treatments: at most 3 ms.
#[divan::bench]
fn pest_curve_of_120_days(bencher: Bencher) {
    let (life, daily) = spider_mites();
    let kills = Control::ContactSpray.kills(Pest::SpiderMite).unwrap_or(Kills::NONE);
    let treatments: Vec<_> = [0, 6, 12, 18, 24, 30].map(|day| (day, kills)).to_vec();
    bencher.bench(|| curve(black_box(&life), &daily, 120, &treatments, &[]));
}

/// The best plan over six weeks against spider mites at 25 °C, whose stages are the shortest: at most 100 ms.
#[divan::bench]
fn pest_best_plan(bencher: Bencher) {
    let (life, daily) = spider_mites();
    best_plan(
        bencher,
        life,
        daily,
        Control::ContactSpray.kills(Pest::SpiderMite).unwrap_or(Kills::NONE),
    );
}

/// The same against whitefly at 20 °C.
#[divan::bench]
fn pest_best_plan_whitefly(bencher: Bencher) {
    if let Some(life) = Pest::Whitefly.species().and_then(|species| species.life) {
        best_plan(
            bencher,
            life,
            vec![11.7; 42],
            Control::ContactSpray.kills(Pest::Whitefly).unwrap_or(Kills::NONE),
        );
    }
}

fn best_plan(bencher: Bencher, life: LifeTable, mut daily: Vec<f64>, kills: Kills) {
    daily.truncate(42);
    let aim = Aim {
        life,
        daily,
        kills,
        every_day: Kills::NONE,
        least_days: 3,
        most: 10,
        latest: 42,
        level: 1.0,
        simple: vec![0, 6, 12, 18, 24, 30],
    };
    bencher.bench(|| Search::new(black_box(aim.clone())).run());
}

fn spider_mites() -> (LifeTable, Vec<f64>) {
    let life = Pest::SpiderMite.species().and_then(|species| species.life);
    (
        life.unwrap_or_else(|| unreachable!("spider mites have a life table")),
        vec![15.0; 120],
    )
}

/// A shelf of eight things mixed for a picked crop: the aim is at most a millisecond.
#[divan::bench]
fn shelf_of_eight(bencher: Bencher) {
    let mut shelf: Vec<Contents> = Straight::SHELF.iter().map(|salt| salt.contents()).collect();
    shelf.push(Straight::MagnesiumNitrate.contents());
    let target = [175.0, 40.0, 250.0, 45.0, 135.0, 0.0];
    bencher.bench(|| blend(black_box(&shelf), black_box(&target)));
}

/// A can from the words of its label.
#[divan::bench]
fn can_from_its_words(bencher: Bencher) {
    let told = Told {
        country: Some(Country::Uk),
        ounce: None,
        ratio: None,
        cap: None,
        can: 10.0,
    };
    bencher.bench(|| {
        let label = Label {
            grade: Grade::parse(black_box("5-2-9")).unwrap_or_default(),
            ..Label::default()
        };
        let rate = Rate::parse(black_box("20 ml per gallon"), &told).ok()?;
        mix(&Feed { label, rate }, 10.0, Water::Rain).ok()
    });
}
