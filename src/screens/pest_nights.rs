//! Slugs tonight, and the watch for blight outdoors.

use super::app::App;
use super::parts::{AdviceLine, Element, Section, advice, drawing, element};
use super::pest_repeats::told;
use super::words::{degrees, in_scale};
use crate::almanac::{Thermometer, Yesterday, usual_temperatures};
use crate::pest::{BlightNight, Control, Evening, blight_watch, last_patrol, slugs_tonight};

/// Slugs about tonight, by what is told of the weather or usual.
pub fn slugs(app: App) -> Element {
    let shown = told(app, |_, model, _| {
        let usual = usual_temperatures(model.notebook.place(), model.today);
        let yesterday = model.notebook.morning.yesterday();
        let evening = Evening::usual(&usual, yesterday.rain_millimetres, yesterday.humidity_percent);
        let outlook = slugs_tonight(&evening);
        let level = usize::from(outlook.level);
        let pictures = (0..5).map(|place| {
            let class = if place < level { "slug" } else { "slug ghost" };
            drawing("pest-slug", class)
        });
        let word = match level {
            0 | 1 => "Hardly any about",
            2 | 3 => "Some about",
            _ => "Likely to be many",
        };
        let figure = element("data")
            .set("id", "answer-slugs")
            .set("value", level.to_string())
            .text(level.to_string() + " of 5");
        let wet = if outlook.is_unsure {
            "more on wet ground"
        } else {
            "by yesterday’s rain"
        };
        // Of the nights in a row those that are still to come.
        let deeds = &model.programme().deeds;
        let patrols = deeds.iter().filter(|deed| deed.is_done && deed.control == Control::HandPicking);
        let first = patrols.map(|deed| deed.day).min().unwrap_or(model.today);
        let last = last_patrol(first);
        let nights = if last > model.today {
            ["tonight to ", &last.spoken(), ", then "].concat()
        } else {
            String::new()
        };
        let words = "Usual for the night: ".to_owned()
            + &degrees(evening.dusk, model.units())
            + " at dusk and falling to "
            + &degrees(evening.night, model.units())
            + ", "
            + wet
            + ". Round with a torch one to three hours after sunset, "
            + &nights
            + "on damp nights. Beer traps and citrus shells beside; bait by its label alone.";
        vec![
            element("div").class("slugs").set("aria-hidden", "true").children(pictures),
            element("h3").text(word).text(": ").child(figure),
            element("p").text(words),
        ]
    });
    Section {
        id: "slugs",
        heading: "Slugs tonight".into(),
        aside: app.words(|model| model.today.spoken()),
        children: shown,
    }
    .view()
}

/// Two mild damp nights outdoors.
pub fn blight(app: App) -> Element {
    told(app, |_, model, _| {
        if !model.notebook.groups.iter().any(|group| group.place.is_outdoors()) {
            return Vec::new();
        }
        let two_nights = [model.today.yesterday().yesterday(), model.today.yesterday()];
        let nights: Vec<BlightNight> = two_nights
            .into_iter()
            .filter_map(|day| {
                let noted = model.notebook.day(day).and_then(|page| page.weather).unwrap_or_default();
                // Yesterday's weather stands on this morning's page until the day turns.
                let morning = (day == model.today.yesterday()).then(|| model.notebook.morning.yesterday());
                let morning = morning.unwrap_or_default();
                // What hangs under glass tells nothing of the leaves outside.
                let is_outside = |weather: &Yesterday| weather.thermometer != Thermometer::Inside;
                let morning = Some(morning).filter(is_outside).unwrap_or_default();
                let noted = Some(noted).filter(is_outside).unwrap_or_default();
                let humidity = morning.humidity_percent.or(noted.humidity_percent)?;
                Some(BlightNight::of(morning.coolest.or(noted.coolest)?, humidity))
            })
            .collect();
        let (mark, heading, words) = if blight_watch(&nights) {
            (
                "mark-risk",
                "Blight weather",
                "Two mild damp nights: look today, take spotted leaves off, pick what colours. No spray.",
            )
        } else {
            (
                "mark-look",
                "Blight",
                "Watch for two nights running of 10 °C and more, each with six hours of wet leaves: then look, strip and pick.",
            )
        };
        let line = AdviceLine {
            mark,
            heading: heading.to_owned(),
            words: in_scale(words, model.units()),
        };
        vec![advice(super::parts::Live::fixed(vec![line]))]
    })
}
