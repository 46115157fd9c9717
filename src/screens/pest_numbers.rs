//! The numbers to be expected, the best plan, and whether it worked.

use std::time::Duration;

use leptos_dom::helpers::{document, set_timeout};

use super::app::App;
use super::fields::{choice, number};
use super::model::Model;
use super::parts::{AdviceLine, Element, LifeCurve, More, Section, Table, act, advice, button, element, focus_on, plain_section, say};
use super::pest_repeats::{day, told};
use crate::notebook::{Coded, Field};
use crate::pest::{Back, BestPlan, Candidate, Count, Curve, Extent, Outcome, Outline, Pest, Standing, outcome};
use crate::quantity::decimal;

/// Days between two rows of the table.
const ROW_EVERY: usize = 7;
/// Levels that a best plan can keep to, in tenths of today’s numbers.
const LEVELS: [(&str, u8, &str); 3] = [
    ("10", 10, "as many as today"),
    ("5", 5, "half of today’s"),
    ("1", 1, "a tenth of today’s"),
];

/// What is said while dates are tried.
const TRYING: &str = "Trying dates …";

/// A share in per cent, of at most two figures: no more is known.
fn percent(share: f64) -> String {
    let percent = share * 100.0;
    let mut unit = 1.0;
    while percent / unit >= 99.5 {
        unit *= 10.0;
    }
    decimal((percent / unit).round() * unit, 0) + " %"
}

/// When there are as many again as on the first day.
fn back_words(id: &'static str, back: Back) -> Element {
    let line = element("p").class("mt");
    match back {
        Back::On(back) => line
            .text("Back to the numbers of the first day about ")
            .child(day(id, back))
            .text("."),
        Back::NeverFewer => line
            .text("This alone only slows them: there are soon more than on the first day. Add something that reaches the scales and eggs."),
        Back::NotWithin => line.text("Within four months they do not come back to the numbers of the first day."),
    }
}

/// The curve by life stage, and its table.
pub fn numbers(app: App) -> Element {
    told(app, |app, model, outline| {
        let Some(curve) = &outline.curve else {
            // A plan without numbers says so.
            let unknown = outline.next().filter(|_| outline.visits.len() > 1);
            let words = "How fast the numbers come back is not known for this: count, and go on while there are any.";
            return unknown.map(|_| element("p").class("sec").text(words)).into_iter().collect();
        };
        let chart = chart(model, outline, curve);
        let assumed = if curve.assumed {
            "What each treatment kills is assumed. This shows the trend, not real numbers: plants differ tenfold."
        } else {
            "What a treatment kills was found in a laboratory; at home four fifths of it is taken. This shows the trend, not real numbers."
        };
        let back = back_words("answer-back", outline.back.unwrap_or(Back::NotWithin));
        let table = More {
            id: "numbers-table",
            summary: "Show as a table".into(),
            aside: "".into(),
            minor: true,
            on_toggle: act(move |()| app.refresh()),
            children: Box::new(move || {
                let model = app.look();
                let outline = model.pests.outline.as_ref();
                let rows = outline.and_then(|outline| Some(rows(outline, outline.curve.as_ref()?)));
                Table {
                    caption: "Of 100 on the first day",
                    heads: &["Day", "With it", "Adults", "Left alone"],
                    rows: rows.unwrap_or_default(),
                }
                .view()
            }),
        };
        let figure = element("div").child(chart.view()).child(chart.key());
        let children = element("div")
            .child(figure)
            .child(back)
            .child(element("p").class("note mt").text(assumed))
            .child(table.view());
        let section = Section {
            id: "numbers",
            heading: "How the numbers go".into(),
            aside: if curve.assumed {
                "kills assumed"
            } else {
                "kills from a laboratory"
            }
            .into(),
            children,
        };
        vec![section.view()]
    })
}

fn chart(model: &Model, outline: &Outline, curve: &Curve) -> LifeCurve {
    let visits = outline.visits.iter().filter(|visit| visit.standing != Standing::Skipped);
    let marks: Vec<usize> = visits
        .filter_map(|visit| usize::try_from(visit.day.days_since(outline.start)).ok())
        .filter(|day| *day < curve.with.len())
        .collect();
    let last = curve.with.len().saturating_sub(1);
    let end = outline.start.days_later(i32::try_from(last).unwrap_or(0));
    let at_end: f64 = curve.with.last().map_or(0.0, |stages| stages.iter().sum());
    let alone = curve.without.last().copied().unwrap_or(0.0);
    let names = match model.programme().pest {
        Pest::Whitefly => ["eggs", "scales and pupae", "adults"],
        _ => ["eggs", "young", "adults"],
    };
    let words = "By ".to_owned()
        + &end.spoken()
        + " about "
        + &percent(at_end)
        + " of the first day’s numbers with it, and "
        + &percent(alone)
        + " left alone.";
    LifeCurve {
        with: curve.with.clone(),
        without: curve.without.clone(),
        marks,
        ends: [outline.start.spoken(), end.spoken()],
        names,
        alone: "left alone",
        words,
    }
}

fn rows(outline: &Outline, curve: &Curve) -> Vec<Vec<String>> {
    let mut rows = Vec::new();
    let mut date = outline.start;
    for (day, (stages, alone)) in curve.with.iter().zip(&curve.without).enumerate() {
        if day % ROW_EVERY == 0 {
            let [.., adults] = stages;
            rows.push(vec![date.spoken(), percent(stages.iter().sum()), percent(*adults), percent(*alone)]);
        }
        date = date.tomorrow();
    }
    rows
}

/// The search for the fewest treatments.
pub fn best_plan(app: App) -> Element {
    let key = move || {
        let model = app.look();
        model.pests.version.to_string() + "/" + &model.pests.search_version.to_string()
    };
    element("div").fill_for(key, move || {
        let model = app.look();
        if !model.pests.can_search {
            return Vec::new();
        }
        let level = choice(
            app,
            "pest-level",
            "In six weeks at most",
            LEVELS.map(|(word, _, words)| (word, words.to_owned())).to_vec(),
            |model| model.pests.tenths.to_string(),
            |model, word| {
                if let Some((_, tenths, _)) = LEVELS.iter().find(|(other, ..)| *other == word) {
                    model.pests.tenths = *tenths;
                    model.pests.is_searching = false;
                    model.pests.found = None;
                    model.pests.search_version = model.pests.search_version.wrapping_add(1);
                }
            },
        );
        let mut children = element("div").child(element("div").class("steps").child(level));
        if model.pests.is_searching {
            children = children.child(element("p").class("note mt").text(TRYING));
        } else if let Some((found, back)) = &model.pests.found {
            children = children.children(told_plan(app, found, *back, &model));
        } else {
            // Nothing is drawn anew for the first word: the page has to hear the next tap at once.
            let status = element("p").class("note mt").text("\u{a0}");
            let shown = status.node().clone();
            let search = act(move |()| {
                if !app.look().pests.is_searching {
                    shown.set_text_content(Some(TRYING));
                    say(TRYING);
                    app.quietly(Model::begin_search);
                    search_on(app);
                }
            });
            let press = element("div").class("press");
            children = children
                .child(press.child(button("Find the fewest treatments".into(), search)))
                .child(status);
        }
        vec![plain_section("best-plan", "Fewest treatments", children)]
    })
}

/// Goes on a little at a time, so that the page stays awake.
fn search_on(app: App) {
    let more = move || {
        let mut is_going_on = false;
        app.quietly(|model| is_going_on = model.search_on());
        if is_going_on {
            search_on(app);
        } else {
            set_timeout(move || app.refresh(), Duration::ZERO);
            set_timeout(keep_focus, AFTER_REFRESH);
        }
    };
    set_timeout(more, Duration::ZERO);
}

/// Time for the plan to be drawn before the focus is given to it.
const AFTER_REFRESH: Duration = Duration::from_millis(100);

/// The button that was pressed has gone, and the focus with it, unless the grower went on elsewhere.
fn keep_focus() {
    if document().active_element().is_none_or(|element| element.tag_name() == "BODY") {
        focus_on("#best-plan .press button");
    }
}

fn told_plan(app: App, found: &BestPlan, back: Option<Back>, model: &Model) -> Vec<Element> {
    let times = |candidate: &Candidate| {
        let count = candidate.days.len();
        count.to_string()
            + if count == 1 {
                " treatment leaves about "
            } else {
                " treatments leave about "
            }
            + &percent(candidate.level)
    };
    let best = &found.best;
    let head = if found.keeps {
        times(best) + " of today’s numbers in six weeks."
    } else {
        "Nothing that is allowed keeps to that. ".to_owned() + &times(best) + " in six weeks."
    };
    let count = best.days.len().to_string();
    let data = element("data").set("id", "answer-fewest").set("value", count);
    let mut shown = vec![element("p").class("mt").child(data.child(element("b").text(head)))];
    let today = model.today;
    let day_of = move |number: usize| today.days_later(i32::try_from(number).unwrap_or(0));
    let days: Vec<String> = best.days.iter().map(|number| day_of(*number).spoken()).collect();
    shown.push(element("p").text(days.join(", ")));
    if let Some(back) = back {
        shown.push(back_words("answer-fewest-back", back));
    }
    if model.programme().products.iter().filter(|product| product.is_used).count() > 1 {
        shown.push(
            element("p")
                .class("note")
                .text("Only with what is repeated: the other products take no turn in it."),
        );
    }
    for (words, other) in [("One fewer: ", &found.one_fewer), ("One more: ", &found.one_more)] {
        if let Some(other) = other {
            shown.push(element("p").class("note").text(words.to_owned() + &times(other) + "."));
        }
    }
    let chosen = best.days.clone();
    let take = act(move |()| {
        let days: Vec<_> = chosen.iter().map(|number| day_of(*number)).collect();
        app.change(move |model| {
            let programme = model.programme_mut();
            programme.planned = days;
            programme.extent = Extent::Chosen;
        });
    });
    shown.push(element("div").class("press").child(button("Take on this plan".into(), take)));
    shown
}

/// Whether the counts say that it works.
pub fn did_it_work(app: App) -> Element {
    let present = move || {
        let model = app.look();
        let outline = model.pests.outline.as_ref();
        outline.is_some_and(|outline| outline.curve.is_some() && outline.done() > 0)
    };
    element("div").fill_for(
        move || {
            if present() {
                app.look().programme().pest.code().to_owned()
            } else {
                String::new()
            }
        },
        move || {
            if !present() {
                return Vec::new();
            }
            let note = act(move |()| {
                app.change(|model| {
                    let (today, seen, on_card) = (model.today, model.pests.count.value(), model.counts_on_card());
                    model.programme_mut().count(today, seen, on_card);
                });
            });
            let said = told(app, |_, model, outline| {
                let counts = &model.programme().counts;
                let mut shown = Vec::new();
                for count in counts {
                    let on = if count.on_card { " on the card" } else { " on the leaves" };
                    let words = count.day.spoken() + ": " + &decimal(count.seen, 0) + on;
                    shown.push(element("p").text(words));
                }
                shown.extend(judged(model, outline).map(|line| advice(super::parts::Live::fixed(vec![line]))));
                shown
            });
            let children = element("div")
                .child(
                    element("p").text("Count on one card, or on the same ten leaves, each week before treating. A card alone is enough."),
                )
                .child(
                    element("div")
                        .class("steps mt")
                        .children(counted_on(app))
                        .child(number(app, Field::PestCount, "")),
                )
                .child(element("div").class("press").child(button("Note this count".into(), note)))
                .child(said);
            vec![plain_section("did-it-work", "Did it work?", children)]
        },
    )
}

/// Where they are counted, for a pest that flies to cards.
fn counted_on(app: App) -> Option<Element> {
    (app.look().programme().pest == Pest::Whitefly).then(|| {
        choice(
            app,
            "count-on",
            "Counted",
            vec![("leaves", "on ten leaves".to_owned()), ("card", "on a sticky card".to_owned())],
            |model| (if model.counts_on_card() { "card" } else { "leaves" }).to_owned(),
            |model, word| model.pests.on_card = Some(word == "card"),
        )
    })
}

fn judged(model: &Model, outline: &Outline) -> Option<AdviceLine> {
    let counts: Vec<Count> = model
        .programme()
        .counts
        .iter()
        .filter_map(|count| {
            Some(Count {
                day: usize::try_from(count.day.days_since(outline.start)).ok()?,
                seen: count.seen,
                adults_only: count.on_card,
            })
        })
        .collect();
    let (mark, heading, words) = match outcome(&counts, outline.curve.as_ref()?)? {
        Outcome::Working => ("mark-ok", "It is working", "About as few as expected: go on to the last date."),
        Outcome::MissedUndersides => (
            "mark-look",
            "More than expected",
            "Most likely the undersides were missed: aim there, or reach them another way.",
        ),
        Outcome::Tolerant => (
            "mark-hold",
            "They do not mind it",
            "Two counts no better than doing nothing: change the method, or stop.",
        ),
    };
    Some(AdviceLine {
        mark,
        heading: heading.to_owned(),
        words: words.to_owned(),
    })
}
