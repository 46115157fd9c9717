use super::lines::{ID, Lines, Page, YES, parts};
use super::{Coded, Entry, Field, ProductRecord};
use crate::almanac::{CivilDay, Latitude};
use crate::pest::{Application, Control, DayReading, Deed, Extent, GlassOffset, Pest, Product, Programme, Warmth};
use crate::quantity::{Units, decimal, parse_number};

/// The line that begins the page of a programme.
pub(super) const PEST_PAGE: &str = "page pest";
/// Words of what is chosen and told.
const PEST: &str = "pest";
const PLANTS: &str = "plants";
const CONTROL: &str = "control";
const FIRST: &str = "first";
const EXTENT: &str = "extent";
const SENT: &str = "sent";
const LEAVES_GAPS: &str = "leaves-gaps";
/// Words that a day or a control follows.
const BESIDE: &str = "beside-";
const DONE: &str = "done";
const SKIPPED: &str = "skipped";
const PLANNED: &str = "planned";
const COUNTED: &str = "counted";
const ON_CARD: &str = "on-card";

/// Products of one programme, at most: more is no plan (choice).
pub const MOST_PRODUCTS: u8 = 4;

/// Animals that were counted on a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PestCount {
    /// The day.
    pub day: CivilDay,
    /// How many.
    pub seen: f64,
    /// Whether on a sticky card, where only what flies is caught; else on ten leaves.
    pub on_card: bool,
}

/// One programme against a pest as the grower entered it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PestRecord {
    /// Its number: when it was begun, in milliseconds of the clock, so that no two are alike.
    pub id: u64,
    /// The pest.
    pub pest: Pest,
    /// The number of the group that it is for: the one that was looked at when it was begun, until another is chosen.
    pub plants: Option<u32>,
    /// What is repeated, once chosen.
    pub control: Option<Control>,
    /// What is done beside it.
    pub beside: Vec<Control>,
    /// The day of the first treatment, once told; today until then.
    pub first: Option<CivilDay>,
    /// What was done and left out, by day.
    pub deeds: Vec<Deed>,
    /// Daily mean where they stand; what is usual until told.
    pub mean: Entry,
    /// How much warmer it is inside by day.
    pub warmer_by_day: Entry,
    /// How much warmer it is inside by night.
    pub warmer_by_night: Entry,
    /// The products whose labels were looked at, by number. A label counts for its own product alone.
    pub products: Vec<ProductRecord>,
    /// How far it goes.
    pub extent: Extent,
    /// Days of a best plan that was taken on.
    pub planned: Vec<CivilDay>,
    /// Whether the days between sprays stay empty where nothing is done beside.
    pub leaves_gaps: bool,
    /// Counts, by day.
    pub counts: Vec<PestCount>,
    /// How often its dates were given to a calendar.
    pub sent: u32,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

impl PestRecord {
    /// All number fields of a programme.
    pub const FIELDS: [Field; 3] = [Field::PestMean, Field::WarmerByDay, Field::WarmerByNight];

    /// What is repeated: as chosen, or what needs no label.
    #[must_use]
    pub fn control(&self) -> Control {
        self.control.unwrap_or_else(|| self.pest.physical_control())
    }

    /// Chooses what is repeated. A product of a kind that was not used before has a label of its own, which nobody has read.
    pub fn choose(&mut self, control: Control) {
        let before = self.main().map(|product| product.number);
        self.control = Some(control);
        self.planned.clear();
        self.extent = Extent::default();
        if control.needs_label() && self.main().is_none() {
            self.add_product(control);
        }
        let main = self.main().map(|product| product.number);
        if let Some(product) = before.filter(|_| before != main).and_then(|before| self.product_mut(before)) {
            product.is_used = false;
        }
    }

    /// Adds a product to take its turn with the others; nothing when there are [`MOST_PRODUCTS`].
    pub fn add_product(&mut self, control: Control) -> Option<u8> {
        let number = self.products.last().map_or(0, |product| product.number) + 1;
        (number <= MOST_PRODUCTS).then(|| {
            self.products.push(ProductRecord::unread(number, control));
            number
        })
    }

    /// The product that is repeated, if it is one.
    #[must_use]
    pub fn main(&self) -> Option<&ProductRecord> {
        let control = self.control();
        self.products.iter().find(|product| product.control == control)
    }

    /// A product by its number.
    #[must_use]
    pub fn product(&self, number: u8) -> Option<&ProductRecord> {
        self.products.iter().find(|product| product.number == number)
    }

    /// The same, to change.
    pub fn product_mut(&mut self, number: u8) -> Option<&mut ProductRecord> {
        self.products.iter_mut().find(|product| product.number == number)
    }

    /// All products with their labels as they were read, the one that is repeated first.
    #[must_use]
    pub fn products(&self) -> Vec<Product> {
        self.in_order().map(ProductRecord::product).collect()
    }

    /// The same with what the labels say for plants outdoors or under cover.
    #[must_use]
    pub fn products_for(&self, outdoors: bool) -> Vec<Product> {
        self.in_order().map(|product| product.product_for(outdoors)).collect()
    }

    fn in_order(&self) -> impl Iterator<Item = &ProductRecord> {
        let main = self.main().map(|product| product.number);
        let of = move |is_main: bool| {
            let products = self.products.iter();
            products.filter(move |product| (Some(product.number) == main) == is_main)
        };
        of(true).chain(of(false))
    }

    /// How much warmer it is inside: as told, or what is usual.
    #[must_use]
    pub fn offset(&self) -> GlassOffset {
        let usual = GlassOffset::default();
        GlassOffset {
            by_day: self.warmer_by_day.value().unwrap_or(usual.by_day),
            by_night: self.warmer_by_night.value().unwrap_or(usual.by_night),
        }
    }

    /// What was used of products so far.
    pub(super) fn uses(&self) -> Vec<Application> {
        let products = self.products();
        let used = self.deeds.iter().filter(|deed| deed.is_done && deed.control.needs_label());
        used.map(|deed| Application::of(deed.day, deed.product, &products)).collect()
    }

    /// The programme to be worked out with its `products()`, at a place under cover or in the open, with the days that were read.
    #[must_use]
    pub fn programme<'a>(
        &'a self,
        products: &'a [Product],
        latitude: Latitude,
        is_covered: bool,
        readings: &'a [DayReading],
        today: CivilDay,
    ) -> Programme<'a> {
        Programme {
            pest: self.pest,
            control: self.control(),
            beside: &self.beside,
            first: self.first.unwrap_or(today),
            deeds: &self.deeds,
            products,
            elsewhere: &[],
            shared: &[],
            sprayed: &[],
            warmth: Warmth {
                latitude,
                glass: is_covered.then(|| self.offset()),
                mean: self.mean.value(),
                readings,
            },
            extent: self.extent,
            chosen: &self.planned,
            fills_gaps: !self.leaves_gaps,
        }
    }

    /// Notes what was done, or left out, on a day, in place of what was noted of the same; with the product of that number, if it is one.
    /// What else was noted of the day stands, before it.
    pub fn note(&mut self, day: CivilDay, control: Control, product: u8, is_done: bool) {
        let product = if control.needs_label() { product.max(1) } else { 0 };
        self.forget(day, control, product);
        let place = self.deeds.partition_point(|deed| deed.day <= day);
        let deed = Deed {
            day,
            control,
            is_done,
            product,
        };
        self.deeds.insert(place, deed);
    }

    /// Takes back what was noted of a day with this control and product.
    pub fn forget(&mut self, day: CivilDay, control: Control, product: u8) {
        self.deeds
            .retain(|deed| (deed.day, deed.control, deed.product) != (day, control, product));
    }

    /// The number of the product of a kind; 0 for what needs no label. Of several it is the one whose label waits longest, or is not
    /// read. One that was not looked at before is one from then on, with a label that nobody has read.
    pub fn number_of(&mut self, control: Control) -> u8 {
        let products = self.products();
        let wait = |product: &&ProductRecord| {
            let used = Application::of(CivilDay::default(), product.number, &products);
            used.days_before_picking.unwrap_or(u16::MAX)
        };
        let known = self
            .products
            .iter()
            .rev()
            .filter(|product| product.control == control)
            .max_by_key(wait);
        if let Some(known) = known.map(|product| product.number) {
            return known;
        }
        let added = if control.needs_label() { self.add_product(control) } else { None };
        let is_used = control == self.control();
        if let Some(product) = added.and_then(|number| self.product_mut(number)) {
            product.is_used = is_used;
        }
        added.unwrap_or_default()
    }

    /// Notes how many were counted on a day, on a card or on ten leaves; nothing takes it back.
    pub fn count(&mut self, day: CivilDay, seen: Option<f64>, on_card: bool) {
        self.counts.retain(|count| (count.day, count.on_card) != (day, on_card));
        if let Some(seen) = seen {
            let place = self.counts.partition_point(|count| count.day <= day);
            self.counts.insert(place, PestCount { day, seen, on_card });
        }
    }

    /// Whether nothing is noted that would become another pest's.
    #[must_use]
    pub const fn is_blank(&self) -> bool {
        self.deeds.is_empty() && self.counts.is_empty()
    }

    /// Changes the pest: what was chosen against another no longer holds.
    pub fn turn_to_pest(&mut self, pest: Pest) {
        if self.pest != pest {
            self.pest = pest;
            self.control = None;
            self.beside.clear();
            self.planned.clear();
            self.extent = Extent::default();
        }
    }

    /// The entry behind a field of the programme, to change.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::PestMean => &mut self.mean,
            Field::WarmerByDay => &mut self.warmer_by_day,
            Field::WarmerByNight => &mut self.warmer_by_night,
            _ => return None,
        })
    }

    /// The entry behind a field of the programme.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::PestMean => &self.mean,
            Field::WarmerByDay => &self.warmer_by_day,
            Field::WarmerByNight => &self.warmer_by_night,
            _ => return None,
        })
    }

    /// Prints every number anew after a change of units.
    pub fn change_units(&mut self, from: Units, to: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry_mut(field) {
                entry.change_units(field, from, to);
            }
        }
    }

    pub(super) fn page(&self, units: Units) -> Lines {
        let mut lines = Lines::begun(PEST_PAGE);
        lines.put(ID, &self.id.to_string());
        lines.put_choice(PEST, self.pest);
        lines.put(PLANTS, &self.plants.map(|id| id.to_string()).unwrap_or_default());
        lines.put_told(CONTROL, self.control);
        lines.put_day(FIRST, self.first);
        lines.put_choice(EXTENT, self.extent);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        for product in &self.products {
            product.put(&mut lines, units);
        }
        lines.put(SENT, &if self.sent > 0 { self.sent.to_string() } else { String::new() });
        lines.put_flag(LEAVES_GAPS, self.leaves_gaps);
        for control in &self.beside {
            lines.put(&(BESIDE.to_owned() + control.code()), YES);
        }
        let on = |word: &str, day: CivilDay| word.to_owned() + &day.to_string();
        for deed in &self.deeds {
            let mut what = deed.control.code().to_owned();
            if deed.product > 1 {
                what = what + " " + &deed.product.to_string();
            }
            lines.put(&on(if deed.is_done { DONE } else { SKIPPED }, deed.day), &what);
        }
        for day in &self.planned {
            lines.put(&on(PLANNED, *day), YES);
        }
        for count in &self.counts {
            let word = if count.on_card { ON_CARD } else { COUNTED };
            lines.put(&on(word, count.day), &decimal(count.seen, 0));
        }
        lines.lines.extend_from_slice(&self.unknown);
        lines
    }

    /// A programme from its page. What cannot be read is kept as it is.
    pub(super) fn from_page(id: u64, mut page: Page, units: Units) -> Self {
        let mut record = Self {
            id,
            pest: page.choice(PEST),
            plants: page.take(PLANTS).parse().ok(),
            control: page.told(CONTROL),
            first: page.day(FIRST),
            extent: page.choice(EXTENT),
            sent: page.take(SENT).parse().unwrap_or_default(),
            leaves_gaps: page.flag(LEAVES_GAPS),
            ..Self::default()
        };
        page.take(ID);
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        let usual = record
            .control
            .filter(|control| control.needs_label())
            .unwrap_or(Control::ContactSpray);
        for number in 1..=MOST_PRODUCTS {
            record.products.extend(ProductRecord::taken(&mut page, number, usual, units));
        }
        for line in page.lines {
            let (word, text) = parts(line);
            if !record.takes(word, text) {
                record.unknown.push(line.to_owned());
            }
        }
        record
    }

    /// Takes what a line says of a day or of a control. Tells whether it does.
    fn takes(&mut self, word: &str, text: &str) -> bool {
        let day = |of: &str| word.strip_prefix(of).and_then(|day| day.parse::<CivilDay>().ok());
        let (code, product) = text.split_once(' ').unwrap_or((text, ""));
        let (control, product) = (Control::from_code(code), product.parse().unwrap_or(0));
        if let (Some(day), Some(control)) = (day(DONE), control) {
            self.note(day, control, product, true);
        } else if let (Some(day), Some(control)) = (day(SKIPPED), control) {
            self.note(day, control, product, false);
        } else if let (Some(day), YES) = (day(PLANNED), text) {
            let place = self.planned.partition_point(|other| *other < day);
            self.planned.insert(place, day);
        } else if let (Some(day), Some(seen)) = (day(COUNTED), parse_number(text).ok().flatten()) {
            self.count(day, Some(seen), false);
        } else if let (Some(day), Some(seen)) = (day(ON_CARD), parse_number(text).ok().flatten()) {
            self.count(day, Some(seen), true);
        } else if let (Some(beside), YES) = (word.strip_prefix(BESIDE).and_then(Control::from_code), text) {
            self.beside.push(beside);
        } else {
            return false;
        }
        true
    }
}
