//! The drawn plant on which the part is tapped that looks wrong.

use super::{Act, Element, Live, drawn, live, plant_frame::Frame, strokes::Stroke};

/// The plant that is drawn: its height in metres, its trusses set.
const PLANT: (f64, u32) = (1.2, 5);
/// Each part from the top down, in the order of its keys: what of the drawing belongs to it, where it is marked, and the line to
/// its key.
const ZONES: [(&str, (&str, &str), &str); 4] = [
    ("M0 60H176V128H0z", ("100", "102"), "M100 102L176 101"),
    ("M92 128H176V206H92z", ("120", "166"), "M120 166L176 184"),
    ("M0 128H92V206H176V262H0z", ("148", "232"), "M148 232L176 267"),
    ("M0 262H176V392H0z", ("138", "290"), "M138 290L176 350"),
];

/// A plant whose parts can be tapped, beside keys that say the same: so screen readers and the keyboard pass it by.
pub struct PlantFinder {
    /// What the plant stands in: a symbol of the sprite.
    pub container: &'static str,
    /// The place of the part that is chosen.
    pub chosen: Live<Option<usize>>,
    /// Told the place of the part that was tapped.
    pub on_part: Act<usize>,
}

impl PlantFinder {
    /// The drawing.
    #[must_use]
    pub fn view(self) -> Element {
        let (height, trusses) = PLANT;
        let strokes = Frame::new(height, trusses).plant(self.container);
        let plant = drawn("g").class("flora").children(strokes.iter().map(Stroke::view));
        let mut drawing = drawn("svg")
            .class("zones")
            .set("viewBox", "0 60 176 332")
            .set("aria-hidden", "true")
            .child(plant);
        for (place, (zone, (x, y), line)) in ZONES.into_iter().enumerate() {
            let (chosen, tapped) = (self.chosen.clone(), self.on_part.clone());
            let is_chosen = live(move || chosen.get() == Some(place));
            let mark = drawn("circle").set("cx", x).set("cy", y).set("r", "7");
            let part = drawn("g")
                .class("zone")
                .class_when("on", is_chosen)
                .child(drawn("path").class("lead").set("d", line))
                .child(mark.class("lead-dot"))
                .child(drawn("path").class("tap").set("d", zone))
                .on("click", move |_| tapped.run(place));
            drawing = drawing.child(part);
        }
        drawing
    }
}
