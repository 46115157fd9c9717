use super::bottle::{Bottle, Phrase, is_grade};
use super::lines::{ID, Lines, Page, YES};
use super::{Coded, Entry, Field};
use crate::feed::{Basis, Contents, Feed, Grade, MOST_ON_SHELF, MixError, Rate, Stage, Stem, Straight, Water};
use crate::quantity::Units;

/// Feed for a plant each time until told, litres (choice: about what it drinks on an ordinary day).
pub(super) const ASSUMED_EACH: f64 = 1.5;
/// Feeds a week until told (choice: labels ask for one in a week to a fortnight, and never is more given than they say).
pub(super) const ASSUMED_A_WEEK: f64 = 1.0;

/// The feeds that are kept, which of them is in the can, how it is given, and what else stands on the shelf.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FeedRecord {
    first: Bottle,
    /// Further ones, by their numbers.
    more: Vec<Bottle>,
    in_can: u64,
    /// Oxides or elements, on all labels and bags here.
    pub basis: Basis,
    /// Feed for a plant each time.
    pub each: Entry,
    /// Feeds a week.
    pub a_week: Entry,
    /// Fruit that is expected of a plant.
    pub fruit: Entry,
    /// How many times as strong as the can a stock is.
    pub stock: Entry,
    /// The water of the can.
    pub water: Water,
    /// What stands on the shelf.
    pub shelf: Vec<Straight>,
    /// The grades that bags print.
    bags: Vec<(Straight, Phrase)>,
}

impl FeedRecord {
    /// Feeds up to which another may be added: with all salts they are as many things as are mixed (limit).
    pub const MOST_FEEDS: usize = MOST_ON_SHELF - Straight::SHELF.len();
    /// The number fields of feeding, whichever feed it is.
    pub const FIELDS: [Field; 4] = [Field::FeedEach, Field::FeedsAWeek, Field::Fruit, Field::Stock];

    /// All feeds, by their numbers.
    pub fn bottles(&self) -> impl Iterator<Item = &Bottle> {
        std::iter::once(&self.first).chain(&self.more)
    }

    /// How many feeds are kept.
    #[must_use]
    pub const fn count(&self) -> usize {
        1 + self.more.len()
    }

    /// The feed in the can.
    #[must_use]
    pub fn bottle(&self) -> &Bottle {
        self.more.iter().find(|bottle| bottle.id == self.in_can).unwrap_or(&self.first)
    }

    /// The feed in the can, to change.
    pub fn bottle_mut(&mut self) -> &mut Bottle {
        let chosen = self.in_can;
        self.more.iter_mut().find(|bottle| bottle.id == chosen).unwrap_or(&mut self.first)
    }

    /// Changes the feed with this number.
    pub fn change_bottle(&mut self, id: u64, change: impl FnOnce(&mut Bottle)) {
        let Self { first, more, .. } = self;
        if let Some(bottle) = std::iter::once(first).chain(more).find(|bottle| bottle.id == id) {
            change(bottle);
        }
    }

    /// Puts the feed with this number into the can.
    pub const fn put_in_can(&mut self, id: u64) {
        self.in_can = id;
    }

    /// Adds a feed with a number that no other had, such as the time in milliseconds, and puts it into the can; unless there are
    /// [`Self::MOST_FEEDS`].
    pub fn add(&mut self, number: u64) {
        if self.count() < Self::MOST_FEEDS {
            let last = self.more.last().map_or(self.first.id, |bottle| bottle.id);
            self.in_can = number.max(last.wrapping_add(1));
            self.more.push(Bottle {
                id: self.in_can,
                ..Bottle::default()
            });
        }
    }

    /// Takes the feed in the can off the shelf and hands it over for undoing, unless it is the last.
    pub fn remove(&mut self) -> Option<Bottle> {
        if self.more.is_empty() {
            return None;
        }
        let removed = match self.more.iter().position(|bottle| bottle.id == self.in_can) {
            Some(place) => self.more.remove(place),
            None => std::mem::replace(&mut self.first, self.more.remove(0)),
        };
        self.in_can = self.first.id;
        Some(removed)
    }

    /// Puts a removed feed back where it stood among the others, and into the can.
    pub fn restore(&mut self, mut bottle: Bottle) {
        self.in_can = bottle.id;
        if bottle.id < self.first.id {
            std::mem::swap(&mut self.first, &mut bottle);
        }
        self.stand(bottle);
    }

    /// Stands a feed in its place among the further ones.
    fn stand(&mut self, bottle: Bottle) {
        let place = self.more.iter().take_while(|other| other.id < bottle.id).count();
        self.more.insert(place, bottle);
    }

    /// The entry behind a field of the feed in the can or of feeding, to change.
    pub fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::FeedEach => &mut self.each,
            Field::FeedsAWeek => &mut self.a_week,
            Field::Fruit => &mut self.fruit,
            Field::Stock => &mut self.stock,
            _ => return self.bottle_mut().entry_mut(field),
        })
    }

    /// The entry behind a field of the feed in the can or of feeding.
    #[must_use]
    pub fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::FeedEach => &self.each,
            Field::FeedsAWeek => &self.a_week,
            Field::Fruit => &self.fruit,
            Field::Stock => &self.stock,
            _ => return self.bottle().entry(field),
        })
    }

    /// The feed in the can as the calculation takes it: from what is typed, or from the last words that could be read.
    ///
    /// # Errors
    /// [`MixError`], why the words cannot be used.
    pub fn feed(&self, units: Units, can_litres: f64, from_last_good: bool) -> Result<Feed, MixError> {
        self.feed_of(self.bottle(), units, can_litres, from_last_good)
    }

    /// The same of any feed.
    ///
    /// # Errors
    /// [`MixError`], why the words cannot be used.
    pub fn feed_of(&self, bottle: &Bottle, units: Units, can_litres: f64, from_last_good: bool) -> Result<Feed, MixError> {
        let label = bottle.label(self.basis, from_last_good).map_err(MixError::Label)?;
        let dose = bottle.words(from_last_good).1;
        let rate = Rate::parse(&dose, &bottle.told(units, can_litres)).map_err(MixError::Dose)?;
        Ok(Feed { label, rate })
    }

    /// Puts a salt on the shelf or takes it down.
    pub fn keep(&mut self, salt: Straight, is_there: bool) {
        // In the order of their words, in which they are opened too.
        let stays = |other: Straight| if other == salt { is_there } else { self.shelf.contains(&other) };
        self.shelf = Straight::CODES
            .iter()
            .map(|(_, other)| *other)
            .filter(|&other| stays(other))
            .collect();
    }

    /// The grade that a salt's bag prints, as typed.
    #[must_use]
    pub fn bag(&self, salt: Straight) -> &str {
        self.bags
            .iter()
            .find(|(other, _)| *other == salt)
            .map_or("", |(_, phrase)| phrase.text())
    }

    /// Takes the typed grade of a salt's bag.
    pub fn type_bag(&mut self, salt: Straight, text: &str) {
        let place = self.bags.iter().position(|(other, _)| *other == salt);
        let mut phrase = place.map(|place| self.bags.remove(place).1).unwrap_or_default();
        phrase.type_text(text, is_grade(text));
        if phrase != Phrase::default() {
            let order = |salt: Straight| Straight::CODES.iter().position(|(_, other)| *other == salt);
            let place = self.bags.iter().take_while(|(other, _)| order(*other) < order(salt)).count();
            self.bags.insert(place, (salt, phrase));
        }
    }

    /// What a salt holds, g in 100 g: by the grade of its bag, which beats theory, or by its formula.
    #[must_use]
    pub fn contents_of(&self, salt: Straight) -> Contents {
        let printed = self.bags.iter().find(|(other, _)| *other == salt);
        match printed.and_then(|(_, phrase)| Grade::parse(phrase.good()).ok()) {
            Some(grade) => salt.as_printed(grade, self.basis),
            None => salt.contents(),
        }
    }

    /// All that the mixer may use, each with what it holds in the unit that its label counts in: salts, then feeds.
    #[must_use]
    pub fn things(&self) -> Vec<Contents> {
        let salts = self.shelf.iter().map(|&salt| self.contents_of(salt));
        let feeds = self.mixed_bottles().map(|bottle| {
            let label = bottle.label(self.basis, true);
            label.and_then(|label| label.contents()).unwrap_or_default()
        });
        salts.chain(feeds).collect()
    }

    /// The feeds that the mixer may use.
    pub fn mixed_bottles(&self) -> impl Iterator<Item = &Bottle> {
        self.bottles().filter(|bottle| bottle.in_mixer)
    }

    /// Prints every number anew after a change of units.
    pub(super) fn change_units(&mut self, from: Units, to: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry_mut(field) {
                entry.change_units(field, from, to);
            }
        }
        for bottle in std::iter::once(&mut self.first).chain(&mut self.more) {
            for field in Bottle::FIELDS {
                if let Some(entry) = bottle.entry_mut(field) {
                    entry.change_units(field, from, to);
                }
            }
        }
    }

    /// The pages of the feeds; none while there is but one of which nothing is told.
    pub(super) fn pages(&self, units: Units) -> impl Iterator<Item = Lines> {
        let is_told = self.count() > 1 || self.first != Bottle::default();
        self.bottles().filter(move |_| is_told).map(move |bottle| {
            let mut lines = Lines::begun(FEED_PAGE);
            bottle.put_into(&mut lines, units);
            lines
        })
    }

    /// Takes a feed from its page, unless there is one with its number; tells whether it does. The first one takes the place of the
    /// one that stands there before any page.
    pub(super) fn take_page(&mut self, page: Page, units: Units, is_first: bool) -> bool {
        let Ok(id) = page.get(ID).parse() else { return false };
        if is_first {
            self.first = Bottle::from_page(id, page, units);
        } else if self.bottles().all(|bottle| bottle.id != id) {
            self.restore_quietly(Bottle::from_page(id, page, units));
        } else {
            return false;
        }
        true
    }

    fn restore_quietly(&mut self, bottle: Bottle) {
        let chosen = self.in_can;
        self.restore(bottle);
        self.in_can = chosen;
    }

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        let chosen = self.in_can.to_string();
        lines.put("feed-in-can", if self.in_can == 0 { "" } else { &chosen });
        lines.put_choice("feed-basis", self.basis);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put_choice("feed-water", self.water);
        for salt in &self.shelf {
            lines.put(&(SHELF.to_owned() + salt.code()), YES);
        }
        for (salt, phrase) in &self.bags {
            phrase.put_into(lines, &(BAG.to_owned() + salt.code()));
        }
    }

    /// What stands on the first page; the feeds follow on theirs.
    pub(super) fn from_page(page: &mut Page, units: Units) -> Self {
        let mut record = Self {
            // Where the one feed stood before there were several.
            first: Bottle::take_from(page, units),
            in_can: page.take("feed-in-can").parse().unwrap_or_default(),
            basis: page.choice("feed-basis"),
            water: page.choice("feed-water"),
            ..Self::default()
        };
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        for (code, salt) in Straight::CODES {
            if page.take(&(SHELF.to_owned() + code)) == YES {
                record.shelf.push(*salt);
            }
            let phrase = Phrase::take_from(page, &(BAG.to_owned() + code));
            if phrase != Phrase::default() {
                record.bags.push((*salt, phrase));
            }
        }
        record
    }
}

/// The line that begins the page of a feed.
pub(super) const FEED_PAGE: &str = "page feed";
/// What the word of a thing on the shelf, and of its bag's grade, begins with.
const SHELF: &str = "shelf-";
const BAG: &str = "bag-";

impl Coded for Basis {
    const CODES: &'static [(&'static str, Self)] = &[("oxides", Self::Oxides), ("elements", Self::Elements)];
}

impl Coded for Water {
    const CODES: &'static [(&'static str, Self)] = &[("rain", Self::Rain), ("soft", Self::Soft), ("hard", Self::Hard)];
}

impl Coded for Stage {
    const CODES: &'static [(&'static str, Self)] = &[
        ("no-truss", Self::NoTruss),
        ("swelling", Self::Swelling),
        ("picking", Self::Picking),
        ("late", Self::Late),
    ];
}

impl Coded for Stem {
    const CODES: &'static [(&'static str, Self)] = &[("thin", Self::Thin), ("right", Self::Right), ("lush", Self::Lush)];
}

/// What can stand on the shelf.
impl Coded for Straight {
    const CODES: &'static [(&'static str, Self)] = &[
        ("potassium-nitrate", Self::PotassiumNitrate),
        ("potassium-phosphate", Self::PotassiumPhosphate),
        ("potassium-sulphate", Self::PotassiumSulphate),
        ("calcium-nitrate", Self::CalciumNitrate),
        ("epsom-salts", Self::EpsomSalts),
        ("ammonium-sulphate", Self::AmmoniumSulphate),
        ("urea", Self::Urea),
    ];
}
