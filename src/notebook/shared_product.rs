//! Products that the grower calls the same in several programmes: one label, and uses that count together.

use super::{Notebook, PestRecord, ProductRecord};
use crate::almanac::CivilDay;
use crate::pest::{SharedUse, Told};

/// Days for which a use counts towards the most uses of a label (choice: a season).
pub const A_SEASON: i32 = 240;

/// A use that an ended programme left to a product of another one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LeftUse {
    /// The number of that programme.
    pub programme: u64,
    /// The number of the product there.
    pub product: u8,
    /// The day of the use.
    pub day: CivilDay,
}

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
        let plants = self.programme_of(id).and_then(|programme| programme.plants);
        let all = self.programmes.iter().flat_map(|programme| {
            let (id, is_elsewhere) = (programme.id, programme.plants != plants);
            programme.products.iter().map(move |product| (id, product, is_elsewhere))
        });
        // That of the same plants says what the label says of their place.
        let same = all.filter(|(id, product, _)| product.bottle(*id) == bottle);
        let Some((from, other, _)) = same.min_by_key(|(.., is_elsewhere)| *is_elsewhere) else {
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
                    let at = (programme.id, product.number);
                    product.same_as = Some(*heir.get_or_insert(at)).filter(|heir| *heir != at);
                    product.forget_label();
                }
            }
        }
    }

    /// Gives the label of the product `number` of the programme `id`, as it stands there, to all that are the same: to those for the same
    /// plants also what it says of their place, once that is answered.
    pub fn share_label(&mut self, id: u64, number: u8) {
        let Some(source) = self.product_of(id, number).cloned() else {
            return;
        };
        let bottle = source.bottle(id);
        let tells_place = source.names_place != Told::Unknown;
        let plants = self.programme_of(id).and_then(|programme| programme.plants);
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                if (programme.id, product.number) != (id, number) && product.bottle(programme.id) == bottle {
                    product.read_as(&source, tells_place && programme.plants == plants);
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

    /// Leaves what a programme that is ended used to those that have the same products on the same plants. Tells what each got that it
    /// had not.
    pub(super) fn leave_uses(&mut self, ended: &PestRecord) -> Vec<LeftUse> {
        let mut left = Vec::new();
        for programme in self.programmes.iter_mut().filter(|programme| programme.plants == ended.plants) {
            for product in &mut programme.products {
                for day in ended.days_of(product.bottle(programme.id)) {
                    if !product.used_before.contains(&day) {
                        product.used_before.push(day);
                        left.push(LeftUse {
                            programme: programme.id,
                            product: product.number,
                            day,
                        });
                    }
                }
                product.used_before.sort_unstable();
            }
        }
        left
    }

    /// Takes back what a programme left that is put back.
    pub(super) fn take_back_uses(&mut self, left: &[LeftUse]) {
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                let is_left = |day: &CivilDay| {
                    left.contains(&LeftUse {
                        programme: programme.id,
                        product: product.number,
                        day: *day,
                    })
                };
                product.used_before.retain(|day| !is_left(day));
            }
        }
    }

    /// Lets every product name the one directly that stands for all that are the same: where two tabs each called others the same, one
    /// may name another that names a third, or two each other.
    pub(super) fn settle_bottles(&mut self) {
        let before = self.programmes.clone();
        let next = |(id, number): (u64, u8)| {
            let programme = before.iter().find(|programme| programme.id == id)?;
            programme.product(number)?.same_as.filter(|bottle| *bottle != (id, number))
        };
        for programme in &mut self.programmes {
            for product in programme.products.iter_mut().filter(|product| product.same_as.is_some()) {
                let own = (programme.id, product.number);
                let mut seen = vec![own];
                let mut last = own;
                while let Some(bottle) = next(last) {
                    if let Some(begin) = seen.iter().position(|other| *other == bottle) {
                        // A ring: the first of it stands for all.
                        last = seen.iter().skip(begin).copied().min().unwrap_or(own);
                        break;
                    }
                    seen.push(bottle);
                    last = bottle;
                }
                product.same_as = Some(last).filter(|bottle| *bottle != own);
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
