//! An element as data.

use std::borrow::Cow;

use leptos::{
    prelude::NodeRef,
    tachys::html::{element::ElementType, node_ref::NodeRefContainer},
};
use send_wrapper::SendWrapper;
use wasm_bindgen::JsCast;
use web_sys::Event;

use super::{IntoMarkup, Markup, Value};

/// What is to know the element itself.
pub type Known = Box<dyn FnOnce(&web_sys::Element) + Send>;

/// What hears an event.
pub type Heard = Box<dyn FnMut(Event)>;

/// An element, its attributes and what stands in it.
pub struct Element {
    /// Tag and attributes that never change, a line each: the tag, after a `*` if it is
    /// of a drawing; then name and value by turns.
    pub(super) fixed: &'static str,
    pub(super) set: Vec<Set>,
    pub(super) children: Vec<Markup>,
    // A view may be made on one thread and shown on another; a page has only one.
    pub(super) on: Vec<(&'static str, SendWrapper<Heard>)>,
    /// Is given the element once it is made.
    pub(super) known: Option<Known>,
}

/// Something of an element that is worked out.
pub struct Set {
    pub what: What,
    pub name: &'static str,
    pub value: Value,
}

/// Where a value goes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum What {
    Attribute,
    /// One class among others: there or not.
    Class,
    Style,
    /// What a field holds, whatever its attribute says.
    Holding,
    /// Whether a choice is made.
    Checked,
}

// One call each, never copied into the caller: there are thousands of callers, and what
// they pass is an address or two.
impl Element {
    #[inline(never)]
    pub fn new(fixed: &'static str) -> Box<Self> {
        Box::new(Self { fixed, set: Vec::new(), children: Vec::new(), on: Vec::new(), known: None })
    }

    pub fn put(self: Box<Self>, child: impl IntoMarkup) -> Box<Self> {
        child.stand_in(self)
    }

    #[inline(never)]
    pub fn child(mut self: Box<Self>, child: Markup) -> Box<Self> {
        self.children.push(child);
        self
    }

    #[inline(never)]
    pub fn holds(self: Box<Self>, child: Box<Element>) -> Box<Self> {
        self.child(Markup::Element(child))
    }

    #[inline(never)]
    pub fn says(self: Box<Self>, text: &'static str) -> Box<Self> {
        self.child(Markup::text(text))
    }

    #[inline(never)]
    pub fn says_text(self: Box<Self>, text: String) -> Box<Self> {
        self.child(Markup::Text(Cow::Owned(text)))
    }

    #[inline(never)]
    fn with(mut self: Box<Self>, what: What, name: &'static str, value: Value) -> Box<Self> {
        self.set.push(Set { what, name, value });
        self
    }

    #[inline(never)]
    pub fn set(self: Box<Self>, name: &'static str, value: Value) -> Box<Self> {
        self.with(What::Attribute, name, value)
    }

    pub fn class(self: Box<Self>, name: &'static str, value: Value) -> Box<Self> {
        self.with(What::Class, name, value)
    }

    pub fn style(self: Box<Self>, name: &'static str, value: Value) -> Box<Self> {
        self.with(What::Style, name, value)
    }

    pub fn holding(self: Box<Self>, value: Value) -> Box<Self> {
        self.with(What::Holding, "value", value)
    }

    pub fn checked(self: Box<Self>, value: Value) -> Box<Self> {
        self.with(What::Checked, "checked", value)
    }

    #[inline(never)]
    fn heard(mut self: Box<Self>, event: &'static str, heard: Heard) -> Box<Self> {
        self.on.push((event, SendWrapper::new(heard)));
        self
    }

    /// `E` is what the browser makes of this event: the macro knows.
    pub fn on<E: JsCast>(
        self: Box<Self>,
        event: &'static str,
        mut heard: impl FnMut(E) + 'static,
    ) -> Box<Self> {
        self.heard(event, Box::new(move |event| heard(event.unchecked_into())))
    }

    pub fn known_to<T: ElementType<Output: JsCast> + 'static>(
        mut self: Box<Self>,
        reference: NodeRef<T>,
    ) -> Box<Self> {
        self.known = Some(Box::new(move |node| reference.load(node)));
        self
    }
}
