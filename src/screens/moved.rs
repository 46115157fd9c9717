//! Whether what was told today of a group's place and compost holds for the days before too.

use super::app::App;
use super::model::Model;
use super::parts::{Element, Key, KeyShape, Keys, element, live};
use crate::almanac::CivilDay;
use crate::notebook::GroupRecord;
use crate::water::Placement;

const ALL_ALONG: &str = "all-along";
const SINCE_TODAY: &str = "since-today";

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
            let before = before(model).filter(|_| value == SINCE_TODAY);
            model.note_of_group(model.today, |group| group.before = before);
        }),
    };
    element("div").class("mt").child(keys.view())
}

/// Where the group that is looked at stood until the morning of a day, if it was moved then.
pub fn noted_move(model: &Model, day: CivilDay) -> Option<Placement> {
    model.notebook.day(day)?.group(model.group()?.id)?.before
}

/// The same of today, or as it stood when this day began, if that is otherwise than now and there are days before.
fn before(model: &Model) -> Option<Placement> {
    let group = model.group()?;
    let stood = || {
        let (_, stood) = model.stood.iter().find(|(id, _)| *id == group.id)?;
        Some(*stood).filter(|stood| *stood != group.placement())
    };
    let has_past = !model.shown()?.season.days.is_empty();
    noted_move(model, model.today).or_else(stood).filter(|_| has_past)
}

impl Model {
    /// Where each group stood when this day began: as noted of it, else as it stands.
    pub fn look_where_they_stand(&mut self) {
        let page = self.notebook.day(self.today);
        let stood = |group: &GroupRecord| {
            let noted = page.and_then(|page| page.group(group.id));
            let noted = noted.and_then(|noted| noted.before.or(noted.stood));
            (group.id, noted.unwrap_or_else(|| group.placement()))
        };
        self.stood = self.notebook.groups.iter().map(stood).collect();
    }

    /// Notes of the group that is looked at where it stood when this day began, as long as that was changed on it and is not told as a move.
    pub fn note_where_it_stood(&mut self) {
        let Some(id) = self.group().map(|group| group.id) else {
            return;
        };
        let noted = self.notebook.day(self.today).and_then(|page| page.group(id)?.stood);
        let stood = before(self).filter(|_| noted_move(self, self.today).is_none());
        if stood.is_some() != noted.is_some() {
            self.notebook.note(self.today, |page| page.note(id, |group| group.stood = stood));
        }
    }
}
