use super::lines::{ID, Lines, Page};
use super::{Coded, Entry, Field, NAME_LENGTH};
use crate::feed::{Basis, Country, Form, Grade, Label, LabelError, Measured, NitrogenForms, OunceKind, Rate, RatioKind, Told};
use crate::quantity::{UnitSystem, Units};

/// The numbers of the label until told: a made-up tomato feed.
pub const ASSUMED_LABEL: &str = "5-2-9";
/// Its dose until told.
pub const ASSUMED_DOSE: &str = "20 ml per gallon";
/// What stands for the last good words where there were none: no label and no dose.
const NEVER_GOOD: &str = "?";

/// Words of a label: exactly as typed, and the last ones that could be read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Phrase {
    text: String,
    good: String,
}

impl Phrase {
    /// The text as typed.
    #[must_use]
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The last text that could be read; empty when the field was left or made empty.
    #[must_use]
    pub fn good(&self) -> &str {
        &self.good
    }

    /// Takes typed text. Text that cannot be read is kept, and the last good one with it.
    pub(super) fn type_text(&mut self, text: &str, is_good: bool) {
        self.text = text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
        if is_good || self.text.trim().is_empty() {
            self.good = self.text.trim().to_owned();
        }
    }

    pub(super) fn put_into(&self, lines: &mut Lines, word: &str) {
        lines.put(word, &self.text);
        if self.good != self.text.trim() {
            let good = if self.good.is_empty() { NEVER_GOOD } else { &self.good };
            lines.put(&(word.to_owned() + "-held"), good);
        }
    }

    /// What was good is told and not read again: whoever only opens the notebook needs no reader of labels.
    pub(super) fn take_from(page: &mut Page, word: &str) -> Self {
        let text = page.take(word).to_owned();
        let good = match page.take(&(word.to_owned() + "-held")) {
            "" => text.trim().to_owned(),
            NEVER_GOOD => String::new(),
            good => good.to_owned(),
        };
        Self { text, good }
    }
}

/// What the numbers of a label are counted in, before a litre's weight is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FormKind {
    /// A liquid, grams in 100 ml.
    #[default]
    ByVolume,
    /// A liquid, grams in 100 g.
    ByWeight,
    /// A powder.
    Powder,
}

/// One feed as its bottle or bag describes it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bottle {
    /// Tells feeds apart; never given twice. The first one's is nought.
    pub id: u64,
    /// What it is called, at most [`NAME_LENGTH`] characters.
    pub name: String,
    /// The numbers of the label.
    pub label: Phrase,
    /// The dose in the label's words.
    pub dose: Phrase,
    /// What the numbers are counted in, once told.
    pub form: Option<FormKind>,
    /// What a litre of the feed weighs.
    pub weighs: Entry,
    /// The forms of nitrogen.
    pub nitrate: Entry,
    /// Ammonium nitrogen.
    pub ammonium: Entry,
    /// Urea nitrogen.
    pub urea: Entry,
    /// Whose gallons the label means.
    pub country: Option<Country>,
    /// Which ounces.
    pub ounce: Option<OunceKind>,
    /// What its ratio counts.
    pub ratio: Option<RatioKind>,
    /// What its cap holds.
    pub cap: Entry,
    /// Whether the mixer may use it.
    pub in_mixer: bool,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

impl Bottle {
    /// Its number fields.
    pub const FIELDS: [Field; 5] = [Field::FeedWeighs, Field::Nitrate, Field::Ammonium, Field::Urea, Field::Cap];

    pub(super) const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::FeedWeighs => &mut self.weighs,
            Field::Nitrate => &mut self.nitrate,
            Field::Ammonium => &mut self.ammonium,
            Field::Urea => &mut self.urea,
            Field::Cap => &mut self.cap,
            _ => return None,
        })
    }

    /// The entry behind a field of the feed, to read.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::FeedWeighs => &self.weighs,
            Field::Nitrate => &self.nitrate,
            Field::Ammonium => &self.ammonium,
            Field::Urea => &self.urea,
            Field::Cap => &self.cap,
            _ => return None,
        })
    }

    /// Takes the typed numbers of the label.
    pub fn type_label(&mut self, text: &str) {
        self.label.type_text(text, Grade::parse(text).is_ok());
    }

    /// Takes the typed dose.
    pub fn type_dose(&mut self, text: &str) {
        self.dose.type_text(text, is_dose(text));
    }

    /// Takes a name, cut to [`NAME_LENGTH`] characters.
    pub fn rename(&mut self, name: &str) {
        self.name = name.chars().take(NAME_LENGTH).collect();
    }

    /// What is told beside the words of the dose, with a can of so many litres. Whose gallons are meant is assumed to be as the grower
    /// measures until it is told; to one who measures in litres only those of the assumed dose.
    #[must_use]
    pub fn told(&self, units: Units, can_litres: f64) -> Told {
        let usual = if units.system == UnitSystem::Us { Country::Us } else { Country::Uk };
        Told {
            country: self
                .country
                .or_else(|| (self.dose.good.is_empty() || units.system != UnitSystem::Metric).then_some(usual)),
            ounce: self.ounce,
            ratio: self.ratio,
            cap: self.cap.value(),
            can: can_litres,
        }
    }

    /// The words of label and dose: as typed, or the last that could be read, or the assumed ones where nothing is typed.
    #[must_use]
    pub fn words(&self, from_last_good: bool) -> (String, String) {
        let of = |phrase: &Phrase, assumed: &str| {
            let words = if from_last_good { &phrase.good } else { &phrase.text };
            if words.trim().is_empty() { assumed } else { words }.to_owned()
        };
        (of(&self.label, ASSUMED_LABEL), of(&self.dose, ASSUMED_DOSE))
    }

    /// What its numbers are counted in: as told; else a dose in grams is one of a powder, and any other of a liquid.
    #[must_use]
    pub fn form(&self, from_last_good: bool) -> FormKind {
        self.form.unwrap_or_else(|| {
            let told = Told {
                ounce: self.ounce,
                ..ALL_TOLD
            };
            match Rate::parse(&self.words(from_last_good).1, &told) {
                Ok(rate) if rate.measured == Measured::Grams => FormKind::Powder,
                _ => FormKind::ByVolume,
            }
        })
    }

    /// What its label says, from what is typed or from the last words that could be read.
    ///
    /// # Errors
    /// [`LabelError`], why the words cannot be used.
    pub fn label(&self, basis: Basis, from_last_good: bool) -> Result<Label, LabelError> {
        Ok(Label {
            grade: Grade::parse(&self.words(from_last_good).0)?,
            basis,
            form: match self.form(from_last_good) {
                FormKind::ByVolume => Form::ByVolume,
                FormKind::ByWeight => Form::ByWeight(self.weighs.value()),
                FormKind::Powder => Form::Powder,
            },
            forms: NitrogenForms {
                nitrate: self.nitrate.value().unwrap_or_default(),
                ammonium: self.ammonium.value().unwrap_or_default(),
                urea: self.urea.value().unwrap_or_default(),
            },
        })
    }

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        lines.put(ID, &self.id.to_string());
        lines.put("name", &self.name);
        self.label.put_into(lines, LABEL);
        self.dose.put_into(lines, DOSE);
        lines.put_told("feed-form", self.form);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put_told("feed-country", self.country);
        lines.put_told("feed-ounce", self.ounce);
        lines.put_told("feed-ratio", self.ratio);
        lines.put_flag("in-mixer", self.in_mixer);
        lines.lines.extend_from_slice(&self.unknown);
    }

    pub(super) fn from_page(id: u64, mut page: Page, units: Units) -> Self {
        page.take(ID);
        let mut bottle = Self::take_from(&mut page, units);
        bottle.id = id;
        bottle.unknown = page.left();
        bottle
    }

    /// Takes all that belongs to a feed out of a page.
    pub(super) fn take_from(page: &mut Page, units: Units) -> Self {
        let mut bottle = Self {
            label: Phrase::take_from(page, LABEL),
            dose: Phrase::take_from(page, DOSE),
            form: page.told("feed-form"),
            country: page.told("feed-country"),
            ounce: page.told("feed-ounce"),
            ratio: page.told("feed-ratio"),
            in_mixer: page.flag("in-mixer"),
            ..Self::default()
        };
        bottle.rename(page.take("name"));
        for field in Self::FIELDS {
            if let Some(entry) = bottle.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        bottle
    }
}

/// The words of the label and the dose.
const LABEL: &str = "feed-label";
const DOSE: &str = "feed-dose";

pub(super) fn is_grade(text: &str) -> bool {
    Grade::parse(text).is_ok()
}

/// All that can be told beside a dose, for whoever only asks what kind of words they are: any cap, ml, and any can, litres (limit).
const ALL_TOLD: Told = Told {
    country: Some(Country::Uk),
    ounce: Some(OunceKind::Weight),
    ratio: Some(RatioKind::Total),
    cap: Some(20.0),
    can: 10.0,
};

/// Whether words are a dose, be it one that something has to be told for.
fn is_dose(text: &str) -> bool {
    Rate::parse(text, &ALL_TOLD).is_ok()
}

impl Coded for FormKind {
    const CODES: &'static [(&'static str, Self)] = &[
        ("by-volume", Self::ByVolume),
        ("by-weight", Self::ByWeight),
        ("powder", Self::Powder),
    ];
}

impl Coded for Country {
    const CODES: &'static [(&'static str, Self)] = &[("uk", Self::Uk), ("us", Self::Us)];
}

impl Coded for OunceKind {
    const CODES: &'static [(&'static str, Self)] = &[("weight", Self::Weight), ("fluid", Self::Fluid)];
}

impl Coded for RatioKind {
    const CODES: &'static [(&'static str, Self)] = &[("total", Self::Total), ("added", Self::Added)];
}
