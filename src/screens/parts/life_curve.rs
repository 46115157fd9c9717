//! Numbers by life stage over the days to come, drawn.

use super::{Element, drawing::measured, drawn};

/// Numbers to be expected, as shares of those on the first day.
pub struct LifeCurve {
    /// For each day: eggs, young, pupae, adults.
    pub with: Vec<[f64; 4]>,
    /// For each day: all of them, left alone.
    pub without: Vec<f64>,
    /// Days on which something is done.
    pub marks: Vec<usize>,
    /// What stands under the first and the last day.
    pub ends: [String; 2],
    /// The names of the areas, from below.
    pub names: [&'static str; 3],
    /// What stands at the line of what is left alone.
    pub alone: &'static str,
    /// The whole chart in words.
    pub words: String,
}

const LEFT: f64 = 2.0;
const RIGHT: f64 = 356.0;
const AXIS: f64 = 190.0;
const TOP: f64 = 34.0;

impl LifeCurve {
    /// The chart as one picture.
    #[must_use]
    pub fn view(&self) -> Element {
        let chart = drawn("svg").class("chart").set("viewBox", "0 0 358 226").set("role", "img");
        let last = few(self.with.len().saturating_sub(1)).max(1.0);
        let across = |day: usize| LEFT + (RIGHT - LEFT) * few(day) / last;
        let totals = self.with.iter().map(|stages| stages.iter().sum::<f64>());
        let most = totals.fold(1.0, f64::max) * 1.1;
        let up = |share: f64| AXIS - (AXIS - TOP) * share / most;
        let mut parts = Vec::new();
        // Eggs; with the young and pupae; with the adults. The tallest is drawn first.
        for (stages, class, pattern) in [(4, "st-a", ""), (3, "st-y", "st-h"), (1, "st-e", "st-d")] {
            let mut course = measured("M# #", &[LEFT, AXIS]);
            let mut before = up(self.with.first().map_or(1.0, |first| first.iter().take(stages).sum()));
            for (day, numbers) in self.with.iter().enumerate() {
                let height = up(numbers.iter().take(stages).sum());
                if self.marks.contains(&day) {
                    // What is done falls on one evening: a step, not a slope.
                    course += &measured("L# #", &[across(day), before]);
                }
                course += &measured("L# #", &[across(day), height]);
                before = height;
            }
            course += &measured("L# #z", &[RIGHT, AXIS]);
            parts.push(drawn("path").class(class).set("d", course.clone()));
            if !pattern.is_empty() {
                parts.push(drawn("path").class(pattern).set("d", course));
            }
        }
        let mut alone = String::new();
        let mut end = (LEFT, AXIS);
        for (day, share) in self.without.iter().enumerate() {
            if *share > most {
                break;
            }
            end = (across(day), up(*share));
            alone += &measured(if day == 0 { "M# #" } else { "L# #" }, &[end.0, end.1]);
        }
        parts.push(drawn("path").class("c-alone").set("d", alone));
        parts.push(text("cap b halo", end.0 + 6.0, TOP - 4.0, self.alone));
        parts.push(drawn("path").class("axis").set("d", measured("M# #H#", &[LEFT, AXIS, RIGHT])));
        for day in &self.marks {
            let x = across(*day);
            let marks = measured("M# #l6 9h-12z", &[x.max(LEFT + 6.0), AXIS + 4.0]);
            parts.push(drawn("path").class("c-mark").set("d", marks));
        }
        parts.push(text("cap", LEFT, AXIS + 30.0, &self.ends[0]));
        parts.push(text("cap end", RIGHT, AXIS + 30.0, &self.ends[1]));
        chart.set("aria-label", self.words.clone()).children(parts)
    }

    /// What the areas are, with their patterns.
    #[must_use]
    pub fn key(&self) -> Element {
        let faces = [("st-e", "st-d"), ("st-y", "st-h"), ("st-a", "st-a")];
        let items = faces.into_iter().zip(self.names).map(|((class, pattern), name)| {
            let square = drawn("svg").class("swatch").set("viewBox", "0 0 22 16").set("aria-hidden", "true");
            let area = |class: &'static str| drawn("path").class(class).set("d", "M1 1h20v14H1z");
            let square = square.child(area(class)).child(area(pattern));
            super::element("li").child(square).text(name)
        });
        super::element("ul").class("swatches").children(items)
    }
}

fn few(count: usize) -> f64 {
    u32::try_from(count).map_or(0.0, f64::from)
}

fn text(class: &'static str, x: f64, y: f64, words: &str) -> Element {
    let text = drawn("text").class(class).set("x", measured("#", &[x]));
    text.set("y", measured("#", &[y])).text(words.to_owned())
}
