//! What was done to the same plants in other programmes, as far as this one has to heed it.

use super::model::Model;
use super::parts::AdviceLine;
use super::pest_words::{control_words, pest_words};
use crate::notebook::{A_SEASON, PestRecord};
use crate::pest::{Control, Deed, Outline};

/// Days for which what lives is taken to be at work after it was put out (choice: as long as parasitoids are put out for).
const AT_WORK: i32 = 42;

/// What was done in any programme of these plants.
fn done(model: &Model, plants: Option<u32>) -> impl Iterator<Item = (&PestRecord, &Deed)> {
    let plants = model.place_of(plants);
    let same = model
        .notebook
        .programmes
        .iter()
        .filter(move |record| model.place_of_plants(record) == plants);
    same.flat_map(|record| record.deeds.iter().filter(|deed| deed.is_done).map(move |deed| (record, deed)))
}

/// Whether these plants were sprayed today: water would wash it off.
pub fn is_wet_today(model: &Model, plants: Option<u32>) -> bool {
    done(model, plants).any(|(_, deed)| deed.day == model.today && deed.control.is_sprayed())
}

/// What is to be heeded before the next treatment of the programme that is looked at.
pub fn heeded(model: &Model, outline: &Outline) -> Vec<AdviceLine> {
    let of = model.programme();
    let Some(next) = outline.next() else {
        return Vec::new();
    };
    let line = |mark, heading: &str, words: String| AdviceLine {
        mark,
        heading: heading.to_owned(),
        words,
    };
    let told = |record: &PestRecord, deed: &Deed| {
        let name = control_words(deed.control, record.pest).name;
        let against = pest_words(record.pest).name;
        [name, " on ", &deed.day.spoken(), " against ", &against.to_lowercase()].concat()
    };
    let mut lines = Vec::new();
    if next.control == Control::WaterJet && next.day == model.today && is_wet_today(model, of.plants) {
        lines.push(line(
            "mark-risk",
            "Not today: they were sprayed",
            "Water would wash it off. Hose tomorrow, or as the label says.".to_owned(),
        ));
    }
    if next.control.is_sprayed() {
        let is_near = |deed: &Deed, days: i32| (0..=days).contains(&model.today.days_since(deed.day));
        let other = done(model, of.plants).filter(|(record, _)| record.id != of.id);
        let bottle = of.product(next.product).map(|product| product.bottle(of.id));
        let same = other.filter(|(_, deed)| deed.control == next.control && is_near(deed, A_SEASON));
        let is_counted = |(record, deed): &(&PestRecord, &Deed)| {
            let product = record.product(deed.product).map(|product| product.bottle(record.id));
            product.is_some() && product == bottle
        };
        let (counted, others): (Vec<_>, Vec<_>) = same.partition(is_counted);
        if let Some((record, deed)) = counted.into_iter().max_by_key(|(_, deed)| deed.day) {
            let words = if deed.day == model.today {
                ". If it reached these too, note it here as done: it is one use."
            } else {
                ". The days between and the most uses count it."
            };
            lines.push(line("mark-hold", "The same product was used", told(record, deed) + words));
        }
        if let Some((record, deed)) = others.into_iter().max_by_key(|(_, deed)| deed.day) {
            lines.push(line(
                "mark-hold",
                "Used on these plants already",
                told(record, deed) + ". If it is the same product, that use counts here too: say so at its label, and the dates go by it.",
            ));
        }
        let living = done(model, of.plants).filter(|(_, deed)| deed.control.is_living() && is_near(deed, AT_WORK));
        if let Some((record, deed)) = living.max_by_key(|(_, deed)| deed.day) {
            lines.push(line(
                "mark-risk",
                "A spray kills what was put out",
                told(record, deed) + ". Soap and oil kill part of it, other products may kill all: ask its supplier and the label first.",
            ));
        }
    }
    lines
}
