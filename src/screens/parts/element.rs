//! One element of the page, built straight into the document.
//!
//! A `view!` gives every element a type of its own, which costs two to three kilobytes of program each; a page of many
//! small pieces would be twice as heavy as the whole page may be. An [`Element`] is always the same type: it makes its node
//! at once, and keeps what it shows that may change as data. [`Element::refresh`] goes through all of that and writes what
//! has become different, so nothing has to remember which value hangs on which. A drawing that is slow to lay out may wait
//! until the answer stands there: [`Element::unhurried`].

use std::{
    cell::{Cell, RefCell},
    sync::atomic::{AtomicBool, Ordering},
};

use leptos_dom::helpers::{document, window};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};

use super::{Live, Words, live};

/// An element of the page with all that belongs to it. One pointer: so it is handed from call to call without a copy.
pub struct Element(Box<Built>);

struct Built {
    node: web_sys::Element,
    /// Dropped with the element.
    kept: Vec<Kept>,
    turn: Turn,
}

/// When an element is refreshed.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Turn {
    First,
    Usual,
    Unhurried,
}

/// What of a page is refreshed.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Pass {
    /// The answer alone.
    First,
    /// All but what is unhurried.
    Now,
    /// What is unhurried.
    Later,
    /// Everything.
    Whole,
}

/// What belongs to an element.
enum Kept {
    Inner(Element),
    Filling(Box<Filling>),
    Written(Box<Written>),
    Switched(Box<Switched>),
    Followed(Box<dyn Fn()>),
    Listener(#[expect(dead_code, reason = "the browser calls it as long as it is kept")] Listener),
}

type Listener = Closure<dyn FnMut(web_sys::Event)>;

/// Words that are written anew when they have changed.
struct Written {
    place: Place,
    words: Live<String>,
    before: RefCell<Option<String>>,
}

/// Where words go.
enum Place {
    Text(web_sys::Text),
    Attribute(web_sys::Element, &'static str),
    /// A field, with what stands in it as long as there are no words.
    Value(web_sys::HtmlInputElement, Live<Option<String>>),
}

/// What is so or is not, and is set anew when it has changed.
struct Switched {
    node: web_sys::Element,
    switch: Switch,
    on: Live<bool>,
    before: Cell<Option<bool>>,
}

/// What is switched.
enum Switch {
    Class(&'static str),
    Attribute(&'static str, &'static str),
    Property(&'static str),
}

/// Elements that are made anew when the key has changed.
struct Filling {
    node: web_sys::Element,
    key: Live<String>,
    children: Box<dyn Fn() -> Vec<Element>>,
    shown: RefCell<Option<(String, Vec<Element>)>>,
}

/// Makes an HTML element.
#[must_use]
pub fn element(tag: &'static str) -> Element {
    Element::new(document().create_element(tag))
}

/// Makes an element of a drawing.
#[must_use]
pub fn drawn(tag: &'static str) -> Element {
    Element::new(document().create_element_ns(Some("http://www.w3.org/2000/svg"), tag))
}

impl Element {
    /// Tags are written in this program and valid, so the document never refuses one.
    fn new(node: Result<web_sys::Element, JsValue>) -> Self {
        let node = node.unwrap_or_else(JsCast::unchecked_into);
        Self(Box::new(Built {
            node,
            kept: Vec::new(),
            turn: Turn::Usual,
        }))
    }

    /// The node in the document.
    #[must_use]
    pub fn node(&self) -> &web_sys::Element {
        &self.0.node
    }

    /// Writes what has changed, in the element and in all that is inside it.
    pub fn refresh(&self, pass: Pass) {
        let pass = match (pass, self.0.turn) {
            (Pass::First | Pass::Now, Turn::Unhurried) => return,
            (Pass::First, Turn::First) | (Pass::Later, Turn::Unhurried) => Pass::Whole,
            _ => pass,
        };
        for kept in &self.0.kept {
            kept.refresh(pass);
        }
    }

    /// Lets the element, with all that is inside it, wait until the rest of the page stands there.
    #[must_use]
    pub fn unhurried(mut self) -> Self {
        self.0.turn = Turn::Unhurried;
        self
    }

    /// Writes the element, with all that is inside it, before the rest of the page.
    #[must_use]
    pub fn first(mut self) -> Self {
        self.0.turn = Turn::First;
        self
    }

    #[inline(never)]
    fn keep(mut self, what: Kept) -> Self {
        what.refresh(Pass::Whole);
        self.0.kept.push(what);
        self
    }

    /// Does `what` now and at every refresh.
    #[must_use]
    pub fn follow(self, what: Box<dyn Fn()>) -> Self {
        self.keep(Kept::Followed(what))
    }

    /// Its classes.
    #[must_use]
    pub fn class(self, names: &'static str) -> Self {
        self.attribute("class", names)
    }

    #[inline(never)]
    fn attribute(self, name: &'static str, value: &str) -> Self {
        let _ = self.0.node.set_attribute(name, value);
        self
    }

    /// A class it has as long as `on` is true.
    #[must_use]
    pub fn class_when(self, name: &'static str, on: Live<bool>) -> Self {
        self.switch(Switch::Class(name), on)
    }

    /// An attribute.
    #[must_use]
    pub fn set(self, name: &'static str, value: impl Into<Words>) -> Self {
        match value.into() {
            Words::Fixed(value) => self.attribute(name, &value),
            Words::Live(value) => {
                let place = Place::Attribute(self.0.node.clone(), name);
                self.written(place, value)
            }
        }
    }

    /// An attribute that is present with `value` as long as `on` is true.
    #[must_use]
    pub fn set_when(self, name: &'static str, value: &'static str, on: Live<bool>) -> Self {
        self.switch(Switch::Attribute(name, value), on)
    }

    /// The text of a field, and what stands there as long as it is empty. It is set only where it differs, so that the cursor
    /// of a grower who is typing stays where it is; a field that was just cleared stays empty until it is left.
    #[must_use]
    pub fn value(self, words: Live<String>, assumed: Live<Option<String>>) -> Self {
        let place = Place::Value(self.0.node.clone().unchecked_into(), assumed);
        self.written(place, words)
    }

    /// A property of the node that is true or false, such as `checked`.
    #[must_use]
    pub fn property_when(self, name: &'static str, value: Live<bool>) -> Self {
        self.switch(Switch::Property(name), value)
    }

    fn written(self, place: Place, words: Live<String>) -> Self {
        let before = RefCell::new(None);
        self.keep(Kept::Written(Box::new(Written { place, words, before })))
    }

    fn switch(self, switch: Switch, on: Live<bool>) -> Self {
        let (node, before) = (self.0.node.clone(), Cell::new(None));
        self.keep(Kept::Switched(Box::new(Switched { node, switch, on, before })))
    }

    /// Calls `handler` at every such event.
    #[must_use]
    pub fn on(self, event: &str, handler: impl FnMut(web_sys::Event) + 'static) -> Self {
        self.listen(event, Box::new(handler))
    }

    fn listen(self, event: &str, handler: Box<dyn FnMut(web_sys::Event)>) -> Self {
        let listener = Closure::wrap(handler);
        let _ = self
            .0
            .node
            .add_event_listener_with_callback(event, listener.as_ref().unchecked_ref());
        self.keep(Kept::Listener(listener))
    }

    /// Words inside it, after what it already holds.
    #[must_use]
    pub fn text(self, words: impl Into<Words>) -> Self {
        self.write(words.into())
    }

    fn write(self, words: Words) -> Self {
        match words {
            Words::Fixed(words) => self.write_once(&words),
            Words::Live(words) => {
                let text = self.node_for("");
                self.written(Place::Text(text), words)
            }
        }
    }

    #[inline(never)]
    fn write_once(self, words: &str) -> Self {
        self.node_for(words);
        self
    }

    /// Puts words inside it.
    fn node_for(&self, words: &str) -> web_sys::Text {
        let text = document().create_text_node(words);
        let _ = self.0.node.append_child(&text);
        text
    }

    /// Another element inside it, after what it already holds.
    #[must_use]
    #[inline(never)]
    pub fn child(mut self, child: Element) -> Self {
        let _ = self.0.node.append_child(&child.0.node);
        if !child.0.kept.is_empty() {
            self.0.kept.push(Kept::Inner(child));
        }
        self
    }

    /// Several elements inside it, after what it already holds.
    #[must_use]
    pub fn children(self, children: impl IntoIterator<Item = Element>) -> Self {
        children.into_iter().fold(self, Self::child)
    }

    /// Fills it with elements, and anew when `key` has changed: a field inside keeps its focus and its caret as long as it
    /// has not. It must hold nothing else.
    #[must_use]
    pub fn fill_for(self, key: impl Fn() -> String + 'static, children: impl Fn() -> Vec<Element> + 'static) -> Self {
        self.fill(live(key), Box::new(children))
    }

    fn fill(self, key: Live<String>, children: Box<dyn Fn() -> Vec<Element>>) -> Self {
        let (node, shown) = (self.0.node.clone(), RefCell::new(None));
        self.keep(Kept::Filling(Box::new(Filling {
            node,
            key,
            children,
            shown,
        })))
    }
}

impl Pass {
    /// Whether it goes past everything that is not marked for it.
    fn is_partial(self) -> bool {
        matches!(self, Self::First | Self::Later)
    }
}

impl Kept {
    fn refresh(&self, pass: Pass) {
        match self {
            Self::Inner(element) => element.refresh(pass),
            Self::Filling(filling) => filling.refresh(pass),
            _ if pass.is_partial() => (),
            Self::Written(written) => written.refresh(),
            Self::Switched(switched) => switched.refresh(),
            Self::Followed(what) => what(),
            Self::Listener(_) => (),
        }
    }
}

impl Filling {
    fn refresh(&self, pass: Pass) {
        let key = if pass.is_partial() { None } else { Some(self.key.get()) };
        if let Some((before, elements)) = &*self.shown.borrow()
            && key.as_ref().is_none_or(|key| before == key)
        {
            return elements.iter().for_each(|element| element.refresh(pass));
        }
        let Some(key) = key else { return };
        let elements = (self.children)();
        self.node.set_text_content(None);
        for element in &elements {
            let _ = self.node.append_child(&element.0.node);
        }
        self.shown.replace(Some((key, elements)));
    }
}

impl Written {
    fn refresh(&self) {
        let words = self.words.get();
        if self.before.borrow().as_ref() == Some(&words) {
            return;
        }
        match &self.place {
            Place::Text(text) => text.set_data(&words),
            Place::Attribute(node, name) => {
                let _ = node.set_attribute(name, &words);
            }
            // The grower writes there too: what the program wrote last says nothing.
            Place::Value(field, assumed) => return set_value(field, words, assumed),
        }
        self.before.replace(Some(words));
    }
}

impl Switched {
    fn refresh(&self) {
        let on = self.on.get();
        // A property is set by the grower's finger too: what the program set last says nothing.
        let is_property = matches!(self.switch, Switch::Property(_));
        if self.before.replace(Some(on)) == Some(on) && !is_property {
            return;
        }
        match self.switch {
            Switch::Class(name) => {
                let _ = self.node.class_list().toggle_with_force(name, on);
            }
            Switch::Attribute(name, value) => {
                let _ = if on {
                    self.node.set_attribute(name, value)
                } else {
                    self.node.remove_attribute(name)
                };
            }
            Switch::Property(name) => {
                let (name, on) = (JsValue::from_str(name), JsValue::from_bool(on));
                if js_sys::Reflect::get(&self.node, &name).is_ok_and(|present| present != on) {
                    let _ = js_sys::Reflect::set(&self.node, &name, &on);
                }
            }
        }
    }
}

/// Whether the field that has the focus keeps what is typed in it, whatever was changed elsewhere.
static TYPING_IS_HELD: AtomicBool = AtomicBool::new(false);

/// Lets the field that has the focus keep what is typed in it, or no longer.
pub fn hold_typing(held: bool) {
    TYPING_IS_HELD.store(held, Ordering::Relaxed);
}

/// Whether an event is that of a field for typing.
pub fn is_for_typing(event: &web_sys::Event) -> bool {
    let field = event.target();
    field.is_some_and(|field| field.unchecked_ref::<web_sys::Element>().matches(":read-write") == Ok(true))
}

/// Takes the focus from the field that has it.
pub fn leave_field() {
    let field = document().active_element();
    if let Some(field) = field.and_then(|field| field.dyn_into::<web_sys::HtmlInputElement>().ok()) {
        let _ = field.blur();
    }
}

fn set_value(field: &web_sys::HtmlInputElement, words: String, assumed: &Live<Option<String>>) {
    let present = field.value();
    let just_cleared = words.is_empty() && present.is_empty();
    if (just_cleared || TYPING_IS_HELD.load(Ordering::Relaxed)) && document().active_element().as_ref() == Some(field.as_ref()) {
        return;
    }
    let words = if words.is_empty() {
        assumed.get().unwrap_or_default()
    } else {
        words
    };
    if words != present {
        field.set_value(&words);
    }
}

/// Calls `handler` at every such event of the window, as long as the page is open.
pub fn on_window(event: &str, handler: impl FnMut(web_sys::Event) + 'static) {
    let handler: Box<dyn FnMut(web_sys::Event)> = Box::new(handler);
    let listener = Closure::wrap(handler);
    let _ = window().add_event_listener_with_callback(event, listener.as_ref().unchecked_ref());
    listener.forget();
}
