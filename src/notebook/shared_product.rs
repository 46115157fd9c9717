//! Products that the grower calls the same in several programmes: one label, and uses that count together.

use super::{Notebook, PestRecord, ProductRecord};
use crate::almanac::CivilDay;
use crate::pest::SharedUse;

/// Days for which a use counts towards the most uses of a label (choice: a season).
pub const A_SEASON: i32 = 240;

impl Notebook {
    /// Calls the product `number` of the programme `id` the same as the one that is told apart by `bottle`, and all that were the same
    /// as it before. It takes over that one's label, or gives it its own where that one is not read: the number of the one whose label it
    /// is stands for all.
    pub fn call_same(&mut self, id: u64, number: u8, bottle: (u64, u8)) {
        let Some(mine) = self.product_of(id, number).cloned() else { return };
        let before = mine.bottle(id);
        if before == bottle {
            return;
        }
        let mut all = self.programmes.iter().flat_map(|programme| {
            let id = programme.id;
            programme.products.iter().map(move |product| (id, product))
        });
        let Some((from, other)) = all.find(|(id, product)| product.bottle(*id) == bottle) else {
            return;
        };
        let (source, taking, given) = if other.is_unread() && !mine.is_unread() {
            ((id, number), bottle, before)
        } else {
            ((from, other.number), before, bottle)
        };
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                if product.bottle(programme.id) == taking {
                    product.same_as = Some(given);
                }
            }
        }
        self.share_label(source.0, source.1);
    }

    /// Calls the product `number` of the programme `id` one of its own again. Those that were the same as it stay the same among
    /// themselves. A label that was taken over is not that of another product: it is unread from then on.
    pub fn call_other(&mut self, id: u64, number: u8) {
        let own = (id, number);
        let mut heir = None;
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                if (programme.id, product.number) == own {
                    if product.same_as.take().is_some() {
                        product.forget_label();
                    }
                } else if product.same_as == Some(own) {
                    let bottle = *heir.get_or_insert((programme.id, product.number));
                    product.same_as = Some(bottle);
                    product.forget_label();
                }
            }
        }
    }

    /// Gives the label of the product `number` of the programme `id`, as it stands there, to all that are the same.
    pub fn share_label(&mut self, id: u64, number: u8) {
        let Some(source) = self.product_of(id, number).cloned() else {
            return;
        };
        let bottle = source.bottle(id);
        let plants = self.programme_of(id).and_then(|programme| programme.plants);
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                if (programme.id, product.number) != (id, number) && product.bottle(programme.id) == bottle {
                    product.read_as(&source, programme.plants == plants);
                }
            }
        }
    }

    /// What was used of the products of the programme `id` on the same plants within a season, in other programmes and in those that
    /// were ended.
    #[must_use]
    pub fn shared_uses(&self, id: u64, today: CivilDay) -> Vec<SharedUse> {
        let Some(record) = self.programme_of(id) else { return Vec::new() };
        let mut uses = Vec::new();
        for product in &record.products {
            let mut days = product.used_before.clone();
            for other in self
                .programmes
                .iter()
                .filter(|other| other.id != id && other.plants == record.plants)
            {
                days.extend(other.days_of(product.bottle(id)));
            }
            days.retain(|day| (0..=A_SEASON).contains(&today.days_since(*day)));
            uses.extend(days.into_iter().map(|day| SharedUse {
                product: product.number,
                day,
            }));
        }
        uses
    }

    /// Leaves what a programme that is ended used to those that have the same products on the same plants.
    pub(super) fn leave_uses(&mut self, ended: &PestRecord) {
        for programme in self.programmes.iter_mut().filter(|programme| programme.plants == ended.plants) {
            for product in &mut programme.products {
                let bottle = product.bottle(programme.id);
                product.used_before.extend(ended.days_of(bottle));
                product.used_before.sort_unstable();
                product.used_before.dedup();
            }
        }
    }

    fn programme_of(&self, id: u64) -> Option<&PestRecord> {
        self.programmes.iter().find(|programme| programme.id == id)
    }

    fn product_of(&self, id: u64, number: u8) -> Option<&ProductRecord> {
        self.programme_of(id)?.product(number)
    }
}

impl PestRecord {
    /// The days on which a product was used here, or in what was ended before and left to it.
    fn days_of(&self, bottle: (u64, u8)) -> Vec<CivilDay> {
        let same = |product: &&ProductRecord| product.bottle(self.id) == bottle;
        let mut days = Vec::new();
        for product in self.products.iter().filter(same) {
            days.extend(&product.used_before);
            let used = self.deeds.iter().filter(|deed| deed.is_done && deed.product == product.number);
            days.extend(used.map(|deed| deed.day));
        }
        days
    }
}
