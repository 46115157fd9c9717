//! What threatens the plants, by seasons that growers have, and what to do about wilting ones.

use first_truss::almanac::{CivilDay, STANDARD_LATITUDE, Sky, Sun, Yesterday};
use first_truss::water::{
    Advice, Care, Container, DayRecord, Feel, Group, Level, PlantSize, Readings, Records, Season, Threat, WiltAdvice, Wilting, season,
    wilt_advice,
};
use wasm_bindgen_test::wasm_bindgen_test;

const RIPENING: Care = Care {
    feeds_always: false,
    ripening: true,
};

/// A plant with five trusses in a pot of 12 litres, after days under one sky with so many litres each, the last of them yesterday.
fn after(sky: Sky, given: &[f64], humidity: Option<f64>, care: Care, feel: Option<Feel>) -> Season {
    let group = Group {
        container: Container::Pot { litres: 12.0 },
        size: PlantSize {
            height_metres: Some(1.2),
            trusses: Some(5.0),
        },
        ..Group::default()
    };
    let today = CivilDay::new(2026, 7, 20).expect("a day");
    let of_today = DayRecord {
        day: today,
        readings: Readings {
            feel,
            ..Readings::default()
        },
        ..DayRecord::default()
    };
    let days: Vec<DayRecord> = (1..)
        .zip(given.iter().rev())
        .map(|(back, &litres)| DayRecord {
            day: today.days_later(-back),
            weather: Some(Yesterday {
                sun: Some(Sun::Word(sky)),
                warmest: Some(if sky == Sky::Clear { 27.0 } else { 14.0 }),
                coolest: Some(if sky == Sky::Clear { 13.0 } else { 8.0 }),
                humidity_percent: humidity,
                ..Yesterday::default()
            }),
            given: Some(litres),
            ..DayRecord::default()
        })
        .chain([of_today])
        .collect();
    let records = Records {
        days: &days,
        care,
        ..Records::new(&group)
    };
    season(&records, STANDARD_LATITUDE, today).expect("a season")
}

#[track_caller]
fn check(what: &str, got: Level, wanted: Level) {
    assert_eq!(got, wanted, "{what}");
}

#[wasm_bindgen_test(unsupported = test)]
fn even_water_threatens_nothing() {
    let risks = after(Sky::Clear, &[1.7; 10], None, RIPENING, None).risks;
    check("drought", risks.drought.level, Level::None);
    check("blossom-end rot", risks.blossom_end_rot.level, Level::None);
    check("wet", risks.wet.level, Level::None);
    check("cracking", risks.cracking.level, Level::None);
    assert!(!risks.stop);
}

#[wasm_bindgen_test(unsupported = test)]
fn skipped_days_in_the_sun_threaten_drought_rot_and_cracks() {
    let one = after(Sky::Clear, &[1.7, 1.7, 1.7, 0.0], None, RIPENING, None);
    let four = after(Sky::Clear, &[1.7, 1.7, 1.7, 0.0, 0.0, 0.0, 0.0], None, RIPENING, None);
    assert!(one.risks.drought.value < four.risks.drought.value, "{one:?} {four:?}");
    check("drought", four.risks.drought.level, Level::Red);
    check("blossom-end rot", four.risks.blossom_end_rot.level, Level::Red);
    check("cracking", four.risks.cracking.level, Level::Red);
    let green = after(Sky::Clear, &[1.7, 1.7, 1.7, 0.0, 0.0, 0.0, 0.0], None, Care::default(), None);
    check("cracking without ripe fruit", green.risks.cracking.level, Level::None);
    // After a drought: no more than comes easily, in parts, and the rest tomorrow.
    let dose = &four.dose;
    assert!(dose.parts >= 2 && dose.rest.litres() > 0.0, "{dose:?}");
    let most = f64::from(dose.waterings) * four.store.easy_water / (1.0 - dose.root_zone.drained);
    assert!(dose.per_plant.litres() <= most + 1e-9, "{dose:?}");
}

#[wasm_bindgen_test(unsupported = test)]
fn dry_air_and_salts_take_the_risk_of_rot_one_step_up() {
    let swung = [1.7, 1.7, 1.7, 0.0, 0.0, 2.0, 2.0, 2.0];
    let still = after(Sky::Clear, &swung, Some(80.0), Care::default(), None).risks.blossom_end_rot;
    let dry = after(Sky::Clear, &swung, Some(30.0), Care::default(), None).risks.blossom_end_rot;
    assert!(still.level < Level::Red, "{still:?}");
    assert!(dry.level > still.level, "{still:?} {dry:?}");
    let never = after(Sky::Clear, &[2.5; 8], Some(30.0), Care::default(), None)
        .risks
        .blossom_end_rot;
    check("dry air alone", never.level, Level::None);
}

#[wasm_bindgen_test(unsupported = test)]
fn too_much_on_cold_dull_days_threatens_the_roots() {
    let one = after(Sky::Dull, &[0.5, 0.5, 0.5, 2.0], None, Care::default(), None).risks.wet;
    let four = after(Sky::Dull, &[0.5, 2.0, 2.0, 2.0, 2.0], None, Care::default(), None).risks.wet;
    assert!(one.level < Level::Red && one.value < four.value, "{one:?} {four:?}");
    check("wet", four.level, Level::Red);
    // A cold day counts one and a half.
    assert!((four.value - 1.5 * 4.0).abs() < 1e-9, "{four:?}");
}

#[wasm_bindgen_test(unsupported = test)]
fn sodden_compost_stops_the_water() {
    let sodden = after(Sky::Clear, &[1.0; 4], None, Care::default(), Some(Feel::Sodden));
    assert!(sodden.risks.stop && sodden.dose.hold_off && sodden.dose.per_plant.litres() <= 0.0);
}

#[wasm_bindgen_test(unsupported = test)]
fn wilting_is_told_apart_by_the_compost_and_the_hour() {
    use Feel::{Dry, Moist, Sodden};
    use Wilting::{AllDay, InTheMorningToo, NoonOnly, OnePlant};
    for (wilting, feel, advice) in [
        (NoonOnly, Dry, WiltAdvice::WaterInParts),
        (InTheMorningToo, Dry, WiltAdvice::WaterInParts),
        (NoonOnly, Moist, WiltAdvice::NormalAtNoon),
        (AllDay, Moist, WiltAdvice::FeelDeeper),
        (InTheMorningToo, Moist, WiltAdvice::RootsOrStem),
        (NoonOnly, Sodden, WiltAdvice::DrainAndShade),
        (AllDay, Sodden, WiltAdvice::DrainAndShade),
        (InTheMorningToo, Sodden, WiltAdvice::RootsOrStem),
        (OnePlant, Moist, WiltAdvice::ThatPlant),
        (OnePlant, Sodden, WiltAdvice::ThatPlant),
    ] {
        assert_eq!(wilt_advice(wilting, feel), advice, "{wilting:?}, {feel:?}");
    }
}

/// The threats among a morning's advice, in their order.
fn threats(season: &Season) -> Vec<(Threat, Level)> {
    let advice = season.advice(&Group::default());
    assert!(advice.len() <= 5, "{advice:?}");
    let threats = advice.iter().filter_map(|advice| match advice {
        Advice::Threat { what, risk } => Some((*what, risk.level)),
        _ => None,
    });
    threats.collect()
}

#[wasm_bindgen_test(unsupported = test)]
fn advice_names_what_threatens_the_worst_first() {
    assert_eq!(threats(&after(Sky::Clear, &[1.7; 10], None, RIPENING, None)), []);
    let short = [1.7, 1.7, 1.7, 0.0, 0.0, 0.0, 0.0];
    let dry = after(Sky::Clear, &short, None, RIPENING, None);
    let first = dry.advice(&Group::default()).first().copied();
    assert!(matches!(first, Some(Advice::RestTomorrow { litres }) if litres > 0.0), "{first:?}");
    let red = Level::Red;
    assert_eq!(
        threats(&dry),
        [(Threat::Drought, red), (Threat::BlossomEndRot, red), (Threat::Cracking, red)]
    );
    let wet = after(Sky::Dull, &[0.5, 2.0, 2.0, 2.0, 2.0], None, Care::default(), None);
    assert_eq!(threats(&wet), [(Threat::WetRoots, red)]);
    // An amber threat stands behind a red one.
    let mixed = after(Sky::Clear, &[1.7, 1.7, 0.0, 0.0, 1.7], None, RIPENING, None);
    let levels: Vec<_> = threats(&mixed).into_iter().map(|(_, level)| level).collect();
    assert!(levels.windows(2).all(|pair| pair[0] >= pair[1]), "{levels:?}");
}

#[wasm_bindgen_test(unsupported = test)]
fn what_the_squeeze_says_is_not_said_again_as_a_threat() {
    let short = [1.7, 1.7, 1.7, 0.0, 0.0, 0.0, 0.0];
    let dry = after(Sky::Clear, &short, None, RIPENING, Some(Feel::Dry));
    assert_eq!(dry.advice(&Group::default()).first(), Some(&Advice::WaterFirst));
    assert!(threats(&dry).iter().all(|(what, _)| *what != Threat::Drought), "{dry:?}");
    let refuted = after(Sky::Clear, &short, None, RIPENING, Some(Feel::Sodden));
    assert!(threats(&refuted).iter().all(|(what, _)| *what != Threat::Drought), "{refuted:?}");
    let wet = after(Sky::Dull, &[0.5, 2.0, 2.0, 2.0, 2.0], None, Care::default(), Some(Feel::Sodden));
    assert_eq!(wet.advice(&Group::default()).first(), Some(&Advice::HoldOff));
    assert_eq!(threats(&wet), []);
}
