//! One element of the page, built straight into the document.
//!
//! A `view!` gives every element a type of its own, which costs two to three kilobytes of program each; a page of many
//! small pieces would be twice as heavy as the whole page may be. An [`Element`] is always the same type: it makes its
//! node at once and keeps the effects and listeners that belong to it. Signals, memos, effects and owners are Leptos's.

use std::{
    any::Any,
    cell::RefCell,
    sync::atomic::{AtomicBool, Ordering},
};

use leptos::{
    prelude::{Owner, RenderEffect, document, untrack},
    tachys::view::{Mountable, Render},
};
use wasm_bindgen::{JsCast, JsValue, closure::Closure};

use super::{Live, Words};

/// An element of the page with all that belongs to it.
pub struct Element {
    node: web_sys::Element,
    /// Effects, listeners and inner elements: dropped with the element.
    kept: Vec<Box<dyn Any>>,
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
        Self { node, kept: Vec::new() }
    }

    /// The node in the document.
    #[must_use]
    pub fn node(&self) -> &web_sys::Element {
        &self.node
    }

    fn keep(mut self, what: impl Any) -> Self {
        self.kept.push(Box::new(what));
        self
    }

    /// Runs `change` now, and again whenever a signal it reads has changed.
    #[must_use]
    pub fn live(self, change: Box<dyn Fn(&web_sys::Element)>) -> Self {
        let node = self.node.clone();
        let effect: Box<dyn FnMut(Option<()>)> = Box::new(move |_| change(&node));
        self.keep(RenderEffect::new(effect))
    }

    /// Its classes.
    #[must_use]
    pub fn class(self, names: &'static str) -> Self {
        self.set("class", names)
    }

    /// A class it has as long as `on` is true.
    #[must_use]
    pub fn class_when(self, name: &'static str, on: Live<bool>) -> Self {
        self.live(Box::new(move |node| {
            let _ = node.class_list().toggle_with_force(name, on.get());
        }))
    }

    /// An attribute.
    #[must_use]
    pub fn set(self, name: &'static str, value: impl Into<Words>) -> Self {
        match value.into() {
            Words::Fixed(value) => {
                let _ = self.node.set_attribute(name, &value);
                self
            }
            Words::Live(value) => self.live(Box::new(move |node| {
                let _ = node.set_attribute(name, &value.get());
            })),
        }
    }

    /// An attribute that is present with `value` as long as `on` is true.
    #[must_use]
    pub fn set_when(self, name: &'static str, value: &'static str, on: Live<bool>) -> Self {
        self.live(Box::new(move |node| {
            let _ = if on.get() {
                node.set_attribute(name, value)
            } else {
                node.remove_attribute(name)
            };
        }))
    }

    /// A property of the node, such as the `value` of a field. It is set only when it differs, so that the cursor of a
    /// grower who is typing stays where it is.
    #[must_use]
    pub fn property(self, name: &'static str, value: Words) -> Self {
        self.live(Box::new(move |node| {
            set_property(node, name, &JsValue::from_str(&value.get()));
        }))
    }

    /// A property of the node that is true or false, such as `checked`.
    #[must_use]
    pub fn property_when(self, name: &'static str, value: Live<bool>) -> Self {
        self.live(Box::new(move |node| {
            set_property(node, name, &JsValue::from_bool(value.get()));
        }))
    }

    /// Calls `handler` at every such event.
    #[must_use]
    pub fn on(self, event: &str, handler: impl FnMut(web_sys::Event) + 'static) -> Self {
        self.listen(event, Box::new(handler))
    }

    fn listen(self, event: &str, mut handler: Box<dyn FnMut(web_sys::Event)>) -> Self {
        let owner = Owner::current().unwrap_or_default();
        let listener: Box<dyn FnMut(web_sys::Event)> = Box::new(move |event| owner.with(|| handler(event)));
        let listener = Closure::wrap(listener);
        let _ = self.node.add_event_listener_with_callback(event, listener.as_ref().unchecked_ref());
        self.keep(listener)
    }

    /// Words inside it, after what it already holds.
    #[must_use]
    pub fn text(self, words: impl Into<Words>) -> Self {
        self.write(words.into())
    }

    fn write(self, words: Words) -> Self {
        let text = document().create_text_node("");
        let _ = self.node.append_child(&text);
        match words {
            Words::Fixed(words) => {
                text.set_data(&words);
                self
            }
            Words::Live(words) => self.live(Box::new(move |_| text.set_data(&words.get()))),
        }
    }

    /// Another element inside it, after what it already holds.
    #[must_use]
    pub fn child(self, child: Element) -> Self {
        let _ = self.node.append_child(&child.node);
        self.keep(child)
    }

    /// Several elements inside it, after what it already holds.
    #[must_use]
    pub fn children(self, children: impl IntoIterator<Item = Element>) -> Self {
        children.into_iter().fold(self, Self::child)
    }

    /// Fills it with elements, and anew whenever a signal read by `children` has changed. It must hold nothing else.
    #[must_use]
    pub fn fill(self, children: impl Fn() -> Vec<Element> + 'static) -> Self {
        self.fill_with(Box::new(children))
    }

    /// Fills it with elements, and anew only when `key` has changed: a field inside keeps its focus and its caret as long
    /// as it has not. It must hold nothing else.
    pub fn fill_for(self, key: impl Fn() -> String + 'static, children: impl Fn() -> Vec<Element> + 'static) -> Self {
        self.fill_for_with(Box::new(key), Box::new(children))
    }

    fn fill_for_with(self, key: Box<dyn Fn() -> String>, children: Box<dyn Fn() -> Vec<Element>>) -> Self {
        // What is inside outlives the runs of this effect that change nothing, so it belongs to an owner of its own.
        let outer = Owner::current().unwrap_or_default();
        let shown = RefCell::new(None::<(String, Owner, Vec<Self>)>);
        self.live(Box::new(move |node| {
            let key = key();
            if shown.borrow().as_ref().is_some_and(|(before, ..)| *before == key) {
                return;
            }
            if let Some((_, owner, elements)) = shown.take() {
                drop(elements);
                owner.cleanup();
            }
            let owner = outer.child();
            let elements = untrack(|| owner.with(&children));
            node.set_text_content(None);
            for element in &elements {
                let _ = node.append_child(element.node());
            }
            shown.replace(Some((key, owner, elements)));
        }))
    }

    fn fill_with(self, children: Box<dyn Fn() -> Vec<Element>>) -> Self {
        let shown = RefCell::new(Vec::new());
        self.live(Box::new(move |node| {
            let children = children();
            node.set_text_content(None);
            for child in &children {
                let _ = node.append_child(child.node());
            }
            shown.replace(children);
        }))
    }
}

/// Whether the field that has the focus keeps what is typed in it, whatever was changed elsewhere.
static TYPING_IS_HELD: AtomicBool = AtomicBool::new(false);

/// Lets the field that has the focus keep what is typed in it, or no longer; tells which it was.
pub fn hold_typing(held: bool) -> bool {
    TYPING_IS_HELD.swap(held, Ordering::Relaxed)
}

/// Takes the focus from the field that has it.
pub fn leave_field() {
    let field = document().active_element();
    if let Some(field) = field.and_then(|field| field.dyn_into::<web_sys::HtmlInputElement>().ok()) {
        let _ = field.blur();
    }
}

fn set_property(node: &web_sys::Element, name: &str, value: &JsValue) {
    if name == "value" && TYPING_IS_HELD.load(Ordering::Relaxed) && document().active_element().as_ref() == Some(node) {
        return;
    }
    let name = JsValue::from_str(name);
    if js_sys::Reflect::get(node, &name).is_ok_and(|present| present != *value) {
        let _ = js_sys::Reflect::set(node, &name, value);
    }
}

impl Mountable for Element {
    fn unmount(&mut self) {
        self.node.remove();
    }

    fn mount(&mut self, parent: &web_sys::Element, marker: Option<&web_sys::Node>) {
        let _ = parent.insert_before(&self.node, marker);
    }

    fn insert_before_this(&self, child: &mut dyn Mountable) -> bool {
        let parent = self.node.parent_element();
        if let Some(parent) = &parent {
            child.mount(parent, Some(&self.node));
        }
        parent.is_some()
    }

    fn elements(&self) -> Vec<web_sys::Element> {
        vec![self.node.clone()]
    }
}

impl Render for Element {
    type State = Self;

    fn build(self) -> Self {
        self
    }

    fn rebuild(self, state: &mut Self) {
        let _ = state.node.replace_with_with_node_1(&self.node);
        *state = self;
    }
}
