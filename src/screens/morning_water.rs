//! Morning water: how much does each plant get this morning?

use leptos::prelude::*;

use super::answers::{Shown, on_the_jug, total};
use super::app::App;
use super::fields::number;
use super::parts::{
    Answer, Dose, Foot, GroupLabel, GroupLabels, JugLevel, Key, KeyShape, Keys, More, Plate, Section, WorkingLine, advice, working,
};
use super::plants::my_plants;
use super::words;
use crate::almanac::{Sky, Thermometer, Weather};
use crate::notebook::{ContainerKind, Field};
use crate::quantity::{Measure, UnitSystem, decimal, quarters};

/// The whole screen.
pub fn morning_water(app: App) -> AnyView {
    view! {
        <div class="desk">
            {plate(app)}
            {foot(app)}
            {sky(app)}
            {feel(app)}
            <p class="note assumed-line" id="assumed">{move || assumed(app)}</p>
            {fine_tune(app)}
        </div>
        <div class="leaves">
            {what_follows(app)}
            {my_plants(app)}
            {show_working(app)}
            {with_care()}
        </div>
    }
    .into_any()
}

fn plate(app: App) -> AnyView {
    let count = Memo::new(move |_| app.notebook.with(|notebook| notebook.groups.len()));
    let rows = move || (0..count.get()).map(|index| dose_row(app, index)).collect::<Vec<_>>();
    Plate {
        question: "Each plant, this morning".into(),
        link: "My plants".into(),
        link_href: "#plants",
        pair: Signal::derive(move || count.get() == 2),
        rows: rows.into_any(),
    }
    .view()
}

/// One group's row. Its answers' ids end in the group's number from the second group on.
fn dose_row(app: App, index: usize) -> AnyView {
    let record = move |read: fn(&crate::notebook::GroupRecord) -> String| {
        Signal::derive(move || {
            app.notebook
                .with(|notebook| notebook.groups.get(index).map(read))
                .unwrap_or_default()
        })
    };
    let shown = move |read: fn(&App, &Shown) -> String| Signal::derive(move || with_shown(app, index, |shown| read(&app, shown)));
    let id = |name: &str| {
        if index == 0 {
            name.to_owned()
        } else {
            format!("{name}-{}", index + 1)
        }
    };
    let answer = |name: &str, measure: fn(&Shown) -> &Measure| Answer {
        id: id(name),
        value: Signal::derive(move || with_shown(app, index, |shown| litres(measure(shown).volume.litres()))),
        words: Signal::derive(move || with_shown(app, index, |shown| measure(shown).figure.clone())),
    };
    let figure = answer("answer-dose", |shown| &shown.each);
    let figure = Answer {
        words: Signal::derive(move || {
            app.answers.with(|answers| {
                let shown = answers.get(index).and_then(|answer| answer.shown.as_ref());
                shown.map_or_else(|| "–".to_owned(), |shown| shown.each.figure.clone())
            })
        }),
        ..figure
    };
    let (low, high) = (
        answer("answer-dose-low", |shown| &shown.low),
        answer("answer-dose-high", |shown| &shown.high),
    );
    let low_unit = shown(|_, shown| {
        if same_unit(&shown.low, &shown.high) {
            String::new()
        } else {
            format!(" {}", shown.low.unit)
        }
    });
    let high_unit = shown(|_, shown| {
        if same_unit(&shown.low, &shown.high) {
            String::new()
        } else {
            format!(" {}", shown.high.unit)
        }
    });
    let likely = view! { "likely "<b>{low.view()}{low_unit}" to "{high.view()}{high_unit}</b> };
    Dose {
        tag: record(words::group_name),
        small: record(words::group_small),
        jug: Signal::derive(move || {
            let units = app.units();
            app.answers
                .with(|answers| jug(answers.get(index).and_then(|answer| answer.shown.as_ref()), units))
        }),
        jug_words: shown(|_, shown| {
            format!(
                "Jug filled to {}, likely {}",
                words::amount(&shown.each),
                words::range(&shown.low, &shown.high)
            )
        }),
        figure,
        unit: shown(|_, shown| shown.each.unit.to_owned()),
        twin: shown(|_, shown| shown.each.twin.clone()).into_any(),
        range: likely.into_any(),
        aside: Signal::derive(move || {
            let kind = app.notebook.with(|notebook| {
                notebook
                    .groups
                    .get(index)
                    .map_or_else(ContainerKind::default, |group| group.container)
            });
            with_shown(app, index, |shown| after_range(shown, kind))
        })
        .into_any(),
    }
    .view()
}

fn with_shown(app: App, index: usize, read: impl FnOnce(&Shown) -> String) -> String {
    app.answers
        .with(|answers| answers.get(index).and_then(|answer| answer.shown.as_ref()).map(read))
        .unwrap_or_default()
}

fn same_unit(low: &Measure, high: &Measure) -> bool {
    low.unit.trim_end_matches('s') == high.unit.trim_end_matches('s')
}

fn after_range(shown: &Shown, kind: ContainerKind) -> String {
    if shown.dose.hold_off {
        return " · compost is sodden".to_owned();
    }
    match &shown.container {
        Some(container) => format!(" · {} {}", container.figure, words::one_container(kind)),
        None => format!(" · {}", words::one_container(kind)),
    }
}

/// Litres for a machine: a plain decimal with three places.
fn litres(litres: f64) -> String {
    format!("{litres:.3}")
}

/// The jug drawn for an answer: the smallest of four that holds the likely range.
fn jug(shown: Option<&Shown>, units: crate::quantity::Units) -> JugLevel {
    let sizes = if units.system == UnitSystem::Metric {
        [1.0, 2.0, 4.0, 8.0]
    } else {
        [2.0, 4.0, 8.0, 16.0]
    };
    let Some(shown) = shown else {
        return JugLevel {
            filled: None,
            low: 0.0,
            high: 0.0,
            holds: sizes[1],
        };
    };
    let on_jug = |measure: &Measure| on_the_jug(measure.volume, units);
    let high = on_jug(&shown.high);
    let holds = sizes.into_iter().find(|size| *size >= high).unwrap_or(sizes[3]);
    JugLevel {
        filled: Some(on_jug(&shown.each)),
        low: on_jug(&shown.low),
        high,
        holds,
    }
}

fn foot(app: App) -> AnyView {
    let volume = Memo::new(move |_| app.answers.with(|answers| total(answers)));
    let cans = Memo::new(move |_| volume.get().litres() / app.notebook.with(crate::notebook::Notebook::can_litres));
    // Half a can is the least that anyone fills; a little over is better than walking twice.
    let halves = Signal::derive(move || (cans.get() * 2.0 - 0.02).ceil().max(0.0) / 2.0);
    let all = Signal::derive(move || Measure::dose(volume.get(), app.units()));
    let answer = Answer {
        id: "answer-total".to_owned(),
        value: Signal::derive(move || litres(volume.get().litres())),
        words: Signal::derive(move || words::amount(&all.get())),
    };
    let totals = view! { <b>{answer.view()}</b>" in all"<br />{move || all.get().twin} };
    Foot {
        cans: halves,
        figure: Answer {
            id: "answer-cans".to_owned(),
            value: Signal::derive(move || format!("{:.1}", halves.get())),
            words: Signal::derive(move || quarters(halves.get())),
        },
        unit: Signal::derive(move || (if halves.get() > 0.0 && halves.get() <= 1.0 { "can" } else { "cans" }).to_owned()),
        total: totals.into_any(),
    }
    .view()
}

fn sky(app: App) -> AnyView {
    let keys = [
        (Sky::Clear, "Clear", "sky-clear"),
        (Sky::Bright, "Bright", "sky-bright"),
        (Sky::Mixed, "Mixed", "sky-mixed"),
        (Sky::Dull, "Dull", "sky-dull"),
        (Sky::Dark, "Dark", "sky-dark"),
    ];
    Keys {
        legend: "Yesterday was",
        aside: Signal::derive(move || weather(app, words::sky_aside)),
        headed: true,
        name: "sky",
        keys: keys
            .map(|(sky, words, drawing)| Key {
                value: words::sky_value(sky),
                words,
                drawing,
                small: "",
            })
            .to_vec(),
        shape: KeyShape::Tall,
        selected: Signal::derive(move || {
            app.notebook.with(|notebook| {
                let morning = &notebook.morning;
                let by_hours = morning.sunshine_hours.value().is_some();
                let nearest = || {
                    notebook
                        .weather(app.today.get())
                        .ok()
                        .map(|weather| Sky::nearest(weather.clearness))
                };
                let sky = if by_hours { nearest() } else { morning.sky };
                sky.map(|sky| words::sky_value(sky).to_owned())
            })
        }),
        assumed: Signal::derive(|| Some(words::sky_value(Sky::Mixed).to_owned())),
        on_choose: Callback::new(move |value: String| {
            if let Some(sky) = words::sky_of(&value) {
                app.notebook.update(|notebook| notebook.morning.choose_sky(sky));
            }
        }),
    }
    .view()
}

/// Words about yesterday's weather as it is used; empty when it cannot have been so.
fn weather(app: App, words: impl FnOnce(&Weather) -> String) -> String {
    app.notebook
        .with(|notebook| notebook.weather(app.today.get()))
        .ok()
        .as_ref()
        .map(words)
        .unwrap_or_default()
}

fn feel(app: App) -> AnyView {
    let several = Memo::new(move |_| app.notebook.with(|notebook| notebook.groups.len() > 1));
    let keys = [
        ("dry", "Dry", "compost-dry"),
        ("moist", "Moist", "compost-moist"),
        ("sodden", "Sodden", "compost-sodden"),
    ];
    Keys {
        legend: "Compost feels",
        aside: Signal::derive(move || {
            if several.get() {
                format!("in {}", app.group(words::group_name))
            } else {
                "squeeze a handful".to_owned()
            }
        }),
        headed: true,
        name: "feel",
        keys: keys
            .map(|(value, words, drawing)| Key {
                value,
                words,
                drawing,
                small: "",
            })
            .to_vec(),
        shape: KeyShape::Wide,
        selected: Signal::derive(move || app.group(|group| group.feel).map(|feel| words::feel_value(feel).to_owned())),
        assumed: Signal::derive(|| Some("moist".to_owned())),
        on_choose: Callback::new(move |value: String| app.change_group(|group| group.feel = words::feel_of(&value))),
    }
    .view()
}

/// The labels of all groups, shown where there is a choice.
pub fn group_labels(app: App, name: &'static str, after: AnyView) -> AnyView {
    GroupLabels {
        legend: "Which plants",
        name,
        labels: Signal::derive(move || {
            app.notebook.with(|notebook| {
                let label = |(index, group)| GroupLabel {
                    value: format!("{index}"),
                    words: words::group_name(group),
                };
                notebook.groups.iter().enumerate().map(label).collect()
            })
        }),
        selected: Signal::derive(move || app.selected.get().to_string()),
        on_choose: Callback::new(move |value: String| {
            if let Ok(index) = value.parse() {
                app.selected.set(index);
            }
        }),
        after,
    }
    .view()
}

fn assumed(app: App) -> String {
    let stale = app.answer(|answer| answer.error.as_ref().map(|error| error.sentence(app.units())));
    if let Some(sentence) = stale {
        return format!("{sentence} The answer above is the one from before.");
    }
    if first_wrong(app) {
        return "One entry cannot be read: the answer above goes by what stood there before.".to_owned();
    }
    let month = app.today.get().yesterday().month_name();
    let assumed = app
        .answer(|answer| answer.shown.as_ref().map(|shown| words::assumed(shown, month, app.units())))
        .unwrap_or_default();
    let untried = app.answer(|answer| answer.shown.as_ref().is_some_and(|shown| !shown.dose.within_tried));
    if untried {
        format!("{assumed} This place or season lies beyond what the sum was tried in: go by the compost.")
    } else {
        assumed
    }
}

fn first_wrong(app: App) -> bool {
    let index = app.selected.get();
    app.notebook.with(|notebook| {
        let mut fields = crate::notebook::MorningRecord::FIELDS
            .iter()
            .chain(&crate::notebook::GroupRecord::FIELDS);
        fields.any(|field| {
            notebook
                .entry(index, *field)
                .is_some_and(|entry| entry.error(*field, notebook.units).is_some())
        })
    })
}

fn fine_tune(app: App) -> AnyView {
    let read_at = Signal::derive(move || {
        let by = app.notebook.with(|notebook| notebook.morning.thermometer);
        Some((if by == Thermometer::Inside { "inside" } else { "outside" }).to_owned())
    });
    let thermometer = Keys {
        legend: "Thermometer hangs",
        aside: "".into(),
        headed: false,
        name: "thermometer",
        keys: vec![
            Key {
                value: "outside",
                words: "Outside",
                drawing: "",
                small: "",
            },
            Key {
                value: "inside",
                words: "Inside",
                drawing: "",
                small: "",
            },
        ],
        shape: KeyShape::Words,
        selected: read_at,
        assumed: Signal::derive(|| None),
        on_choose: Callback::new(move |value: String| {
            let place = if value == "inside" {
                Thermometer::Inside
            } else {
                Thermometer::Outside
            };
            app.notebook.update(|notebook| notebook.morning.thermometer = place);
        }),
    };
    let usual = Signal::derive(move || format!("usual for {}", app.today.get().yesterday().month_name()));
    let outdoors = Memo::new(move |_| {
        app.notebook
            .with(|notebook| notebook.groups.iter().any(|group| group.place.is_outdoors()))
    });
    let outdoor_fields = move || {
        outdoors.get().then(|| {
            view! {
                {number(app, Field::Rain, "on plants outdoors".into())}
                {number(app, Field::Wind, "about 2 on an ordinary day, 5 in a strong breeze".into())}
            }
        })
    };
    let fields = view! {
        <div class="steps">
            {number(app, Field::SunshineHours, Signal::derive(move || weather(app, |weather| format!("of {} by day", decimal(weather.sun.daylight_hours, 1)))))}
            {number(app, Field::Warmest, usual)}
            {number(app, Field::Coolest, usual)}
            {number(app, Field::Humidity, "the day's mean; left out when empty".into())}
            {outdoor_fields}
        </div>
        {thermometer.view()}
    };
    More {
        id: "fine-tune",
        summary: "Fine-tune the weather".into(),
        aside: Signal::derive(move || {
            let units = app.units();
            weather(app, |weather| {
                format!(
                    "{} hours of sun, {} and {}",
                    decimal(weather.sunshine_hours(), 1),
                    words::degrees(weather.maximum, units),
                    words::degrees(weather.minimum, units)
                )
            })
        }),
        minor: true,
        open: false,
        on_toggle: Callback::new(|_| ()),
        children: fields.into_any(),
    }
    .view()
}

fn what_follows(app: App) -> AnyView {
    let lines = Signal::derive(move || {
        let units = app.units();
        app.answer(|answer| {
            let advice = answer.shown.iter().flat_map(|shown| &shown.advice);
            advice.map(|advice| words::advice_line(advice, units)).collect::<Vec<_>>()
        })
    });
    let present = Memo::new(move |_| lines.with(|lines| !lines.is_empty()));
    let section = move || {
        present.get().then(|| {
            Section {
                id: "what-follows",
                heading: "What follows".into(),
                aside: Signal::derive(move || several_name(app)),
                children: advice(lines),
            }
            .view()
        })
    };
    section.into_any()
}

/// The name of the group looked at, where there are several.
pub fn several_name(app: App) -> String {
    let several = app.notebook.with(|notebook| notebook.groups.len() > 1);
    if several { app.group(words::group_name) } else { String::new() }
}

fn show_working(app: App) -> AnyView {
    let lines = Signal::derive(move || {
        app.answer(|answer| {
            let steps = answer.shown.iter().flat_map(|shown| shown.dose.working.steps());
            let mut lines: Vec<_> = steps
                .map(|step| WorkingLine {
                    title: step.title.to_owned(),
                    formula: format!("{}, with {}", step.formula, step.values_line()),
                    result: format!("{} {}", step.result.symbol, step.result.printed()),
                    source: step.source.to_owned(),
                })
                .collect();
            if let Some(shown) = &answer.shown {
                lines.push(WorkingLine {
                    title: "To the jug".to_owned(),
                    formula: format!(
                        "{} litres, to the nearest mark of the jug",
                        decimal(shown.dose.per_plant.litres(), 2)
                    ),
                    result: words::amount(&shown.each),
                    source: "Quarter pints or 50 ml; 10 ml where the dose is small".to_owned(),
                });
            }
            lines
        })
    });
    More {
        id: "working",
        summary: "Show the working".into(),
        aside: Signal::derive(move || format!("{}, step by step", app.group(words::group_name))),
        minor: false,
        open: false,
        on_toggle: Callback::new(|_| ()),
        children: working(lines),
    }
    .view()
}

/// The usual cautions of watering.
fn with_care() -> AnyView {
    let cautions = [
        "The compost in your hand overrules any sum. A guide, not a promise.",
        "Seedlings and plants just potted on take spoonfuls, not pints: feel before you pour.",
        "Plain water on leaves does not scorch. Wet leaves at night invite grey mould.",
        "Mist and jets under glass: mains water only, never from a butt. A hose in a butt or can needs a check valve against back-siphon.",
        "Keep the lid on a butt: children and wildlife drown in them. Softened water is not for plants.",
        "Wilting in wet compost: do not water. Let it drain and shade the plant.",
    ];
    let items: Vec<_> = cautions.into_iter().map(|caution| view! { <li>{caution}</li> }).collect();
    Section {
        id: "care",
        heading: "With care".into(),
        aside: "".into(),
        children: view! { <ul class="cautions">{items}</ul> }.into_any(),
    }
    .view()
}
