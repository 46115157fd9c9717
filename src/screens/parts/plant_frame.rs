//! Where everything of the drawn plant goes.

use crate::quantity::bounded;

use super::{drawing::measured, strokes::Stroke};

/// The most trusses the drawing shows as set.
pub(super) const MOST_TRUSSES: u32 = 12;
/// How high one metre is drawn.
pub(super) const PIXELS_PER_METRE: f64 = 200.0;
/// Room over the cane for the tag, and under the compost for the container.
pub(super) const HEADROOM: f64 = 34.0;
const CONTAINER: f64 = 58.0;
/// The least length of cane that is drawn.
const SHORTEST_CANE: f64 = 300.0;
/// The cane stands this far above the tip of the plant at least.
const CANE_OVER_TIP: f64 = 40.0;
/// Where the cane stands, and how wide the drawing is.
const CANE: f64 = 88.0;
pub(super) const WIDTH: f64 = 152.0;
/// The height of a truss's button.
pub(super) const BUTTON: f64 = 48.0;

/// The measures of one drawing, in pixels from its top left corner.
#[derive(Clone, Copy, PartialEq)]
pub(super) struct Frame {
    pub(super) height: f64,
    pub(super) ground: f64,
    pub(super) tip: f64,
    /// Trusses drawn: those set and the one in flower above them.
    pub(super) trusses: u32,
    pub(super) set: u32,
    lowest_truss: f64,
    truss_pitch: f64,
    pub(super) lowest_button: f64,
    pub(super) button_pitch: f64,
}

impl Frame {
    /// For a plant of this height with this many trusses set.
    pub(super) fn new(height_metres: f64, set: u32) -> Self {
        let plant = if height_metres.is_finite() {
            bounded(height_metres, 0.1, 2.5)
        } else {
            0.1
        } * PIXELS_PER_METRE;
        let set = set.min(MOST_TRUSSES);
        let trusses = (set + 1).min(MOST_TRUSSES);
        let count = f64::from(trusses);
        let cane = SHORTEST_CANE.max(plant + CANE_OVER_TIP).max(count * BUTTON - CONTAINER - HEADROOM);
        let ground = HEADROOM + cane;
        let height = ground + CONTAINER;
        let tip = ground - plant;
        let highest_truss = tip + 14.0_f64.min(plant * 0.2);
        let lowest_truss = if trusses > 1 {
            ground - 58.0_f64.min(plant * 0.4)
        } else {
            highest_truss
        };
        let truss_pitch = if trusses > 1 {
            (lowest_truss - highest_truss) / (count - 1.0)
        } else {
            0.0
        };
        // Buttons stand beside their trusses where those are far enough apart, and are spread about their middle if not.
        let button_pitch = BUTTON.max(truss_pitch);
        let middle = f64::midpoint(lowest_truss, highest_truss);
        let reach = button_pitch * (count - 1.0) / 2.0;
        let lowest_button = (middle + reach).max(BUTTON / 2.0 + 2.0 * reach).min(height - BUTTON / 2.0);
        Self {
            height,
            ground,
            tip,
            trusses,
            set,
            lowest_truss,
            truss_pitch,
            lowest_button,
            button_pitch,
        }
    }

    fn truss(self, number: u32) -> f64 {
        self.lowest_truss - self.truss_pitch * f64::from(number - 1)
    }

    fn button(self, number: u32) -> f64 {
        self.lowest_button - self.button_pitch * f64::from(number - 1)
    }

    /// The stem as it winds about the cane.
    fn stem(self) -> String {
        let bend = (self.ground - self.tip) / 6.0;
        let bow = (bend * 0.3).min(9.0);
        let mut path = measured("M# #", &[CANE + 4.0, self.ground]);
        for bow in [bow, -bow, bow, -bow, bow, -bow] {
            path += &measured("q# # 0 #", &[bow, -bend / 2.0, -bend]);
        }
        path
    }

    /// The living drawing, from back to front.
    pub(super) fn plant(self, container: &'static str) -> Vec<Stroke> {
        let cane = measured("M# #V#", &[CANE, HEADROOM - 6.0, self.ground + 4.0]);
        let mut knots = String::new();
        let mut y = HEADROOM + 18.0;
        while y < self.ground {
            knots += &measured("M# #h6", &[CANE - 3.0, y]);
            y += 46.0;
        }
        let stem = self.stem();
        let mut parts = vec![
            Stroke::Line("cane-o", cane.clone()),
            Stroke::Line("cane", cane),
            Stroke::Line("ink thin", knots),
            Stroke::Line("stem-o", stem.clone()),
            Stroke::Line("stem", stem),
        ];
        self.leaves(&mut parts);
        let size = if self.trusses > 1 {
            bounded(self.truss_pitch / 40.0, 0.62, 1.06)
        } else {
            0.8
        };
        for number in (1..=self.trusses).rev() {
            // The newest three trusses are green, the one below them is turning, older ones are ripe.
            let truss = match self.set + 1 - number {
                0 => "truss-flower",
                1..=3 => "truss-green",
                4 => "truss-turning",
                _ => "truss-ripe",
            };
            let y = self.truss(number) - 14.0 * size;
            let place = measured("translate(# #) scale(#)", &[CANE + 4.0, y, size]);
            parts.push(Stroke::Symbol(truss, place));
        }
        parts.push(Stroke::Symbol(container, measured("translate(0 #)", &[self.ground])));
        parts
    }

    fn leaves(self, parts: &mut Vec<Stroke>) {
        let plant = self.ground - self.tip;
        let size = bounded(plant / 150.0, 0.42, 1.0);
        let count = bounded((plant / 46.0).round(), 2.0, 11.0);
        let mut leaf = |x: f64, y: f64, turn: f64, size: f64, left: bool| {
            let across = if left { -size } else { size };
            let place = measured("translate(# #) scale(# #) rotate(#)", &[x, y, across, size, turn]);
            parts.push(Stroke::Symbol("leaf", place));
        };
        let mut number = 0.0;
        while number < count {
            let share = number / (count - 1.0);
            let y = self.ground - (34.0 * size + share * (plant - 52.0 * size)).max(0.0);
            leaf(CANE + 3.0, y - 18.0 * size, 4.0 - 32.0 * share, size * (0.98 - 0.36 * share), false);
            leaf(CANE + 2.0, y, 18.0 - 30.0 * share, size * (1.06 - 0.42 * share), true);
            number += 1.0;
        }
        leaf(CANE + 4.0, self.tip + 14.0 * size, -44.0, size * 0.58, false);
        leaf(CANE + 4.0, self.tip + 8.0 * size, -64.0, size * 0.52, true);
    }

    /// The line from each truss to its number.
    pub(super) fn leaders(self) -> String {
        let mut path = String::new();
        for number in 1..=self.set {
            let (truss, button) = (self.truss(number) + 6.0, self.button(number));
            path += &measured("M# #L# #h12", &[CANE + 46.0, truss, WIDTH - 2.0, button]);
        }
        path
    }
}
