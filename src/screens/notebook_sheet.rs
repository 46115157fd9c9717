//! The notebook: whose plot, which units, where, and what is kept.

use super::ahead::drinkers;
use super::app::App;
use super::copy::copy;
use super::fields::{can_holds, choice, number};
use super::parts::{Element, Key, KeyShape, Keys, TextField, act, button, element, live, plain_section, words};
use super::route::Route;
use super::share::share;
use super::words as say;
use crate::almanac::{DISTRICTS, Latitude};
use crate::browser::save_to_file;
use crate::notebook::{Coded, Entry, Field, Plot, seal, season_table};
use crate::quantity::{TemperatureScale, UnitSystem, Units};

/// The whole screen.
pub fn notebook_sheet(app: App) -> Vec<Element> {
    let title = element("h1")
        .class("sheet-title")
        .set("id", "question")
        .set("tabindex", "-1")
        .text("Notebook");
    let desk = element("div")
        .class("desk")
        .children([title, set_aside(app), plot(app), measures(app)]);
    let leaves = element("div").class("leaves").children([place(app), kept(app)]);
    vec![desk, leaves]
}

fn plot(app: App) -> Element {
    let line =
        |name: &str, label: &'static str, hint: &'static str, read: fn(&Plot) -> &str, write: fn(&mut Plot, String), longest: usize| {
            TextField {
                name: name.to_owned(),
                label: label.into(),
                text: app.live(move |model| read(&model.notebook.plot).to_owned()),
                assumed: live(|| None),
                hint: hint.into(),
                error: live(|| None),
                on_text: act(move |typed: String| {
                    app.change(|model| write(&mut model.notebook.plot, typed.chars().take(longest).collect()));
                }),
            }
            .view()
        };
    let fields = element("div").class("steps").children([
        line(
            "plot-name",
            "Name of the plot",
            "at the top of every page",
            |plot| &plot.name,
            |plot, name| plot.name = name,
            40,
        ),
        line(
            "plot-number",
            "Number",
            "for the badge; 4 characters at most",
            |plot| &plot.number,
            |plot, number| plot.number = number,
            4,
        ),
    ]);
    let fields = element("div").child(fields).child(can_holds(app, "filled to the brim"));
    plain_section("plot", "The plot", fields)
}

fn measures(app: App) -> Element {
    let change = move |change: &dyn Fn(&mut Units)| {
        app.change(|model| {
            let mut units = model.notebook.units;
            change(&mut units);
            model.change_units(units);
            model.open_day(model.changed_day);
        });
    };
    let small = ["gallons, feet", "metres", "US gallons, feet"];
    let systems = say::MEASURES.iter().zip(small).map(|((system, words), small)| Key {
        value: system.code(),
        words,
        drawing: "",
        small,
    });
    let system = Keys {
        legend: "Water and lengths",
        aside: "".into(),
        headed: false,
        name: "units",
        faces: systems.collect(),
        shape: KeyShape::Plain,
        selected: app.live(move |model| Some(model.units().system.code().to_owned())),
        assumed: live(|| None),
        on_choose: act(move |value: String| {
            if let Some(system) = UnitSystem::from_code(&value) {
                change(&|units| units.system = system);
            }
        }),
    };
    let scales = say::SCALES.iter().map(|(scale, words)| Key {
        value: scale.code(),
        words,
        drawing: "",
        small: "",
    });
    let scale = Keys {
        legend: "Thermometer",
        aside: "".into(),
        headed: false,
        name: "temperature-scale",
        faces: scales.collect(),
        shape: KeyShape::Plain,
        selected: app.live(move |model| Some(model.units().temperature.code().to_owned())),
        assumed: live(|| None),
        on_choose: act(move |value: String| {
            if let Some(scale) = TemperatureScale::from_code(&value) {
                change(&|units| units.temperature = scale);
            }
        }),
    };
    plain_section(
        "measures",
        "Measures",
        element("div")
            .child(system.view())
            .child(element("div").class("mt").child(scale.view())),
    )
}

fn place(app: App) -> Element {
    let mut entries = vec![("", "Not in this list".to_owned())];
    entries.extend(DISTRICTS.iter().map(|district| (district.name, district.name.to_owned())));
    let district = choice(
        app,
        "district",
        "Nearest district",
        entries,
        |model| {
            let notebook = &model.notebook;
            let here = notebook.latitude.value().map(|_| notebook.place());
            let found = DISTRICTS
                .iter()
                .find(|district| Latitude::from_degrees_north(district.degrees_north).ok() == here);
            found.map_or("", |district| district.name).to_owned()
        },
        |model, value| {
            if let Some(district) = DISTRICTS.iter().find(|district| district.name == value) {
                model.notebook.latitude = Entry::holding(Field::Latitude, model.units(), district.degrees_north);
            }
        },
    );
    let fields = element("div").class("steps").child(district).child(number(
        app,
        Field::Latitude,
        "43.5 S or −43.5 south of the equator; to half a degree",
    ));
    let note = "The latitude says how high the sun stands and what weather is usual. Nothing finer is kept.";
    plain_section(
        "place",
        "Where the plot lies",
        element("div").child(fields).child(element("p").class("note mt").text(note)),
    )
}

fn kept(app: App) -> Element {
    let save = act(move |()| {
        let model = app.look();
        // A browser that refuses says so itself.
        let _ = save_to_file(&format!("first-truss-{}.txt", model.today), &seal(&model.notebook, 0));
    });
    let table = act(move |()| {
        let model = app.look();
        let groups = drinkers(&model)
            .into_iter()
            .map(|(record, season)| (say::group_name(record), season));
        let _ = save_to_file(&format!("first-truss-{}.csv", model.today), &season_table(groups));
    });
    let told = words(move || {
        let sentence = if app.look().not_kept {
            "This browser does not keep anything for this page: save a copy to a file before you leave."
        } else {
            "Kept on this device only. Nothing leaves it, and nothing is sent anywhere."
        };
        sentence.to_owned()
    });
    let sheets = [Route::Week, Route::WholeSeason].map(|route| {
        let link = element("a").class("link").set("href", route.fragment());
        link.text(route.name())
    });
    let body = element("div").children([
        element("p").text(told),
        element("div").class("btn-row mt").children([
            button("Save a copy to a file".into(), save),
            button("Save the season as a table".into(), table),
        ]),
        copy(app),
        element("p").class("link-row").children(sheets),
        share(app),
        notices(),
    ]);
    plain_section("kept", "What is kept", body)
}

/// The way to the licences of the libraries in the page.
fn notices() -> Element {
    // In a window of its own: an installed page has no way back from a plain text.
    let link = element("a")
        .class("link")
        .set("href", "notices.txt")
        .set("target", "_blank")
        .set("rel", "noopener");
    element("p").child(link.text("Licences of the libraries in this page"))
}

/// What was set aside, with a way to keep it.
fn set_aside(app: App) -> Element {
    let texts = app.set_aside_texts();
    if texts.is_empty() {
        return element("div");
    }
    let words = if texts.len() == 1 {
        "A notebook could not be read and was set aside, unchanged."
    } else {
        "Some notebooks could not be read and were set aside, unchanged."
    };
    let saves = texts.into_iter().zip(1..).map(|(text, number)| {
        let save = act(move |()| {
            // A browser that refuses says so itself.
            let _ = save_to_file(&format!("first-truss-set-aside-{number}.txt"), &text);
        });
        button(format!("Save set-aside text {number} to a file").into(), save)
    });
    let body = element("div")
        .child(element("p").text(words))
        .child(element("div").class("btn-row mt").children(saves));
    plain_section("set-aside", "Set aside", body)
}
