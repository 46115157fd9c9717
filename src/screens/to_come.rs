//! A screen that is not built yet: it says plainly what it will do and works nothing out.

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

/// Feed mix.
pub const FEED_MIX: ToCome = ToCome {
    question: "How much of this feed goes in this can, and is it time?",
    will: &[
        "Read the rate in your label's own words and turn it into an amount for your own can.",
        "Show what that gives each plant, and when the next feed is due.",
        "Help when leaves or fruit look wrong.",
    ],
    until_then: "Until then follow the label, never stronger than it says, from the time the first truss swells.",
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
