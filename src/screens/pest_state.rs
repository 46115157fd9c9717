//! What Pest repeats shows: the programme that is looked at, worked out.

use super::model::Model;
use super::route::Route;
use crate::almanac::{CivilDay, Latitude, Thermometer};
use crate::browser::{elapsed, milliseconds};
use crate::notebook::{Entry, Field, LeftUse, MOST_PRODUCTS, PestRecord, ProductRecord, Treatment, Waits};
use crate::pest::{Advice, Application, Back, BestPlan, Control, DayReading, Outline, Pest, Programme, Search, SharedUse, Warmth, advice};

/// Milliseconds after which the search for the best plan lets the page breathe (choice: on a slow phone one more step after them still
/// leaves less than 50).
const SLICE: f64 = 20.0;

/// What is looked at on Pest repeats, and its answer.
#[derive(Default)]
pub struct PestState {
    /// Position of the programme.
    pub selected: usize,
    /// The programme that was ended last, as long as it can be put back.
    pub ended: Option<PestRecord>,
    /// What was left of other programmes before it was ended, and after.
    waits: (Waits, Waits),
    /// The uses that it left to others.
    left: Vec<LeftUse>,
    /// What was left of ended programmes before a part of it was taken out, as long as that can be undone.
    pub forgotten: Option<Waits>,
    /// The number of a programme that was begun by turning to a pest: as long as it is as it was begun, it goes again.
    turned: Option<u64>,
    /// What is shown before any programme is begun.
    blank: PestRecord,
    /// What stands in the field of a count.
    pub count: Entry,
    /// Whether it was counted on a card, once chosen.
    pub on_card: Option<bool>,
    /// The number of the product whose label is looked at; 0 for the one that is repeated.
    pub product: u8,
    /// A product as it was before it was called the same as another one, with its programme, as long as that can be taken back.
    pub apart: Option<(u64, ProductRecord)>,
    /// What an earlier day was done with, once chosen, with the number of the product.
    pub done_with: Option<(Control, u8)>,
    /// The programme worked out.
    pub outline: Option<Outline>,
    /// What is to be minded.
    pub advice: Vec<Advice>,
    /// Usual mean of the coming week, or what was told, °C.
    pub week_mean: f64,
    /// Whether there is anything to search a best plan for.
    pub can_search: bool,
    /// Whether a best plan is being searched for.
    pub is_searching: bool,
    /// The search for it, once begun.
    search: Option<Box<Search>>,
    /// The best plan, once found, for as long as nothing changes, with when the numbers would be back.
    pub found: Option<(BestPlan, Option<Back>)>,
    /// Share of today's numbers that a best plan keeps to, in tenths.
    pub tenths: u8,
    /// Counts how often the answer has changed.
    pub version: u32,
    /// The same for the search, which changes nothing else on the page.
    pub search_version: u32,
    /// What was worked out last.
    of: Option<Given>,
}

/// What an answer rests on.
#[derive(PartialEq)]
struct Given {
    record: PestRecord,
    today: CivilDay,
    readings: Vec<DayReading>,
    is_covered: bool,
    place: Latitude,
    elsewhere: Vec<Application>,
    shared: Vec<SharedUse>,
    sprayed: Vec<(CivilDay, Control)>,
}

impl Given {
    /// What follows from it as a programme.
    fn with_programme<T>(&self, act: impl FnOnce(&Programme) -> T) -> T {
        let products = self.record.products_for(!self.is_covered);
        act(&Programme {
            elsewhere: &self.elsewhere,
            shared: &self.shared,
            sprayed: &self.sprayed,
            ..self
                .record
                .programme(&products, self.place, self.is_covered, &self.readings, self.today)
        })
    }
}

impl PestState {
    /// Before anything is looked at: a best plan keeps to today's numbers.
    pub fn begun() -> Self {
        Self {
            tenths: 10,
            ..Self::default()
        }
    }
}

impl Model {
    /// The programme that is looked at.
    pub fn programme(&self) -> &PestRecord {
        self.notebook.programmes.get(self.pests.selected).unwrap_or(&self.pests.blank)
    }

    /// The same, to change: with the first change a programme is begun.
    pub fn programme_mut(&mut self) -> &mut PestRecord {
        if self.notebook.programmes.get(self.pests.selected).is_none() {
            self.begin_programme();
        }
        let looked_at = self.group().map(|group| group.id);
        let blank = &mut self.pests.blank;
        let programme = self.notebook.programmes.get_mut(self.pests.selected).unwrap_or(blank);
        programme.plants = programme.plants.or(looked_at);
        programme
    }

    /// Begins another programme, for the plants of the one before, and looks at it.
    pub fn begin_programme(&mut self) {
        let plants = self.programme().plants.or_else(|| self.group().map(|group| group.id));
        let programmes = &mut self.notebook.programmes;
        let last = programmes.last().map_or(0, |programme| programme.id);
        self.pests.selected = programmes.len();
        programmes.push(PestRecord {
            id: milliseconds().max(last + 1),
            plants,
            ..PestRecord::default()
        });
    }

    /// Turns to a pest. What is noted of another stays there: the programme of this one is looked at, or begun.
    pub fn turn_to_pest(&mut self, pest: Pest) {
        let (programme, at) = (self.programme(), self.pests.selected);
        let (id, is_blank) = (programme.id, programme.is_blank());
        if programme.pest != pest && (!is_blank || self.pests.turned == Some(id)) {
            let mut programmes = self.notebook.programmes.iter();
            let own = programmes.rfind(|programme| programme.pest == pest).map(|programme| programme.id);
            let mut begun = PestRecord {
                id,
                plants: programme.plants,
                ..PestRecord::default()
            };
            begun.turn_to_pest(self.programme().pest);
            if own.is_some() && *self.programme() == begun {
                self.notebook.programmes.remove(at);
            }
            match own {
                Some(own) => self.follow_programme(own),
                None if is_blank => {}
                None => {
                    self.begin_programme();
                    self.pests.turned = Some(self.programme().id);
                }
            }
        }
        self.programme_mut().turn_to_pest(pest);
        self.pests.product = 0;
    }

    /// Looks at the programme of this number, wherever it stands by now.
    pub fn follow_programme(&mut self, id: u64) {
        let programmes = &self.notebook.programmes;
        let at = programmes.iter().position(|programme| programme.id == id);
        let last = programmes.len().saturating_sub(1);
        self.pests.selected = at.unwrap_or_else(|| self.pests.selected.min(last));
    }

    /// Ends the programme that is looked at.
    pub fn end_programme(&mut self) {
        let at = self.pests.selected;
        if at < self.notebook.programmes.len() {
            let before = self.notebook.waits;
            let ended = self.notebook.end_programme(at);
            self.pests.left = ended.as_ref().map(|(_, left)| left.clone()).unwrap_or_default();
            self.pests.ended = ended.map(|(ended, _)| ended);
            self.pests.waits = (before, self.notebook.waits);
            self.pests.forgotten = None;
        }
        self.pests.selected = at.saturating_sub(1);
    }

    /// Puts the programme that was ended last back where it stood among the others, and looks at it.
    pub fn restore_programme(&mut self) {
        let is_there = |ended: &PestRecord| self.notebook.programmes.iter().any(|programme| programme.id == ended.id);
        // A copy may have brought it back since.
        if let Some(ended) = self.pests.ended.take_if(|ended| !is_there(ended)) {
            self.pests.selected = self.notebook.put_back(ended, &self.pests.left);
            let (before, after) = self.pests.waits;
            if self.notebook.waits == after {
                self.notebook.waits = before;
            }
            self.pests.forgotten = None;
        }
    }

    /// Takes back what was noted of a day, and the tick that a neighbour's list may have left on its page.
    pub fn take_back_deed(&mut self, day: CivilDay, control: Control, product: u8) {
        let programme = self.programme_mut();
        programme.forget(day, control, product);
        let (pest, plants) = (programme.pest, programme.plants);
        let treatment = Treatment {
            day,
            pest,
            control,
            plants,
        };
        self.notebook.note(day, |page| page.done.retain(|done| !done.is_of(&treatment)));
    }

    /// Takes out how long ended programmes keep one from picking: of what nobody read the label of, if there is any, else by the labels.
    pub fn forget_wait(&mut self) {
        let waits = &mut self.notebook.waits;
        self.pests.forgotten = Some(*waits);
        if waits.unread.take().is_none() {
            waits.pick_from = None;
        }
    }

    /// Puts back what was taken out of it last.
    pub fn restore_wait(&mut self) {
        self.notebook.waits = self.pests.forgotten.take().unwrap_or(self.notebook.waits);
    }

    /// The entry of a field on Pest repeats.
    pub fn pest_entry(&self, field: Field) -> Option<&Entry> {
        if field == Field::PestCount {
            return Some(&self.pests.count);
        }
        if ProductRecord::FIELDS.contains(&field) {
            return self.product()?.entry(field);
        }
        self.programme().entry(field)
    }

    /// The same, to change.
    pub fn pest_entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        if field == Field::PestCount {
            return Some(&mut self.pests.count);
        }
        if ProductRecord::FIELDS.contains(&field) {
            return self.product_mut()?.entry_mut(field);
        }
        if !PestRecord::FIELDS.contains(&field) {
            return None;
        }
        self.programme_mut().entry_mut(field)
    }

    /// The product whose label is looked at.
    pub fn product(&self) -> Option<&ProductRecord> {
        let programme = self.programme();
        programme.product(self.pests.product).or_else(|| programme.main())
    }

    /// The same, to change: one that is repeated has a label from the first change on.
    pub fn product_mut(&mut self) -> Option<&mut ProductRecord> {
        let looked_at = self.pests.product;
        let programme = self.programme_mut();
        let control = programme.control();
        let main = match programme.main() {
            Some(main) => main.number,
            None if control.needs_label() => programme.add_product(control)?,
            None => 0,
        };
        let number = if programme.product(looked_at).is_some() { looked_at } else { main };
        programme.product_mut(number)
    }

    /// What an earlier day may have been done with: what is repeated, the products, and what is done by hand; each with the number of
    /// the product.
    pub fn done_with(&self) -> Vec<(Control, u8)> {
        let programme = self.programme();
        let main = (programme.control(), programme.main().map_or(0, |product| product.number));
        let products = programme.products.iter().map(|product| (product.control, product.number));
        let is_full = programme.products.len() >= usize::from(MOST_PRODUCTS);
        let others = programme.pest.controls().iter().copied().filter(|control| {
            let is_product = programme.products.iter().any(|product| product.control == *control);
            let is_beside = control.is_living() && programme.beside.contains(control);
            control.is_by_hand() || is_beside || control.needs_label() && !is_product && !is_full
        });
        let mut all = vec![main];
        for other in products.chain(others.map(|control| (control, 0))) {
            let is_main = other.0 == main.0 && other.1 == 0;
            if !all.contains(&other) && !is_main {
                all.push(other);
            }
        }
        all
    }

    /// The place in that list of what was chosen last: of what is repeated while that is not in it.
    pub fn place_of_done_with(&self) -> usize {
        let all = self.done_with();
        let chosen = all.iter().position(|other| Some(*other) == self.pests.done_with);
        chosen.unwrap_or_default()
    }

    /// Notes what was done so many days ago, with what was chosen. A product that was not looked at before is one from then on, with a
    /// label that nobody has read.
    pub fn note_earlier(&mut self, days: i32) {
        let Some((control, number)) = self.done_with().get(self.place_of_done_with()).copied() else {
            return;
        };
        let day = self.today.days_later(-days);
        let programme = self.programme_mut();
        let number = if number == 0 { programme.number_of(control) } else { number };
        programme.note(day, control, number, true);
        // The list has changed by it, what is chosen has not.
        self.pests.done_with = Some((control, number));
    }

    /// Whether animals are counted on a card: as chosen, else where cards hang.
    pub fn counts_on_card(&self) -> bool {
        let programme = self.programme();
        let hangs = programme.control() == Control::StickyCards || programme.beside.contains(&Control::StickyCards);
        programme.pest == Pest::Whitefly && self.pests.on_card.unwrap_or(hangs)
    }

    /// The place of the group that a programme is for among the others: of the one that is looked at, while it is for none.
    pub fn place_of_plants(&self, record: &PestRecord) -> usize {
        self.place_of(record.plants)
    }

    /// Where the group of a number stands in the list; the one that is looked at where none is named or it is gone.
    pub fn place_of(&self, plants: Option<u32>) -> usize {
        let mut groups = self.notebook.groups.iter();
        let own = groups.position(|group| Some(group.id) == plants);
        own.unwrap_or(self.selected)
    }

    /// Whether the plants of a programme stand under a cover.
    pub fn is_covered(&self, record: &PestRecord) -> bool {
        let group = self.notebook.groups.get(self.place_of_plants(record));
        group.is_none_or(|group| !group.place.is_outdoors())
    }

    /// Turns the programme that is looked at to the plants of the group at a place.
    pub fn turn_to_plants(&mut self, place: usize) {
        if let Some(id) = self.notebook.groups.get(place).map(|group| group.id) {
            self.programme_mut().plants = Some(id);
        }
    }

    /// The days whose extremes are noted, as they were where the plants of a programme stand.
    pub fn readings(&self, record: &PestRecord) -> Vec<DayReading> {
        let is_covered = self.is_covered(record);
        let offset = record.offset();
        let noted = self.notebook.days.iter().filter_map(|page| Some((page.day, page.weather?)));
        let yesterday = [(self.today.yesterday(), self.notebook.morning.yesterday())];
        let all = noted.chain(yesterday);
        all.filter_map(|(day, told)| {
            let (warmest, coolest) = (told.warmest?, told.coolest?);
            let (by_day, by_night) = match (told.thermometer, is_covered) {
                (Thermometer::Inside, true) | (Thermometer::Outside, false) => (0.0, 0.0),
                (Thermometer::Outside, true) => (offset.by_day, offset.by_night),
                (Thermometer::Inside, false) => return None,
            };
            Some(DayReading {
                day,
                coolest: coolest + by_night,
                warmest: warmest + by_day,
            })
        })
        .collect()
    }

    /// Works the programme out anew, when it is looked at and anything of it has changed.
    pub fn work_out_pests(&mut self) {
        if self.route != Route::PestRepeats {
            return;
        }
        if let Some(of) = self.pests.of.take() {
            if of.record.id == self.programme().id {
                self.share_labels(&of.record.products);
            }
            self.pests.of = Some(of);
        }
        let of = self.given(self.programme());
        if self.pests.of.as_ref() == Some(&of) {
            return;
        }
        self.pests.of = Some(of);
        self.of_programme(|pests, programme, today| {
            let outline = programme.outline(today);
            let usual = Warmth {
                readings: &[],
                ..programme.warmth
            };
            pests.advice = advice(programme, &outline, today);
            pests.week_mean = usual.mean_of(today, 7);
            pests.can_search = programme.can_aim() && !outline.hides;
            pests.outline = Some(outline);
            pests.is_searching = false;
        });
        self.pests.search = None;
        self.pests.found = None;
        self.pests.version = self.pests.version.wrapping_add(1);
    }

    /// What the answer of a programme rests on.
    fn given(&self, record: &PestRecord) -> Given {
        Given {
            record: record.clone(),
            today: self.today,
            readings: self.readings(record),
            is_covered: self.is_covered(record),
            place: self.notebook.place(),
            elsewhere: self.notebook.uses_elsewhere(record.id, self.today),
            shared: self.notebook.shared_uses(record.id, self.today),
            sprayed: self.notebook.sprayed(record.plants, self.today),
        }
    }

    /// The dates of a programme, whichever is looked at.
    pub fn outline_of(&self, record: &PestRecord) -> Outline {
        self.given(record).with_programme(|programme| programme.outline(self.today))
    }

    /// Does something with the programme as it was worked out last.
    fn of_programme(&mut self, act: impl FnOnce(&mut PestState, &Programme, CivilDay)) {
        if let Some(of) = self.pests.of.take() {
            of.with_programme(|programme| act(&mut self.pests, programme, of.today));
            self.pests.of = Some(of);
        }
    }

    /// Begins the search for the best plan: the work of it comes after.
    pub fn begin_search(&mut self) {
        self.pests.is_searching = true;
        self.pests.search = None;
        self.pests.found = None;
        self.pests.search_version = self.pests.search_version.wrapping_add(1);
    }

    /// Goes on with the search for a moment; true while there is more to do.
    pub fn search_on(&mut self) -> bool {
        if !self.pests.is_searching {
            return false;
        }
        let level = f64::from(self.pests.tenths.max(1)) / 10.0;
        let Some(search) = &mut self.pests.search else {
            self.of_programme(|pests, programme, today| {
                pests.search = programme.aim(today, level).map(|aim| Box::new(Search::new(aim)));
                pests.is_searching = pests.search.is_some();
            });
            return self.pests.is_searching;
        };
        if search.answer().is_none() {
            let end = elapsed() + SLICE;
            while !search.work() && elapsed() < end {}
            return true;
        }
        let search = self.pests.search.take();
        if let Some((plan, aim)) = search.as_ref().and_then(|search| Some((search.answer()?.clone(), search.aim()))) {
            self.of_programme(|pests, programme, today| {
                let back = programme.comes_back(aim, today, &plan.best.days);
                pests.found = Some((plan, back));
            });
        }
        self.pests.is_searching = false;
        self.pests.search_version = self.pests.search_version.wrapping_add(1);
        false
    }
}
