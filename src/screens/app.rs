//! The one state behind all screens.

use leptos::prelude::*;

use super::answers::{GroupAnswer, answers};
use crate::almanac::{CivilDay, WeatherError};
use crate::browser::{BrowserStore, today};
use crate::notebook::{Entry, Field, GroupRecord, Keeper, Notebook, OpenError};
use crate::quantity::Units;
use crate::water::WaterError;

/// What all screens share: the notebook as it stands, and the few things that are not kept.
#[derive(Clone, Copy)]
pub struct App {
    /// Everything that is kept.
    pub notebook: RwSignal<Notebook>,
    /// This morning.
    pub today: RwSignal<CivilDay>,
    /// Position of the group that is being looked at.
    pub selected: RwSignal<usize>,
    /// The group that was removed last and where it stood, as long as it can be put back.
    pub removed: RwSignal<Option<(usize, GroupRecord)>>,
    /// Why the kept notebook was not opened, if it was not.
    pub trouble: RwSignal<Option<OpenError>>,
    /// Whether the last attempt to keep the notebook failed.
    pub not_kept: RwSignal<bool>,
    /// This morning's answers, one for each group.
    pub answers: Memo<Vec<GroupAnswer>>,
    keeper: StoredValue<Keeper<BrowserStore>, LocalStorage>,
}

impl App {
    /// Opens the notebook and keeps it from then on, after every change.
    pub fn start() -> Self {
        let (keeper, start) = Keeper::start(BrowserStore::probe());
        let mut notebook = start.notebook;
        let day = today();
        notebook.turn_to(day);
        let notebook = RwSignal::new(notebook);
        let today = RwSignal::new(day);
        let answers = Memo::new(move |before: Option<&Vec<GroupAnswer>>| {
            notebook.with(|notebook| answers(notebook, today.get(), before.map_or(&[], Vec::as_slice)))
        });
        let app = Self {
            notebook,
            today,
            selected: RwSignal::new(0),
            removed: RwSignal::new(None),
            trouble: RwSignal::new(start.trouble),
            not_kept: RwSignal::new(false),
            answers,
            keeper: StoredValue::new_local(keeper),
        };
        app.keep_every_change();
        app
    }

    fn keep_every_change(self) {
        Effect::new(move |opened_before: Option<()>| {
            let refused = self.notebook.with(|notebook| {
                // The first run is the opening itself: nothing has changed yet.
                opened_before.is_some()
                    && self
                        .keeper
                        .try_update_value(|keeper| keeper.keep(notebook).is_err())
                        .unwrap_or(true)
            });
            self.not_kept.set(refused);
        });
    }

    /// Looks at the clock again, as after a night with the page open.
    pub fn look_at_clock(self) {
        let day = today();
        if self.today.get_untracked() != day {
            self.notebook.update(|notebook| notebook.turn_to(day));
            self.today.set(day);
        }
    }

    /// Texts that were set aside because they could not be opened.
    pub fn set_aside_texts(self) -> Vec<String> {
        self.keeper.with_value(Keeper::set_aside_texts)
    }

    /// The units typed and read.
    pub fn units(self) -> Units {
        self.notebook.with(|notebook| notebook.units)
    }

    /// Something of the group that is looked at.
    pub fn group<T: Default>(self, read: impl FnOnce(&GroupRecord) -> T) -> T {
        let index = self.selected.get();
        self.notebook
            .with(|notebook| notebook.groups.get(index).map(read))
            .unwrap_or_default()
    }

    /// Changes the group that is looked at.
    pub fn change_group(self, change: impl FnOnce(&mut GroupRecord)) {
        let index = self.selected.get_untracked();
        self.notebook.update(|notebook| {
            if let Some(group) = notebook.groups.get_mut(index) {
                change(group);
            }
        });
    }

    /// Something of the answer for the group that is looked at.
    pub fn answer<T: Default>(self, read: impl FnOnce(&GroupAnswer) -> T) -> T {
        let index = self.selected.get();
        self.answers.with(|answers| answers.get(index).map(read)).unwrap_or_default()
    }

    /// Something of a field's entry.
    pub fn entry<T: Default>(self, field: Field, read: impl FnOnce(&Entry, Units) -> T) -> T {
        let index = self.selected.get();
        self.notebook
            .with(|notebook| notebook.entry(index, field).map(|entry| read(entry, notebook.units)))
            .unwrap_or_default()
    }

    /// Takes typed text for a field.
    pub fn type_text(self, field: Field, text: &str) {
        let index = self.selected.get_untracked();
        self.notebook.update(|notebook| {
            let units = notebook.units;
            if let Some(entry) = notebook.entry_mut(index, field) {
                entry.type_text(field, units, text);
            }
        });
    }

    /// Steps a field up or down from what stands there or is assumed.
    pub fn step(self, field: Field, steps: i32) {
        let index = self.selected.get_untracked();
        let today = self.today.get_untracked();
        self.notebook.update(|notebook| {
            let units = notebook.units;
            let assumed = notebook.assumed(index, field, today).unwrap_or_else(|| field.middle());
            if let Some(entry) = notebook.entry_mut(index, field) {
                entry.step(field, units, assumed, steps);
            }
        });
    }

    /// What is wrong with a field: its own text, or its quarrel with another.
    pub fn error(self, field: Field) -> Option<String> {
        let own = self.entry(field, |entry, units| entry.error(field, units).map(|error| error.to_string()));
        own.or_else(|| {
            let quarrel = self.answer(|answer| match &answer.error {
                Some(WaterError::Weather(error)) => Some(error.clone()),
                _ => None,
            })?;
            let concerned = match quarrel {
                WeatherError::CoolestAboveWarmest { .. } => Field::Coolest,
                WeatherError::SunBeyondDaylight { .. } => Field::SunshineHours,
                WeatherError::OutOfRange(_) | WeatherError::SunlessDay { .. } => return None,
            };
            (concerned == field).then(|| quarrel.sentence(self.units()))
        })
    }
}
