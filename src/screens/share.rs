//! Handing over to whoever waters: what goes along, the link, its square code, and the ways to pass it on.

use leptos_dom::helpers::request_animation_frame;
use wasm_bindgen::JsCast as _;

use super::ahead::days_words;
use super::app::App;
use super::away::{asked, visits};
use super::fields::tick;
use super::model::Model;
use super::parts::{Element, More, TextField, Words, act, button, element, error_note, focus_on, live, say, square_code, words};
use super::share_state::{Passed, plan, still_away};
use crate::browser::{address_with, can_share, copy_text, share_address};
use crate::notebook::{LONGEST_FOR_SQUARE, NAME_LENGTH, check_of_link};

/// The disclosure.
pub fn share(app: App) -> Element {
    More {
        id: "share",
        summary: "Hand over by a link".into(),
        aside: "for a neighbour’s phone".into(),
        minor: false,
        on_toggle: act(move |()| app.refresh()),
        children: Box::new(move || inside(app)),
    }
    .view()
}

fn inside(app: App) -> Element {
    let whose = TextField {
        name: "share-plot".to_owned(),
        label: "Whose plot".into(),
        text: app.live(|model| model.share.plot.clone()),
        assumed: live(|| None),
        hint: "as your neighbour knows it; may stay empty".into(),
        error: live(|| None),
        on_text: act(move |typed: String| {
            app.show(|model| model.share.plot = typed.chars().filter(|sign| !sign.is_control()).take(NAME_LENGTH).collect());
        }),
    };
    let ticks = element("div").class("steps mt").children([
        tick(
            app,
            "share-names",
            "The names of your groups",
            "otherwise: under glass, tunnel, outdoors",
            |model| model.share.with_names,
            |model, is_so| model.share.with_names = is_so,
        ),
        tick(
            app,
            "share-feed",
            "When to feed, and how much",
            "once you have noted a feed",
            |model| !model.share.without_feed,
            |model, is_so| model.share.without_feed = !is_so,
        ),
        tick(
            app,
            "share-treatments",
            "What is done by hand against pests",
            "when it falls due on Pest repeats",
            |model| !model.share.without_treatments,
            |model, is_so| model.share.without_treatments = !is_so,
        ),
        tick(
            app,
            "share-sprays",
            "Sprays and bait as well",
            "only for someone who has the label in hand",
            |model| model.share.with_sprays,
            |model, is_so| model.share.with_sprays = is_so,
        ),
    ]);
    let told = app.words(|model| {
        let absence = model.notebook.away.absence(model.today);
        let (first, left) = still_away(absence.first, absence.days, model.today);
        let days = days_words(f64::from(left));
        [
            "It begins: “",
            &asked(model, (first, left), visits(model, first, left)),
            "” For ",
            &days,
            " from ",
            &first.spoken(),
            ", as “Going away” says. The link holds your plants, how thirsty they have been, roughly how far north you are, to half a degree, and from when one may pick after a spray. \
             Your notes, your labels and your exact place stay here. Nothing is sent anywhere by this page: you pass the link on yourself.",
        ]
        .concat()
    });
    let make = act(move |()| {
        app.change(make);
        request_animation_frame(|| focus_on("#share-link button"));
    });
    let result = element("div").set("id", "share-link").fill_for(
        move || {
            let model = app.look();
            link(&model).unwrap_or_else(|| model.share.link.is_some().to_string())
        },
        move || handed(app),
    );
    element("div").children([
        element("p").class("note").text(told),
        element("div").class("mt").child(whose.view()),
        ticks,
        element("div").class("btn-row").child(button("Make the link".into(), make)),
        result,
    ])
}

/// Makes the link, and remembers it in the notebook, so that the list that comes back is known.
fn make(model: &mut Model) {
    model.share.passed = None;
    model.share.link = plan(model).map(|plan| plan.link());
    if let Some(link) = &model.share.link {
        model.notebook.hand_out(check_of_link(link));
    }
}

/// The link, as long as it says what one made now would.
fn link(model: &Model) -> Option<String> {
    let link = model.share.link.clone()?;
    (plan(model)?.link() == link).then_some(link)
}

fn handed(app: App) -> Vec<Element> {
    let Some(link) = link(&app.look()) else {
        let was_made = app.look().share.link.is_some();
        if was_made {
            return vec![
                element("p")
                    .class("note mt")
                    .text("Something has changed since it was made: make the link again."),
            ];
        }
        return Vec::new();
    };
    let address = address_with(&link);
    let mut parts = vec![pass_on(
        app,
        "share-address",
        "The plants to water".into(),
        words({
            let address = address.clone();
            move || address.clone()
        }),
    )];
    if address.len() <= LONGEST_FOR_SQUARE {
        let code = square_code(&address, "Square code of the link").map(|code| element("div").class("square").child(code));
        parts.extend(code);
        parts.push(
            element("p")
                .class("note")
                .text("Your neighbour’s camera opens the link from the square."),
        );
    } else {
        let too_long = "The link is too long for a square code: send it, or leave out names and treatments.";
        parts.push(error_note(too_long.into()));
    }
    parts
}

const fn passed_words(passed: Passed) -> &'static str {
    match passed {
        Passed::Sent => "Handed over to be sent.",
        Passed::Copied => "Copied: paste it into a message.",
        Passed::ByHand => "This browser does not copy: select the text and copy it yourself.",
    }
}

/// The ways to pass a link on: the device's own sheet, the clipboard, the text itself.
pub fn pass_on(app: App, id: &'static str, title: Words, address: Words) -> Element {
    let note = move |passed: Passed| {
        app.show(move |model| model.share.passed = Some(passed));
        say(passed_words(passed));
    };
    let here = address.clone();
    let copy = act(move |()| {
        copy_text(&here.get(), move |done| note(if done { Passed::Copied } else { Passed::ByHand }));
    });
    let mut ways = Vec::new();
    if can_share() {
        let here = address.clone();
        let send = act(move |()| {
            share_address(&title.get(), &here.get(), move |done| {
                if done {
                    note(Passed::Sent);
                }
            });
        });
        ways.push(button("Send the link".into(), send));
    }
    ways.push(button("Copy the link".into(), copy));
    let told = app.words(|model| model.share.passed.map(passed_words).unwrap_or_default().to_owned());
    let text = element("textarea")
        .set("id", id)
        .set("name", id)
        .set("readonly", "")
        .set("rows", "4")
        .set("spellcheck", "false")
        .set("aria-label", "The link as text")
        .text(address)
        .on("focus", |event| {
            let field = event
                .target()
                .and_then(|target| target.dyn_into::<web_sys::HtmlTextAreaElement>().ok());
            if let Some(field) = field {
                field.select();
            }
        });
    element("div").class("mt").children([
        element("div").class("btn-row").children(ways),
        element("p").class("note").set("id", "passed").text(told),
        element("div").class("link-text").child(text),
    ])
}
