//! The program as it runs: the one state with its keeping, and the page that shows it.

use std::{
    cell::{Cell, OnceCell, Ref, RefCell},
    hint::black_box,
    time::Duration,
};

use leptos_dom::helpers::{TimeoutHandle, document, request_animation_frame, set_timeout, set_timeout_with_handle};

use super::model::Model;
use super::parts::{Act, Element, Live, Pass, Words, act, hold_typing, leave_field, live};
use super::route::Route;
use crate::almanac::CivilDay;
use crate::browser::{BrowserStore, ask_to_persist, language, today};
use crate::notebook::{Keeper, Notebook, Start, seal};

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
    /// The grower's own, while another plot's card is looked at.
    at_home: RefCell<Option<(Model, Keeper<BrowserStore>)>>,
    page: OnceCell<Element>,
    /// Whether the page is being refreshed: what happens meanwhile waits for the next time.
    is_refreshing: Cell<bool>,
    /// Whether a change is answered, but neither kept nor on the rest of the page yet.
    is_behind: Cell<bool>,
    /// The day that the clock showed when it was looked at last.
    clock: Cell<CivilDay>,
    /// The refreshing of what is unhurried, as long as it is still to come.
    to_come: Cell<Option<TimeoutHandle>>,
}

/// How long after the frame that paints the answer the rest of the page follows: time for that frame to reach the screen.
const REST_AFTER: Duration = Duration::from_millis(30);

/// How long after the rest of the page what is unhurried follows: time for a grower who types to see the answer first.
const UNHURRIED_AFTER: Duration = Duration::from_millis(300);

impl App {
    /// Opens the notebook. No answer is worked out yet.
    pub fn start(route: Route) -> Self {
        let (keeper, start) = Keeper::start_with(BrowserStore::probe(), Notebook::usual_for(&language()));
        let mut model = Model::new(start, today(), route);
        model.turn_to(model.today);
        Self(Box::leak(Box::new(Running {
            model: RefCell::new(model),
            keeper: RefCell::new(keeper),
            at_home: RefCell::new(None),
            page: OnceCell::new(),
            is_refreshing: Cell::new(false),
            is_behind: Cell::new(false),
            clock: Cell::new(today()),
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

    /// What to do to the model when a part is touched. The answer is written at once; when that is painted the notebook is kept
    /// and the rest of the page written.
    pub fn act<T: 'static>(self, change: impl Fn(&mut Model, T) + 'static) -> Act<T> {
        self.act_from(Box::new(change))
    }

    fn act_from<T: 'static>(self, change: Box<dyn Change<T>>) -> Act<T> {
        act(move |with: T| {
            hold_typing(false);
            // A page may be left open and looked at all night.
            self.look_at_clock();
            {
                let mut model = self.0.model.borrow_mut();
                change.change(&mut model, with);
                model.note_where_it_stood();
                model.follow_noted();
                model.work_out();
            }
            self.answer();
        })
    }

    /// Changes the model, works the answers out anew and keeps the notebook.
    pub fn change(self, change: impl FnOnce(&mut Model)) {
        self.look_at_clock();
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
        self.refresh();
    }

    fn exchange(self, change: &mut dyn FnMut(&mut Model)) {
        self.0.is_behind.set(false);
        {
            let mut model = self.0.model.borrow_mut();
            let model = &mut *model;
            change(model);
            model.note_where_it_stood();
            let programme = model.programme().id;
            let mut keeper = self.0.keeper.borrow_mut();
            model.not_kept = keeper.keep(&mut model.notebook, &mut model.selected).is_err();
            model.follow_programme(programme);
            model.trouble = keeper.take_trouble().or(model.trouble);
            model.follow_noted();
            model.work_out();
        }
    }

    /// Writes the answer into the page; the rest is done once that is painted.
    fn answer(self) {
        self.go_through(Pass::First);
        if !self.0.is_behind.replace(true) {
            request_animation_frame(move || set_timeout(move || self.catch_up(), REST_AFTER));
        }
    }

    /// Keeps the notebook, and writes the rest of the page, if a change waits for that.
    pub fn catch_up(self) {
        if self.0.is_behind.get() {
            self.exchange(&mut |_| ());
            self.refresh();
        }
    }

    /// Writes into the page what has changed. A field that goes meanwhile loses the focus, which asks for this once more.
    pub fn refresh(self) {
        self.go_through(Pass::Now);
        let later = set_timeout_with_handle(move || self.finish(), UNHURRIED_AFTER);
        if let Some(before) = self.0.to_come.replace(later.ok()) {
            before.clear();
        }
    }

    /// What follows when nobody waits for anything any more, or at once where something in it gets the focus.
    pub fn finish(self) {
        self.go_through(Pass::Later);
        if self.0.keeper.borrow().has_written() {
            ask_to_persist();
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

    /// Changes what is neither kept nor shown yet.
    pub fn quietly(self, change: impl FnOnce(&mut Model)) {
        change(&mut self.0.model.borrow_mut());
    }

    /// Changes what is shown but nothing that is kept.
    pub fn show(self, change: impl FnOnce(&mut Model)) {
        change(&mut self.0.model.borrow_mut());
        self.refresh();
    }

    /// Takes in what another tab has written. A field that is being typed in here shows what was typed until it is left.
    pub fn take_in(self) {
        let looked_at = || {
            let model = self.look();
            (model.group().map(|group| group.id), model.programme().id)
        };
        let before = looked_at();
        hold_typing(document().has_focus().unwrap_or(false));
        self.exchange(&mut |_| ());
        self.refresh();
        let after = looked_at();
        if after.0 != before.0 || after.1 != before.1 && before.1 > 0 {
            // The group or the programme was taken out: what is typed now must not go to its neighbour.
            leave_field();
        }
    }

    /// Shows what is kept, or assumed, in the field that was just left: once the tap by which it was left has been answered.
    pub fn let_go(self) {
        hold_typing(false);
        set_timeout(move || self.refresh(), Duration::ZERO);
    }

    /// Turns to another plot's card, which is kept in a store of its own, until [`Self::come_home`].
    pub fn visit(self, store: BrowserStore, arrive: impl FnOnce(Start) -> Model) {
        self.catch_up();
        let (keeper, start) = Keeper::start(store);
        let mut model = arrive(start);
        model.rest = self.look().rest;
        let model = self.0.model.replace(model);
        let keeper = self.0.keeper.replace(keeper);
        self.0.at_home.replace(Some((model, keeper)));
    }

    /// Turns back to the grower's own notebook. Tells whether another plot's card was looked at.
    pub fn come_home(self) -> bool {
        self.catch_up();
        let home = self.0.at_home.take();
        let was_away = home.is_some();
        if let Some((model, keeper)) = home {
            self.0.model.replace(model);
            self.0.keeper.replace(keeper);
            self.turn_to_day(today());
            // What another tab wrote meanwhile.
            self.exchange(&mut |_| ());
        }
        was_away
    }

    /// Turns to another screen. Tells whether it is another.
    pub fn turn_to(self, route: Route) -> bool {
        let before = {
            let mut model = self.0.model.borrow_mut();
            let before = std::mem::replace(&mut model.route, route);
            model.work_out();
            before
        };
        self.refresh();
        before != route
    }

    /// Looks at the clock again, as after a night with the page open.
    pub fn look_at_clock(self) {
        let day = today();
        if self.0.clock.replace(day) != day {
            self.turn_to_day(day);
        }
    }

    fn turn_to_day(self, day: CivilDay) {
        if self.look().today != day {
            self.apply(&mut |model| model.turn_to(day));
        }
    }

    /// Does before the first change what need not wait for it, as long as nobody waits.
    pub fn prepare(self) {
        self.0.keeper.borrow_mut().keep_before();
        // The browser compiles what is called for the first time: not under the first tap.
        drop(black_box(seal(&self.look().notebook, 0)));
        self.go_through(Pass::First);
    }

    /// Texts that were set aside because they could not be opened.
    pub fn set_aside_texts(self) -> Vec<String> {
        self.0.keeper.borrow().set_aside_texts()
    }
}
