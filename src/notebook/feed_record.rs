use super::lines::{Lines, YES};
use super::{Coded, Entry, Field};
use crate::feed::{
    Basis, Country, Feed, Form, Grade, Label, MixError, NitrogenForms, OunceKind, Rate, RatioKind, Stage, Stem, Straight, Told, Water,
};
use crate::quantity::{UnitSystem, Units};

/// The numbers of the label until told: a made-up tomato feed.
pub const ASSUMED_LABEL: &str = "5-2-9";
/// Its dose until told.
pub const ASSUMED_DOSE: &str = "20 ml per gallon";
/// Feed for a plant each time until told, litres (choice: with two feeds a week about what a picked crop takes up).
pub(super) const ASSUMED_EACH: f64 = 1.5;
/// Feeds a week until told (choice, the same).
pub(super) const ASSUMED_A_WEEK: f64 = 2.0;

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
    fn type_text(&mut self, text: &str, is_good: bool) {
        self.text = text.chars().map(|sign| if sign.is_control() { ' ' } else { sign }).collect();
        if is_good || self.text.trim().is_empty() {
            self.good = self.text.trim().to_owned();
        }
    }

    fn put_into(&self, lines: &mut Lines, word: &str) {
        lines.put(word, &self.text);
        if self.good != self.text.trim() {
            lines.put(&(word.to_owned() + "-held"), &self.good);
        }
    }

    fn take_from(lines: &mut Lines, word: &str, is_good: &dyn Fn(&str) -> bool) -> Self {
        let mut phrase = Self {
            text: String::new(),
            good: Some(lines.take(&(word.to_owned() + "-held")))
                .filter(|text| is_good(text))
                .unwrap_or_default(),
        };
        let text = lines.take(word);
        phrase.type_text(&text, is_good(&text));
        phrase
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

/// The feed as the grower entered it, how it is given, and what stands on the shelf.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FeedRecord {
    /// The numbers of the label.
    pub label: Phrase,
    /// The dose in the label's words.
    pub dose: Phrase,
    /// What the numbers are counted in.
    pub form: FormKind,
    /// Oxides or elements.
    pub basis: Basis,
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
    /// Feed for a plant each time.
    pub each: Entry,
    /// Feeds a week.
    pub a_week: Entry,
    /// Fruit that is expected of a plant.
    pub fruit: Entry,
    /// The water of the can.
    pub water: Water,
    /// How far the crop is; as the trusses say until told.
    pub stage: Option<Stage>,
    /// How thick the stems are.
    pub stem: Option<Stem>,
    /// Whether granules in the compost feed too.
    pub granules: bool,
    /// What stands on the shelf.
    pub shelf: Vec<Straight>,
}

impl FeedRecord {
    /// All number fields of a feed.
    pub const FIELDS: [Field; 8] = [
        Field::FeedWeighs,
        Field::Nitrate,
        Field::Ammonium,
        Field::Urea,
        Field::Cap,
        Field::FeedEach,
        Field::FeedsAWeek,
        Field::Fruit,
    ];

    /// The entry behind a field of the feed, to change.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::FeedWeighs => &mut self.weighs,
            Field::Nitrate => &mut self.nitrate,
            Field::Ammonium => &mut self.ammonium,
            Field::Urea => &mut self.urea,
            Field::Cap => &mut self.cap,
            Field::FeedEach => &mut self.each,
            Field::FeedsAWeek => &mut self.a_week,
            Field::Fruit => &mut self.fruit,
            _ => return None,
        })
    }

    /// The entry behind a field of the feed.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::FeedWeighs => &self.weighs,
            Field::Nitrate => &self.nitrate,
            Field::Ammonium => &self.ammonium,
            Field::Urea => &self.urea,
            Field::Cap => &self.cap,
            Field::FeedEach => &self.each,
            Field::FeedsAWeek => &self.a_week,
            Field::Fruit => &self.fruit,
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

    /// What is told beside the words of the dose, with a can of so many litres. Whose gallons the assumed dose means is assumed
    /// too.
    #[must_use]
    pub fn told(&self, units: Units, can_litres: f64) -> Told {
        let usual = if units.system == UnitSystem::Us { Country::Us } else { Country::Uk };
        Told {
            country: self.country.or_else(|| self.dose.good.is_empty().then_some(usual)),
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

    /// The feed as the calculation takes it: from what is typed, or from the last words that could be read.
    ///
    /// # Errors
    /// [`MixError`], why the words cannot be used.
    pub fn feed(&self, units: Units, can_litres: f64, from_last_good: bool) -> Result<Feed, MixError> {
        let (label, dose) = self.words(from_last_good);
        let grade = Grade::parse(&label).map_err(MixError::Label)?;
        let rate = Rate::parse(&dose, &self.told(units, can_litres)).map_err(MixError::Dose)?;
        Ok(Feed {
            label: Label {
                grade,
                basis: self.basis,
                form: match self.form {
                    FormKind::ByVolume => Form::ByVolume,
                    FormKind::ByWeight => Form::ByWeight(self.weighs.value()),
                    FormKind::Powder => Form::Powder,
                },
                forms: NitrogenForms {
                    nitrate: self.nitrate.value().unwrap_or_default(),
                    ammonium: self.ammonium.value().unwrap_or_default(),
                    urea: self.urea.value().unwrap_or_default(),
                },
            },
            rate,
        })
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

    /// Prints every number anew after a change of units.
    pub(super) fn change_units(&mut self, from: Units, to: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry_mut(field) {
                entry.change_units(field, from, to);
            }
        }
    }

    pub(super) fn put_into(&self, lines: &mut Lines, units: Units) {
        self.label.put_into(lines, LABEL);
        self.dose.put_into(lines, DOSE);
        lines.put_choice("feed-form", self.form);
        lines.put_choice("feed-basis", self.basis);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        lines.put_told("feed-country", self.country);
        lines.put_told("feed-ounce", self.ounce);
        lines.put_told("feed-ratio", self.ratio);
        lines.put_choice("feed-water", self.water);
        lines.put_told("stage", self.stage);
        lines.put_told("stem", self.stem);
        lines.put_flag("granules", self.granules);
        for salt in &self.shelf {
            lines.put(&(SHELF.to_owned() + salt.code()), YES);
        }
    }

    pub(super) fn from_lines(lines: &mut Lines, units: Units) -> Self {
        let mut record = Self {
            label: Phrase::take_from(lines, LABEL, &|text| Grade::parse(text).is_ok()),
            dose: Phrase::take_from(lines, DOSE, &is_dose),
            form: lines.choice("feed-form"),
            basis: lines.choice("feed-basis"),
            country: lines.told("feed-country"),
            ounce: lines.told("feed-ounce"),
            ratio: lines.told("feed-ratio"),
            water: lines.choice("feed-water"),
            stage: lines.told("stage"),
            stem: lines.told("stem"),
            granules: lines.flag("granules"),
            ..Self::default()
        };
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = lines.entry(field, units);
            }
        }
        for (code, salt) in Straight::CODES {
            if lines.take(&(SHELF.to_owned() + code)) == YES {
                record.shelf.push(*salt);
            }
        }
        record
    }
}

/// The words of the label and the dose, and what the word of a thing on the shelf begins with.
const LABEL: &str = "feed-label";
const DOSE: &str = "feed-dose";
const SHELF: &str = "shelf-";

/// Whether words are a dose, be it one that something has to be told for.
fn is_dose(text: &str) -> bool {
    let all_told = Told {
        country: Some(Country::Uk),
        ounce: Some(OunceKind::Weight),
        ratio: Some(RatioKind::Total),
        cap: Some(20.0),
        can: 10.0,
    };
    Rate::parse(text, &all_told).is_ok()
}

impl Coded for FormKind {
    const CODES: &'static [(&'static str, Self)] = &[
        ("by-volume", Self::ByVolume),
        ("by-weight", Self::ByWeight),
        ("powder", Self::Powder),
    ];
}

impl Coded for Basis {
    const CODES: &'static [(&'static str, Self)] = &[("oxides", Self::Oxides), ("elements", Self::Elements)];
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
