//! Screens that are not built yet: each says plainly what it will do and works nothing out.

use leptos::prelude::*;

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
pub fn to_come(page: &'static ToCome) -> AnyView {
    let will: Vec<_> = page.will.iter().map(|sentence| view! { <li>{*sentence}</li> }).collect();
    view! {
        <div class="desk">
            <section class="plate whole">
                <div class="plate-h"><h1 id="question" tabindex="-1">{page.question}</h1></div>
                <p class="to-come">"Not built yet."</p>
            </section>
            <div class="sec"><h2>"What it will do"</h2><ul class="cautions">{will}</ul><p class="note mt">{page.until_then}</p></div>
        </div>
    }
    .into_any()
}
