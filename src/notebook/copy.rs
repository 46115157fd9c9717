use super::merge::joined;
use super::{DayPage, GroupDay, GroupRecord, MOST_PRODUCTS, Notebook, OpenError, PestRecord, ProductRecord, open};
use crate::almanac::CivilDay;
use crate::water::{Handed, Stay};

/// Largest file that is looked at, bytes: far above any notebook (limit).
pub const LARGEST_COPY: f64 = 4_000_000.0;

/// A notebook from the text of a file.
///
/// # Errors
/// A sentence for the grower, when it is no notebook, or one of a later program.
pub fn open_copy(text: &str) -> Result<Notebook, &'static str> {
    match open(text) {
        Ok(opened) => Ok(opened.notebook),
        Err(OpenError::Damaged) => {
            Err("This file is not a whole First Truss notebook, so nothing was changed. Choose one that “Save a copy to a file” made.")
        }
        Err(OpenError::Newer { .. }) => {
            Err("This file was written by a newer First Truss, so nothing was changed. Use the new version first, then open it.")
        }
    }
}

impl Notebook {
    /// Takes another plot's plants over as groups of its own, with what was noted of them, unless there is no room for them all.
    #[must_use]
    pub fn with_plants_of(&self, other: &Self) -> Option<Self> {
        let (mut mine, mut other) = (self.clone(), other.clone());
        other.change_units(mine.units);
        let today = mine.morning.day.or(other.morning.day);
        for group in other.groups {
            let before = group.id;
            // What was learnt there is a beginning: they are this notebook's now.
            // This morning's readings are in what was handed over.
            let from = today.filter(|_| group.handed.is_some()).map(CivilDay::tomorrow);
            let learn_from = group.learn_from.or(from);
            let handed = group.handed.map(|handed| Handed {
                stay: handed.stay.map(|stay| Stay { kept_on: today, ..stay }),
                ..handed
            });
            let place = mine.add_group(GroupRecord {
                learn_from,
                handed,
                ..group
            })?;
            let id = mine.groups.get(place)?.id;
            for page in &other.days {
                if let Some(noted) = page.group(before) {
                    mine.note(page.day, |page| page.note(id, |group| *group = GroupDay { id, ..noted.clone() }));
                }
            }
        }
        Some(mine)
    }

    /// This notebook with what a copy has beside it: groups, what was noted of days and seasons, programmes against pests and how long
    /// they keep one from picking. A group is the same in both
    /// when its number and its name are; another of the same number takes that of its name, or of one that came with the same copy
    /// before, or a free one; a removed one too. What is removed from one and stands in the other stands. What both say is as this
    /// notebook has it, and so are the plot, its place and its measures.
    #[must_use]
    pub fn with_copy(&self, copy: &Self) -> Self {
        let mut copy = copy.clone();
        if let Some(day) = self.morning.day {
            // What was seen on the copy's last morning belongs to its days.
            copy.turn_to(day);
        }
        self.set_apart(&mut copy);
        let mut mine = self.clone();
        mine.gone.retain(|gone| !copy.stands(gone.id));
        copy.gone.retain(|gone| self.known(gone.id).is_none());
        mine.bring_products(&mut copy);
        // Of a programme that is here too only what was done and counted is added.
        let is_here = |programme: &&PestRecord| self.programmes.iter().any(|mine| mine.id == programme.id);
        let chosen = |programme: &PestRecord| PestRecord {
            deeds: Vec::new(),
            counts: Vec::new(),
            ..programme.clone()
        };
        let base = Self {
            groups: copy.groups.iter().filter(|group| self.has(group)).cloned().collect(),
            gone: Vec::new(),
            days: Vec::new(),
            seasons: Vec::new(),
            programmes: copy.programmes.iter().filter(is_here).map(chosen).collect(),
            ..copy.clone()
        };
        joined(&base, &mine, &copy)
    }

    /// Takes in the products whose uses a copy tells of programmes that are here too. One that has the number of another product here
    /// takes that of its like, or a free one, in all of the copy; without room for one more its uses stay with the number.
    fn bring_products(&mut self, copy: &mut Self) {
        for mine in &mut self.programmes {
            let Some(theirs) = copy.programmes.iter().find(|theirs| theirs.id == mine.id) else {
                continue;
            };
            let greatest = theirs.products.iter().chain(&mine.products).map(|product| product.number).max();
            let mut free = greatest.unwrap_or_default() + 1;
            let mut numbers = Vec::new();
            for product in &theirs.products {
                let is_used = theirs.deeds.iter().any(|deed| deed.product == product.number);
                let number = match mine.product(product.number) {
                    _ if !is_used => continue,
                    None => product.number,
                    Some(own) if own.is_like(product) => continue,
                    Some(_) => mine.products.iter().find(|own| own.is_like(product)).map_or(free, |own| own.number),
                };
                if number > MOST_PRODUCTS {
                    continue;
                }
                numbers.push((product.number, number));
                if mine.product(number).is_none() {
                    mine.products.push(ProductRecord { number, ..product.clone() });
                    mine.products.sort_by_key(|product| product.number);
                    free += 1;
                }
            }
            copy.renumber_products(mine.id, &numbers, &mine.products);
        }
    }

    /// Gives the products of a programme other numbers, wherever they are named, all at once; it has these from then on.
    fn renumber_products(&mut self, id: u64, numbers: &[(u8, u8)], products: &[ProductRecord]) {
        let after = |number: u8| {
            numbers
                .iter()
                .find(|(before, _)| *before == number)
                .map_or(number, |(_, after)| *after)
        };
        for programme in &mut self.programmes {
            for product in &mut programme.products {
                product.same_as = product
                    .same_as
                    .map(|(of, number)| (of, if of == id { after(number) } else { number }));
            }
            if programme.id == id {
                programme.products = products.to_vec();
                programme.deeds.iter_mut().for_each(|deed| deed.product = after(deed.product));
            }
        }
    }

    /// Whether a group of a copy is one of these.
    fn has(&self, group: &GroupRecord) -> bool {
        self.groups.iter().any(|mine| mine.id == group.id && mine.name == group.name)
    }

    /// Whether all that these days tell of one group is noted of another here.
    fn notes(&self, days: &[DayPage], of: u32, here: u32) -> bool {
        days.iter().all(|page| {
            let noted = page.group(of).map(|noted| GroupDay { id: here, ..noted.clone() });
            let mine = self.day(page.day).and_then(|page| page.group(here));
            noted.is_none() || noted.as_ref() == mine
        })
    }

    /// Whether a group of a copy, gone there or here, is that of a number here: of the same name or, without one, with all noted that
    /// the copy's days tell of it.
    fn is_like(&self, name: &str, days: &[DayPage], of: u32, here: u32) -> bool {
        self.known(here).is_some_and(|mine| mine.name == name) && (!name.is_empty() || self.notes(days, of, here))
    }

    /// Gives each group of a copy that has the number of another one here the number of its like, or one that is free in both.
    fn set_apart(&self, copy: &mut Self) {
        let mut free = self.next_id.max(copy.next_id);
        let mut ids: Vec<u32> = copy.groups.iter().map(|group| group.id).collect();
        let mut renumbered = Vec::new();
        for programme in &mut copy.programmes {
            // A group that is no longer there may have had the number of another one here.
            programme.plants = programme.plants.filter(|plants| ids.contains(plants));
        }
        ids.extend(copy.gone.iter().map(|gone| gone.id));
        for group in &mut copy.groups {
            let before = group.id;
            let empty = GroupRecord {
                id: before,
                ..GroupRecord::default()
            };
            // One that is still empty here takes in the copy's.
            let is_another = self.groups.iter().any(|mine| mine.id == before && *mine != empty) && !self.has(group);
            if !is_another && (self.gone(before).is_none() || self.is_like(&group.name, &copy.days, before, before)) {
                continue;
            }
            let named = |mine: &GroupRecord| !group.name.is_empty() && mine.name == group.name;
            let came_before = |mine: &GroupRecord| {
                *mine
                    == GroupRecord {
                        id: mine.id,
                        ..group.clone()
                    }
                    && self.notes(&copy.days, before, mine.id)
            };
            let is_it = |mine: &&GroupRecord| (named(mine) || came_before(mine)) && !ids.contains(&mine.id);
            let standing = self.groups.iter().find(is_it).map(|mine| mine.id);
            let mut gone = self.gone.iter().map(|gone| gone.id);
            let is_like = |id: &u32| self.is_like(&group.name, &copy.days, before, *id) && !ids.contains(id);
            group.id = standing.or_else(|| gone.find(is_like)).unwrap_or(free);
            free = free.max(group.id.wrapping_add(1));
            ids.push(group.id);
            renumbered.push((before, group.id));
        }
        for gone in &copy.gone {
            let is_like = |id: u32| self.is_like(&gone.name, &copy.days, gone.id, id);
            if self.known(gone.id).is_none() || is_like(gone.id) {
                continue;
            }
            let standing = self.groups.iter().map(|mine| mine.id);
            let mut here = standing.chain(self.gone.iter().map(|mine| mine.id));
            let after = here.find(|id| is_like(*id) && !ids.contains(id)).unwrap_or(free);
            free = free.max(after.wrapping_add(1));
            ids.push(after);
            renumbered.push((gone.id, after));
        }
        for (before, after) in renumbered {
            copy.renumber(before, after);
        }
        copy.next_id = free;
    }
}
