//! Tips that are out: from then on the plants are taken to grow no taller.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::model::Model;
use super::parts::{Element, act, element, focus_on, link_button, undo_row};
use crate::notebook::{Entry, Field};

/// The way to say that the tips of the groups at these places are out.
pub fn tips(app: App, places: Vec<usize>) -> Element {
    let out = act(move |()| {
        app.change(|model| model.take_tips_out(&places));
        app.finish();
        request_animation_frame(|| focus_on("#tips button"));
    });
    element("span").child(link_button("The tip is out".into(), out).set("id", "tip-out"))
}

/// The row that takes it back.
pub fn tips_out(app: App, model: &Model) -> Option<Element> {
    if model.tips_before.is_empty() {
        return None;
    }
    let undo = act(move |()| {
        app.change(Model::put_tips_back);
        app.finish();
        request_animation_frame(|| focus_on("#tip-out"));
    });
    let row = undo_row(
        "The tip is out".to_owned(),
        "taken to grow no taller from today".to_owned(),
        link_button("Undo".into(), undo),
    );
    Some(element("div").set("id", "tips").child(row))
}

impl Model {
    /// Notes that the groups at these places are stopped at the height that they have come to.
    fn take_tips_out(&mut self, places: &[usize]) {
        let units = self.units();
        for &place in places {
            let shown = self.answers.get(place).and_then(|answer| answer.shown.as_ref());
            let height = shown.map(|shown| shown.season.size.settled().0);
            if let (Some(height), Some(group)) = (height, self.notebook.groups.get_mut(place)) {
                let stopped = Entry::holding(Field::StoppedAt, units, height);
                self.tips_before.push((group.id, std::mem::replace(&mut group.stopped_at, stopped)));
            }
        }
    }

    /// Puts back what stood there before.
    fn put_tips_back(&mut self) {
        for (id, before) in std::mem::take(&mut self.tips_before) {
            if let Some(group) = self.notebook.groups.iter_mut().find(|group| group.id == id) {
                group.stopped_at = before;
            }
        }
    }
}
