//! Screens that are not built yet: each says plainly what it will do and works nothing out.

use super::parts::{Element, element};

/// The words of a screen to come.
pub struct ToCome {
    /// The question it will answer.
    pub question: &'static str,
    /// What it will do, a sentence each.
    pub will: &'static [&'static str],
    /// What holds until then.
    pub until_then: &'static str,
}

/// Pest repeats.
pub const PEST_REPEATS: ToCome = ToCome {
    question: "When must I treat again, and when does the label let me pick?",
    will: &[
        "Work out from the temperature when eggs hatch and a treatment has to be repeated.",
        "Keep every date within what your label allows, and give none before you have read it.",
        "Show the first day on which the label lets you pick.",
    ],
    until_then: "Until then the label and the rules of your country decide, for every product and every date.",
};

/// The whole screen.
pub fn to_come(page: &'static ToCome) -> Vec<Element> {
    let question = element("h1").set("id", "question").set("tabindex", "-1").text(page.question);
    let plate = element("section")
        .class("plate whole")
        .child(element("div").class("plate-h").child(question))
        .child(element("p").class("to-come").text("Not built yet."));
    let will = page.will.iter().map(|sentence| element("li").text(*sentence));
    let rest = element("div")
        .class("sec")
        .child(element("h2").text("What it will do"))
        .child(element("ul").class("cautions").children(will))
        .child(element("p").class("note mt").text(page.until_then));
    vec![element("div").class("desk").child(plate).child(rest)]
}
