//! From the quantities of the tables on feed to the calls of the library.

use first_truss::feed::{
    BICARBONATE_IN_ALKALINITY, Basis, Blend, Brew, CALCIUM_IN_OXIDE, Contents, Country, DRENCH, Feed, Form, Grade, Habit, Ions, Label,
    MAGNESIUM_IN_OXIDE, Mix, Need, NitrogenForms, Nutrient, OUNCE, OunceKind, PHOSPHORUS_IN_OXIDE, POTASSIUM_IN_OXIDE, POWDER_DENSITY,
    Rate, RatioKind, SULPHUR_IN_OXIDE, Stage, Straight, Strength, Told, Water, at_twenty_five, atomic_weight, blend, brushite_index,
    enough_a_week, epsom, from_compost, grams_for, in_a_litre, mix, needs, quick_conductivity, routine_grams, season_uptake, shown_at,
    yield_in_salt,
};
use first_truss::quantity::{LITRES_PER_IMPERIAL_GALLON, LITRES_PER_US_GALLON, Likely};
use first_truss::working::Working;

use super::case::Inputs;

type Number = Result<f64, String>;

/// The quantity from the inputs.
pub fn answer(quantity: &str, inputs: &Inputs) -> Number {
    Ok(match quantity {
        // Chemistry
        "share_in_compound" => share_in_compound(inputs.word("compound")?)?,
        "molar_mass" => salt(inputs.word("salt")?)?.molar_mass(),
        "percent_in_salt" => part(&salt(inputs.word("salt")?)?.contents(), inputs.word("of")?)?,
        "solubility" => solubility(inputs)?,
        // Label and dose
        "percent_on_label" => part(&label(inputs)?.contents().map_err(|error| error.to_string())?, inputs.word("of")?)?,
        "dose" => rate(inputs)?.per_litre.value,
        "spoonful" => rate(inputs)?.per_litre.value * POWDER_DENSITY.value,
        "can_amount" => can(inputs)?.amount.value,
        "can_amount_elsewhere" => can(inputs)?.other_country.ok_or("no other country")?,
        "can_amount_other_ratio" => can(inputs)?.other_ratio.ok_or("no other ratio")?,
        "in_a_litre" => part(&can(inputs)?.strength.feed, inputs.word("of")?)?,
        "potassium_to_nitrogen" => can(inputs)?.potassium_to_nitrogen().ok_or("no nitrogen")?,
        // Weighing out
        "weight_for" => weight_for(inputs)?,
        "ppm_of" => ppm_of(inputs)?,
        // Salt
        "conductivity" => ions(inputs)?.conductivity(),
        "quick_conductivity" => quick_conductivity(&ions(inputs)?),
        "free" => free(inputs)?,
        "conductivity_low" => 1000.0 * can(inputs)?.conductivity.low,
        "conductivity_high" => 1000.0 * can(inputs)?.conductivity.high,
        "conductivity_at_25" => at_twenty_five(inputs.number("reading")?, inputs.number("celsius")?),
        "shown_at" => shown_at(inputs.number("at_25")?, inputs.number("celsius")?),
        "yield_in_salt" => yield_in_salt(inputs.number("salinity")?),
        "water_conductivity" => 1000.0 * water(inputs)?.conductivity(),
        // Need
        "fed_a_week" => need(inputs)?.0,
        "needed_a_week" => need(inputs)?.1,
        "share_of_need" => need(inputs)?.0 / need(inputs)?.1,
        "enough_a_week" => enough_a_week(&all_needs(inputs)?, inputs.number("a_week")?).unwrap_or_default(),
        "compost_nitrogen" => end_of(inputs, from_compost(inputs.number("litres")?, 0.0))?,
        "stage_band" => stage_band(inputs)?,
        "season_uptake" => part(&season_uptake(inputs.number("plants")?), inputs.word("of")?)?,
        // Shelf
        "grams_from_shelf" => shelf_grams(inputs)?,
        "from_shelf" => part(&blended(inputs)?.strength.feed, inputs.word("of")?)?,
        "shelf_residual" => blended(inputs)?.residual,
        "shelf_conductivity" => 1000.0 * blended(inputs)?.conductivity.value,
        "share_by_weight" => share_by_weight(inputs)?,
        // Clouds
        "brushite_index" => brushite_index(
            inputs.number("calcium")?,
            inputs.number("phosphorus")?,
            inputs.number("acidity")?,
            inputs.number("strength")?,
        ),
        // Magnesium and brews
        "epsom" => part(&epsom(inputs.number("grams")?), inputs.word("of")?)?,
        "drench" => DRENCH * inputs.number_or("litres", 1.0)?,
        "routine_epsom_low" => routine_grams(inputs.number("litres")?, 0.0).low,
        "routine_epsom_high" => routine_grams(inputs.number("litres")?, 0.0).high,
        "brew_nitrogen_low" => brew(inputs)?.nitrogen().low,
        "brew_nitrogen_high" => brew(inputs)?.nitrogen().high,
        "brew_potassium_high" => brew(inputs)?.potassium().ok_or("nothing published")?.high,
        _ => return Err(format!("no quantity “{quantity}”")),
    })
}

/// An end of a range, as the case asks.
fn end_of(inputs: &Inputs, range: Likely) -> Number {
    match inputs.word("end")? {
        "low" => Ok(range.low),
        "high" => Ok(range.high),
        other => Err(format!("no end “{other}”")),
    }
}

/// The stage of a question or a case.
pub fn stage(word: &str) -> Result<Stage, String> {
    match word {
        "no truss" => Ok(Stage::NoTruss),
        "swelling" => Ok(Stage::Swelling),
        "picking" => Ok(Stage::Picking),
        "late" => Ok(Stage::Late),
        other => Err(format!("no stage “{other}”")),
    }
}

fn stage_band(inputs: &Inputs) -> Number {
    let of = inputs.word("of")?;
    let nutrient = Nutrient::ALL.into_iter().find(|nutrient| nutrient.sign() == of);
    let (low, high) = stage(inputs.word("stage")?)?.band(nutrient.ok_or("no such nutrient")?);
    end_of(inputs, Likely { low, value: low, high })
}

fn share_in_compound(compound: &str) -> Number {
    use atomic_weight as weight;
    let sulphate = weight::SULPHUR + 4.0 * weight::OXYGEN;
    let nitrate = weight::NITROGEN + 3.0 * weight::OXYGEN;
    Ok(match compound {
        "P2O5" => PHOSPHORUS_IN_OXIDE,
        "K2O" => POTASSIUM_IN_OXIDE,
        "MgO" => MAGNESIUM_IN_OXIDE,
        "CaO" => CALCIUM_IN_OXIDE,
        "SO3" => SULPHUR_IN_OXIDE,
        "SO4" => weight::SULPHUR / sulphate,
        "NO3" => weight::NITROGEN / nitrate,
        "NH4" => weight::NITROGEN / (weight::NITROGEN + 4.0 * weight::HYDROGEN),
        "HCO3 for CaCO3" => BICARBONATE_IN_ALKALINITY,
        other => return Err(format!("no compound “{other}”")),
    })
}

fn salt(name: &str) -> Result<Straight, String> {
    Ok(match name {
        "KNO3" => Straight::PotassiumNitrate,
        "K2SO4" => Straight::PotassiumSulphate,
        "KH2PO4" => Straight::PotassiumPhosphate,
        "Ca double" => Straight::CalciumNitrate,
        "Epsom" => Straight::EpsomSalts,
        "urea" => Straight::Urea,
        "AS" => Straight::AmmoniumSulphate,
        "Mg(NO3)2.6H2O" => Straight::MagnesiumNitrate,
        "kieserite" => Straight::Kieserite,
        "KCl" => Straight::PotassiumChloride,
        "Ca(NO3)2.4H2O" => Straight::PureCalciumNitrate,
        "NH4NO3" => Straight::AmmoniumNitrate,
        other => return Err(format!("no salt “{other}”")),
    })
}

/// One part of some contents.
pub fn part(contents: &Contents, of: &str) -> Number {
    Ok(match of {
        "N" => contents.nitrogen(),
        "NO3-N" => contents.nitrate_nitrogen,
        "NH4-N" => contents.ammonium_nitrogen,
        "P" => contents.phosphorus,
        "P2O5" => contents.phosphorus / PHOSPHORUS_IN_OXIDE,
        "K" => contents.potassium,
        "K2O" => contents.potassium / POTASSIUM_IN_OXIDE,
        "Mg" => contents.magnesium,
        "MgO" => contents.magnesium / MAGNESIUM_IN_OXIDE,
        "Ca" => contents.calcium,
        "CaO" => contents.calcium / CALCIUM_IN_OXIDE,
        "S" => contents.sulphur,
        "Cl" => contents.chlorine,
        "K:N" => contents.potassium_to_nitrogen().ok_or("no nitrogen")?,
        other => return Err(format!("no part “{other}”")),
    })
}

fn solubility(inputs: &Inputs) -> Number {
    let (cold, warm) = salt(inputs.word("salt")?)?.solubility().ok_or("never limits")?;
    match inputs.whole("celsius")? {
        10 => Ok(cold),
        20 => Ok(warm),
        other => Err(format!("no solubility at {other} °C")),
    }
}

/// The label of a case: liquid by volume unless it says otherwise.
pub fn label(inputs: &Inputs) -> Result<Label, String> {
    let form = match if inputs.has("form") { inputs.word("form")? } else { "w/v" } {
        "w/v" => Form::ByVolume,
        "w/w" if inputs.has("density") => Form::ByWeight(Some(inputs.number("density")?)),
        "w/w" => Form::ByWeight(None),
        "powder" => Form::Powder,
        other => return Err(format!("no form “{other}”")),
    };
    Ok(Label {
        grade: Grade::parse(inputs.word("label")?).map_err(|error| error.to_string())?,
        basis: if inputs.flag("elements")? { Basis::Elements } else { Basis::Oxides },
        form,
        forms: NitrogenForms {
            nitrate: inputs.number_or("nitrate", 0.0)?,
            ammonium: inputs.number_or("ammonium", 0.0)?,
            urea: inputs.number_or("urea", 0.0)?,
        },
    })
}

/// What a case tells beside the words of its dose; a can of 10 litres and UK gallons unless it says otherwise.
pub fn told(inputs: &Inputs) -> Result<Told, String> {
    let word_or = |key: &str| if inputs.has(key) { inputs.word(key).map(Some) } else { Ok(None) };
    Ok(Told {
        country: match word_or("country")? {
            None | Some("UK") => Some(Country::Uk),
            Some("US") => Some(Country::Us),
            Some("untold") => None,
            Some(other) => return Err(format!("no country “{other}”")),
        },
        ounce: match word_or("ounce")? {
            None => None,
            Some("weight") => Some(OunceKind::Weight),
            Some("fluid") => Some(OunceKind::Fluid),
            Some(other) => return Err(format!("no ounce “{other}”")),
        },
        ratio: match word_or("ratio")? {
            None => None,
            Some("total") => Some(RatioKind::Total),
            Some("added") => Some(RatioKind::Added),
            Some(other) => return Err(format!("no ratio “{other}”")),
        },
        cap: if inputs.has("cap") { Some(inputs.number("cap")?) } else { None },
        can: inputs.number_or("can", 10.0)?,
    })
}

fn rate(inputs: &Inputs) -> Result<Rate, String> {
    Rate::parse(inputs.word("dose")?, &told(inputs)?).map_err(|error| error.to_string())
}

/// The water of a case: rain unless it says otherwise.
pub fn water(inputs: &Inputs) -> Result<Water, String> {
    Ok(match if inputs.has("water") { inputs.word("water")? } else { "rain" } {
        "rain" => Water::Rain,
        "soft" => Water::Soft,
        "hard" => Water::Hard,
        other => return Err(format!("no water “{other}”")),
    })
}

/// The can of a case.
pub fn can(inputs: &Inputs) -> Result<Mix, String> {
    can_at(inputs, 1.0)
}

/// The same at a share of its label's strength.
pub fn can_at(inputs: &Inputs, share: f64) -> Result<Mix, String> {
    let feed = Feed {
        label: label(inputs)?,
        rate: rate(inputs)?.at_share(share),
    };
    mix(&feed, inputs.number_or("can", 10.0)?, water(inputs)?).map_err(|error| error.to_string())
}

/// Litres that a case counts in.
fn litres(inputs: &Inputs) -> Number {
    if inputs.has("us_gallons") {
        Ok(inputs.number("us_gallons")? * LITRES_PER_US_GALLON)
    } else if inputs.has("gallons") {
        Ok(inputs.number("gallons")? * LITRES_PER_IMPERIAL_GALLON)
    } else {
        inputs.number("litres")
    }
}

/// What to weigh out of something of so many per cent, in the unit of the case; a stock is so many times stronger.
fn weight_for(inputs: &Inputs) -> Number {
    let percent = if inputs.has("oxide") {
        inputs.number("percent")? * share_in_compound(inputs.word("oxide")?)?
    } else {
        inputs.number("percent")?
    };
    let target = if inputs.has("target_oxide") {
        inputs.number("ppm")? * share_in_compound(inputs.word("target_oxide")?)?
    } else {
        inputs.number("ppm")?
    };
    let grams = grams_for(target * inputs.number_or("times", 1.0)?, percent, litres(inputs)?);
    in_unit(grams, inputs)
}

fn in_unit(grams: f64, inputs: &Inputs) -> Number {
    Ok(match inputs.word("weigh_in")? {
        "g" => grams,
        "oz" => grams / OUNCE,
        "lb" => grams / OUNCE / 16.0,
        other => return Err(format!("no weight “{other}”")),
    })
}

/// mg/L of what makes up so many per cent of so many ounces.
fn ppm_of(inputs: &Inputs) -> Number {
    let contents = Contents {
        untold_nitrogen: inputs.number("percent")?,
        ..Contents::default()
    };
    let grams_in_litre = inputs.number("ounces")? * OUNCE / litres(inputs)? / inputs.number_or("times", 1.0)?;
    Ok(in_a_litre(&contents, grams_in_litre).nitrogen())
}

/// Ions told in mmol/L, or salts told in g/L.
fn ions(inputs: &Inputs) -> Result<Ions, String> {
    let mut contents = Contents::default();
    for name in [
        "KNO3",
        "K2SO4",
        "KH2PO4",
        "Ca double",
        "Epsom",
        "urea",
        "AS",
        "KCl",
        "Ca(NO3)2.4H2O",
    ] {
        contents = contents.plus(&in_a_litre(&salt(name)?.contents(), 1.0), inputs.number_or(name, 0.0)?);
    }
    let of_salts = Ions::of(&contents);
    let told = |sign: &str| inputs.number_or(sign, 0.0);
    Ok(Ions {
        potassium: of_salts.potassium + told("K")?,
        ammonium: of_salts.ammonium + told("NH4")?,
        sodium: of_salts.sodium + told("Na")?,
        calcium: of_salts.calcium + told("Ca")?,
        magnesium: of_salts.magnesium + told("Mg")?,
        nitrate: of_salts.nitrate + told("NO3")?,
        chloride: of_salts.chloride + told("Cl")?,
        sulphate: of_salts.sulphate + told("SO4")?,
        dihydrogen_phosphate: of_salts.dihydrogen_phosphate + told("H2PO4")?,
        bicarbonate: of_salts.bicarbonate + told("HCO3")?,
    })
}

/// What is left free when sulphate has paired, and what follows from it.
fn free(inputs: &Inputs) -> Number {
    let free = ions(inputs)?.free();
    let [magnesium, calcium, potassium, ammonium] = free.pairs;
    Ok(match inputs.word("of")? {
        "K" => free.ions.potassium,
        "Ca" => free.ions.calcium,
        "Mg" => free.ions.magnesium,
        "SO4" => free.ions.sulphate,
        "MgSO4" => magnesium,
        "CaSO4" => calcium,
        "KSO4" => potassium,
        "NH4SO4" => ammonium,
        "strength" => free.strength(),
        "activity 1" => free.activity(1.0),
        "activity 2" => free.activity(2.0),
        "slowed 1" => free.slowed(1.0),
        "slowed 2" => free.slowed(2.0),
        other => return Err(format!("nothing free “{other}”")),
    })
}

/// What a plant gets in a week and what it needs, g.
fn need(inputs: &Inputs) -> Result<(f64, f64), String> {
    let all = all_needs(inputs)?;
    let of = inputs.word("of")?;
    let need = all.iter().find(|need| need.nutrient.sign() == of).ok_or("no such need")?;
    Ok((need.fed.value, need.needed.value))
}

fn all_needs(inputs: &Inputs) -> Result<[Need; 3], String> {
    let contents = Contents {
        untold_nitrogen: inputs.number_or("N", 0.0)?,
        phosphorus: inputs.number_or("P", 0.0)?,
        potassium: inputs.number_or("K", 0.0)?,
        ..Contents::default()
    };
    let strength = Strength {
        feed: contents,
        spread: (1.0, 1.0),
    };
    let habit = Habit {
        litres: inputs.number("litres")?,
        a_week: inputs.number("a_week")?,
    };
    Ok(needs(
        &strength,
        habit,
        Stage::Picking,
        inputs.number("fruit")?,
        &mut Working::silent(),
    ))
}

/// What a case has on its shelf: salts, or feeds by their labels.
fn shelf(inputs: &Inputs) -> Result<Vec<(String, Contents)>, String> {
    inputs
        .word("shelf")?
        .split(", ")
        .map(|name| {
            let contents = match salt(name) {
                Ok(salt) => salt.contents(),
                Err(_) => Label {
                    grade: Grade::parse(name).map_err(|error| error.to_string())?,
                    form: Form::Powder,
                    ..Label::default()
                }
                .contents()
                .map_err(|error| error.to_string())?,
            };
            Ok((name.to_owned(), contents))
        })
        .collect()
}

fn blended(inputs: &Inputs) -> Result<Blend, String> {
    let shelf: Vec<Contents> = shelf(inputs)?.into_iter().map(|(_, contents)| contents).collect();
    let mut target = [0.0; 6];
    for (wanted, nutrient) in target.iter_mut().zip(Nutrient::ALL) {
        *wanted = inputs.number_or(nutrient.sign(), 0.0)?;
    }
    blend(&shelf, &target).map_err(|error| format!("{error:?}"))
}

/// Grams in a litre of one thing on the shelf.
fn shelf_grams(inputs: &Inputs) -> Number {
    let names = shelf(inputs)?;
    let of = inputs.word("of")?;
    let blend = blended(inputs)?;
    let place = names.iter().position(|(name, _)| name == of).ok_or("not on the shelf")?;
    blend.per_litre.get(place).copied().ok_or_else(|| "not on the shelf".to_owned())
}

/// Share of one of two feeds by weight, %.
fn share_by_weight(inputs: &Inputs) -> Number {
    let one = shelf_grams(inputs)?;
    let all: f64 = blended(inputs)?.per_litre.iter().sum();
    Ok(100.0 * one / all)
}

fn brew(inputs: &Inputs) -> Result<Brew, String> {
    match inputs.word("brew")? {
        "nettle" => Ok(Brew::Nettle),
        "comfrey" => Ok(Brew::Comfrey),
        other => Err(format!("no brew “{other}”")),
    }
}
