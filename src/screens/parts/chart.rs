//! Days or weeks drawn: what was given, used and ran off in each, and what the compost held.

use super::{Element, drawing::measured, drawn};
use crate::quantity::bounded;

/// What was poured on a day, in the unit of the chart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Poured {
    /// So much was noted.
    Noted(f64),
    /// So much is taken to have been poured, or will be today.
    Taken(f64),
    /// It is noted that nothing was.
    Nothing,
}

/// One day of the chart, or one week with what it had a day.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartDay {
    /// What stands under the axis.
    pub date: String,
    /// What was poured.
    pub poured: Poured,
    /// What was used; not known yet for today.
    pub used: Option<f64>,
    /// What of it ran off, or past the roots.
    pub drained: f64,
    /// Share of the easy water that was gone in the morning.
    pub gone: f64,
    /// Whether that was felt, weighed or measured.
    pub felt: bool,
}

/// A chart of days or weeks, the last of them at the right.
pub struct Chart {
    /// The days, oldest first; not empty.
    pub days: Vec<ChartDay>,
    /// The unit and whose plants, over the bars.
    pub title: String,
    /// Whose compost, over the strip.
    pub below: String,
    /// Shares gone at which compost is sodden and dry.
    pub borders: (f64, f64),
    /// The whole chart in words.
    pub words: String,
}

/// The drawing.
const SIZE: &str = "0 0 358 302";
const LEFT: f64 = 22.0;
const RIGHT: f64 = 352.0;
/// Room that the last date and half of another take.
const DATE_ROOM: f64 = 95.0;
/// Places for days or weeks, at least.
const PLACES: usize = 14;
/// The upper part, from the axis to its top.
const AXIS: f64 = 138.0;
const TOP: f64 = 20.0;
/// The strip of the compost, from full to more than dry.
const FULL: f64 = 216.0;
const EMPTY: f64 = 292.0;
/// The foot of the line that says how what is drawn looks.
const KEY: f64 = 180.0;
/// The share gone at the foot of the strip.
const MOST_GONE: f64 = 1.25;

impl Chart {
    /// The chart as one picture.
    #[must_use]
    pub fn view(&self) -> Element {
        let chart = drawn("svg")
            .class("chart")
            .set("viewBox", SIZE)
            .set("role", "img")
            .set("aria-label", self.words.clone());
        chart.children(self.scale()).children(self.bars()).children(self.strip())
    }

    /// The middle of a day's place. Today stands at the right, however few days there are.
    fn across(&self, index: usize) -> f64 {
        let before_today = self.days.len().saturating_sub(index + 1);
        RIGHT - self.step() * (few(before_today) + 0.5)
    }

    fn step(&self) -> f64 {
        (RIGHT - LEFT) / few(self.days.len().max(PLACES))
    }

    /// The largest amount shown, and the step between the lines.
    fn largest(&self) -> (f64, f64) {
        let amounts = self.days.iter().flat_map(|day| {
            let poured = match day.poured {
                Poured::Noted(amount) | Poured::Taken(amount) => amount,
                Poured::Nothing => 0.0,
            };
            [poured, day.used.unwrap_or_default()]
        });
        let largest = amounts.fold(0.5, f64::max);
        let step = [0.25, 0.5, 1.0, 2.0, 4.0, 8.0].into_iter().find(|step| largest <= 4.0 * step);
        (largest * 1.07, step.unwrap_or(16.0))
    }

    fn height(&self, amount: f64) -> f64 {
        AXIS - (AXIS - TOP) * amount / self.largest().0
    }

    fn scale(&self) -> Vec<Element> {
        let (largest, step) = self.largest();
        let mut parts = vec![text("cap b", LEFT, 11.0, &self.title)];
        let mut amount = step;
        while amount < largest {
            let y = self.height(amount);
            parts.push(line("gl", measured("M# #H#", &[LEFT, y, RIGHT])));
            parts.push(text("cap end", LEFT - 4.0, y + 4.5, &measured("#", &[amount])));
            amount += step;
        }
        parts
    }

    fn bars(&self) -> Vec<Element> {
        let mut parts = Vec::new();
        let mut course = String::new();
        let mut dots = Vec::new();
        let half = self.step() * 0.35;
        let mut ran_off = false;
        for (index, day) in self.days.iter().enumerate() {
            let x = self.across(index);
            match day.poured {
                Poured::Noted(amount) | Poured::Taken(amount) if amount > 0.0 => {
                    let noted = matches!(day.poured, Poured::Noted(_));
                    let bar = measured("M# #V#H#V#", &[x - half, AXIS, self.height(amount), x + half, AXIS]);
                    parts.push(line(if noted { "c-given" } else { "c-taken" }, bar));
                    let drained = day.drained.min(amount);
                    if self.height(0.0) - self.height(drained) >= 1.0 {
                        let (top, foot) = (self.height(amount), self.height(amount - drained));
                        let part = measured("M# #V#H#V#z", &[x - half, foot, top, x + half, foot]);
                        parts.extend([line("c-drained", part.clone()), line("c-hatch", part)]);
                        ran_off = true;
                    }
                }
                _ => {
                    let cross = [x - 5.0, AXIS - 13.0, x + 5.0, AXIS - 13.0];
                    parts.push(line("ink", measured("M# #l10 10M# #l-10 10", &cross)));
                }
            }
            if let Some(used) = day.used {
                let y = self.height(used);
                course += if course.is_empty() { "M" } else { "L" };
                course += &measured("# #", &[x, y]);
                dots.push(dot(x, y));
            }
        }
        parts.push(line("c-halo", course.clone()));
        parts.push(line("c-line", course));
        parts.extend(dots);
        parts.push(line("axis", measured("M# #H#", &[LEFT, AXIS, RIGHT])));
        for (index, day) in self.days.iter().enumerate() {
            let (x, last) = (self.across(index), self.days.len() - 1);
            if index == last {
                parts.push(text("cap end b", RIGHT, AXIS + 18.0, &day.date));
            } else if (last - index) % 6 == 0 && RIGHT - x > DATE_ROOM {
                parts.push(text("cap mid", x, AXIS + 18.0, &day.date));
            }
        }
        parts.extend(self.key(ran_off));
        parts
    }

    /// How what was given, used and ran off is drawn, and a day with none.
    fn key(&self, ran_off: bool) -> Vec<Element> {
        let mut x = LEFT;
        let mut parts = Vec::new();
        let bar = "M# #v-11h12v11z";
        let none = self.days.iter().any(|day| day.poured == Poured::Nothing);
        let kinds: [(&'static str, &str, &str, f64, bool); 4] = [
            ("c-given", bar, "given", 78.0, true),
            ("c-drained", bar, "ran off", 88.0, ran_off),
            ("c-line", "M# #m-1 -6h16", "used", 76.0, true),
            ("ink", "M# #m1 -10l10 10m0 -10l-10 10", "none", 70.0, none),
        ];
        for (class, drawing, name, room, is_shown) in kinds {
            if !is_shown {
                continue;
            }
            let drawing = measured(drawing, &[x, KEY]);
            if class == "c-drained" {
                parts.push(line(class, drawing.clone()));
                parts.push(line("c-hatch", drawing));
            } else {
                parts.push(line(class, drawing));
            }
            if class == "c-line" {
                parts.push(dot(x + 7.0, KEY - 6.0));
            }
            parts.push(text("cap b", x + 20.0, KEY, name));
            x += room;
        }
        parts
    }

    fn strip(&self) -> Vec<Element> {
        let depth = |gone: f64| FULL + (EMPTY - FULL) * bounded(gone / MOST_GONE, 0.0, 1.0);
        let (sodden, dry) = (depth(self.borders.0), depth(self.borders.1));
        let mut parts = vec![
            text("cap b", LEFT, FULL - 10.0, &self.below),
            line("c-band", measured("M# #H#V#H#z", &[LEFT, sodden, RIGHT, dry, LEFT])),
            line("ink tick", measured("M# #H#M# #H#", &[LEFT, sodden, RIGHT, LEFT, dry, RIGHT])),
        ];
        let mut course = String::new();
        let mut felt = Vec::new();
        for (index, day) in self.days.iter().enumerate() {
            let (x, y) = (self.across(index), depth(day.gone));
            course += if course.is_empty() { "M" } else { "L" };
            course += &measured("# #", &[x, y]);
            if day.felt {
                felt.push(dot(x, y));
            }
        }
        parts.push(line("c-line", course));
        parts.extend(felt);
        // Between the borders the word stands where the line leaves most room.
        let middle = f64::midpoint(sodden, dry);
        let room = |place: usize| {
            let days = self.days.iter().rev().skip(place).take(3);
            days.fold(100.0, |least: f64, day| least.min((depth(day.gone) - middle).abs()))
        };
        let place = (0..PLACES - 2).fold(PLACES - 3, |best, place| if room(place) > room(best) { place } else { best });
        let x = RIGHT - self.step() * (few(place) + 1.5);
        parts.extend([
            text("cap end halo", RIGHT, sodden - 5.0, "sodden"),
            text("cap mid halo on-band", x, middle + 4.5, "moist"),
            text("cap halo", LEFT, dry + 17.0, "dry"),
        ]);
        parts
    }
}

fn few(count: usize) -> f64 {
    u32::try_from(count).map_or(1.0, f64::from)
}

fn line(class: &'static str, course: String) -> Element {
    drawn("path").class(class).set("d", course)
}

fn text(class: &'static str, x: f64, y: f64, words: &str) -> Element {
    let text = drawn("text")
        .class(class)
        .set("x", measured("#", &[x]))
        .set("y", measured("#", &[y]));
    text.text(words.to_owned())
}

fn dot(x: f64, y: f64) -> Element {
    let circle = drawn("circle").class("c-dot").set("r", "4");
    circle.set("cx", measured("#", &[x])).set("cy", measured("#", &[y]))
}
