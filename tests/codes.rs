//! Every choice has a word of its own, and the word leads back to it.

use first_truss::almanac::{Sky, Thermometer};
use first_truss::feed::{self, Basis, Country, OunceKind, RatioKind, Stage, Stem, Straight};
use first_truss::notebook::{Coded, ContainerKind, FormKind};
use first_truss::pest::{Control, Extent, Pest, Told};
use first_truss::quantity::{TemperatureScale, UnitSystem};
use first_truss::today::Task;
use first_truss::water::{Cover, Exposure, Feel, Leafiness, Medium, PlantedFrom, RoofKind};
use wasm_bindgen_test::wasm_bindgen_test;

#[track_caller]
fn check<T: Coded + std::fmt::Debug>(choices: &[T]) {
    assert_eq!(T::CODES.len(), choices.len(), "as many words as choices");
    for choice in choices {
        let code = choice.code();
        assert!(
            !code.is_empty()
                && code
                    .chars()
                    .all(|sign| sign.is_ascii_lowercase() || sign.is_ascii_digit() || sign == '-'),
            "{choice:?}: {code}"
        );
        assert_eq!(T::from_code(code), Some(*choice));
    }
    assert_eq!(T::from_code("no such word"), None);
}

#[wasm_bindgen_test(unsupported = test)]
fn each_choice_has_its_own_word() {
    check(&Sky::ALL);
    check(&[
        Task::Squeeze,
        Task::LiftPot,
        Task::WaterDry,
        Task::Water,
        Task::Feed,
        Task::SqueezeAgain,
        Task::TopUpButt,
        Task::Tap,
        Task::DampPath,
        Task::StopPlants,
        Task::Taper,
        Task::PourAtNoon,
        Task::PourBeforeThree,
        Task::SomeoneComes,
    ]);
    check(&[Feel::Dry, Feel::Moist, Feel::Sodden]);
    check(&[Thermometer::Inside, Thermometer::Outside]);
    check(&[UnitSystem::Imperial, UnitSystem::Metric, UnitSystem::Us]);
    check(&[TemperatureScale::Celsius, TemperatureScale::Fahrenheit]);
    check(&[
        ContainerKind::GrowBag,
        ContainerKind::Pot,
        ContainerKind::Basket,
        ContainerKind::Border,
        ContainerKind::Ring,
    ]);
    check(&RoofKind::ALL);
    check(&[Medium::Peat, Medium::PeatFree, Medium::Coir, Medium::Loam]);
    check(&[
        Cover::CleanGlass,
        Cover::Glass,
        Cover::OldGlass,
        Cover::TwinWall,
        Cover::ThickTwinWall,
        Cover::NewPolythene,
        Cover::OldPolythene,
    ]);
    check(&[Exposure::Sheltered, Exposure::Usual, Exposure::Exposed]);
    check(&[Leafiness::Sparse, Leafiness::Usual, Leafiness::Bushy]);
    check(&Stage::ALL);
    check(&feed::Water::ALL);
    check(&Straight::SHELF);
    check(&[Stem::Thin, Stem::Right, Stem::Lush]);
    check(&[FormKind::ByVolume, FormKind::ByWeight, FormKind::Powder]);
    check(&[Basis::Oxides, Basis::Elements]);
    check(&[Country::Uk, Country::Us]);
    check(&[OunceKind::Weight, OunceKind::Fluid]);
    check(&[RatioKind::Total, RatioKind::Added]);
    check(&Pest::ALL);
    check(&Control::ALL);
    check(&[Told::Yes, Told::No, Told::Unknown]);
    check(&[Extent::Full, Extent::Least, Extent::Chosen]);
    check(&[PlantedFrom::Pot7, PlantedFrom::Pot9, PlantedFrom::Pot13]);
}
