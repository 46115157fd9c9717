//! What was done to the same plants in other programmes, as far as this one has to heed it.

use super::model::Model;
use super::parts::AdviceLine;
use super::pest_words::{control_words, pest_words};
use crate::almanac::CivilDay;
use crate::notebook::{A_SEASON, PestRecord, Treatment};
use crate::pest::{AT_WORK, Control, Deed, Outline, Product, Standing, overdrawn};

/// What was done to these plants within a season, in any programme that goes on or was ended.
fn done(model: &Model, plants: Option<u32>) -> impl Iterator<Item = Treatment> {
    let plants = model.place_of(plants);
    let done = model.notebook.treatments_done(model.today.days_later(-A_SEASON), model.today);
    done.into_iter().filter(move |treatment| model.place_of(treatment.plants) == plants)
}

/// Whether a treatment was noted in a programme.
fn is_noted_in(record: &PestRecord, treatment: &Treatment) -> bool {
    let is_same = |deed: &Deed| (deed.day, deed.control, deed.is_done) == (treatment.day, treatment.control, true);
    record.pest == treatment.pest && record.deeds.iter().any(is_same)
}

/// Whether these plants were sprayed today: water would wash it off.
pub fn is_wet_today(model: &Model, plants: Option<u32>) -> bool {
    done(model, plants).any(|treatment| treatment.day == model.today && treatment.control.is_sprayed())
}

/// That programmes with one product plan more uses of it than its label leaves to all of them; one day is one use.
fn planned_together(model: &Model, outline: &Outline) -> Vec<AdviceLine> {
    let of = model.programme();
    let same_plants = |other: &&PestRecord| other.id != of.id && other.plants == of.plants;
    let line = |product: Product| {
        let bottle = of.product(product.number)?.bottle(of.id);
        let mut days = days_of(of, outline, bottle, Standing::Ahead);
        let mut used = days_of(of, outline, bottle, Standing::Done);
        let shared = model.notebook.shared_uses(of.id, model.today);
        used.extend(
            shared
                .iter()
                .filter(|shared| shared.product == product.number)
                .map(|shared| shared.day),
        );
        let mut against = Vec::new();
        for record in model.notebook.programmes.iter().filter(same_plants) {
            if record.products.iter().any(|other| other.bottle(record.id) == bottle) {
                let theirs = days_of(record, &model.outline_of(record), bottle, Standing::Ahead);
                if !theirs.is_empty() {
                    against.push(pest_words(record.pest).name.to_lowercase());
                }
                days.extend(theirs);
            }
        }
        let (planned, left) = overdrawn(days, used, product.label.most_uses?)?;
        (!against.is_empty()).then(|| AdviceLine {
            mark: "mark-hold",
            heading: "Planned for both, and too often".to_owned(),
            words: [
                "This product is planned on ",
                &planned.to_string(),
                " days, here and against ",
                &against.join(" and "),
                ", and its label leaves ",
                &left.to_string(),
                ". Spray against both on one day, which is one use, or go on by hand.",
            ]
            .concat(),
        })
    };
    of.products_for(!model.is_covered(of)).into_iter().filter_map(line).collect()
}

/// The days on which a product is or was used in a programme.
fn days_of(record: &PestRecord, outline: &Outline, bottle: (u64, u8), standing: Standing) -> Vec<CivilDay> {
    let same = |number: u8| record.product(number).is_some_and(|product| product.bottle(record.id) == bottle);
    let uses = outline
        .visits
        .iter()
        .filter(|visit| visit.standing == standing && visit.control.needs_label() && same(visit.product));
    uses.map(|visit| visit.day).collect()
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
    let told = |done: &Treatment| {
        let name = control_words(done.control, done.pest).name;
        let against = pest_words(done.pest).name;
        [name, " on ", &done.day.spoken(), " against ", &against.to_lowercase()].concat()
    };
    let mut lines = Vec::new();
    if next.control == Control::WaterJet && next.day == model.today && is_wet_today(model, of.plants) {
        lines.push(line(
            "mark-risk",
            "Not today: they were sprayed",
            "Water would wash it off. Hose tomorrow, or as the label says.".to_owned(),
        ));
    }
    lines.extend(planned_together(model, outline));
    if next.control.is_sprayed() {
        let shared = model.notebook.shared_uses(of.id, model.today);
        let same = done(model, of.plants).filter(|done| done.control == next.control && !is_noted_in(of, done));
        let is_counted = |done: &Treatment| {
            let mut uses = shared.iter();
            uses.any(|shared| (shared.product, shared.day) == (next.product, done.day))
        };
        let (counted, others): (Vec<_>, Vec<_>) = same.partition(is_counted);
        if let Some(last) = counted.into_iter().max_by_key(|done| done.day) {
            let words = if last.day == model.today {
                ". If it reached these too, note it here as done: it is one use."
            } else {
                ". The days between and the most uses count it."
            };
            lines.push(line("mark-hold", "The same product was used", told(&last) + words));
        }
        if let Some(last) = others.into_iter().max_by_key(|done| done.day) {
            lines.push(line(
                "mark-hold",
                "Used on these plants already",
                told(&last)
                    + ". If it is the same product, that use counts here too: say so at its label, or note it here as done that day, and the dates go by it.",
            ));
        }
        let is_at_work = |done: &Treatment| done.control.is_living() && model.today.days_since(done.day) <= AT_WORK;
        if let Some(last) = done(model, of.plants).filter(is_at_work).max_by_key(|done| done.day) {
            lines.push(line(
                "mark-risk",
                "A spray kills what was put out",
                told(&last) + ". Soap and oil kill part of it, other products may kill all: ask its supplier and the label first.",
            ));
        }
    }
    lines
}
