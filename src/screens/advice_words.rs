//! Advice in words. Every figure comes with the advice itself.

use super::feed_answers::season_is_over;
use super::model::Model;
use super::parts::AdviceLine;
use super::words::{amount, degrees};
use crate::quantity::{Measure, Units, Volume, decimal};
use crate::water::{Advice, Level, PourWhere, Risk, SetPoor, Threat};

/// Mark, heading and words.
type Told = (&'static str, String, String);

fn poured(litres: f64, units: Units) -> String {
    amount(&Measure::dose(Volume::from_litres(litres), units))
}

/// That the season of the group at a place is over, and what then.
pub fn over_line(model: &Model, place: usize, then: &str) -> Option<AdviceLine> {
    let water = model.answers.get(place)?.shown.as_ref();
    season_is_over(&model.notebook, water, model.today).then(|| AdviceLine {
        mark: "mark-leaf",
        heading: "The season is over".to_owned(),
        words: "It is usually too cold by now to ripen more. ".to_owned() + then,
    })
}

/// One piece of advice in words.
pub fn advice_line(advice: &Advice, units: Units) -> AdviceLine {
    let (mark, heading, words) = match *advice {
        Advice::HoldOff => (
            "mark-hold",
            "Hold off today".to_owned(),
            "The compost is sodden, whatever the sum says. More water drives out air and kills roots. Squeeze again tomorrow.".to_owned(),
        ),
        Advice::WaterFirst => (
            "mark-dry",
            "Water these first".to_owned(),
            "Dry compost lets water run past: pour a part, wait a quarter of an hour, pour the rest. Squeeze again before three."
                .to_owned(),
        ),
        Advice::ContainerTooSmall { used, easy_water } => (
            "mark-risk",
            "More thirst than compost".to_owned(),
            format!(
                "Each plant used about {} and its compost gives only {} easily. Water three times a day, or give it a bigger container.",
                poured(used, units),
                poured(easy_water, units)
            ),
        ),
        Advice::Split { waterings: 2, each } => (
            "mark-split",
            "Split it in two".to_owned(),
            format!(
                "{} now, the rest before three. After one watering alone the compost would run low by evening.",
                poured(each, units)
            ),
        ),
        Advice::Split { each, .. } => (
            "mark-split",
            "Split it in three".to_owned(),
            format!(
                "{} now, as much at noon, the rest before three. After one watering alone the compost would run low by evening.",
                poured(each, units)
            ),
        ),
        Advice::InParts { parts, each } => (
            "mark-split",
            format!("Pour in {parts} parts"),
            format!(
                "{} at a time, a quarter to half an hour apart: more than that at once runs off.",
                poured(each, units)
            ),
        ),
        Advice::Pour(place) => pour_words(place),
        Advice::EveryFewDays { days, litres } => (
            "mark-look",
            format!("Or about every {days} days"),
            format!(
                "A border holds that long: {} a plant then soaks deeper than a little each day.",
                poured(litres, units)
            ),
        ),
        Advice::RainDidIt { litres } => (
            "mark-look",
            "Rain did most of it".to_owned(),
            format!(
                "About {} a plant reached the roots. Lift a pot or push a finger in to make sure.",
                poured(litres, units)
            ),
        ),
        Advice::TapTrusses => (
            "mark-tap",
            "Tap the trusses today".to_owned(),
            "Bright and warm enough for pollen to run, if flowers are open: tap the canes between ten and three, before you wet the path."
                .to_owned(),
        ),
        Advice::SetLikelyPoor(why) => poor_set_words(why, units),
        Advice::RestTomorrow { litres } => (
            "mark-split",
            "The rest tomorrow".to_owned(),
            "More is missing than the compost can take at once: about ".to_owned()
                + &poured(litres, units)
                + " a plant has to wait until then.",
        ),
        Advice::Threat { what, risk } => threat_words(what, risk),
        Advice::DampPath { above } => (
            "mark-damp",
            "Damp the path before one".to_owned(),
            format!(
                "The house is likely to pass {}. Let it dry by night, and leave it dry where there is grey mould. With red spider about, wet the undersides of the leaves too, by noon.",
                degrees(above, units)
            ),
        ),
    };
    AdviceLine { mark, heading, words }
}

fn threat_words(what: Threat, risk: Risk) -> Told {
    let red = risk.level == Level::Red;
    let (mark, heading, words) = match what {
        Threat::Drought if red => (
            "mark-dry",
            "They went short yesterday",
            "The compost could not give what the leaves lost. Water early, in parts, and shade at noon.".to_owned(),
        ),
        Threat::Drought => (
            "mark-dry",
            "A little short yesterday",
            "The compost gave less than the leaves lost. Water earlier in the day, or twice.".to_owned(),
        ),
        Threat::WetRoots => (
            "mark-hold",
            if red { "Roots lack air" } else { "Wet for days" },
            "The compost has been wet day after day. Give none until it feels moist, then less: such roots give yellow young leaves."
                .to_owned(),
        ),
        Threat::BlossomEndRot => (
            "mark-risk",
            if red {
                "Blossom end rot: likely"
            } else {
                "Blossom end rot: some risk"
            },
            "Too dry or too uneven, as far as noted, on ".to_owned()
                + if risk.value.fract() > 0.0 { "about " } else { "" }
                + &decimal(risk.value, 0)
                + " of the last 21 days. Keep the water even: a dark, sunken end shows one to three weeks later.",
        ),
        Threat::Cracking => (
            "mark-risk",
            if red { "Fruit may crack" } else { "Fruit may crack: some risk" },
            "Much water at once splits fruit that is colouring. Water in parts; pick ripe fruit before, unless a spray’s days of waiting run.".to_owned(),
        ),
    };
    (mark, heading.to_owned(), words)
}

fn pour_words(place: PourWhere) -> Told {
    match place {
        PourWhere::Ball => (
            "mark-pour-ball",
            "Pour on the ball".to_owned(),
            "Only on the compost that the plant came with: its roots are nowhere else yet.".to_owned(),
        ),
        PourWhere::Ring => (
            "mark-pour-ring",
            "Pour in a ring".to_owned(),
            "Around the planted ball, a thumb further out each week: the roots follow.".to_owned(),
        ),
        PourWhere::WholeSurface => (
            "mark-pour-all",
            "Pour over the whole surface".to_owned(),
            "The roots are everywhere.".to_owned(),
        ),
    }
}

fn poor_set_words(why: SetPoor, units: Units) -> Told {
    match why {
        SetPoor::ColdNight { below } => (
            "mark-look",
            "Few fruits may set".to_owned(),
            format!("The night fell below {}. Shut the house before dusk.", degrees(below, units)),
        ),
        SetPoor::HotDay { above } => (
            "mark-look",
            "Few fruits may set".to_owned(),
            format!("It may have passed {}. Open up early and shade.", degrees(above, units)),
        ),
        SetPoor::DampAir => (
            "mark-look",
            "Few fruits may set".to_owned(),
            "The air is so damp that pollen clings. Open up and keep the floor dry.".to_owned(),
        ),
    }
}
