//! Tips that are out: from then on the plants are taken to grow no taller.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::model::Model;
use super::parts::{Element, act, element, focus_on, link_button, undo_row};
use crate::notebook::{Entry, Field};

/// The button that says it of the groups of these numbers.
pub fn stop_button(app: App, ids: Vec<u32>) -> Element {
    let stop = act(move |()| {
        app.change(|model| model.stop_plants(&ids));
        app.finish();
        request_animation_frame(|| focus_on("#stopped-plants button"));
    });
    element("span").child(link_button("The tip is out".into(), stop).set("id", "stop-plants"))
}

/// The way back from it.
pub fn way_back(app: App, model: &Model) -> Option<Element> {
    if model.stopped.is_empty() {
        return None;
    }
    let undo = act(move |()| {
        app.change(Model::let_plants_grow);
        app.finish();
        request_animation_frame(|| focus_on("#stop-plants"));
    });
    let row = undo_row(
        "Stopped today".to_owned(),
        "taken to grow no taller".to_owned(),
        link_button("Undo".into(), undo),
    );
    Some(element("div").set("id", "stopped-plants").child(row))
}

impl Model {
    /// Notes that these groups are stopped at the height that they have come to.
    fn stop_plants(&mut self, ids: &[u32]) {
        let units = self.units();
        for (group, answer) in self.notebook.groups.iter_mut().zip(&self.answers) {
            let is_new = self.stopped.iter().all(|(id, _)| *id != group.id);
            if let (true, Some(shown)) = (ids.contains(&group.id) && is_new, &answer.shown) {
                let height = Entry::holding(Field::StoppedAt, units, shown.season.size.settled().0);
                self.stopped.push((group.id, std::mem::replace(&mut group.stopped_at, height)));
            }
        }
    }

    /// Puts back what stood there before.
    fn let_plants_grow(&mut self) {
        for (id, before) in std::mem::take(&mut self.stopped) {
            if let Some(group) = self.notebook.groups.iter_mut().find(|group| group.id == id) {
                group.stopped_at = before;
            }
        }
    }
}
