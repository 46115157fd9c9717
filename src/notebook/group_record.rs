use super::lines::{ID, Lines, NO, Page, YES};
use super::link::{handed_line, read_handed};
use super::{Coded, Entry, Field};
use crate::almanac::CivilDay;
use crate::feed::{Stage, Stem};
use crate::quantity::Units;
use crate::water::{
    Container, Cover, Exposure, Feel, Group, Handed, Leafiness, Medium, Place, Placement, PlantSize, PlantedFrom, Readings,
    USUAL_BAG_LITRES, USUAL_PLANTS_IN_BAG, volume_of_pot,
};

/// Characters of a name that are kept (limit).
pub const NAME_LENGTH: usize = 40;

/// Compost in a pot or basket until told, litres (common practice, no source).
const ASSUMED_POT: f64 = 12.0;
/// Days for which a stage that was told holds, whatever trusses and season say (choice: from one to the next it takes longer).
const STAGE_HOLDS: i32 = 21;

/// What a group stands in, before its size is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum ContainerKind {
    /// A flat bag that several plants share.
    #[default]
    GrowBag,
    /// A pot each.
    Pot,
    /// A hanging basket each.
    Basket,
    /// The ground.
    Border,
    /// A bottomless ring over wet gravel.
    Ring,
}

/// A group of plants as the grower entered it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GroupRecord {
    /// Tells groups apart when names are alike; never used twice in a notebook.
    pub id: u32,
    /// Its name, at most [`NAME_LENGTH`] characters.
    pub name: String,
    /// Plants in it.
    pub plants: Entry,
    /// Where it stands.
    pub place: Place,
    /// What it stands in.
    pub container: ContainerKind,
    /// Compost in one grow-bag.
    pub bag_size: Entry,
    /// Plants to a bag.
    pub plants_in_bag: Entry,
    /// Compost in one pot or basket.
    pub pot_size: Entry,
    /// Width of a pot at the rim; says its volume when `pot_size` does not.
    pub pot_width: Entry,
    /// What the roots grow in.
    pub medium: Medium,
    /// Whether that is a second season's, or has settled.
    pub settled: bool,
    /// Whether surplus water runs away; as usual when missing.
    pub drains: Option<bool>,
    /// Height of the plants.
    pub height: Entry,
    /// Trusses set.
    pub trusses: Entry,
    /// The day on which their size was looked at; it grows from there.
    pub looked: Option<CivilDay>,
    /// How leafy they are.
    pub leafiness: Leafiness,
    /// Ground for each.
    pub ground: Entry,
    /// Day of planting, as typed.
    pub planted_text: String,
    /// Day of planting, when the text made one.
    pub planted: Option<CivilDay>,
    /// The pot planted out of.
    pub planted_from: PlantedFrom,
    /// Height at which they are stopped.
    pub stopped_at: Entry,
    /// This morning's squeeze.
    pub feel: Option<Feel>,
    /// What a pot weighs when it has just drained.
    pub pot_drained: Entry,
    /// What it weighs this morning.
    pub pot_now: Entry,
    /// Water this morning until it began to drip.
    pub drip: Entry,
    /// Readings of earlier days teach nothing: what was learnt until then was put back.
    pub learn_from: Option<CivilDay>,
    /// How far the crop is; as the trusses say until told.
    pub stage: Option<Stage>,
    /// The day on which that was told.
    pub stage_told: Option<CivilDay>,
    /// How thick the stems are.
    pub stem: Option<Stem>,
    /// Whether granules in the compost feed too.
    pub granules: bool,
    /// Whether Epsom salts were given without change.
    pub epsom_tried: bool,
    /// What another notebook handed over with the group.
    pub handed: Option<Handed>,
    /// Lines that a later program wrote; kept as they are.
    pub unknown: Vec<String>,
}

impl GroupRecord {
    pub(super) fn page(&self, units: Units) -> Lines {
        let mut lines = Lines::default();
        lines.put(ID, &self.id.to_string());
        lines.put("name", &self.name);
        for field in Self::FIELDS {
            if let Some(entry) = self.entry(field) {
                lines.put_entry(field, units, entry);
            }
        }
        match self.place {
            Place::Covered { cover, shaded } => {
                lines.put_choice("cover", cover);
                lines.put_flag("shaded", shaded);
            }
            Place::Outdoors { exposure } => lines.put("outdoors", exposure.code()),
        }
        lines.put_choice("container", self.container);
        lines.put_choice("medium", self.medium);
        lines.put_flag("settled", self.settled);
        lines.put("drains", self.drains.map_or("", |drains| if drains { YES } else { NO }));
        lines.put_choice("leafiness", self.leafiness);
        lines.put("planted", &self.planted_text);
        lines.put_day("planted-held", self.planted);
        lines.put_choice("planted-from", self.planted_from);
        lines.put_day("looked", self.looked);
        lines.put_day("learn-from", self.learn_from);
        lines.put_told("feel", self.feel);
        lines.put_told("stage", self.stage);
        lines.put_day("stage-told", self.stage_told);
        lines.put_told("stem", self.stem);
        lines.put_flag("granules", self.granules);
        lines.put_flag("epsom-tried", self.epsom_tried);
        lines.put("handed", &self.handed.as_ref().map(handed_line).unwrap_or_default());
        lines.lines.extend_from_slice(&self.unknown);
        lines
    }

    /// A group from its page, which every line that is known is taken out of. Its number is told apart from it.
    pub(super) fn from_page(id: u32, mut page: Page, units: Units) -> Self {
        page.take(ID);
        let (cover, shaded) = (page.choice("cover"), page.flag("shaded"));
        let place = match page.told("outdoors") {
            Some(exposure) => Place::Outdoors { exposure },
            None => Place::Covered { cover, shaded },
        };
        let mut record = Self {
            id,
            place,
            container: page.choice("container"),
            medium: page.choice("medium"),
            settled: page.flag("settled"),
            drains: Some(page.take("drains")).filter(|word| !word.is_empty()).map(|word| word == YES),
            leafiness: page.choice("leafiness"),
            planted_text: page.take("planted").to_owned(),
            planted: page.day("planted-held"),
            planted_from: page.choice("planted-from"),
            looked: page.day("looked"),
            learn_from: page.day("learn-from"),
            feel: page.told("feel"),
            stage: page.told("stage"),
            stage_told: page.day("stage-told"),
            stem: page.told("stem"),
            granules: page.flag("granules"),
            epsom_tried: page.flag("epsom-tried"),
            handed: read_handed(page.take("handed")),
            ..Self::default()
        };
        record.rename(page.take("name"));
        for field in Self::FIELDS {
            if let Some(entry) = record.entry_mut(field) {
                *entry = page.entry(field, units);
            }
        }
        record.unknown = page.left();
        record
    }

    /// The plants as the calculation takes them, with what is assumed where nothing was entered.
    #[must_use]
    pub fn group(&self) -> Group {
        let pot = || {
            let litres = self.pot_size.value().or_else(|| self.pot_width.value().map(volume_of_pot));
            litres.unwrap_or(ASSUMED_POT)
        };
        let container = match self.container {
            ContainerKind::GrowBag => Container::GrowBag {
                litres: self.bag_litres(),
                plants: self.plants_to_a_bag(),
            },
            ContainerKind::Pot => Container::Pot { litres: pot() },
            ContainerKind::Basket => Container::Basket { litres: pot() },
            ContainerKind::Border => Container::Border,
            ContainerKind::Ring => Container::Ring,
        };
        Group {
            count: self.count(),
            place: self.place,
            container,
            medium: self.medium,
            settled: self.settled,
            drains: self.drains,
            size: PlantSize {
                height_metres: self.height.value(),
                trusses: self.trusses.value(),
            },
            leafiness: self.leafiness,
            ground: self.ground.value(),
            planted: self.planted,
            planted_from: self.planted_from,
            ball: None,
        }
    }

    /// Where they stand and in what.
    #[must_use]
    pub fn placement(&self) -> Placement {
        self.group().placement()
    }

    /// Plants in the group: one until told.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.plants.value().map_or(1, whole)
    }

    /// Compost in one bag, litres.
    #[must_use]
    pub fn bag_litres(&self) -> f64 {
        self.bag_size.value().unwrap_or(USUAL_BAG_LITRES)
    }

    /// Plants to a bag.
    #[must_use]
    pub fn plants_to_a_bag(&self) -> u32 {
        self.plants_in_bag.value().map_or(USUAL_PLANTS_IN_BAG, whole)
    }

    /// What was seen of the compost this morning.
    #[must_use]
    pub fn readings(&self) -> Readings {
        let weights = self.pot_drained.value().zip(self.pot_now.value());
        Readings {
            feel: self.feel,
            lighter: weights.map(|(drained, now)| (drained - now).max(0.0)),
            drip: self.drip.value(),
        }
    }

    /// A new morning: what was seen of the compost is of an earlier day.
    pub fn leave_readings(&mut self) {
        self.feel = None;
        self.pot_now = Entry::default();
        self.drip = Entry::default();
    }

    /// Takes a name, cut to [`NAME_LENGTH`] characters.
    pub fn rename(&mut self, name: &str) {
        self.name = name.chars().take(NAME_LENGTH).collect();
    }

    /// Takes the text of a planting day; empty text forgets it, text that is no day keeps the last good one.
    pub fn type_planted(&mut self, text: &str) {
        text.clone_into(&mut self.planted_text);
        if text.trim().is_empty() {
            self.planted = None;
        } else if let Ok(day) = text.parse() {
            self.planted = Some(day);
        }
    }

    /// What is wrong with the text of the planting day on the morning of `today`, if anything is.
    #[must_use]
    pub fn planted_error(&self, today: CivilDay) -> Option<String> {
        if self.planted_text.trim().is_empty() {
            return None;
        }
        match self.planted_text.parse::<CivilDay>() {
            Err(error) => Some(error.to_string()),
            Ok(day) if day > today => Some("That day is still to come: give a day up to today.".to_owned()),
            Ok(_) => None,
        }
    }

    /// Somebody looks at the plants' size on this day; what is not told anew has become `size` since.
    pub fn look(&mut self, today: CivilDay, size: PlantSize) {
        if self.looked != Some(today) {
            self.height.carry(size.height_metres);
            self.trusses.carry(size.trusses);
            self.looked = Some(today);
        }
    }

    /// A new morning: the size that was told until then, on `day` at the latest, is one of an earlier day.
    pub(super) fn leave_size(&mut self, day: CivilDay, units: Units) {
        if self.height.value().is_some() || self.trusses.value().is_some() {
            self.looked = self.looked.or(Some(day));
        }
        self.height.leave_number(Field::Height, units);
        self.trusses.leave_number(Field::Trusses, units);
    }

    /// The entry behind a field of the group, when the field is one of the group's.
    pub const fn entry_mut(&mut self, field: Field) -> Option<&mut Entry> {
        Some(match field {
            Field::Plants => &mut self.plants,
            Field::BagSize => &mut self.bag_size,
            Field::PlantsInBag => &mut self.plants_in_bag,
            Field::PotSize => &mut self.pot_size,
            Field::PotWidth => &mut self.pot_width,
            Field::Height => &mut self.height,
            Field::Trusses => &mut self.trusses,
            Field::Ground => &mut self.ground,
            Field::StoppedAt => &mut self.stopped_at,
            Field::PotDrained => &mut self.pot_drained,
            Field::PotNow => &mut self.pot_now,
            Field::Drip => &mut self.drip,
            _ => return None,
        })
    }

    /// The entry behind a field of the group, to read.
    #[must_use]
    pub const fn entry(&self, field: Field) -> Option<&Entry> {
        Some(match field {
            Field::Plants => &self.plants,
            Field::BagSize => &self.bag_size,
            Field::PlantsInBag => &self.plants_in_bag,
            Field::PotSize => &self.pot_size,
            Field::PotWidth => &self.pot_width,
            Field::Height => &self.height,
            Field::Trusses => &self.trusses,
            Field::Ground => &self.ground,
            Field::StoppedAt => &self.stopped_at,
            Field::PotDrained => &self.pot_drained,
            Field::PotNow => &self.pot_now,
            Field::Drip => &self.drip,
            _ => return None,
        })
    }

    /// What stands in for a field of the group while nothing is entered, in SI.
    #[must_use]
    pub fn assumed(&self, field: Field) -> f64 {
        let group = self.group();
        match field {
            Field::Plants => 1.0,
            Field::BagSize => USUAL_BAG_LITRES,
            Field::PlantsInBag => f64::from(USUAL_PLANTS_IN_BAG),
            Field::PotSize => self.pot_width.value().map_or(ASSUMED_POT, volume_of_pot),
            Field::PotWidth => crate::water::diameter_of_pot(self.pot_size.value().unwrap_or(ASSUMED_POT)),
            Field::Height => {
                PlantSize {
                    height_metres: None,
                    ..group.size
                }
                .settled()
                .0
            }
            Field::Trusses => {
                PlantSize {
                    trusses: None,
                    ..group.size
                }
                .settled()
                .1
            }
            Field::Ground => Group { ground: None, ..group }.ground_for_each(),
            _ => 0.0,
        }
    }

    /// Prints every number anew after a change of units.
    pub fn change_units(&mut self, from: Units, to: Units) {
        for field in Self::FIELDS {
            if let Some(entry) = self.entry_mut(field) {
                entry.change_units(field, from, to);
            }
        }
    }

    /// All number fields of a group.
    pub const FIELDS: [Field; 12] = [
        Field::Plants,
        Field::BagSize,
        Field::PlantsInBag,
        Field::PotSize,
        Field::PotWidth,
        Field::Height,
        Field::Trusses,
        Field::Ground,
        Field::StoppedAt,
        Field::PotDrained,
        Field::PotNow,
        Field::Drip,
    ];

    /// Tells how far the crop is on a day.
    pub const fn tell_stage(&mut self, stage: Option<Stage>, day: CivilDay) {
        (self.stage, self.stage_told) = (stage, Some(day));
    }

    /// How far the crop was told to be, and whether that holds whatever else is known: not when it was told long ago.
    #[must_use]
    pub fn told_stage(&self, today: CivilDay) -> Option<(Stage, bool)> {
        let holds = self.stage_told.is_some_and(|day| today.days_since(day) <= STAGE_HOLDS);
        self.stage.map(|stage| (stage, holds))
    }

    /// The word of the place key: `glass`, `tunnel` or `outdoors`.
    #[must_use]
    pub const fn place_word(&self) -> &'static str {
        match self.place {
            Place::Covered {
                cover: Cover::NewPolythene | Cover::OldPolythene,
                ..
            } => "tunnel",
            Place::Covered { .. } => "glass",
            Place::Outdoors { .. } => "outdoors",
        }
    }

    /// Moves the group: `glass`, `tunnel` or `outdoors`; any other word changes nothing.
    pub fn move_to(&mut self, word: &str) {
        if word == self.place_word() {
            return;
        }
        self.place = match word {
            "glass" => Place::default(),
            "tunnel" => Place::Covered {
                cover: Cover::NewPolythene,
                shaded: false,
            },
            "outdoors" => Place::Outdoors {
                exposure: Exposure::default(),
            },
            _ => return,
        };
    }
}

/// A count that its field has checked to be whole and within its range.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a float cast saturates, and the field's range is 0 to 999"
)]
const fn whole(count: f64) -> u32 {
    count as u32
}
