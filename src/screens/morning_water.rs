//! Morning water: how much does each plant get this morning?

use super::advice_words::{advice_line, over_line};
use super::app::App;
use super::away::away;
use super::butt::butt;
use super::days::days;
use super::feed_words::can;
use super::missed::missed;
use super::model::Model;
use super::parts::{AdviceLine, Element, Section, WorkingLine, advice, element, plain_section, words};
use super::plants::my_plants;
use super::rest::follows;
use super::round::today;
use super::share::share;
use super::show_working::{show_working, steps_of};
use super::water_plate::{foot, plate};
use super::watered::watered;
use super::wilting::wilting;
use super::words;
use super::yesterday::{as_before, feel, fine_tune, measured, sky};
use crate::almanac::usual_latitude;
use crate::browser::language;
use crate::feed::{Portion, portion};
use crate::notebook::{GroupRecord, MorningRecord};
use crate::quantity::{Measure, Volume, country_in, decimal};
use crate::water::{Feel, Risks};

/// The whole screen: the desk with its plate and keys, and the leaves beside or under it.
pub fn morning_water(app: App) -> Vec<Element> {
    let assumed = element("p")
        .class("note assumed-line")
        .set("id", "assumed")
        .text(words(move || assumed(app)));
    let under = element("div").fill_for(
        move || app.look().rest.is_some().to_string(),
        move || app.look().rest.map(|rest| (rest.desk)(app)).unwrap_or_default(),
    );
    let desk = element("div").class("desk").children([
        plate(app, "My plants", "#plants"),
        foot(app),
        sky(app),
        feel(app),
        missed(app),
        watered(app),
        assumed,
        under,
    ]);
    vec![desk, follows(app, |rest| rest.leaves).class("leaves")]
}

/// What stands under the answer.
pub fn desk(app: App) -> Vec<Element> {
    let signs = element("a").class("link").set("href", "#signs").text("Leaves or fruit look wrong?");
    vec![as_before(app), fine_tune(app), measured(app), wilting(app), signs]
}

/// What stands beside or under the desk.
pub fn leaves(app: App) -> Vec<Element> {
    let whose = app.words(|model| model.group().map(words::group_name).unwrap_or_default() + ", step by step");
    vec![
        today(app),
        what_follows(app),
        butt(app),
        days(app),
        my_plants(app),
        away(app),
        share(app),
        show_working(app, "working", whose, app.live(steps)),
        with_care(),
    ]
}

/// What the answer rests on that nobody entered, or why it is an earlier one.
pub fn assumed(app: App) -> String {
    let model = app.look();
    let units = model.units();
    if let Some(error) = model.answer().and_then(|answer| answer.error.as_ref()) {
        let before = if model.shown().is_some() {
            " The answer above is the one from before."
        } else {
            ""
        };
        return error.sentence(units) + before;
    }
    let mut fields = MorningRecord::FIELDS.iter().chain(&GroupRecord::FIELDS);
    if fields.any(|field| {
        model
            .notebook
            .entry(model.selected, *field)
            .is_some_and(|entry| entry.error(*field, units).is_some())
    }) {
        return "One entry cannot be read: the answer above goes by what stood there before.".to_owned();
    }
    let Some(shown) = model.shown() else {
        return String::new();
    };
    let assumed = words::assumed(shown, model.today.yesterday().month_name(), units, &assumed_in_notebook(&model));
    if shown.dose().within_tried {
        assumed
    } else {
        format!("{assumed} We have not tested this for your place or month: trust the compost more than the number.")
    }
}

/// What the notebook was not told, and the answers rest on. Another plot's is not the reader's to fill in.
fn assumed_in_notebook(model: &Model) -> String {
    if model.share.guest.is_some() {
        return String::new();
    }
    let notebook = &model.notebook;
    let mut parts = Vec::new();
    // What an empty notebook had from the country is a guess as long as it stands there.
    let by_country = usual_latitude(country_in(&language()));
    if notebook.latitude.value().is_none_or(|degrees| Some(degrees) == by_country) {
        let degrees = notebook.place().degrees_north();
        let half = if degrees < 0.0 { "° south" } else { "°" };
        parts.push(["latitude ", &decimal(degrees.abs(), 1), half].concat());
    }
    if notebook.can.value().is_none() {
        parts.push("a can of ".to_owned() + &can(notebook.can_litres(), model.units()));
    }
    parts.join(", ")
}

pub fn what_follows(app: App) -> Element {
    let lines = app.live(move |model| {
        let units = model.units();
        let advice = model.shown().into_iter().flat_map(|shown| &shown.advice);
        let mut lines: Vec<_> = squeeze_line(model).into_iter().chain(planting_line(model)).collect();
        lines.extend(advice.map(|advice| advice_line(advice, units)));
        lines.extend(fed_line(model));
        lines.extend(over_line(
            model,
            model.selected,
            "Pick what is left before the first frost. The dose is for plants that are to stand on.",
        ));
        lines
    });
    let present = lines.clone();
    element("div").fill_for(
        move || (!present.get().is_empty()).to_string(),
        move || {
            if lines.get().is_empty() {
                return Vec::new();
            }
            let section = Section {
                id: "what-follows",
                heading: "What follows".into(),
                aside: app.words(words::looked_at),
                children: advice(lines.clone()),
            };
            vec![section.view()]
        },
    )
}

/// That compost which dripped yesterday is felt before it gets anything.
fn squeeze_line(model: &Model) -> Option<AdviceLine> {
    let shown = model.shown()?;
    let dripped = shown.season.days.last()?.readings.feel == Some(Feel::Sodden);
    (dripped && shown.dose().feel.is_none()).then(|| AdviceLine {
        mark: "mark-look",
        heading: "Squeeze first".to_owned(),
        words: "It dripped yesterday. If it still does, press Sodden and give nothing.".to_owned(),
    })
}

/// What plants get besides on the day on which they are planted.
fn planting_line(model: &Model) -> Option<AdviceLine> {
    (model.shown()?.standing.group.planted == Some(model.today)).then(|| AdviceLine {
        mark: "mark-pour-ring",
        heading: "Water them in".to_owned(),
        words: "Planted today: soak what is around the roots once, so that it closes about them (common practice). The dose is for what the roots reach.".to_owned(),
    })
}

/// What of today's water was given as feed already, as long as the rest is not noted.
fn fed_line(model: &Model) -> Option<AdviceLine> {
    let noted = model.notebook.day(model.today)?.group(model.group()?.id)?;
    let litres = noted.fed.filter(|_| noted.given.is_none())?;
    let fed = words::amount(&Measure::dose(Volume::from_litres(litres), model.units()));
    let is_all = model
        .shown()
        .is_some_and(|shown| portion(litres, shown.each.volume.litres()) != Portion::Part);
    let (heading, rest) = if is_all {
        (
            "All of it is poured",
            " of feed today, and needs no plain water as well: press Watered only if it got more.",
        )
    } else {
        ("Part of it is poured", " of feed today: pour only the rest plain.")
    };
    Some(AdviceLine {
        mark: "mark-split",
        heading: heading.to_owned(),
        words: ["Each had ", &fed, rest].concat(),
    })
}

/// The steps of the dose, what threatens the plants, and the rounding.
pub fn steps(model: &Model) -> Vec<WorkingLine> {
    let Some(shown) = model.shown() else {
        return Vec::new();
    };
    let mut lines = steps_of(&shown.dose().working);
    lines.extend(threats(&shown.season.risks));
    lines.push(WorkingLine {
        title: "To the jug".to_owned(),
        formula: format!(
            "{} litres, to the nearest mark of the jug",
            decimal(shown.dose().per_plant.litres(), 2)
        ),
        result: words::amount(&shown.each),
        source: "Quarter pints or 50 ml; 10 ml where the dose is small".to_owned(),
    });
    lines
}

/// What each threat is judged by.
fn threats(risks: &Risks) -> [WorkingLine; 4] {
    [
        (
            "Short of water",
            "share of yesterday’s use that the compost could not give, 1 − Ks",
            risks.drought,
            "FAO-56 Eq. 84; the thresholds are our choice",
        ),
        (
            "Blossom end",
            "days of the last 21 with Ks < 0.9 or a swing above 0.6 of the easy water, while fruit was young; half of one where nobody noted the water",
            risks.blossom_end_rot,
            "Our choice; one step up in very dry air",
        ),
        (
            "Wet roots",
            "wet days in a row up to yesterday, a cold one counts 1.5",
            risks.wet,
            "Our choice: more than a quarter drained, or less than a tenth air",
        ),
        (
            "Cracking",
            "largest refill at once of four days, as a share of the easy water, while fruit colours",
            risks.cracking,
            "Our choice",
        ),
    ]
    .map(|(title, formula, risk, source)| WorkingLine {
        title: title.to_owned(),
        formula: formula.to_owned() + "; a risk from " + &decimal(risk.amber, 2) + ", a great one from " + &decimal(risk.red, 2),
        result: decimal(risk.value, 2),
        source: source.to_owned(),
    })
}

/// The usual cautions of watering.
pub fn with_care() -> Element {
    let cautions = [
        "The compost in your hand overrules any sum. A guide, not a promise.",
        "Seedlings and plants just potted on take spoonfuls, not pints: feel before you pour.",
        "Plain water on leaves does not scorch. Leaves that stay wet at night invite grey mould.",
        "Mist and jets under glass: mains water only, never from a butt. A hose that hangs in a butt or can needs a check valve.",
        "Keep the lid on a butt: children and wildlife drown in them. Softened water is not for plants.",
        "Wilting in wet compost: do not water. Let it drain and shade the plant.",
    ];
    let items = cautions.into_iter().map(|caution| element("li").text(caution));
    let list = element("ul").class("cautions").children(items);
    plain_section("care", "With care", list)
}
