//! A drawing of many strokes that follows what it shows.

use std::cell::RefCell;

use super::{Element, Live, drawing::symbol, drawn};

/// One stroke of a drawing.
#[derive(PartialEq)]
pub(super) enum Stroke {
    /// A path with its class and its course.
    Line(&'static str, String),
    /// A symbol of the sprite and where it stands.
    Symbol(&'static str, String),
}

impl Stroke {
    /// The stroke as it stands.
    pub(super) fn view(&self) -> Element {
        match self {
            Self::Line(class, course) => drawn("path").class(class).set("d", course.clone()),
            Self::Symbol(id, place) => symbol(id).set("transform", place.clone()),
        }
    }

    /// Moves a node that was drawn for `before` here; false when another node is needed.
    fn takes_over(&self, before: &Self, node: &web_sys::Element) -> bool {
        let (name, there, here) = match (before, self) {
            (Self::Line(class_before, there), Self::Line(class, here)) if class_before == class => ("d", there, here),
            (Self::Symbol(id_before, there), Self::Symbol(id, here)) if id_before == id => ("transform", there, here),
            _ => return false,
        };
        there == here || node.set_attribute(name, here).is_ok()
    }
}

/// Draws strokes, the first one at the back. A symbol that only moves keeps its node: the browser builds a symbol anew
/// wherever it is shown, and a plant shows thirty.
pub(super) fn strokes(drawing: Element, strokes: Live<Vec<Stroke>>) -> Element {
    let group = drawing.node().clone();
    let shown = RefCell::new(Vec::<(Stroke, web_sys::Element)>::new());
    drawing.follow(Box::new(move || {
        let mut before = shown.take().into_iter();
        let mut drawn = Vec::new();
        for stroke in strokes.get() {
            let node = match before.next() {
                Some((old, node)) if stroke.takes_over(&old, &node) => node,
                old => {
                    let node = stroke.view().node().clone();
                    let _ = match old {
                        Some((_, old)) => old.replace_with_with_node_1(&node),
                        None => group.append_child(&node).map(|_| ()),
                    };
                    node
                }
            };
            drawn.push((stroke, node));
        }
        for (_, surplus) in before {
            surplus.remove();
        }
        shown.replace(drawn);
    }))
}
