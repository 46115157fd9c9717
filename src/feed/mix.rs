use std::fmt;

use super::element::Nutrient;
use super::{
    Band, Basis, Contents, Form, Label, LabelError, Measured, Rate, RateError, SEEDLING_LIMIT, Strength, Water, conductivity_bounds,
    in_a_litre, meter_spread,
};
use crate::quantity::{Likely, OutOfRange, Range};
use crate::working::{Working, value};

/// Cans that can be, litres.
pub const CAN_RANGE: Range = Range {
    what: "A can",
    low: 0.5,
    high: 200.0,
    unit: " litres",
};

/// The least in the can, ml or g, from which the other reading of a ratio is told (choice: less is not measured out).
const RATIO_TOLD: f64 = 1.0;
/// How far the ends of a conductivity lie apart, mS/cm, when the label leaves much open (choice: a third of the band that is about right).
const WIDE: f64 = 0.3;

/// A feed as its bottle or bag describes it: the label and the dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed {
    /// What it holds.
    pub label: Label,
    /// How much of it goes into a litre.
    pub rate: Rate,
}

/// What a can of feed comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Mix {
    /// Feed for the can, ml or g.
    pub amount: Likely,
    /// Whether it is grams.
    pub is_weighed: bool,
    /// The same if the label means the other country's gallons.
    pub other_country: Option<f64>,
    /// The same if its ratio is meant the other way.
    pub other_ratio: Option<f64>,
    /// What the can delivers.
    pub strength: Strength,
    /// What a meter would read, mS/cm at 25 °C, with the water's own.
    pub conductivity: Likely,
    /// How it was reached.
    pub working: Working,
}

/// Why a can cannot be mixed; each is a sentence for a grower.
#[derive(Clone, Debug, PartialEq)]
pub enum MixError {
    /// The label.
    Label(LabelError),
    /// The words of the dose.
    Dose(RateError),
    /// The can, or what a litre of feed weighs.
    OutOfRange(OutOfRange),
}

impl fmt::Display for MixError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Label(error) => error.fmt(f),
            Self::Dose(error) => error.fmt(f),
            Self::OutOfRange(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for MixError {}

impl Feed {
    /// Whether the feed goes by weight in this dose.
    const fn is_weighed(&self) -> bool {
        match self.rate.measured {
            Measured::Millilitres => false,
            Measured::Grams => true,
            Measured::Parts => matches!(self.label.form, Form::Powder),
        }
    }

    /// Feed in a litre in the unit that its label counts in: ml of a liquid by volume, otherwise grams.
    fn held(&self) -> Likely {
        let by_volume = matches!(self.label.form, Form::ByVolume);
        let density = self.label.form.density();
        let dose = self.rate.per_litre;
        match (self.is_weighed(), by_volume) {
            (false, true) | (true, false) => dose,
            (false, false) => Likely {
                low: dose.low * density.low,
                value: dose.value * density.value,
                high: dose.high * density.high,
            },
            (true, true) => Likely {
                low: dose.low / density.high,
                value: dose.value / density.value,
                high: dose.high / density.low,
            },
        }
    }
}

/// The can: how much feed goes in, and what that gives.
///
/// # Errors
/// [`MixError`] when the label's nitrogen forms quarrel or the can or the feed's weight cannot be.
pub fn mix(feed: &Feed, can_litres: f64, water: Water) -> Result<Mix, MixError> {
    let litres = CAN_RANGE.check(can_litres).map_err(MixError::OutOfRange)?;
    if let Form::ByWeight(Some(density)) = feed.label.form {
        super::DENSITY_RANGE.check(density).map_err(MixError::OutOfRange)?;
    }
    let contents = feed.label.contents().map_err(MixError::Label)?;
    let mut working = Working::default();
    let unit = if feed.is_weighed() { "g" } else { "ml" };
    let dose = working.step(
        "Feed for each litre",
        "amount on the label ÷ litres it is for × share of that",
        &[
            value("amount", feed.rate.said.0, unit, 2),
            value("litres", feed.rate.said.1, "", 3),
            value("share", feed.rate.share, "", 2),
        ],
        value("each litre", feed.rate.per_litre.value, unit, 2),
        "The words of the label; a UK gallon is 4.54609 litres, a US one 3.785412",
    );
    let amount = working.step(
        "To the can",
        "feed for each litre × litres",
        &[value("feed", dose, unit, 2), value("litres", litres, "", 2)],
        value("can", dose * litres, unit, 1),
        "Your can",
    );
    let held = feed.held();
    if held.value.to_bits() != feed.rate.per_litre.value.to_bits() {
        let density = feed.label.form.density().value;
        working.step(
            "By weight or by volume",
            "label in grams: × weight of 1 ml; label by volume: ÷ weight of 1 ml",
            &[value("feed", dose, unit, 2), value("1 ml weighs", density, "g", 2)],
            value("counted", held.value, if unit == "g" { "ml" } else { "g" }, 2),
            "A litre of liquid feed weighs 1.05 to 1.30 kg, about 1.15 (from memory), a millilitre of powder about 1.2 g (a university's leaflet)",
        );
    }
    let feed_in_litre = in_a_litre(&contents, held.value);
    let names = [
        ("Nitrogen", "N", Nutrient::Nitrogen),
        ("Phosphorus", "P", Nutrient::Phosphorus),
        ("Potassium", "K", Nutrient::Potassium),
    ];
    for ((title, symbol, nutrient), percent) in names.into_iter().zip(feed.label.grade.numbers) {
        let (formula, source) = match (nutrient, feed.label.basis) {
            (Nutrient::Phosphorus, Basis::Oxides) => ("% P₂O₅ × 0.43643 × 10 × feed", "Phosphorus in its oxide, from the atomic weights"),
            (Nutrient::Potassium, Basis::Oxides) => ("% K₂O × 0.83015 × 10 × feed", "Potassium in its oxide, from the atomic weights"),
            _ => ("% × 10 × feed", "1 % is 10 mg in a gram or millilitre"),
        };
        working.step(
            title,
            formula,
            &[value("label", percent, "%", 2), value("feed", held.value, "", 2)],
            value(symbol, feed_in_litre.of(nutrient), "mg/L", 1),
            source,
        );
    }
    let strength = Strength {
        feed: feed_in_litre,
        spread: (held.low / held.value, held.high / held.value),
    };
    let conductivity = conductivity_of(&strength, matches!(feed.label.form, Form::Powder), water, &mut working);
    Ok(Mix {
        amount: Likely {
            low: feed.rate.per_litre.low * litres,
            value: amount,
            high: feed.rate.per_litre.high * litres,
        },
        is_weighed: feed.is_weighed(),
        other_country: feed.rate.other_country.map(|other| other * litres),
        other_ratio: feed.rate.other_ratio.map(|other| other * litres),
        strength,
        conductivity,
        working,
    })
}

/// What a meter would read with the water's own salts, mS/cm.
pub(super) fn conductivity_of(strength: &Strength, is_powder: bool, water: Water, working: &mut Working) -> Likely {
    let (weak, strong) = strength.spread;
    let low = conductivity_bounds(&strength.feed.times(weak), is_powder).0 / 1000.0;
    let high = conductivity_bounds(&strength.feed.times(strong), is_powder).1 / 1000.0;
    let own = water.conductivity();
    let open = "Nitrogen without a form may be urea, which no meter sees, or ammonium sulphate; potassium may come with chloride";
    let low = working.step(
        "Salt, low end",
        "Σ λ° m c γ^α of the free ions + the water's own",
        &[value("feed", low, "mS/cm", 2), value("water", own, "mS/cm", 2)],
        value("EC", low + own, "mS/cm", 2),
        "Appelo 2010, sulphate pairs by a speciation code's constants; about 15 % from a real meter, 25 % above 5 mS/cm",
    );
    let high = working.step(
        "Salt, high end",
        "the same for what the label leaves open",
        &[value("feed", high, "mS/cm", 2), value("water", own, "mS/cm", 2)],
        value("EC", high + own, "mS/cm", 2),
        open,
    );
    Likely {
        low,
        value: f64::midpoint(low, high),
        high,
    }
}

impl Mix {
    /// What a real meter may read, mS/cm.
    #[must_use]
    pub const fn on_a_meter(&self) -> (f64, f64) {
        let Likely { low, high, .. } = self.conductivity;
        (low * (1.0 - meter_spread(low)), high * (1.0 + meter_spread(high)))
    }

    /// Whether the label leaves much open of what a meter would read.
    #[must_use]
    pub const fn is_open(&self) -> bool {
        self.conductivity.high - self.conductivity.low > WIDE
    }

    /// The amount if the ratio is meant the other way, where that is another amount to measure out.
    #[must_use]
    pub fn other_ratio_to_say(&self) -> Option<f64> {
        self.other_ratio.filter(|other| (other - self.amount.value).abs() > RATIO_TOLD)
    }

    /// The bands at both ends.
    #[must_use]
    pub fn bands(&self) -> (Band, Band) {
        (Band::of(self.conductivity.low), Band::of(self.conductivity.high))
    }

    /// Whether seedlings and newly set plants can take it for certain.
    #[must_use]
    pub const fn suits_seedlings(&self) -> bool {
        self.conductivity.high <= SEEDLING_LIMIT
    }

    /// Potassium for each part of nitrogen, as elements.
    #[must_use]
    pub fn potassium_to_nitrogen(&self) -> Option<f64> {
        self.strength.feed.potassium_to_nitrogen()
    }

    /// mg/L of everything with the water's own calcium.
    #[must_use]
    pub fn delivered(&self, water: Water) -> Contents {
        let mut all = self.strength.feed;
        all.calcium += water.calcium();
        all
    }
}
