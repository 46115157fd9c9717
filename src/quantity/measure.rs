use super::{UnitSystem, Units, Volume};

/// Pints below which a dose is poured by the millilitre (choice).
const LEAST_PINTS: f64 = 0.5;
/// Metric doses below this, litres, are poured in steps of 10 ml, the rest in steps of 50 ml (choice).
const LEAST_LITRES: f64 = 0.25;
/// The finest step of a measuring jug, litres (common practice, no source).
const FINE_STEP_LITRES: f64 = 0.01;
/// The usual step of a metric jug, litres (common practice, no source).
const STEP_LITRES: f64 = 0.05;

/// An amount rounded to what can be poured, with its words in the grower's units and in the other system.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// The rounded amount itself.
    pub volume: Volume,
    /// The numeral: "2¼", "1.3", "240".
    pub figure: String,
    /// The unit after it: "pints", "litres", "ml".
    pub unit: &'static str,
    /// The same amount in the other system: "1.3 litres", "2¼ pints", "8½ fl oz".
    pub twin: String,
}

/// The least share of a can that is told as a figure.
const LEAST_OF_CAN: f64 = 0.25;

/// Cans to fill for a volume, in quarters, to the nearest; what is less than a quarter reads "under", and a quarter. `can` above zero.
#[must_use]
pub fn cans(volume: Volume, can: Volume) -> (&'static str, f64) {
    let share = volume.litres() / can.litres();
    match share {
        _ if share <= 0.0 => ("", 0.0),
        _ if share < LEAST_OF_CAN => ("under ", LEAST_OF_CAN),
        _ => ("", to_step(share, LEAST_OF_CAN)),
    }
}

impl Measure {
    /// Rounds a dose: quarter pints (50 ml in metric units), and 10 ml steps below half a pint (250 ml) (choice).
    ///
    /// More than nothing never rounds to nothing, and nothing reads "0 pints" or "0 litres". Volumes below zero or not finite count
    /// as nothing.
    #[must_use]
    pub fn dose(volume: Volume, units: Units) -> Self {
        let is_fine = match units.system {
            UnitSystem::Imperial => volume.imperial_pints() < LEAST_PINTS,
            UnitSystem::Metric => volume.litres() < LEAST_LITRES,
            UnitSystem::Us => volume.us_pints() < LEAST_PINTS,
        };
        Self::rounded(volume, units, is_fine)
    }

    /// The same for an end of a range about a dose: in the unit of that, so that one sentence has one measure.
    #[must_use]
    pub fn end_of_range(volume: Volume, units: Units, about: &Self) -> Self {
        Self::rounded(volume, units, about.unit == "ml")
    }

    /// An amount by the millilitre, or in the larger unit, of which more than nothing is one step at least.
    fn rounded(volume: Volume, units: Units, is_fine: bool) -> Self {
        let litres = if volume.litres().is_finite() {
            volume.litres().max(0.0)
        } else {
            0.0
        };
        let main_unit = match units.system {
            UnitSystem::Imperial => "pints",
            UnitSystem::Metric => "litres",
            UnitSystem::Us => "US pints",
        };
        match units.system {
            system if litres <= 0.0 => Self {
                volume: Volume::ZERO,
                figure: "0".to_owned(),
                unit: main_unit,
                twin: if system == UnitSystem::Metric { "0 pints" } else { "0 litres" }.to_owned(),
            },
            UnitSystem::Imperial if !is_fine => {
                let pints = to_step(Volume::from_litres(litres).imperial_pints(), 0.25).max(0.25);
                let volume = Volume::from_imperial_pints(pints);
                Self {
                    volume,
                    figure: quarters(pints),
                    unit: plural(pints, "pint", "pints"),
                    twin: in_litres(volume),
                }
            }
            UnitSystem::Us if !is_fine => {
                let pints = to_step(Volume::from_litres(litres).us_pints(), 0.25).max(0.25);
                let volume = Volume::from_us_pints(pints);
                Self {
                    volume,
                    figure: quarters(pints),
                    unit: plural(pints, "US pint", "US pints"),
                    twin: in_litres(volume),
                }
            }
            UnitSystem::Metric if !is_fine => {
                let litres = to_step(litres, STEP_LITRES).max(STEP_LITRES);
                let volume = Volume::from_litres(litres);
                let pints = to_step(volume.imperial_pints(), 0.25);
                let twin = format!("{} {}", quarters(pints), plural(pints, "pint", "pints"));
                Self {
                    volume,
                    figure: decimal(litres, 2),
                    unit: plural(litres, "litre", "litres"),
                    twin,
                }
            }
            system => Self::by_the_millilitre(litres, system),
        }
    }

    /// In steps of 10 ml, with the pints or fluid ounces beside them in quarters (choice).
    fn by_the_millilitre(litres: f64, system: UnitSystem) -> Self {
        let steps = if litres > 0.0 {
            to_step(litres, FINE_STEP_LITRES).max(FINE_STEP_LITRES)
        } else {
            0.0
        };
        let volume = Volume::from_litres(steps);
        let (ounces, name) = match system {
            UnitSystem::Us => (volume.us_fluid_ounces(), "US fl oz"),
            UnitSystem::Imperial | UnitSystem::Metric => (volume.imperial_fluid_ounces(), "fl oz"),
        };
        let ounces = if steps > 0.0 { to_step(ounces, 0.25).max(0.25) } else { 0.0 };
        Self {
            volume,
            figure: decimal(volume.millilitres(), 0),
            unit: "ml",
            twin: format!("{} {name}", quarters(ounces)),
        }
    }
}

/// The nearest multiple of a step; halves go up.
fn to_step(value: f64, step: f64) -> f64 {
    (value / step + 0.5).floor() * step
}

fn in_litres(volume: Volume) -> String {
    let litres = to_step(volume.litres(), STEP_LITRES);
    format!("{} {}", decimal(litres, 2), plural(litres, "litre", "litres"))
}

/// One or less is singular, as in "0.85 litre".
const fn plural(count: f64, one: &'static str, many: &'static str) -> &'static str {
    if count > 0.0 && count <= 1.0 { one } else { many }
}

/// A number to the nearest quarter as whole and fraction: "0", "¾", "2¼". Below zero counts as zero.
#[must_use]
pub fn quarters(value: f64) -> String {
    let count = scaled(value.max(0.0), 4);
    let whole = count / 4;
    let fraction = match count % 4 {
        0 => "",
        1 => "¼",
        2 => "½",
        _ => "¾",
    };
    if whole == 0 && !fraction.is_empty() {
        fraction.to_owned()
    } else {
        whole.to_string() + fraction
    }
}

/// A number with at most so many decimals (9 or fewer) and no trailing zeros: `1.30` reads "1.3". Halves go up, minus is the
/// true sign "−".
///
/// Written with whole numbers only: the standard library's printing of fractions would be a tenth of the whole program.
#[must_use]
pub fn decimal(value: f64, most_decimals: usize) -> String {
    let most_decimals = most_decimals.min(9);
    let unit = (0..most_decimals).fold(1, |unit: u64, _| unit * 10);
    let count = scaled(value.abs(), unit);
    let mut text = String::new();
    if value < 0.0 && count > 0 {
        text.push('−');
    }
    text.push_str(&(count / unit).to_string());
    if !count.is_multiple_of(unit) {
        // A leading one keeps the zeros after the mark, and is dropped again.
        let part = (unit + count % unit).to_string();
        text.push('.');
        text.push_str(part.get(1..).unwrap_or_default().trim_end_matches('0'));
    }
    text
}

/// How many parts of one make a number, to the nearest. More than fit, or not a number, are as many as fit, or none.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    clippy::cast_precision_loss,
    reason = "a float cast saturates; parts are at most 10⁹"
)]
fn scaled(value: f64, parts: u64) -> u64 {
    (value * parts as f64 + 0.5).floor() as u64
}
