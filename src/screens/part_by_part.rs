//! A screen in parts that are each quickly built: so the answer stands there at once, and a tap is heard between any two.

use std::{cell::Cell, rc::Rc, time::Duration};

use leptos_dom::helpers::{request_animation_frame, set_timeout};

use super::app::App;
use super::parts::{Element, element};
use super::rest::Part;
use super::{go_to_place, place};

/// The places of these parts in their order, each filled once what stands before it is painted.
pub fn part_by_part(app: App, parts: &'static [Part]) -> Vec<Element> {
    let built = Rc::new(Cell::new(0));
    build_on(app, Rc::clone(&built), parts.len());
    let place_of = |(part, number): (&'static Part, usize)| {
        let here = Rc::clone(&built);
        let is_due = move || here.get() >= number;
        let due = is_due.clone();
        element("div")
            .class("part")
            .fill_for(move || is_due().to_string(), move || if due() { part(app) } else { Vec::new() })
    };
    parts.iter().zip(1..).map(place_of).collect()
}

/// Builds the next part once what stands there is painted. The place that the address names may come with it.
fn build_on(app: App, built: Rc<Cell<usize>>, all: usize) {
    request_animation_frame(move || {
        let next = move || {
            built.set(built.get() + 1);
            let was_there = place().is_some();
            app.refresh();
            if !was_there && place().is_some() {
                go_to_place();
            }
            if built.get() < all {
                build_on(app, built, all);
            }
        };
        set_timeout(next, Duration::ZERO);
    });
}
