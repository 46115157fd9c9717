//! Feed mix: how much of this feed goes in this can, and is it time?

use super::app::App;
use super::before_pouring::before_you_pour;
use super::fed::{fed, is_fed_today, is_watered};
use super::feed_answers::FeedShown;
use super::feed_gives::{gives, how_often, steps, week};
use super::feed_label::{label, stage};
use super::feed_shelf::shelf;
use super::feed_signs::signs;
use super::feed_timing_words::{Hold, due};
use super::feed_words as say;
use super::model::Model;
use super::part_by_part::part_by_part;
use super::parts::{Answer, Element, Live, Plate, announcer, cylinder, drawing, element, plain_section};
use super::rest::Part;
use super::show_working::show_working;
use crate::feed::{Due, METER_SPREAD, Stage, Why, is_too_cold};
use crate::notebook::{Bottle, Coded, Entry, FeedRecord, Field};
use crate::quantity::decimal;
use crate::water::{Feel, Wilting};

/// The whole screen.
pub fn feed_mix(app: App) -> Vec<Element> {
    let assumed = element("p")
        .class("note assumed-line")
        .set("id", "assumed")
        .text(app.words(assumed));
    let desk = element("div").class("desk").follow(announcer(app.words(spoken))).children([
        plate(app),
        foot(app),
        stage(app),
        fed(app),
        assumed,
        element("a").class("link").set("href", "#signs").text("Leaves or fruit look wrong?"),
    ]);
    let mut parts = part_by_part(app, &PARTS).into_iter();
    let desk = desk.children(parts.next());
    vec![desk, element("div").class("leaves").children(parts)]
}

/// What stands below the answer; the first still beside it.
const PARTS: [Part; 4] = [
    |app| vec![label(app)],
    |app| vec![filled(app, before_you_pour), filled(app, gives)],
    |app| vec![filled(app, week), filled(app, how_often), shelf(app)],
    |app| {
        let working = show_working(app, "working", "".into(), app.live(steps));
        vec![signs(app), working, with_care()]
    },
];

/// Something that is made anew with each new answer, and when the can is told in another measure. It holds nothing that can be
/// touched.
fn filled(app: App, children: fn(&Model, &FeedShown) -> Vec<Element>) -> Element {
    element("div").fill_for(
        move || {
            let model = app.look();
            model.feed.turn.to_string() + model.notebook.can_units().system.code()
        },
        move || {
            let model = app.look();
            model.feed.shown.as_ref().map(|shown| children(&model, shown)).unwrap_or_default()
        },
    )
}

fn plate(app: App) -> Element {
    Plate {
        question: "Into each can".into(),
        link: "The label".into(),
        link_href: "#label",
        pair: Live::fixed(false),
        rows: filled(app, |model, shown| vec![row(model, shown)]),
    }
    .view()
}

fn row(model: &Model, shown: &FeedShown) -> Element {
    let mix = &shown.mix;
    let figure = say::measured_out(mix.amount.value);
    let unit = say::unit(mix);
    let can = say::can(shown.can, model.notebook.can_units());
    let answer = Answer {
        id: "answer-feed".to_owned(),
        value: decimal(mix.amount.value, 1).into(),
        words: figure.clone().into(),
    };
    let picture = if mix.is_weighed {
        drawing("scales", "cylinder")
    } else {
        cylinder(mix.amount.value, ["Measuring cylinder filled to ", &figure, " ml"].concat())
    };
    let unit = element("span")
        .class("u")
        .text(unit)
        .child(element("small").text("to ".to_owned() + &can));
    let number = element("span")
        .class(if figure.chars().count() > 2 { "n wide" } else { "n" })
        .child(answer.view());
    let in_full = say::measured_out(mix.amount.value / shown.timing.share);
    let share = match shown.timing.share < 1.0 {
        true if shown.timing.why.contains(&Why::TooStrong) => {
            ["half strength, for the label’s ", &in_full, " ", say::unit(mix), " is too strong; "].concat()
        }
        true => "half strength, ".to_owned(),
        false => String::new(),
    };
    let sub = share + &say::spoons(mix, model.notebook.feed.bottle().cap.value(), model.units());
    let name = model.notebook.feed.bottle().name.trim();
    let (label, dose) = &shown.words;
    let label = &(if model.guesses_label() { "a guess: " } else { "" }.to_owned() + label);
    let told = element("div").children([
        element("span")
            .class("tag")
            .text(if name.is_empty() { label.clone() } else { name.to_owned() }),
        element("small").text(if name.is_empty() {
            dose.clone()
        } else {
            [label, ", ", dose].concat()
        }),
        element("p").class("figure").children([number, unit]),
        element("p").class("sub").text(sub),
    ]);
    element("div").class("answer-1").children([picture, told])
}

fn foot(app: App) -> Element {
    filled(app, |model, shown| {
        let (what, day, under) = due(shown, is_fed_today(model), hold(model), is_watered(model));
        let amount = match shown.timing.due {
            // What was given stands under it, in the notebook.
            _ if is_fed_today(model) => String::new(),
            Due::Never => "do not pour this".to_owned(),
            Due::NotYet(None) if shown.timing.why.contains(&Why::SeasonOver) => String::new(),
            _ => [
                &say::measured_out(shown.mix.amount.value),
                " ",
                say::unit(&shown.mix),
                " to ",
                &say::can(shown.can, model.notebook.can_units()),
            ]
            .concat(),
        };
        let mut rest = element("span").class("rest");
        if !amount.is_empty() {
            rest = rest.child(element("b").text(amount)).child(element("br"));
        }
        if let Some(day) = day {
            let time = element("time")
                .set("id", "answer-next-feed")
                .set("datetime", day.to_string())
                .text(day.spoken());
            let before = if what == "Not yet" { "until " } else { "then " };
            rest = rest.text(before).child(time);
            if !under.is_empty() {
                rest = rest.child(element("br"));
            }
        }
        rest = rest.text(under);
        vec![
            drawing("tab-feed", "tab-i"),
            element("span").class("unit").set("id", "answer-due").text(what),
            rest,
        ]
    })
    .class("foot")
}

/// Why feed that is due waits, for the group that is looked at.
pub fn hold(model: &Model) -> Option<Hold> {
    let dose = model.shown()?.dose();
    if dose.hold_off {
        Some(Hold::Sodden)
    } else if wilts(model) {
        Some(Hold::Wilted)
    } else if dose.feel == Some(Feel::Dry) {
        Some(Hold::Dry)
    } else {
        is_cold(model).then_some(Hold::Cold)
    }
}

/// Whether they were told to wilt otherwise than in the heat of noon.
pub fn wilts(model: &Model) -> bool {
    model.wilting.is_some_and(|wilting| wilting != Wilting::NoonOnly)
}

/// Whether both readings of yesterday say that it was too cold where the plants grow: a guess holds nothing up.
pub fn is_cold(model: &Model) -> bool {
    let morning = &model.notebook.morning;
    let is_read = morning.warmest.value().is_some() && morning.coolest.value().is_some();
    let (Some(day), Some(group)) = (model.weather().filter(|_| is_read), model.group()) else {
        return false;
    };
    let (warmest, coolest) = if group.place.is_outdoors() {
        (day.outside_maximum(), day.outside_minimum())
    } else {
        (day.inside_maximum(), day.inside_minimum())
    };
    is_too_cold(warmest, coolest)
}

/// What the answer rests on that nobody entered, or why it is an earlier one.
fn assumed(model: &Model) -> String {
    let feed = &model.notebook.feed;
    if let Some(error) = &model.feed.error {
        let before = if model.feed.shown.is_some() {
            " The answer above is the one from before."
        } else {
            ""
        };
        return error.to_string() + before;
    }
    let units = model.units();
    let fields = FeedRecord::FIELDS.iter().chain(&Bottle::FIELDS).chain(&[Field::Can]);
    if fields
        .into_iter()
        .any(|field| model.entry(*field).is_some_and(|entry| entry.error(*field, units).is_some()))
    {
        return "One entry cannot be read: the answer above goes by what stood there before.".to_owned();
    }
    let mut parts = Vec::new();
    let bottle = feed.bottle();
    if bottle.dose.text().trim().is_empty() {
        parts.push("20 ml per gallon");
    }
    if model.group().is_some_and(|group| group.stage.is_none()) {
        let is_late = model.feed.shown.as_ref().is_some_and(|shown| shown.stage == Stage::Late);
        parts.push(if is_late {
            "the stage from the season"
        } else {
            "the stage from the trusses"
        });
    }
    if feed.each.value().is_none() {
        parts.push("what each gets");
    }
    if feed.a_week.value().is_none() {
        parts.push("one feed a week");
    }
    let is_empty = |entry: &Entry| entry.value().is_none();
    if is_empty(&bottle.nitrate) && is_empty(&bottle.ammonium) && is_empty(&bottle.urea) {
        parts.push("any form of nitrogen");
    }
    let guess = if model.guesses_label() {
        "The label is a guess, 5-2-9: type your bottle’s own numbers. "
    } else {
        ""
    };
    if parts.is_empty() {
        guess.trim_end().to_owned()
    } else {
        [guess, "Assumed: ", &parts.join(", "), ". Tap to change."].concat()
    }
}

/// The headline for a screen reader.
fn spoken(model: &Model) -> String {
    let Some(shown) = &model.feed.shown else {
        return String::new();
    };
    let (what, ..) = due(shown, is_fed_today(model), hold(model), is_watered(model));
    [
        &say::measured_out(shown.mix.amount.value),
        " ",
        say::unit(&shown.mix),
        " to the can; ",
        what,
    ]
    .concat()
}

fn with_care() -> Element {
    const CARE: [&str; 6] = [
        "The label on the bottle comes first. Never stronger than it says.",
        "Feed moist compost only, never a wilted, dry, cold or sick plant.",
        "Leave no hose end in a can of feed: it can draw it back into the drinking water.",
        "Keep feeds dry, locked away from children and pets, and nitrates away from fuel, compost heaps and heat. Use no vessel for food.",
        "No feed into drains or ponds. Stop when a tenth of it, or at most a fifth, has run out of the pot.",
        "Never mix feeds with bleach, lime or washing soda.",
    ];
    let lines = CARE.map(|line| element("li").text(line));
    let spread = decimal(METER_SPREAD * 100.0, 0);
    let last = "Kept on this device only. How strong a can is, is worked out and not measured: a meter may differ by ".to_owned()
        + &spread
        + " %.";
    let lines = element("ul").class("cautions").children(lines);
    let last = element("p").class("note mt").text(last);
    plain_section("", "With care", element("div").child(lines).child(last))
}
