//! A row of keys of which one is pressed.

use super::{Act, Element, Live, Words, drawing, element, live, section_heading};

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
    /// The drawing above the word, three to a row.
    Drawn,
    /// Words alone, as many to a row as fit.
    Plain,
}

/// A question answered by pressing one of a few keys.
pub struct Keys {
    /// The question.
    pub legend: &'static str,
    /// What the pressed key means, or how to answer; stands at the right of the question. May be empty.
    pub aside: Words,
    /// Whether the question is a heading of the page (true) or a field's label (false).
    pub headed: bool,
    /// The name of the radio buttons; unlike any other on the page.
    pub name: &'static str,
    /// The keys, in order.
    pub faces: Vec<Key>,
    /// How the faces are laid out.
    pub shape: KeyShape,
    /// The value of the pressed key.
    pub selected: Live<Option<String>>,
    /// The value taken as long as nothing is pressed, marked by a dotted underline.
    pub assumed: Live<Option<String>>,
    /// Told the value of the key that was pressed.
    pub on_choose: Act<String>,
}

impl Keys {
    /// The keys as a group of radio buttons.
    #[must_use]
    pub fn view(self) -> Element {
        let legend = element("legend");
        let (class, legend) = if self.headed {
            (
                "sec keys-sec",
                legend.child(section_heading(self.legend.into(), self.aside.clone())),
            )
        } else {
            let aside = element("small").text(self.aside.clone());
            (
                "field-set",
                legend.child(element("span").class("lab").text(self.legend).text(" ").child(aside)),
            )
        };
        let row = element("div").class(match self.shape {
            KeyShape::Tall => "keys tall",
            KeyShape::Wide => "keys wide",
            KeyShape::Drawn => "keys drawn",
            KeyShape::Plain => "keys words",
        });
        let faces: Vec<_> = self.faces.iter().map(|&key| self.face(key)).collect();
        element("fieldset").class(class).child(legend).child(row.children(faces))
    }

    fn face(&self, key: Key) -> Element {
        let Self {
            name,
            shape,
            selected,
            assumed,
            on_choose,
            ..
        } = self;
        let value = key.value;
        let (chosen, choose) = (selected.clone(), on_choose.clone());
        let pressed = live(move || chosen.get().as_deref() == Some(value));
        let (chosen, guess) = (selected.clone(), assumed.clone());
        let guessed = live(move || chosen.get().is_none() && guess.get().as_deref() == Some(value));
        let mut face = element("span").class("face").class_when("assumed", guessed);
        if !key.drawing.is_empty() {
            let size = match *shape {
                KeyShape::Tall => "sky",
                KeyShape::Drawn => "pest",
                _ => "squeeze",
            };
            face = face.child(drawing(key.drawing, size));
        }
        let mut word = element("span").class("word").text(key.words);
        if !key.small.is_empty() {
            word = word.child(element("small").text(key.small));
        }
        let radio = element("input")
            .set("type", "radio")
            .set("name", *name)
            .set("value", key.value)
            .property_when("checked", pressed)
            .on("change", move |_| choose.run(value.into()));
        element("label").class("key").child(radio).child(face.child(word))
    }
}
