//! One product in several programmes: which it is the same as.

use super::app::App;
use super::card::plants_words;
use super::fields::choice;
use super::model::Model;
use super::parts::{Element, element};
use super::pest_words::{pest_words, product_name};
use crate::notebook::ProductRecord;

/// Values of the list; a plot with more than so many of a kind shows the latest.
const VALUES: [&str; 9] = ["0", "1", "2", "3", "4", "5", "6", "7", "8"];

/// A product of another programme that the one that is looked at may be the same as.
struct Other {
    bottle: (u64, u8),
    words: String,
}

/// Those of the same kind, the latest first; none twice.
fn others(model: &Model) -> Vec<Other> {
    let (own, Some(product)) = (model.programme(), model.product()) else {
        return Vec::new();
    };
    let mut others: Vec<Other> = Vec::new();
    for record in model.notebook.programmes.iter().rev().filter(|record| record.id != own.id) {
        for other in record.products.iter().filter(|other| other.control == product.control) {
            let bottle = other.bottle(record.id);
            let words = [
                pest_words(record.pest).name,
                ": ",
                &product_name(record, other.number),
                &plants_words(record.plants, &model.notebook),
            ]
            .concat();
            match others.iter_mut().find(|other| other.bottle == bottle) {
                Some(known) => known.words = [&known.words, "; ", &words].concat(),
                None => others.push(Other { bottle, words }),
            }
        }
    }
    others.truncate(VALUES.len() - 1);
    others
}

/// Changes with the list.
pub fn others_key(model: &Model) -> String {
    others(model).into_iter().map(|other| other.words).collect()
}

/// The place in the list of what the product that is looked at is the same as; 0 for none.
fn place(model: &Model) -> usize {
    let bottle = model.product().map(|product| product.bottle(model.programme().id));
    let at = others(model).iter().position(|other| Some(other.bottle) == bottle);
    at.map_or(0, |at| at + 1)
}

/// Which product of another programme it is, where there is one of its kind.
pub fn same_as(app: App) -> Option<Element> {
    let others = others(&app.look());
    if others.is_empty() {
        return None;
    }
    let words = others.into_iter().map(|other| other.words);
    let words = std::iter::once("none: another product".to_owned()).chain(words);
    let list = choice(
        app,
        "same-product",
        "The same product as",
        VALUES.into_iter().zip(words).collect(),
        |model| place(model).to_string(),
        |model, value| model.call_same(value.parse().unwrap_or_default()),
    );
    Some(element("div").class("steps").child(list))
}

impl Model {
    /// Calls the product that is looked at the same as the one at a place of the list; 0 for one of its own again, with the label that
    /// it had. Whoever chooses another leaves the one from before.
    fn call_same(&mut self, at: usize) {
        let bottle = at.checked_sub(1).and_then(|at| Some(others(self).get(at)?.bottle));
        let was_same = place(self) > 0;
        let Some(number) = self.product_mut().map(|product| product.number) else {
            return;
        };
        let id = self.programme().id;
        let own = self.pests.apart.take_if(|(of, own)| *of == id && own.number == number);
        if was_same {
            self.notebook.call_other(id, number);
            if let (Some((_, own)), Some(product)) = (own, self.product_mut().filter(|product| product.is_unread())) {
                product.read_as(&own, true);
                product.name = own.name;
            }
        }
        if let Some(bottle) = bottle {
            self.pests.apart = self.product_mut().map(|product| (id, product.clone()));
            self.notebook.call_same(id, number, bottle);
        }
    }

    /// Gives what was changed in a label of the programme that is looked at, since it was `before`, to the same product elsewhere.
    pub(super) fn share_labels(&mut self, before: &[ProductRecord]) {
        let programme = self.programme();
        let id = programme.id;
        let was_other = |product: &&ProductRecord| before.iter().any(|before| before.number == product.number && before != *product);
        let changed: Vec<u8> = programme.products.iter().filter(was_other).map(|product| product.number).collect();
        for number in changed {
            self.notebook.share_label(id, number);
        }
    }
}
