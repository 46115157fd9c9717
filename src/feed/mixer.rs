//! How much of each thing on a shelf comes nearest to what a can should hold.

use super::{Band, Contents, Nutrient, Strength, Water, in_a_litre};
use crate::quantity::Likely;

/// Things on a shelf that are tried together; more are left out (limit).
pub const MOST_ON_SHELF: usize = 12;
/// What a gram more in a litre must bring, no unit (half of what it takes off the sum of the squared misses), to be worth taking (choice).
const FLAT: f64 = 1e-9;
/// Ammonium, g in 100 g times g/L, that a gram of weight more in a litre counts as, where two blends are compared (choice: so little that
/// weight decides only between blends with as much ammonium).
const AMMONIUM_FOR_WEIGHT: f64 = 1e-6;
/// What is left of a column of length one, squared, no unit, when others can stand in for it (choice).
const DEPENDENT: f64 = 1e-12;
/// How far a nutrient may be from its target before it is said, as a share (choice).
const NOTICED: f64 = 0.03;

/// mg/L of each nutrient.
type Column = [f64; 6];

/// What was mixed from the shelf.
#[derive(Clone, Debug, PartialEq)]
pub struct Blend {
    /// Grams (millilitres of a liquid) of each thing in a litre, in the shelf's order.
    pub per_litre: Vec<f64>,
    /// What comes of it, mg/L.
    pub strength: Strength,
    /// Nutrients that stay short or come over: which, wanted and had, mg/L.
    pub misses: Vec<Miss>,
    /// What a meter would read, mS/cm, without the water's own.
    pub conductivity: Likely,
    /// What is left of the target: the root of the sum of the squared misses, each as a share of its target.
    pub residual: f64,
}

impl Blend {
    /// What a meter would read in water of a kind, mS/cm.
    #[must_use]
    pub fn conductivity_in(&self, water: Water) -> Likely {
        let own = water.conductivity();
        let Likely { low, value, high } = self.conductivity;
        Likely {
            low: low + own,
            value: value + own,
            high: high + own,
        }
    }
}

/// A nutrient that the shelf cannot bring to its target.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Miss {
    /// Which.
    pub nutrient: Nutrient,
    /// Wanted, mg/L.
    pub wanted: f64,
    /// Had, mg/L.
    pub had: f64,
}

/// Why nothing is mixed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BlendError {
    /// Nothing on the shelf holds anything of the target.
    NothingFits,
    /// A can of it would be too strong, mS/cm.
    TooStrong(f64),
}

/// Grams of each thing on the shelf for a litre that come nearest to a target, mg/L in the order of [`Nutrient::ALL`]. A target of
/// nought asks for none and is not counted.
///
/// The sum of the squared misses, each as a share of its target, is the least that amounts of nought and more can reach: every
/// choice of things is tried, the fewest first, and the first ones whose slopes say that no other amount would do better are
/// taken. Among as few, the least ammonium wins, then the least weight.
///
/// # Errors
/// [`BlendError`].
pub fn blend(shelf: &[Contents], target: &[f64; 6]) -> Result<Blend, BlendError> {
    let columns: Vec<Column> = shelf
        .iter()
        .take(MOST_ON_SHELF)
        .map(|thing| weighted(&in_a_litre(thing, 1.0).all(), target))
        .collect();
    let aim = weighted(target, target);
    let amounts = nearest(&columns, &aim, shelf).ok_or(BlendError::NothingFits)?;
    let mut feed = Contents::default();
    for (thing, amount) in shelf.iter().zip(&amounts) {
        feed = feed.plus(&in_a_litre(thing, 1.0), *amount);
    }
    let rest = left_over(&columns, &amounts, &aim);
    let misses = Nutrient::ALL
        .into_iter()
        .zip(target)
        .map(|(nutrient, &wanted)| Miss {
            nutrient,
            wanted,
            had: feed.of(nutrient),
        })
        .filter(|miss| miss.wanted > 0.0 && (miss.had - miss.wanted).abs() > NOTICED * miss.wanted)
        .collect();
    // Salts leave nothing open; of a feed by its label the potassium may come with chloride.
    let (low, high) = super::conductivity_bounds(&feed, false);
    let conductivity = Likely {
        low: low / 1000.0,
        value: f64::midpoint(low, high) / 1000.0,
        high: high / 1000.0,
    };
    if Band::of(conductivity.low) > Band::Strong {
        return Err(BlendError::TooStrong(conductivity.low));
    }
    let mut per_litre = amounts;
    per_litre.resize(shelf.len(), 0.0);
    Ok(Blend {
        per_litre,
        strength: Strength { feed, spread: (1.0, 1.0) },
        misses,
        conductivity,
        residual: dot(&rest, &rest).sqrt(),
    })
}

/// Each as a share of its target; nothing where none is wanted.
fn weighted(amounts: &Column, target: &Column) -> Column {
    let mut shares = *amounts;
    for (share, &wanted) in shares.iter_mut().zip(target) {
        *share = if wanted > 0.0 { *share / wanted } else { 0.0 };
    }
    shares
}

fn dot(one: &Column, other: &Column) -> f64 {
    one.iter().zip(other).map(|(a, b)| a * b).sum()
}

/// What is left of a column when so many times another is taken off.
fn less(column: &Column, other: &Column, times: f64) -> Column {
    let mut rest = *column;
    for (part, taken) in rest.iter_mut().zip(other) {
        *part -= taken * times;
    }
    rest
}

/// What the amounts leave of the aim.
fn left_over(columns: &[Column], amounts: &[f64], aim: &Column) -> Column {
    columns
        .iter()
        .zip(amounts)
        .fold(*aim, |rest, (column, &amount)| less(&rest, column, amount))
}

/// The amounts, or nothing when no choice has any. See [`blend`].
fn nearest(columns: &[Column], aim: &Column, shelf: &[Contents]) -> Option<Vec<f64>> {
    for size in 1..=aim.len() {
        let mut found: Option<(Vec<f64>, f64)> = None;
        for choice in 1_u32..1 << columns.len() {
            if choice.count_ones() as usize != size {
                continue;
            }
            let is_chosen = |place: usize| choice >> place & 1 == 1;
            let Some(amounts) = amounts_of(columns, &is_chosen, aim) else {
                continue;
            };
            let rest = left_over(columns, &amounts, aim);
            let mut others = columns.iter().enumerate().filter(|&(place, _)| !is_chosen(place));
            let is_optimal = others.all(|(_, column)| dot(column, &rest) <= FLAT);
            let cost = cost(shelf, &amounts);
            if is_optimal && found.as_ref().is_none_or(|(_, least)| cost < *least) {
                found = Some((amounts, cost));
            }
        }
        if let Some((amounts, _)) = found {
            return Some(amounts);
        }
    }
    None
}

/// What a blend is to have little of: ammonium, and where that is the same, weight.
fn cost(shelf: &[Contents], amounts: &[f64]) -> f64 {
    let costs = shelf.iter().zip(amounts);
    costs
        .map(|(thing, amount)| (thing.ammonium_nitrogen + AMMONIUM_FOR_WEIGHT) * amount)
        .sum()
}

/// The amounts of the chosen things that come nearest to the aim if amounts below nought were allowed; nothing when one is not
/// above nought, or when the others can stand in for it.
///
/// A thing's amount is what the part of its column that no other can give finds of itself in the aim.
fn amounts_of(columns: &[Column], is_chosen: &dyn Fn(usize) -> bool, aim: &Column) -> Option<Vec<f64>> {
    let mut amounts = Vec::with_capacity(columns.len());
    for (place, column) in columns.iter().enumerate() {
        if !is_chosen(place) {
            amounts.push(0.0);
            continue;
        }
        let own = part_of_its_own(columns, place, is_chosen)?;
        let amount = dot(&own, aim) / dot(&own, column);
        if amount.is_nan() || amount <= 0.0 {
            return None;
        }
        amounts.push(amount);
    }
    Some(amounts)
}

/// The part of a column that is at right angles to all other chosen ones.
fn part_of_its_own(columns: &[Column], place: usize, is_chosen: &dyn Fn(usize) -> bool) -> Option<Column> {
    let mut others = Vec::with_capacity(6);
    let own = columns.get(place)?;
    let chosen = columns.iter().enumerate().filter(|&(other, _)| other != place && is_chosen(other));
    for (column, own) in chosen.map(|(_, column)| (column, false)).chain([(own, true)]) {
        let mut rest = *column;
        // Twice, because what is taken off once leaves a little of it behind.
        for _ in 0..2 {
            for other in &others {
                rest = less(&rest, other, dot(&rest, other));
            }
        }
        let length = dot(&rest, &rest);
        if length <= DEPENDENT * dot(column, column) {
            return None;
        }
        if own {
            return Some(rest);
        }
        others.push(rest.map(|part| part / length.sqrt()));
    }
    None
}
