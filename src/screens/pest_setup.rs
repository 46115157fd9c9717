//! Which pest, what is done about it, and how warm it is.

use leptos_dom::helpers::request_animation_frame;

use super::app::App;
use super::fields::{choice, number, tick};
use super::model::Model;
use super::parts::{
    AdviceLine, Element, GroupLabel, GroupLabels, Key, KeyShape, Keys, Live, More, act, advice, element, focus_on, link_button,
    plain_section, undo_row,
};
use super::pest_repeats::{told, why_not_yet};
use super::pest_words::{control_words, done_words, pest_words, sure_by, wait_words};
use super::words::{group_name, temperature};
use crate::notebook::{Coded, Field, PestRecord};
use crate::pest::{Control, Extent, Pest};

/// Days back on which something can be noted as done.
const DAYS_BACK: i32 = 42;

/// The pests, with how to be sure of the one that is chosen.
pub fn which_pest(app: App) -> Vec<Element> {
    let keys = Keys {
        legend: "Which pest",
        aside: "".into(),
        headed: true,
        name: "pest",
        faces: Pest::CODES
            .iter()
            .map(|(value, pest)| Key {
                value,
                words: pest_words(*pest).name,
                drawing: pest_words(*pest).drawing,
                small: "",
            })
            .collect(),
        shape: KeyShape::Drawn,
        selected: app.live(|model| Some(model.programme().pest.code().to_owned())),
        assumed: Live::fixed(None),
        on_choose: app.act(|model, code: String| {
            if let Some(pest) = Pest::from_code(&code) {
                model.turn_to_pest(pest);
            }
        }),
    };
    let sure = advice(app.live(|model| {
        let pest = model.programme().pest;
        vec![AdviceLine {
            mark: "mark-look",
            heading: "To be sure, ".to_owned() + sure_by(pest),
            words: pest_words(pest).sign.to_owned(),
        }]
    }));
    vec![keys.view(), sure, which_plants(app)]
}

/// Which plants it is on, where there are several groups.
fn which_plants(app: App) -> Element {
    let names = |app: App| app.look().notebook.groups.iter().map(group_name).collect::<Vec<_>>();
    let key = move || names(app).join("\n");
    element("div").class("steps").fill_for(key, move || {
        let names = names(app);
        if names.len() < 2 {
            return Vec::new();
        }
        vec![choice(
            app,
            "pest-plants",
            "On which plants",
            PLACES.into_iter().zip(names).collect(),
            |model| model.place_of_plants(model.programme()).to_string(),
            |model, place| model.turn_to_plants(place.parse().unwrap_or_default()),
        )]
    })
}

/// The programmes, when there are several, and a way to begin another.
pub fn programmes(app: App) -> Element {
    let several = element("div").fill_for(
        move || (app.look().notebook.programmes.len() > 1).to_string(),
        move || {
            if app.look().notebook.programmes.len() < 2 {
                return Vec::new();
            }
            let labels = GroupLabels {
                legend: "Programme",
                name: "programme",
                labels: app.live(|model| {
                    let programmes = model.notebook.programmes.iter().enumerate();
                    programmes
                        .map(|(place, programme)| GroupLabel {
                            value: place.to_string(),
                            words: name(programme),
                        })
                        .collect()
                }),
                selected: app.words(|model| model.pests.selected.to_string()),
                on_choose: app.act(|model, place: String| {
                    model.pests.selected = place.parse().unwrap_or_default();
                    model.pests.product = 0;
                }),
                after: element("span"),
            };
            vec![labels.view()]
        },
    );
    let add = link_button("Another pest as well".into(), act(move |()| app.change(Model::begin_programme)));
    let end = link_button(
        "End this programme".into(),
        act(move |()| {
            app.change(Model::end_programme);
            request_animation_frame(|| focus_on("#ended button"));
        }),
    );
    // Hidden and not taken away: the link that was pressed keeps the focus.
    let none = app.live(|model| model.notebook.programmes.is_empty());
    let end = end.set("id", "end-programme").set_when("hidden", "", none);
    let links = element("p").class("group-links").child(add).child(end);
    element("div").class("programmes").children([several, links, ended(app)])
}

/// The row that puts an ended programme back, and how long ended ones keep one from picking.
fn ended(app: App) -> Element {
    let told = move || {
        let model = app.look();
        let ended = model.pests.ended.as_ref().map(name).unwrap_or_default();
        let was_forgotten = if model.pests.forgotten.is_some() { "\n" } else { "" };
        ended + was_forgotten + &wait_words(&model.notebook.uses_ended(model.today), model.today)
    };
    element("div").set("id", "ended").fill_for(told, move || {
        let model = app.look();
        let programme = model.pests.ended.as_ref().map(|ended| {
            let undo = act(move |()| {
                app.change(Model::restore_programme);
                request_animation_frame(|| focus_on("#end-programme"));
            });
            let was_sprayed = ended.deeds.iter().any(|deed| deed.is_done && deed.control.needs_label());
            let words = if was_sprayed {
                "the programme was ended; pick only as its label says"
            } else {
                "the programme was ended"
            };
            undo_row(name(ended), words.to_owned(), link_button("Undo".into(), undo))
        });
        programme.into_iter().chain(wait_row(app, &model)).collect()
    })
}

/// How long ended programmes keep one from picking, with the way to take that out, or the way back from it.
fn wait_row(app: App, model: &Model) -> Option<Element> {
    let press = move |change: fn(&mut Model)| {
        act(move |()| {
            app.change(change);
            request_animation_frame(|| focus_on("#wait button"));
        })
    };
    let (what, small, button) = if model.pests.forgotten.is_some() {
        (
            "The wait was taken out",
            String::new(),
            link_button("Undo".into(), press(Model::restore_wait)),
        )
    } else {
        let wait = wait_words(&model.notebook.uses_ended(model.today), model.today);
        if wait.is_empty() {
            return None;
        }
        let forget = link_button("Forget it".into(), press(Model::forget_wait));
        ("Pick", wait, forget)
    };
    Some(undo_row(what.to_owned(), small, button).set("id", "wait"))
}

/// A programme by its pest and the day on which it began.
fn name(programme: &PestRecord) -> String {
    let begun = programme.deeds.first().map(|deed| deed.day).or(programme.first);
    let since = begun.map(|day| ", ".to_owned() + &day.spoken()).unwrap_or_default();
    pest_words(programme.pest).name.to_owned() + &since
}

/// What can be done beside what is repeated: the name of its box, and what is assumed of it.
const BESIDE: [(&str, Control, &str); 5] = [
    ("beside-vacuum", Control::Vacuum, "on days between the sprays"),
    ("beside-water-jet", Control::WaterJet, "on days between the sprays"),
    ("beside-hand-picking", Control::HandPicking, "on days between the sprays"),
    (
        "beside-sticky-cards",
        Control::StickyCards,
        "adults only; assumed three of ten a week",
    ),
    (
        "beside-parasitoid",
        Control::Parasitoid,
        "assumed three scales of ten a week, after three weeks",
    ),
];

/// What is repeated, what is done beside it, and how far it goes.
pub fn what_is_done(app: App) -> Element {
    let key = move || app.look().programme().pest.code().to_owned();
    let keys = element("div").fill_for(key, move || {
        let pest = app.look().programme().pest;
        let name = |control: Control| control_words(control, pest).name;
        let small = |control: Control| if control.needs_label() { "from its label" } else { "" };
        let faces = pest.controls().iter().map(|control| Key {
            value: control.code(),
            words: name(*control),
            drawing: "",
            small: small(*control),
        });
        let repeated = Keys {
            legend: "Repeated",
            aside: "".into(),
            headed: false,
            name: "control",
            faces: faces.collect(),
            shape: KeyShape::Plain,
            selected: app.live(|model| Some(model.programme().control().code().to_owned())),
            assumed: Live::fixed(None),
            on_choose: app.act(|model, code: String| {
                if let Some(control) = Control::from_code(&code) {
                    model.programme_mut().choose(control);
                    model.pests.product = 0;
                }
            }),
        };
        let mut shown = vec![repeated.view()];
        // Beside what is only done by hand, laid or brought in there is no room for more.
        if pest.controls().iter().any(|control| control.is_sprayed()) {
            shown.push(element("p").class("lab mt").text("Beside it"));
        }
        for (beside, control, hint) in BESIDE {
            if shown.len() < 2 || !pest.controls().contains(&control) {
                continue;
            }
            shown.push(tick(
                app,
                beside,
                name(control),
                hint,
                move |model| model.programme().beside.contains(&control),
                move |model, ticked| {
                    let beside = &mut model.programme_mut().beside;
                    beside.retain(|other| *other != control);
                    if ticked {
                        beside.push(control);
                    }
                },
            ));
        }
        shown
    });
    let has_eggs = move || app.look().programme().pest != Pest::Aphid;
    let extent = element("div").fill_for(move || has_eggs().to_string(), move || vec![extent(app, has_eggs())]);
    let living = told(app, |_, model, _| {
        let Some(coming) = model.pests.outline.as_ref().and_then(|outline| outline.introduction.as_ref()) else {
            return Vec::new();
        };
        let where_they_go = match model.programme().control() {
            Control::Nematodes => "The soil is at about ",
            _ => "The coming week has a mean of about ",
        };
        let now = where_they_go.to_owned() + &temperature(coming.mean, model.units()) + ".";
        let line = element("p").class("mt");
        vec![match coming.day {
            Some(day) => line
                .text("Warm enough for them from ")
                .child(super::pest_repeats::day("answer-introduce", day))
                .text(", by what is usual or read. ")
                .text(now),
            None => line.text(why_not_yet(coming)),
        }]
    });
    plain_section(
        "what-is-done",
        "What you do",
        element("div").children([keys, element("div").class("steps").child(extent), earlier(app), living]),
    )
}

/// How far the treatments go. Greenfly lay no eggs, so that none is waited for.
fn extent(app: App, has_eggs: bool) -> Element {
    let mut entries = if has_eggs {
        vec![
            ("full", "Until no old egg is left".to_owned()),
            ("least", "Fewer: until the eggs have hatched".to_owned()),
        ]
    } else {
        vec![("full", "Until today’s young would breed".to_owned())]
    };
    entries.push(("chosen", "The best plan that was taken on".to_owned()));
    choice(
        app,
        "extent",
        "How far it goes",
        entries,
        move |model| match model.programme().extent {
            Extent::Least if !has_eggs => Extent::default().code().to_owned(),
            extent => extent.code().to_owned(),
        },
        |model, code| {
            if let Some(extent) = Extent::from_code(code) {
                model.programme_mut().extent = extent;
            }
        },
    )
}

/// Notes what was done today or on an earlier day, and with what.
fn earlier(app: App) -> Element {
    let key = move || {
        let model = app.look();
        let programme = model.programme();
        let all = model.done_with().into_iter();
        let names: String = all
            .map(|(control, product)| done_words(programme, control, product) + "\n")
            .collect();
        // The days are counted back from this one.
        model.today.to_string() + &names
    };
    element("div").class("steps").fill_for(key, move || {
        let model = app.look();
        let programme = model.programme();
        let mut days = vec![("", "choose the day".to_owned())];
        days.extend(BACK.iter().map(|(word, days)| (*word, model.today.days_later(-days).spoken())));
        let all = model.done_with();
        let names = all.iter().map(|(control, product)| done_words(programme, *control, *product));
        let with = PLACES.iter().copied().zip(names).collect();
        let with = choice(
            app,
            "done-with",
            "With",
            with,
            |model| model.place_of_done_with().to_string(),
            |model, place| {
                let place: Option<usize> = place.parse().ok();
                model.pests.done_with = place.and_then(|place| model.done_with().get(place).copied());
            },
        );
        let day = choice(
            app,
            "done-earlier",
            "Done on that day",
            days,
            |_| String::new(),
            |model, word| {
                if let Some((_, days)) = BACK.iter().find(|(other, _)| *other == word) {
                    model.note_earlier(*days);
                }
            },
        );
        if all.len() > 1 { vec![with, day] } else { vec![day] }
    })
}

/// Places in a short list, as words.
const PLACES: [&str; 8] = ["0", "1", "2", "3", "4", "5", "6", "7"];

/// Days back by their words in the list.
const BACK: &[(&str, i32)] = &[
    ("0", 0),
    ("1", 1),
    ("2", 2),
    ("3", 3),
    ("4", 4),
    ("5", 5),
    ("6", 6),
    ("7", 7),
    ("8", 8),
    ("9", 9),
    ("10", 10),
    ("11", 11),
    ("12", 12),
    ("13", 13),
    ("14", 14),
    ("15", 15),
    ("16", 16),
    ("17", 17),
    ("18", 18),
    ("19", 19),
    ("20", 20),
    ("21", 21),
    ("28", 28),
    ("35", 35),
    ("42", DAYS_BACK),
];

/// How warm it is: what is usual, and what may be told instead.
pub fn warmth(app: App) -> Element {
    More {
        id: "pest-warmth",
        summary: "How warm it is".into(),
        aside: app.words(|model| {
            let place = if model.is_covered(model.programme()) { "usual in an unheated house" } else { "usual outdoors" };
            let told = model.programme().mean.value().map(|_| "as told");
            told.unwrap_or(place).to_owned() + ", this week " + &temperature(model.pests.week_mean, model.units())
        }),
        minor: false,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || {
            let note = "Warmest and coolest that you enter on Morning water are used for their own days. A daily mean hides hot noons and cold nights: a thermometer that keeps both is better.";
            element("div")
                .child(element("p").text(note))
                .child(element("div").class("steps mt").children([
                    number(app, Field::PestMean, "for all days; empty for what is usual"),
                    number(app, Field::WarmerByDay, "than outdoors, °C; measured in a tunnel abroad"),
                    number(app, Field::WarmerByNight, "than outdoors, °C"),
                ]))
        }),
    }
    .view()
}
