use super::lines::{Lines, NO, Page, YES, parts};
use super::{Coded, Entry, Field};
use crate::almanac::CivilDay;
use crate::pest::{Control, Label, Product, Told};
use crate::quantity::Units;

/// Words of what its label says.
const NAMES_CROP: &str = "names-crop";
const NAMES_PLACE: &str = "names-place";
/// The word of where they stood when that was asked, and its words.
const ASKED_OF: &str = "place-asked";
const OUTDOORS: &str = "outdoors";
const COVERED: &str = "covered";
const FOR_HOME: &str = "for-home";
const LATEST_USE: &str = "latest-use";
/// Words of the product itself.
const LABEL_OF: &str = "label-of";
const CALLED: &str = "called";
const USED: &str = "used";
/// The word of what it is the same as: the number of a programme and of the product there.
const SAME_AS: &str = "same-as";
/// What the words begin with that tell a day on which it was used in programmes that were ended: a line for each, so that two tabs keep
/// both of theirs.
const USED_BEFORE: &str = "used-before-";

/// A product of a programme as the grower entered it. What its label says is empty until it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct ProductRecord {
    /// Its number in the programme, from 1 on.
    pub number: u8,
    /// Its kind.
    pub control: Control,
    /// What the grower calls it.
    pub name: String,
    /// Whether it is still used in turn with the first.
    pub is_used: bool,
    /// Whether the label names tomatoes or edible crops.
    pub names_crop: Told,
    /// Whether it names the place.
    pub names_place: Told,
    /// Whether that was asked of a place outdoors, and not under cover; nothing in texts of before, where it holds for any place.
    pub asked_outdoors: Option<bool>,
    /// Whether it is for home gardens.
    pub for_home: Told,
    /// Least days between uses.
    pub least_days: Entry,
    /// Most uses.
    pub most_uses: Entry,
    /// Days before picking.
    pub days_before_picking: Entry,
    /// The last day of use, exactly as typed.
    pub latest_use: String,
    /// Which product of another programme it is the same as, once told.
    pub same_as: Option<(u64, u8)>,
    /// Days on which it was used on the same plants in programmes that were ended.
    pub used_before: Vec<CivilDay>,
}

impl ProductRecord {
    /// The number fields of a label.
    pub const FIELDS: [Field; 3] = [Field::LeastDays, Field::MostUses, Field::DaysBeforePicking];

    /// A product whose label nobody has read.
    #[must_use]
    pub fn unread(number: u8, control: Control) -> Self {
        Self {
            number,
            control,
            name: String::new(),
            is_used: true,
            names_crop: Told::default(),
            names_place: Told::default(),
            asked_outdoors: None,
            for_home: Told::default(),
            least_days: Entry::default(),
            most_uses: Entry::default(),
            days_before_picking: Entry::default(),
            latest_use: String::new(),
            same_as: None,
            used_before: Vec::new(),
        }
    }

    /// Tells products apart across programmes, where `programme` is the number of its own: those that the grower called the same have the
    /// same. It is the number of the programme in which one of them was entered, with the product's own there.
    #[must_use]
    pub fn bottle(&self, programme: u64) -> (u64, u8) {
        self.same_as.unwrap_or((programme, self.number))
    }

    /// Whether it may be one of the same number in another text: of the same kind, and of the same name where both have one.
    pub(super) fn is_like(&self, other: &Self) -> bool {
        let is_named = !self.name.is_empty() && !other.name.is_empty();
        self.control == other.control && (self.name == other.name || !is_named)
    }

    /// Whether nothing of its label is answered.
    #[must_use]
    pub fn is_unread(&self) -> bool {
        let mut unread = self.clone();
        unread.forget_label();
        unread.name.clone_from(&self.name);
        unread == *self
    }

    /// Takes out what its label says, and what it is called.
    pub(super) fn forget_label(&mut self) {
        self.read_as(&Self::unread(self.number, self.control), true);
        self.name.clear();
    }

    /// What its label says, and what it is called, as it stands at the same product elsewhere. What the label says of the place goes
    /// with it only if the plants are `at_same_place`; a name stays where the other has none.
    pub fn read_as(&mut self, other: &Self, at_same_place: bool) {
        let name = if other.name.is_empty() { &self.name } else { &other.name };
        let (place, asked) = if at_same_place {
            (other.names_place, other.asked_outdoors)
        } else {
            (self.names_place, self.asked_outdoors)
        };
        *self = Self {
            number: self.number,
            control: self.control,
            is_used: self.is_used,
            same_as: self.same_as,
            name: name.clone(),
            used_before: std::mem::take(&mut self.used_before),
            names_place: place,
            asked_outdoors: asked,
            ..other.clone()
        };
    }

    /// The product, with its label as far as it was read.
    #[must_use]
    pub fn product(&self) -> Product {
        let whole = |entry: &Entry| entry.value().map(whole);
        let latest_use = self.latest_use.parse().ok();
        // A last day that cannot be read may be any: the limits are as good as unread.
        let is_read = latest_use.is_some() || self.latest_use.trim().is_empty();
        Product {
            number: self.number,
            control: self.control,
            is_used: self.is_used,
            label: Label {
                names_crop: self.names_crop,
                names_place: self.names_place,
                for_home: self.for_home,
                least_days: whole(&self.least_days).filter(|_| is_read),
                most_uses: whole(&self.most_uses),
                days_before_picking: whole(&self.days_before_picking),
                latest_use,
            },
        }
    }

    /// The product for plants that stand outdoors or under cover: a label that was asked about the other place does not name this one.
    #[must_use]
    pub fn product_for(&self, outdoors: bool) -> Product {
        let mut product = self.product();
        product.label.names_place = self.told(NAMES_PLACE, outdoors);
        product
    }

    /// Answers a question of the label by its word, `names-crop`, `names-place` or `for-home`, for plants outdoors or under cover.
    pub fn answer(&mut self, word: &str, told: Told, outdoors: bool) {
        match word {
            NAMES_CROP => self.names_crop = told,
            NAMES_PLACE => (self.names_place, self.asked_outdoors) = (told, Some(outdoors)),
            FOR_HOME => self.for_home = told,
            _ => {}
        }
    }

    /// What was answered.
    #[must_use]
    pub fn told(&self, word: &str, outdoors: bool) -> Told {
        match word {
            NAMES_CROP => self.names_crop,
            NAMES_PLACE if self.asked_outdoors.is_none_or(|asked| asked == outdoors) => self.names_place,
            FOR_HOME => self.for_home,
            _ => Told::Unknown,
        }
    }

    /// The entry behind a field of the label, to change.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::LeastDays => &mut self.least_days,
            Field::MostUses => &mut self.most_uses,
            Field::DaysBeforePicking => &mut self.days_before_picking,
            _ => return None,
        })
    }

    /// The entry behind a field of the label.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::LeastDays => &self.least_days,
            Field::MostUses => &self.most_uses,
            Field::DaysBeforePicking => &self.days_before_picking,
            _ => return None,
        })
    }

    /// What its words in the notebook begin with: those of the first stand by themselves.
    fn stem(number: u8) -> String {
        if number == 1 {
            String::new()
        } else {
            "p".to_owned() + &number.to_string() + "-"
        }
    }

    pub(super) fn put(&self, page: &mut Lines, units: Units) {
        let mut lines = Lines::default();
        lines.put(LABEL_OF, self.control.code());
        lines.put(CALLED, &self.name);
        lines.put(USED, if self.is_used { "" } else { NO });
        lines.put_choice(NAMES_CROP, self.names_crop);
        lines.put_choice(NAMES_PLACE, self.names_place);
        lines.put(
            ASKED_OF,
            self.asked_outdoors.map_or("", |outdoors| if outdoors { OUTDOORS } else { COVERED }),
        );
        lines.put_choice(FOR_HOME, self.for_home);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put(LATEST_USE, &self.latest_use);
        if let Some((programme, number)) = self.same_as {
            lines.put(SAME_AS, &(programme.to_string() + " " + &number.to_string()));
        }
        for day in &self.used_before {
            lines.put(&(USED_BEFORE.to_owned() + &day.to_string()), YES);
        }
        let stem = Self::stem(self.number);
        page.lines.extend(lines.lines.into_iter().map(|line| stem.clone() + &line));
    }

    /// The product of this number from the page of a programme, if anything of it stands there. One whose kind is not told is of
    /// `usual` kind.
    pub(super) fn taken(page: &mut Page, number: u8, usual: Control, units: Units) -> Option<Self> {
        let stem = Self::stem(number);
        let mut lines = Page {
            head: page.head,
            lines: page.lines.iter().filter_map(|line| line.strip_prefix(stem.as_str())).collect(),
        };
        let all = lines.lines.len();
        let mut used_before = Vec::new();
        lines.lines.retain(|line| {
            let (word, told) = parts(line);
            let day = word
                .strip_prefix(USED_BEFORE)
                .filter(|_| told == YES)
                .and_then(|day| day.parse::<CivilDay>().ok());
            // Two tabs each put theirs behind the others.
            if let Some((day, Err(at))) = day.map(|day| (day, used_before.binary_search(&day))) {
                used_before.insert(at, day);
            }
            day.is_none()
        });
        let control = lines.told(LABEL_OF).filter(|control: &Control| control.needs_label());
        let mut record = Self {
            name: lines.take(CALLED).to_owned(),
            is_used: lines.take(USED) != NO,
            names_crop: lines.choice(NAMES_CROP),
            names_place: lines.choice(NAMES_PLACE),
            asked_outdoors: match lines.take(ASKED_OF) {
                OUTDOORS => Some(true),
                COVERED => Some(false),
                _ => None,
            },
            for_home: lines.choice(FOR_HOME),
            latest_use: lines.take(LATEST_USE).to_owned(),
            same_as: lines
                .take(SAME_AS)
                .split_once(' ')
                .and_then(|(programme, number)| Some((programme.parse().ok()?, number.parse().ok()?))),
            used_before,
            ..Self::unread(number, control.unwrap_or(usual))
        };
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = lines.entry(field, units);
            }
        }
        let is_there = lines.lines.len() < all;
        page.lines
            .retain(|line| line.strip_prefix(stem.as_str()).is_none_or(|rest| lines.lines.contains(&rest)));
        is_there.then_some(record)
    }
}

/// Days and uses are kept whole by their fields.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float cast saturates")]
const fn whole(number: f64) -> u16 {
    number as u16
}
