//! The drawn plant on its cane, by which height and trusses are set.

use wasm_bindgen::JsCast as _;

use super::{
    Act, Element, Live, Words,
    drawing::{measured, symbol},
    drawn, element, live,
    plant_frame::{BUTTON, Frame, HEADROOM, MOST_TRUSSES, PIXELS_PER_METRE, WIDTH},
    strokes::strokes,
    words,
};

/// A mark on the cane's scale.
#[derive(Clone, Debug, PartialEq)]
pub struct CaneMark {
    /// Its height over the compost, in metres.
    pub height_metres: f64,
    /// What is written at it.
    pub words: String,
}

/// A cordon plant drawn from leaves, trusses, cane and container.
pub struct Cordon {
    /// The plant's height in metres, 0.1–2.5.
    pub height_metres: Live<f64>,
    /// How many trusses are set, 0–12.
    pub trusses: Live<u32>,
    /// The height on the tag that rides the cane, such as *5 ft*.
    pub tag: Words,
    /// The scale beside the cane, lowest first.
    pub marks: Live<Vec<CaneMark>>,
    /// The unit over the scale.
    pub unit: Words,
    /// A symbol of the sprite: `base-bag`, `base-pot`, `base-basket`, `base-border`, `base-ring`.
    pub container: Live<&'static str>,
    /// The whole drawing in words.
    pub words: Words,
    /// Told the number of the truss that was tapped, counted from the lowest.
    pub on_truss: Act<u32>,
}

impl Cordon {
    /// The plant with a button for each truss.
    #[must_use]
    pub fn view(self) -> Element {
        let Self {
            height_metres,
            trusses,
            tag,
            marks,
            unit,
            container,
            words: label,
            on_truss,
        } = self;
        let frame = live(move || Frame::new(height_metres.get(), trusses.get()));
        let path = |path: fn(Frame) -> String| {
            let frame = frame.clone();
            words(move || path(frame.get()))
        };
        let tag = drawn("text").class("tag-n").set("x", "47").set("y", "-6").text(tag);
        let tag_place = path(|frame| measured("translate(0 #)", &[frame.tip]));
        let (standing, marked) = (frame.clone(), frame.clone());
        let (now, written) = (frame.clone(), unit.clone());
        let scale_key = move || written.get() + &measured("#", &[now.get().ground]);
        let flora = drawn("g").class("flora");
        let plant = drawn("svg")
            .class("plant")
            .set("width", measured("#", &[WIDTH]))
            .set("height", path(|frame| measured("#", &[frame.height])))
            .set("viewBox", path(|frame| measured("0 0 # #", &[WIDTH, frame.height])))
            .set("role", "img")
            .set("aria-label", label)
            .child(drawn("g").fill_for(scale_key, move || scale(marked.get(), marks.get(), unit.get())))
            .child(strokes(flora, live(move || standing.get().plant(container.get()))))
            .child(drawn("path").class("ink tick").set("d", path(Frame::leaders)))
            .child(drawn("g").set("transform", tag_place).child(symbol("height-tag")).child(tag));
        let buttons = (1..=MOST_TRUSSES).map(|number| truss_button(number, &frame, &on_truss));
        let column = place_buttons(element("ol").class("trusses").children(buttons), frame.clone());
        element("div").class("cordon").child(plant).child(column).unhurried()
    }
}

/// Sets the column of buttons beside the trusses. Only the script may set a style: the content policy forbids it in text.
fn place_buttons(column: Element, frame: Live<Frame>) -> Element {
    let node = column.node().clone();
    column.follow(Box::new(move || {
        let Frame {
            height,
            lowest_button,
            button_pitch,
            ..
        } = frame.get();
        let style = node.unchecked_ref::<web_sys::HtmlElement>().style();
        let _ = style.set_property("padding-bottom", &measured("#px", &[height - lowest_button - BUTTON / 2.0]));
        let _ = style.set_property("row-gap", &measured("#px", &[button_pitch - BUTTON]));
    }))
}

/// The scale at the left: one line with a tick and a word for each mark.
fn scale(frame: Frame, marks: Vec<CaneMark>, unit: String) -> Vec<Element> {
    let label = |y: f64, words: String| {
        drawn("text")
            .class("cap mid")
            .set("x", "9")
            .set("y", measured("#", &[y]))
            .text(words)
    };
    let mut ticks = measured("M24 #V#", &[HEADROOM, frame.ground]);
    let mut parts = vec![label(HEADROOM + 8.0, unit)];
    for mark in marks {
        let y = frame.ground - mark.height_metres * PIXELS_PER_METRE;
        if y > HEADROOM + 16.0 {
            ticks += &measured("M20 #h8", &[y]);
            parts.push(label(y + 5.0, mark.words));
        }
    }
    parts.push(drawn("path").class("ink tick").set("d", ticks));
    parts
}

fn truss_button(number: u32, frame: &Live<Frame>, on_truss: &Act<u32>) -> Element {
    let (now, truss) = (frame.clone(), on_truss.clone());
    let set = live(move || number <= now.get().set);
    let pressed = set.clone();
    let label = words(move || {
        let state = if set.get() { ", set" } else { ", in flower" };
        String::from("Truss ") + &number.to_string() + state
    });
    let button = element("button")
        .set("type", "button")
        .class("pip")
        .set("aria-pressed", words(move || pressed.get().to_string()))
        .set("aria-label", label)
        .child(element("span").text(number.to_string()))
        .on("click", move |_| truss.run(number));
    let now = frame.clone();
    element("li")
        .set_when("hidden", "", live(move || number > now.get().trusses))
        .child(button)
}
