//! What to look at before the can is poured.

use super::fed::is_watered;
use super::feed_answers::FeedShown;
use super::feed_gives::section;
use super::feed_mix::hold;
use super::feed_timing_words::why as why_words;
use super::feed_words as say;
use super::model::Model;
use super::parts::{AdviceLine, Element, Live, advice};
use super::words::amount;
use crate::feed::{Cloud, Due, Portion, Water, clouds, enough_a_week, portion};
use crate::quantity::UnitSystem;

fn line(mark: &'static str, heading: &str, words: impl Into<String>) -> AdviceLine {
    AdviceLine {
        mark,
        heading: heading.to_owned(),
        words: words.into(),
    }
}

/// What to look at first.
pub fn before_you_pour(model: &Model, shown: &FeedShown) -> Vec<Element> {
    let mix = &shown.mix;
    let mut lines = Vec::new();
    for why in &shown.timing.why {
        let (mark, heading, words) = why_words(*why);
        if !mark.is_empty() {
            lines.push(line(mark, heading, words.to_owned()));
        }
    }
    let hold = hold(model);
    if let Some(hold) = hold {
        let (heading, words) = hold.words();
        lines.push(line("mark-hold", heading, words.to_owned()));
    }
    if mix.strength.feed.is_mostly_ammonium() {
        let (mark, heading, words) = say::MUCH_AMMONIUM;
        lines.push(line(mark, heading, words));
    }
    lines.extend(more_than_needed(shown));
    let (figure, unit) = (say::measured_out(mix.amount.value), say::unit(mix));
    if let Some(other) = mix.other_country {
        let is_us = other < mix.amount.value;
        let whose = if is_us {
            ("Printed for UK gallons?", "Theirs is larger")
        } else {
            ("Printed for US gallons?", "Theirs is smaller")
        };
        let words = [
            whose.1,
            ". If so it is ",
            &say::measured_out(other),
            " ",
            unit,
            " to this can, not ",
            &figure,
            if is_us && model.units().system == UnitSystem::Imperial {
                ". Your can is in UK gallons; if not, type “2 US gallons”."
            } else {
                "."
            },
        ]
        .concat();
        lines.push(line("mark-look", whose.0, words));
    }
    if let Some(other) = mix.other_ratio_to_say() {
        let words = [
            "Added to that much water it is ",
            &say::measured_out(other),
            " ",
            unit,
            ", not ",
            &figure,
            ".",
        ]
        .concat();
        lines.push(line("mark-look", "In all, or added?", words));
    }
    lines.extend(of_water(model, shown));
    lines.push(line(
        "mark-ok",
        "Water first if it is dry",
        "Feed on moist compost. Dry roots scorch.".to_owned(),
    ));
    section("Before you pour", vec![advice(Live::fixed(lines))])
}

/// That so many feeds a week bring more than plants take up.
fn more_than_needed(shown: &FeedShown) -> Option<AdviceLine> {
    let enough = enough_a_week(&shown.needs, shown.habit.a_week)?;
    let [nitrogen, _, potassium] = shown.needs.each_ref().map(|need| say::percent(need.share()));
    let words = [
        "So a week brings ",
        &nitrogen,
        " of the nitrogen and ",
        &potassium,
        " of the potash that each needs for the fruit that you hope for. The rest gathers as salt: about ",
        &say::times_a_week(enough),
        " is enough.",
    ]
    .concat();
    (!matches!(shown.timing.due, Due::NotYet(_) | Due::Never)).then(|| line("mark-risk", "More than they take up", words))
}

/// What the water of the can, and the day's water, have to do with it.
fn of_water(model: &Model, shown: &FeedShown) -> Vec<AdviceLine> {
    let mix = &shown.mix;
    let mut lines = Vec::new();
    let water = model.notebook.feed.water;
    let clouds = clouds(&mix.strength.feed, water);
    if clouds.gypsum > Cloud::Clear {
        let (mark, words) = say::gypsum(clouds.gypsum);
        lines.push(line(mark, "Gypsum in the can", words.to_owned()));
    }
    if clouds.phosphate > Cloud::Clear {
        lines.push(line(
            "mark-risk",
            "It may cloud",
            "Calcium phosphate may fall out, the more in hard water. Stir, and use it the same day.".to_owned(),
        ));
    }
    if water == Water::Hard {
        lines.push(line(
            "mark-look",
            "Hard water locks iron up",
            "Not at once, but over weeks. Use rain water part of the time.".to_owned(),
        ));
    }
    if is_watered(model) {
        lines.push(line(
            "mark-hold",
            "Already watered today",
            "If all of it was plain, feed tomorrow morning in place of water. If a part of it was feed, press Fed: it counts as part of today’s water."
                .to_owned(),
        ));
        return lines;
    }
    if hold(model).is_some() || matches!(shown.timing.due, Due::NotYet(_) | Due::Never) {
        return lines;
    }
    if let Some(each) = model.shown().map(|shown| &shown.each).filter(|each| each.volume.litres() > 0.0) {
        let (feed, day) = (say::poured(shown.habit.litres, model.units()), amount(each));
        let (mark, heading, words) = match portion(shown.habit.litres, each.volume.litres()) {
            Portion::TooMuch => (
                "mark-risk",
                "More than today’s water",
                [
                    "Each drinks about ",
                    &day,
                    " today, and ",
                    &feed,
                    " of feed is more. Give less each time",
                    if enough_a_week(&shown.needs, shown.habit.a_week).is_some() {
                        "."
                    } else {
                        ", more often."
                    },
                ]
                .concat(),
            ),
            Portion::All => (
                "mark-split",
                "Feed is today’s water",
                [
                    "That is all the water each plant needs today: ",
                    &feed,
                    " of feed, and no plain water as well.",
                ]
                .concat(),
            ),
            Portion::Part => (
                "mark-split",
                "Part of today’s water",
                [
                    "Of the ",
                    &day,
                    " that each gets today, ",
                    &feed,
                    " is feed: pour only the rest plain.",
                ]
                .concat(),
            ),
        };
        lines.push(line(mark, heading, words));
    }
    lines
}
