//! Pest repeats: when must I treat again, and when does the label let me pick?

use leptos_dom::helpers::{document, request_animation_frame};

use super::advice_words::over_line;
use super::app::App;
use super::model::Model;
use super::part_by_part::part_by_part;
use super::parts::{
    Element, Live, Plate, WorkingLine, act, advice, announcer, chief_button, drawing, element, focus_on, link_button, plain_section,
    undo_row,
};
use super::pest_beside::heeded;
use super::pest_dates::{calendar_button, dates, strip};
use super::pest_label::label;
use super::pest_nights::{blight, slugs};
use super::pest_numbers::{best_plan, did_it_work, numbers};
use super::pest_setup::{programmes, warmth, what_is_done, which_pest};
use super::pest_words::{conflict_words, control_words, minded, pest_words, product_name, shut_words};
use super::rest::Part;
use super::show_working::{show_working, steps_of};
use super::words::{short_day, temperature};
use crate::almanac::{CivilDay, usual_temperatures};
use crate::pest::{Application, Conflict, Control, Deed, Introduction, Outline, Pest, Standing, Wait};

/// The whole screen.
pub fn pest_repeats(app: App) -> Vec<Element> {
    let desk = element("div").class("desk").follow(announcer(app.words(spoken))).children([
        plate(app),
        foot(app),
        label_first(app),
        strip(app),
        press(app),
        calendar_button(app),
        element("a")
            .class("link")
            .set("href", "#what-is-done")
            .text("Spray, or do something else"),
    ]);
    let mut parts = part_by_part(app, &PARTS).into_iter();
    // An address may lead to its place before it is built.
    let pests = parts.next().map(|part| part.set("id", "which-pest"));
    let desk = desk.children(pests);
    vec![desk, element("div").class("leaves").children(parts)]
}

/// What stands below the answer; the first still beside it.
const PARTS: [Part; 5] = [
    which_pest,
    |app| vec![warmth(app), programmes(app), what_is_done(app)],
    |app| vec![label(app), take_care(app), dates(app)],
    |app| vec![numbers(app), best_plan(app), did_it_work(app)],
    |app| {
        let working = show_working(app, "pest-working", "".into(), app.live(steps));
        vec![slugs(app), blight(app), working]
    },
];

/// What is made anew whenever the answer has changed. Nothing in it takes typing.
pub fn told(app: App, make: fn(App, &Model, &Outline) -> Vec<Element>) -> Element {
    element("div").fill_for(
        move || app.look().pests.version.to_string(),
        move || {
            let model = app.look();
            model
                .pests
                .outline
                .as_ref()
                .map(|outline| make(app, &model, outline))
                .unwrap_or_default()
        },
    )
}

/// A day as a person reads it and a script too.
pub fn day(id: &'static str, day: CivilDay) -> Element {
    element("time").set("id", id).set("datetime", day.to_string()).text(day.spoken())
}

/// What is done next.
fn question(model: &Model) -> String {
    let programme = model.programme();
    let outline = model.pests.outline.as_ref();
    let next = outline.and_then(Outline::next);
    let control = next.map_or_else(
        || outline.map_or(programme.control(), |outline| outline.control),
        |next| next.control,
    );
    let is_repeated = |outline: &Outline| {
        let mut done = outline.visits.iter().filter(|visit| visit.standing == Standing::Done);
        done.any(|visit| visit.control == control)
    };
    let question = control_words(control, programme.pest).question.to_owned();
    match (next, outline.is_some_and(is_repeated)) {
        (Some(next), true) if is_turn(next.control) => question + " again",
        (Some(next), false) if next.day == model.today && is_turn(next.control) => question + " today",
        _ => question,
    }
}

/// The answer for a screen reader, after it has changed.
fn spoken(model: &Model) -> String {
    let Some(outline) = &model.pests.outline else {
        return String::new();
    };
    match outline.next() {
        Some(next) => question(model) + ", " + &next.day.spoken(),
        None => nothing_due(model, outline).to_owned(),
    }
}

fn plate(app: App) -> Element {
    Plate {
        question: app.words(question),
        link: "Which pest".into(),
        link_href: "#which-pest",
        pair: Live::fixed(false),
        rows: told(app, |_, model, outline| {
            let pest = pest_words(model.programme().pest);
            let picture = element("div")
                .class("pestbig")
                .child(drawing("pest-leaf", "pest-leaf"))
                .child(drawing(pest.drawing, "pest-on"));
            let say = element("div").child(element("span").class("tag").text(pest.name));
            let say = match outline.next() {
                Some(visit) => say.child(figure(visit.day)).child(sub(model, outline, visit.day)),
                None => say.child(element("p").class("nothing-due").text(nothing_due(model, outline))),
            };
            vec![element("div").class("answer-1 pest-a").child(picture).child(say)]
        }),
    }
    .view()
}

/// Whether its question says what is to be done once more.
const fn is_turn(control: Control) -> bool {
    control.is_by_hand() || control.is_sprayed()
}

/// The next day, as large as it goes.
fn figure(next: CivilDay) -> Element {
    let number = next.day().to_string();
    let class = if number.starts_with('1') { "n lead1" } else { "n" };
    let weekday = next.spoken().get(..3).unwrap_or_default().to_owned();
    let unit = element("span")
        .class("u")
        .text(short_month(next))
        .child(element("small").text(weekday));
    let time = element("time")
        .set("id", "answer-next")
        .set("datetime", next.to_string())
        .class("figure")
        .child(element("span").class(class).text(number))
        .child(unit);
    element("p").child(time)
}

/// The month, short where its name would break in the largest type.
fn short_month(day: CivilDay) -> &'static str {
    let name = day.month_name();
    name.get(..if name.len() > 5 { 3 } else { 5 }).unwrap_or(name)
}

fn sub(model: &Model, outline: &Outline, next: CivilDay) -> Element {
    let when = match next.days_since(model.today) {
        0 => "today".to_owned(),
        1 => "tomorrow".to_owned(),
        days => "in ".to_owned() + &days.to_string() + " days",
    };
    let line = element("p").class("sub").child(element("b").text(when));
    match outline.last().filter(|last| last.day != next) {
        Some(last) => {
            let time = element("time").set("id", "answer-last").set("datetime", last.day.to_string());
            // By hand, after the label's uses: that is no spray.
            let how = if has_hand_days(outline) && last.control.is_by_hand() {
                "last by hand "
            } else {
                "last on "
            };
            let time = time.text(short_day(last.day));
            line.text(", ").child(element("span").class("nb").text(how).child(time))
        }
        None => line.text(", the last"),
    }
}

fn nothing_due(model: &Model, outline: &Outline) -> &'static str {
    let coming = outline
        .introduction
        .as_ref()
        .filter(|coming| coming.day.is_none_or(|day| day > model.today));
    if let Some(coming) = coming {
        return why_not_yet(coming);
    }
    if model.programme().pest == Pest::LeafMiningFly {
        "No programme: squash each mine, or take the leaf off."
    } else if outline.hides {
        "No more this year: mites hide for the winter. Clean up."
    } else if outline.done() > 0 && outline.control.is_sprayed() && model.programme().pest == Pest::TomatoMoth {
        "Nothing more to spray. Search every evening for a week, then weekly for a month."
    } else if outline.done() > 0 {
        let mut visits = outline.visits.iter();
        if visits.any(|visit| visit.standing == Standing::Done && visit.control.needs_label()) {
            "Nothing due. Look again in a week. If they are back, begin again: “Another pest as well”. What was used counts towards the label’s most uses."
        } else {
            "Nothing due. Look again in a week. If they are back, begin again: “Another pest as well”."
        }
    } else {
        "Nothing due. Look again in a week."
    }
}

/// Why what lives is not brought in yet.
pub fn why_not_yet(coming: &Introduction) -> &'static str {
    if coming.waits.contains(&Wait::AskLabel) {
        "Not yet: ask the last spray’s label."
    } else if coming.mean < coming.needs.least_mean {
        "Not yet: too cool for them."
    } else if coming.mean > coming.needs.most_mean {
        "Not yet: too warm for them."
    } else {
        "Not yet: the nights are too cool for them."
    }
}

fn foot(app: App) -> Element {
    let filled = told(app, |_, model, outline| {
        let (done, all) = counted(outline);
        let mut pips = element("span").class("pips").set("aria-hidden", "true");
        if all <= 8 {
            pips = pips.children((0..all).map(|place| {
                let class = match place {
                    _ if place < done => "on",
                    _ if place == done => "nx",
                    _ => "",
                };
                element("i").class(class)
            }));
        }
        let data = |id: &'static str, number: usize| {
            element("data")
                .set("id", id)
                .set("value", number.to_string())
                .text(number.to_string())
        };
        let count = element("span")
            .class("unit")
            .child(data("answer-done", done))
            .text(" of ")
            .child(data("answer-treatments", all))
            .text(match outline.control {
                _ if !has_hand_days(outline) => "",
                used if used.is_sprayed() => " sprays",
                _ => " uses",
            })
            .text(over_the_label(model, outline));
        let is_unknown = |(_, conflict): &(u8, Conflict)| *conflict == Conflict::PickingUnknown;
        let is_unknown = outline.conflicts.iter().any(is_unknown);
        let needs_label = model.programme().control().needs_label() || is_unknown;
        let is_unread = outline.shut.is_some() || is_unknown;
        let rest = element("span").class("rest");
        // What was used already counts first, here and elsewhere; the next use only once it is done.
        let rest = match outline.pick_now {
            Some(now) => {
                let is_wet = |used: &Application| used.day == model.today;
                let words = if now > model.today {
                    "do not pick before "
                } else if model.notebook.uses_elsewhere(0, model.today).iter().any(is_wet) {
                    "once dry, pick from "
                } else {
                    "the wait is over since "
                };
                rest.text(words).child(element("b").child(day("answer-pick", now)))
            }
            None => rest,
        };
        let next = outline
            .pick_after_next
            .filter(|_| outline.pick_now.is_none() || is_used_next(outline));
        let rest = match next {
            Some(next) => {
                let rest = if outline.pick_now.is_some() {
                    rest.child(element("br"))
                } else {
                    rest
                };
                rest.text(if_used(model, outline, next))
                    .child(element("br"))
                    .child(element("b").child(day("answer-pick-next", next)))
            }
            None if outline.pick_now.is_some() => rest,
            None if is_unread => rest.text("no picking date without the label"),
            None if needs_label => rest.text("nothing is used: nothing to wait for"),
            None => rest.text("no label needed, no picking date"),
        };
        vec![element("div").class("foot").child(pips).child(count).child(rest)]
    });
    filled.class("foot-place")
}

/// Whether something is done by hand between the uses of what has a label.
pub fn has_hand_days(outline: &Outline) -> bool {
    let mut visits = outline.visits.iter();
    outline.control.needs_label() && visits.any(|visit| visit.control.is_by_hand())
}

/// That more was used than a label allows, beside how many are done.
fn over_the_label(model: &Model, outline: &Outline) -> String {
    let of = model.programme();
    let (number, _) = outline
        .conflicts
        .iter()
        .find(|(_, conflict)| *conflict == Conflict::UsedTooOften)
        .copied()
        .unzip();
    let products = of.products_for(!model.is_covered(of));
    let product = products.iter().find(|product| Some(product.number) == number);
    let most = product.and_then(|product| product.label.most_uses);
    most.map(|most| ["; its label allows ", &most.to_string()].concat())
        .unwrap_or_default()
}

/// How many are done, and of how many: the days by hand between uses stand for themselves.
fn counted(outline: &Outline) -> (usize, usize) {
    if !has_hand_days(outline) {
        return (outline.done(), outline.treatments());
    }
    let uses = || outline.visits.iter().filter(|visit| visit.control.needs_label());
    let count = |standing| uses().filter(|visit| visit.standing == standing).count();
    let done = count(Standing::Done);
    (done, done + count(Standing::Ahead))
}

/// What the picking day after the next use hangs on: "if used today, pick from".
fn if_used(model: &Model, outline: &Outline, pick: CivilDay) -> String {
    let ahead = outline.visits.iter().filter(|visit| visit.standing == Standing::Ahead);
    let mut days = ahead.filter(|visit| visit.control.needs_label()).map(|visit| visit.day);
    let used = days.next().unwrap_or(model.today);
    // The wait after the next use would end once the one after it has begun another.
    let alone = if days.next().is_some_and(|following| following <= pick) {
        " and not again"
    } else {
        ""
    };
    let when = if used > model.today {
        "on ".to_owned() + &used.spoken()
    } else {
        "today".to_owned()
    };
    [
        "if used ",
        &when,
        alone,
        if pick == used { ", once dry" } else { "" },
        ", pick from",
    ]
    .concat()
}

/// Whether the next visit is with a product: then the foot tells from when one may pick after it.
fn is_used_next(outline: &Outline) -> bool {
    outline.next().is_some_and(|next| next.control.needs_label())
}

/// What comes before all dates: that the label wins, and why it gives none.
fn label_first(app: App) -> Element {
    told(app, |_, model, outline| {
        let words = match outline.shut {
            Some(shut) => shut_words(shut),
            None if model.programme().control().needs_label() => "The label and local rules win over every date here.",
            None if model.notebook.programmes.is_empty() => {
                "A suggestion: nothing is begun yet. How many it kills: a guess. If you use a product, its label comes first."
            }
            None => "How many it kills: a guess. If you use a product, its label comes first.",
        };
        let class = if outline.shut.is_some() {
            "note label-first shut"
        } else {
            "note label-first"
        };
        vec![
            element("p")
                .class(class)
                .set("id", "label-first")
                .child(drawing("mark-hold", "mark-small"))
                .child(element("span").text(words)),
            element("p").class("note").child(
                element("a")
                    .class("link")
                    .set("href", "#pest-warmth")
                    .text(warmth_words(model))
                    .on("click", |_| unfold("pest-warmth")),
            ),
        ]
    })
}

/// What the dates are reckoned with.
fn warmth_words(model: &Model) -> String {
    let mean = temperature(model.pests.week_mean, model.units());
    let whose = if model.programme().mean.value().is_some() {
        " on average, as you told".to_owned()
    } else if usual_temperatures(model.notebook.place(), model.today).far_guess && !model.readings(model.programme()).is_empty() {
        " on average, as you read last".to_owned()
    } else {
        let place = if model.is_covered(model.programme()) {
            " on average, usual in an unheated house in "
        } else {
            " on average, usual outdoors in "
        };
        place.to_owned() + model.today.month_name()
    };
    ["Dates for ", &mean, &whose, ": change"].concat()
}

/// Opens a disclosure that a link leads to.
fn unfold(id: &str) {
    if let Some(details) = document().get_element_by_id(id) {
        let _ = details.set_attribute("open", "");
    }
}

/// The one thing to do here: note that it was done today.
fn press(app: App) -> Element {
    let noted = told(app, |app, model, outline| {
        let (today, pest) = (model.today, model.programme().pest);
        let mut shown = Vec::new();
        let deed = model.programme().deeds.iter().rev().find(|deed| deed.day == today);
        if let Some(Deed {
            control, product, is_done, ..
        }) = deed.copied()
        {
            let what = if is_done { control_words(control, pest).done } else { "Left out" };
            let undo = act(move |()| {
                app.change(move |model| model.take_back_deed(today, control, product));
                focus_soon();
            });
            shown.push(undo_row(
                what.to_owned() + " today",
                "in the notebook".to_owned(),
                link_button("Undo".into(), undo),
            ));
            if outline.next().is_none_or(|next| next.day > today) {
                return shown;
            }
        }
        if outline.next().is_none() && outline.done() == 0 {
            return Vec::new();
        }
        let next = outline.next();
        let main = model.programme().main().map_or(0, |product| product.number);
        let (control, product) = next.map_or((outline.control, main), |next| (next.control, next.product));
        let note = move |is_done: bool| {
            act(move |()| {
                app.change(move |model| {
                    let (day, control, product) = match model.pests.outline.as_ref().and_then(Outline::next) {
                        Some(next) if !is_done => (next.day, next.control, next.product),
                        _ => (model.today, control, product),
                    };
                    model.programme_mut().note(day, control, product, is_done);
                });
                focus_soon();
            })
        };
        shown.push(chief_button(control_words(control, pest).done.into(), note(true)));
        if outline.next().is_some() {
            shown.push(link_button("Leave this one out".into(), note(false)));
        }
        shown
    });
    noted.class("press").set("id", "treated")
}

/// Gives the focus to what has taken the place of the button that had it.
pub fn focus_soon() {
    request_animation_frame(|| focus_on("#treated button"));
}

fn take_care(app: App) -> Element {
    let lines = app.live(|model| {
        let conflicts = model.pests.outline.iter().flat_map(|outline| &outline.conflicts);
        let programme = model.programme();
        let several = programme.products.len() > 1;
        let conflicts = conflicts.map(|(number, conflict)| {
            let product = match *number {
                0 => "Used elsewhere".to_owned(),
                number if several => product_name(programme, number),
                _ => String::new(),
            };
            conflict_words(*conflict, &product)
        });
        let over = over_line(
            model,
            model.place_of_plants(model.programme()),
            "Once the plants are out, end the programme.",
        );
        let heeded = model.pests.outline.iter().flat_map(|outline| heeded(model, outline));
        heeded
            .chain(conflicts)
            .chain(over)
            .chain(model.pests.advice.iter().map(|advice| minded(*advice, model.units())))
            .collect()
    });
    let last = "Label and local rules win over every date here. A guide, not a promise: look again before each treatment.";
    plain_section(
        "take-care",
        "Take care",
        element("div").child(advice(lines)).child(element("p").class("note mt").text(last)),
    )
}

/// The steps of the dates.
fn steps(model: &Model) -> Vec<WorkingLine> {
    model.pests.outline.iter().flat_map(|outline| steps_of(&outline.working)).collect()
}
