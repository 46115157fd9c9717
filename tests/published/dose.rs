//! From the quantities of the tables on the dose and the containers to the calls of the library.

use first_truss::almanac::{Weather, sun_on};
use first_truss::water::{Canopy, Demand, Dose, Group, Place, RootZone, interception};
use first_truss::working::Working;

use super::case::Inputs;
use super::scene::{Scene, day_told_of};

type Number = Result<f64, String>;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        // Of the whole calculation
        "dose" => dose(inputs)?.per_plant.litres(),
        "dose_pints" => dose(inputs)?.per_plant.imperial_pints(),
        "likely_low" => dose(inputs)?.low.litres(),
        "likely_low_pints" => dose(inputs)?.low.imperial_pints(),
        "waterings" => f64::from(dose(inputs)?.waterings),
        // Of its parts
        "extraterrestrial_radiation" => {
            sun_on(Scene::read(inputs)?.latitude.degrees_north(), day_told_of(inputs)?.day_of_year()).extraterrestrial_radiation
        }
        "radiation_inside" => radiation_inside(inputs)?,
        "mean_inside" => dose(inputs)?.demand.mean_temperature,
        "reference_use" => dose(inputs)?.demand.reference,
        "leaf_area" => dose(inputs)?.canopy.leaf_area,
        "leaf_area_index" => dose(inputs)?.canopy.leaf_area_index,
        "light_caught" => dose(inputs)?.canopy.light_caught,
        "transpiration" => dose(inputs)?.demand.transpiration,
        "evaporation" => dose(inputs)?.demand.evaporation,
        "growth" => dose(inputs)?.demand.growth,
        "demand" => dose(inputs)?.demand.total(),
        "transpiration_over_reference" => transpiration_over_reference(&dose(inputs)?),
        "rain_reaching" => dose(inputs)?.rain,
        // With one constant of the calculation set apart
        "dose_pints_by_transmission" => by_transmission(inputs)?,
        "dose_pints_by_extinction" => by_extinction(inputs)?,
        // Of the container
        "container_litres" => root_zone(inputs)?.volume,
        "opening_width" => 200.0 * (root_zone(inputs)?.wet_surface / std::f64::consts::PI).sqrt(),
        "reached_litres" => root_zone(inputs)?.reached,
        "easy_water" => root_zone(inputs)?.easy_water,
        "easy_share" => root_zone(inputs)?.easy_water / root_zone(inputs)?.reached,
        "all_water" => root_zone(inputs)?.all_water,
        "easy_share_of_all" => root_zone(inputs)?.easy_water / root_zone(inputs)?.all_water,
        "single_pour" => root_zone(inputs)?.single_pour,
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

fn dose(inputs: &Inputs) -> Result<Dose, String> {
    Scene::read(inputs)?.dose().map_err(|error| error.to_string())
}

fn root_zone(inputs: &Inputs) -> Result<RootZone, String> {
    Ok(dose(inputs)?.root_zone)
}

fn radiation_inside(inputs: &Inputs) -> Number {
    let scene = Scene::read(inputs)?;
    let dose = scene.dose().map_err(|error| error.to_string())?;
    Ok(scene.group.place.transmission() * dose.weather.solar_radiation)
}

/// Transpiration for each millimetre of reference use and square metre of ground: the crop coefficient of the leaves.
fn transpiration_over_reference(dose: &Dose) -> f64 {
    let ground = dose.canopy.leaf_area / dose.canopy.leaf_area_index;
    dose.demand.transpiration / (dose.demand.reference * ground)
}

/// The dose under a cover that lets an arbitrary share of the light through, pints.
///
/// The radiation outside is scaled so that the cover at hand lets the wanted amount in; nothing else depends on it.
fn by_transmission(inputs: &Inputs) -> Number {
    let scene = Scene::read(inputs)?;
    let dose = scene.dose().map_err(|error| error.to_string())?;
    let weather = Weather {
        solar_radiation: dose.weather.solar_radiation * inputs.number("transmission")? / scene.group.place.transmission(),
        ..dose.weather
    };
    Ok(in_pints(&scene.group, &weather, &dose.canopy, &dose.root_zone))
}

/// The dose with an arbitrary extinction exponent of the leaves, pints.
fn by_extinction(inputs: &Inputs) -> Number {
    let scene = Scene::read(inputs)?;
    let dose = scene.dose().map_err(|error| error.to_string())?;
    let leaf_area_index = dose.canopy.leaf_area_index;
    let canopy = Canopy {
        light_caught: interception(leaf_area_index * inputs.number("extinction")? / first_truss::water::LEAF_EXTINCTION),
        ..dose.canopy
    };
    Ok(in_pints(&scene.group, &dose.weather, &canopy, &dose.root_zone))
}

fn in_pints(group: &Group, weather: &Weather, canopy: &Canopy, zone: &RootZone) -> f64 {
    assert!(
        matches!(group.place, Place::Covered { .. }),
        "only the dose under cover scales with the light let through"
    );
    let demand = Demand::of(
        weather,
        group.place,
        canopy,
        group.size.settled(),
        group.ground_for_each(),
        zone.wet_surface,
        &mut Working::default(),
    );
    demand.total() / (1.0 - zone.drained) / first_truss::quantity::LITRES_PER_IMPERIAL_PINT
}
