//! The one state behind all screens.

use std::{
    cell::{Cell, OnceCell, Ref, RefCell},
    time::Duration,
};

use leptos_dom::helpers::{TimeoutHandle, document, set_timeout_with_handle};

use super::answers::{GroupAnswer, Shown, answers};
use super::parts::{Act, Element, Live, Pass, Words, act, hold_typing, leave_field, live};
use super::route::Route;
use crate::almanac::{CivilDay, Weather, WeatherError};
use crate::browser::{BrowserStore, ask_to_persist, today};
use crate::notebook::{Entry, Field, GroupDay, GroupRecord, Keeper, Notebook, OpenError};
use crate::quantity::Units;
use crate::water::{PlantSize, WaterError};

/// Everything that any screen shows.
pub struct Model {
    /// Everything that is kept.
    pub notebook: Notebook,
    /// This morning.
    pub today: CivilDay,
    /// The screen that is shown.
    pub route: Route,
    /// The day whose page is being changed.
    pub changed_day: Option<CivilDay>,
    /// What stands in the field of the water given on that day.
    pub given: Entry,
    /// Position of the group that is looked at.
    pub selected: usize,
    /// The group that was removed last, as long as it can be put back.
    pub removed: Option<GroupRecord>,
    /// Why the kept notebook was not opened, if it was not.
    pub trouble: Option<OpenError>,
    /// Whether the last attempt to keep the notebook failed.
    pub not_kept: bool,
    /// This morning's answers, one for each group; worked out anew after every change.
    pub answers: Vec<GroupAnswer>,
}

impl Model {
    /// The units typed and read.
    pub const fn units(&self) -> Units {
        self.notebook.units
    }

    /// The group that is looked at.
    pub fn group(&self) -> Option<&GroupRecord> {
        self.notebook.groups.get(self.selected)
    }

    /// The group that is looked at, to change.
    pub fn group_mut(&mut self) -> Option<&mut GroupRecord> {
        self.notebook.groups.get_mut(self.selected)
    }

    /// Whether there is a choice of groups.
    pub const fn has_several(&self) -> bool {
        self.notebook.groups.len() > 1
    }

    /// Yesterday's weather as used, unless it cannot have been so.
    pub fn weather(&self) -> Option<Weather> {
        self.notebook.weather(self.today).ok()
    }

    /// The answer for the group that is looked at.
    pub fn answer(&self) -> Option<&GroupAnswer> {
        self.answers.get(self.selected)
    }

    /// The last answer that could be worked out for the group that is looked at.
    pub fn shown(&self) -> Option<&Shown> {
        self.answer()?.shown.as_ref()
    }

    /// What stands in for a field while nothing is entered, in SI.
    pub fn assumed(&self, field: Field) -> Option<f64> {
        if field == Field::Given {
            return self.assumed_given();
        }
        let is_grown = self.entry(field).is_some_and(Entry::is_of_earlier_day);
        let grown = self.size().filter(|_| is_grown).map(PlantSize::settled);
        match field {
            Field::Height => grown.map(|(height, _)| height),
            Field::Trusses => grown.map(|(_, trusses)| trusses),
            _ => None,
        }
        .or_else(|| self.notebook.assumed(self.selected, field, self.today))
    }

    /// The size of the plants that are looked at, as it has become.
    pub fn size(&self) -> Option<PlantSize> {
        let answer = self.answer().filter(|answer| answer.error.is_none());
        let grown = answer.and_then(|answer| answer.shown.as_ref()).map(|shown| shown.season.size);
        grown.or_else(|| self.group().map(|group| group.group().size))
    }

    /// Notes that the size of the plants is looked at today, when that is what a field tells.
    fn look_at_size(&mut self, field: Field) {
        let (today, size) = (self.today, self.size());
        if matches!(field, Field::Height | Field::Trusses)
            && let (Some(size), Some(group)) = (size, self.group_mut())
        {
            group.look(today, size);
        }
    }

    /// The entry behind a field.
    pub fn entry(&self, field: Field) -> Option<&Entry> {
        if field == Field::Given {
            return Some(&self.given);
        }
        self.notebook.entry(self.selected, field)
    }

    /// What each plant is taken to have got on the day that is being changed.
    fn assumed_given(&self) -> Option<f64> {
        let (day, shown) = (self.changed_day?, self.shown()?);
        if day == self.today {
            return Some(shown.each.volume.litres());
        }
        let row = shown.season.days.iter().find(|row| row.day == day)?;
        Some(row.flows.given)
    }

    /// Looks at a group.
    pub fn look_at(&mut self, index: usize) {
        self.selected = index;
        self.open_day(self.changed_day);
    }

    /// Opens the page of a day to change it.
    pub fn open_day(&mut self, day: Option<CivilDay>) {
        self.changed_day = day;
        let noted = day.and_then(|day| self.notebook.day(day)?.group(self.group()?.id)?.given);
        let units = self.units();
        self.given = noted.map(|litres| Entry::holding(Field::Given, units, litres)).unwrap_or_default();
    }

    /// Changes what is noted of a day for the group that is looked at.
    pub fn note_of_group(&mut self, day: CivilDay, change: impl FnOnce(&mut GroupDay)) {
        if let Some(id) = self.group().map(|group| group.id) {
            self.notebook.note(day, |page| page.note(id, change));
        }
    }

    /// Keeps what stands in the field of the water given.
    fn note_given(&mut self) {
        let litres = self.given.value();
        if let Some(day) = self.changed_day {
            self.note_of_group(day, |group| group.given = litres);
        }
    }

    /// What is wrong with a field: its own text, or its quarrel with another.
    pub fn error(&self, field: Field) -> Option<String> {
        let units = self.units();
        if let Some(error) = self.entry(field)?.error(field, units) {
            return Some(error.to_string());
        }
        if field == Field::ButtLevel {
            return self.notebook.butt.overfull(units);
        }
        let Some(WaterError::Weather(quarrel)) = &self.answer()?.error else {
            return None;
        };
        let concerned = match quarrel {
            WeatherError::CoolestAboveWarmest { .. } => Field::Coolest,
            WeatherError::SunBeyondDaylight { .. } => Field::SunshineHours,
            WeatherError::OutOfRange(_) | WeatherError::SunlessDay { .. } => return None,
        };
        (concerned == field).then(|| quarrel.sentence(units))
    }

    /// Takes typed text for a field.
    pub fn type_text(&mut self, field: Field, text: &str) {
        let units = self.units();
        self.look_at_size(field);
        if field == Field::Given {
            self.given.type_text(field, units, text);
            self.note_given();
        } else if let Some(entry) = self.notebook.entry_mut(self.selected, field) {
            entry.type_text(field, units, text);
            self.notebook.told(field, self.today);
        }
    }

    /// Steps a field up or down from what stands there or is assumed.
    pub fn step(&mut self, field: Field, steps: i32) {
        let units = self.units();
        let assumed = self.assumed(field).unwrap_or_else(|| field.middle());
        self.look_at_size(field);
        if field == Field::Given {
            self.given.step(field, units, assumed, steps);
            self.note_given();
        } else if let Some(entry) = self.notebook.entry_mut(self.selected, field) {
            entry.step(field, units, assumed, steps);
            self.notebook.told(field, self.today);
        }
    }

    /// Works the answers out anew. Where that cannot be done the earlier one stays.
    fn work_out(&mut self) {
        self.answers = answers(&self.notebook, self.today, &self.answers);
    }
}

/// Reads something from the model: see `parts::live` for why this is not `dyn Fn`.
trait Read<T> {
    fn read(&self, model: &Model) -> T;
}

impl<T, F: Fn(&Model) -> T> Read<T> for F {
    fn read(&self, model: &Model) -> T {
        self(model)
    }
}

/// Changes the model when a part is touched.
trait Change<T> {
    fn change(&self, model: &mut Model, with: T);
}

impl<T, F: Fn(&mut Model, T)> Change<T> for F {
    fn change(&self, model: &mut Model, with: T) {
        self(model, with);
    }
}

/// The model with its keeping, and the page that shows it. There is one as long as the page is open.
#[derive(Clone, Copy)]
pub struct App(&'static Running);

struct Running {
    model: RefCell<Model>,
    keeper: RefCell<Keeper<BrowserStore>>,
    page: OnceCell<Element>,
    /// Whether the page is being refreshed: what happens meanwhile waits for the next time.
    is_refreshing: Cell<bool>,
    /// The refreshing of what is unhurried, as long as it is still to come.
    to_come: Cell<Option<TimeoutHandle>>,
}

/// How long after the rest of the page what is unhurried follows: time for a grower who types to see the answer first.
const UNHURRIED_AFTER: Duration = Duration::from_millis(80);

impl App {
    /// Opens the notebook.
    pub fn start(route: Route) -> Self {
        let (keeper, start) = Keeper::start(BrowserStore::probe());
        let mut model = Model {
            notebook: start.notebook,
            today: today(),
            route,
            changed_day: None,
            given: Entry::default(),
            selected: 0,
            removed: None,
            trouble: start.trouble,
            not_kept: start.refused,
            answers: Vec::new(),
        };
        model.notebook.turn_to(model.today);
        model.work_out();
        Self(Box::leak(Box::new(Running {
            model: RefCell::new(model),
            keeper: RefCell::new(keeper),
            page: OnceCell::new(),
            is_refreshing: Cell::new(false),
            to_come: Cell::new(None),
        })))
    }

    /// Keeps the page up to date from now on.
    pub fn shows(self, page: Element) {
        let _ = self.0.page.set(page);
    }

    /// The model now.
    #[inline(never)]
    pub fn look(self) -> Ref<'static, Model> {
        self.0.model.borrow()
    }

    /// Words that follow the model.
    pub fn words(self, read: impl Fn(&Model) -> String + 'static) -> Words {
        Words::Live(self.live(read))
    }

    /// A value that follows the model.
    pub fn live<T: 'static>(self, read: impl Fn(&Model) -> T + 'static) -> Live<T> {
        self.live_from(Box::new(read))
    }

    fn live_from<T: 'static>(self, read: Box<dyn Read<T>>) -> Live<T> {
        live(move || read.read(&self.look()))
    }

    /// What to do to the model when a part is touched.
    pub fn act<T: 'static>(self, change: impl Fn(&mut Model, T) + 'static) -> Act<T> {
        self.act_from(Box::new(change))
    }

    fn act_from<T: 'static>(self, change: Box<dyn Change<T>>) -> Act<T> {
        act(move |with: T| {
            let mut with = Some(with);
            self.apply(&mut |model| {
                if let Some(with) = with.take() {
                    change.change(model, with);
                }
            });
        })
    }

    /// Changes the model, works the answers out anew and keeps the notebook.
    pub fn change(self, change: impl FnOnce(&mut Model)) {
        let mut change = Some(change);
        self.apply(&mut |model| {
            if let Some(change) = change.take() {
                change(model);
            }
        });
    }

    /// The part of a change that is the same for all: one copy of it in the program.
    fn apply(self, change: &mut dyn FnMut(&mut Model)) {
        hold_typing(false);
        self.exchange(change);
    }

    fn exchange(self, change: &mut dyn FnMut(&mut Model)) {
        {
            let mut model = self.0.model.borrow_mut();
            let model = &mut *model;
            change(model);
            let mut keeper = self.0.keeper.borrow_mut();
            model.not_kept = keeper.keep(&mut model.notebook, &mut model.selected).is_err();
            model.trouble = keeper.take_trouble().or(model.trouble);
            if keeper.has_written() {
                ask_to_persist();
            }
            model.work_out();
        }
        self.refresh();
    }

    /// Writes into the page what has changed. A field that goes meanwhile loses the focus, which asks for this once more.
    pub fn refresh(self) {
        self.go_through(Pass::Now);
        let later = set_timeout_with_handle(move || self.go_through(Pass::Later), UNHURRIED_AFTER);
        if let Some(before) = self.0.to_come.replace(later.ok()) {
            before.clear();
        }
    }

    fn go_through(self, pass: Pass) {
        if let Some(page) = self.0.page.get()
            && !self.0.is_refreshing.replace(true)
        {
            page.refresh(pass);
            self.0.is_refreshing.set(false);
        }
    }

    /// Takes in what another tab has written. A field that is being typed in here shows what was typed until it is left.
    pub fn take_in(self) {
        let looked_at = self.look().group().map(|group| group.id);
        hold_typing(document().has_focus().unwrap_or(false));
        self.exchange(&mut |_| ());
        if self.look().group().map(|group| group.id) != looked_at {
            // The group was taken out: what is typed now must not go to its neighbour.
            leave_field();
        }
    }

    /// Shows what is kept, or assumed, in the field that was just left.
    pub fn let_go(self) {
        hold_typing(false);
        self.refresh();
    }

    /// Turns to another screen. Tells whether it is another.
    pub fn turn_to(self, route: Route) -> bool {
        let before = std::mem::replace(&mut self.0.model.borrow_mut().route, route);
        self.refresh();
        before != route
    }

    /// Looks at the clock again, as after a night with the page open.
    pub fn look_at_clock(self) {
        let day = today();
        if self.look().today != day {
            self.change(|model| {
                model.today = day;
                model.notebook.turn_to(day);
            });
        }
    }

    /// Texts that were set aside because they could not be opened.
    pub fn set_aside_texts(self) -> Vec<String> {
        self.0.keeper.borrow().set_aside_texts()
    }
}
