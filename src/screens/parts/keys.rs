//! A row of keys of which one is pressed.

use leptos::prelude::*;

use super::{drawing, section_heading};

/// One key: a native radio button under a drawn face.
#[derive(Clone, Copy)]
pub struct Key {
    /// The value of the radio button.
    pub value: &'static str,
    /// The word on the face.
    pub words: &'static str,
    /// A symbol of the sprite, or empty for a key of words alone.
    pub drawing: &'static str,
    /// A smaller second line under the word, or empty.
    pub small: &'static str,
}

/// How the faces are laid out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum KeyShape {
    /// The drawing above the word, five to a row.
    Tall,
    /// The drawing beside the word, three to a row.
    Wide,
    /// Words alone, as many to a row as fit.
    Words,
}

/// A question answered by pressing one of a few keys.
pub struct Keys {
    /// The question.
    pub legend: &'static str,
    /// What the pressed key means, or how to answer; stands at the right of the question. May be empty.
    pub aside: Signal<String>,
    /// Whether the question is a heading of the page (true) or a field's label (false).
    pub headed: bool,
    /// The name of the radio buttons; unlike any other on the page.
    pub name: &'static str,
    /// The keys, in order.
    pub keys: Vec<Key>,
    /// How the faces are laid out.
    pub shape: KeyShape,
    /// The value of the pressed key.
    pub selected: Signal<Option<String>>,
    /// The value taken as long as nothing is pressed, marked by a dotted underline.
    pub assumed: Signal<Option<String>>,
    /// Told the value of the key that was pressed.
    pub on_choose: Callback<String>,
}

impl Keys {
    /// The keys as a group of radio buttons.
    #[must_use]
    pub fn view(self) -> AnyView {
        let Self {
            legend,
            aside,
            headed,
            name,
            keys,
            shape,
            selected,
            assumed,
            on_choose,
        } = self;
        let faces: Vec<_> = keys
            .into_iter()
            .map(|key| face(key, name, shape, selected, assumed, on_choose))
            .collect();
        let row = match shape {
            KeyShape::Tall => "keys tall",
            KeyShape::Wide => "keys wide",
            KeyShape::Words => "keys words",
        };
        let (class, heading) = if headed {
            ("sec keys-sec", section_heading(legend.into(), aside))
        } else {
            (
                "field-set",
                view! { <span class="lab">{legend}" "<small>{aside}</small></span> }.into_any(),
            )
        };
        view! {
            <fieldset class=class>
                <legend>{heading}</legend>
                <div class=row>{faces}</div>
            </fieldset>
        }
        .into_any()
    }
}

fn face(
    key: Key,
    name: &'static str,
    shape: KeyShape,
    selected: Signal<Option<String>>,
    assumed: Signal<Option<String>>,
    on_choose: Callback<String>,
) -> AnyView {
    let pressed = Signal::derive(move || selected.with(|chosen| chosen.as_deref() == Some(key.value)));
    let guessed = Signal::derive(move || selected.with(Option::is_none) && assumed.with(|guess| guess.as_deref() == Some(key.value)));
    let picture = (!key.drawing.is_empty()).then(|| drawing(key.drawing, if shape == KeyShape::Tall { "sky" } else { "squeeze" }));
    let small = (!key.small.is_empty()).then(|| view! { <small>{key.small}</small> });
    view! {
        <label class="key">
            <input type="radio" name=name value=key.value prop:checked=pressed
                on:change=move |_| on_choose.run(key.value.into()) />
            <span class="face" class:assumed=guessed>{picture}<span class="word">{key.words}{small}</span></span>
        </label>
    }
    .into_any()
}
