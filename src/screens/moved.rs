//! Whether what was told today of a group's place and compost holds for the days before too.

use super::app::App;
use super::model::Model;
use super::parts::{Element, Key, KeyShape, Keys, element, live};
use crate::almanac::CivilDay;
use crate::notebook::{GroupRecord, looks_like_a_move};
use crate::water::Placement;

const ALL_ALONG: &str = "all-along";
const SINCE_TODAY: &str = "since-today";

/// How a group stood when this day began.
#[derive(Clone, Copy)]
pub struct Stood {
    id: u32,
    placement: Placement,
    /// Whether its container was told, and not taken for a usual one.
    is_told: bool,
    /// Whether the grower has said since when it stands otherwise, or it was noted elsewhere.
    is_answered: bool,
    /// Whether that was noted here, by what the change looks like.
    is_taken: bool,
}

/// The question, once anything of that was changed and there are days that it would change.
pub fn moved(app: App) -> Element {
    let asks = move || before(&app.look()).is_some();
    element("div").fill_for(
        move || asks().to_string(),
        move || {
            if asks() { vec![question(app)] } else { Vec::new() }
        },
    )
}

fn question(app: App) -> Element {
    let key = |value, words, small| Key {
        value,
        words,
        drawing: "",
        small,
    };
    let keys = Keys {
        legend: "They have stood so",
        aside: "".into(),
        headed: false,
        name: "stood-so",
        faces: vec![
            key(ALL_ALONG, "All along", "all days are counted anew"),
            key(SINCE_TODAY, "Since this morning", "potted on, or moved"),
        ],
        shape: KeyShape::Plain,
        selected: live(move || {
            let model = app.look();
            let is_noted = noted_move(&model, model.today).is_some();
            Some((if is_noted { SINCE_TODAY } else { ALL_ALONG }).to_owned())
        }),
        assumed: live(|| None),
        on_choose: app.act(move |model, value: String| {
            let id = model.group().map(|group| group.id);
            if let Some(stood) = model.stood.iter_mut().find(|stood| Some(stood.id) == id) {
                stood.is_answered = true;
            }
            model.note_move(value == SINCE_TODAY);
        }),
    };
    element("div").class("mt").child(keys.view())
}

/// Where the group that is looked at stood until the morning of a day, if it was moved then.
pub fn noted_move(model: &Model, day: CivilDay) -> Option<Placement> {
    model.notebook.day(day)?.group(model.group()?.id)?.before
}

/// How the group that is looked at stood when this day began, if that is otherwise than now and there are days before.
fn before(model: &Model) -> Option<Stood> {
    let group = model.group()?;
    let stood = model.stood.iter().find(|stood| stood.id == group.id).copied()?;
    let has_past = !model.shown()?.season.days.is_empty();
    (has_past && stood.placement != group.placement()).then_some(stood)
}

impl Model {
    /// Where each group stood when this day began: as noted of it, else as it stands.
    pub fn look_where_they_stand(&mut self) {
        let page = self.notebook.day(self.today);
        let stood = |group: &GroupRecord| {
            let noted = page.and_then(|page| page.group(group.id));
            let noted = noted.and_then(|noted| noted.before.or(noted.stood));
            Stood {
                id: group.id,
                placement: noted.unwrap_or_else(|| group.placement()),
                is_told: group.is_container_told(),
                is_answered: noted.is_some(),
                is_taken: false,
            }
        };
        self.stood = self.notebook.groups.iter().map(stood).collect();
    }

    /// Notes of the group that is looked at how it stood when this day began, as long as that was changed on it: as a move if the
    /// grower said so, or it looks like one.
    pub fn note_where_it_stood(&mut self) {
        let (Some(group), Some(_)) = (self.group(), self.shown()) else {
            return;
        };
        if !self.stood.iter().any(|stood| stood.id == group.id) {
            // It came in the course of the day: what is noted of it was told elsewhere.
            return;
        }
        let Some(stood) = before(self) else {
            return self.note_move(false);
        };
        let noted = self.notebook.day(self.today).and_then(|page| page.group(group.id));
        let is_noted = noted.is_some_and(|noted| noted.before.or(noted.stood).is_some());
        // What another tab has noted stays as it is there.
        if stood.is_answered || is_noted && !stood.is_taken {
            return self.note_move(noted.is_some_and(|noted| noted.before.is_some()));
        }
        let days = self.shown().map_or(0, |shown| shown.season.days.len());
        let (id, is_move) = (group.id, looks_like_a_move(&stood.placement, stood.is_told, &group.group(), days));
        if let Some(stood) = self.stood.iter_mut().find(|stood| stood.id == id) {
            stood.is_taken = true;
        }
        self.note_move(is_move);
    }

    fn note_move(&mut self, is_move: bool) {
        let Some(id) = self.group().map(|group| group.id) else {
            return;
        };
        let stood = before(self).map(|stood| stood.placement);
        let told = (stood.filter(|_| is_move), stood.filter(|_| !is_move));
        let noted = self.notebook.day(self.today).and_then(|page| page.group(id));
        let noted = noted.map(|noted| (noted.before, noted.stood)).unwrap_or_default();
        if (told.0.is_some(), told.1.is_some()) != (noted.0.is_some(), noted.1.is_some()) {
            self.notebook
                .note(self.today, |page| page.note(id, |group| (group.before, group.stood) = told));
        }
    }
}
