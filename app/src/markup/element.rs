//! An element as data.

use send_wrapper::SendWrapper;
use wasm_bindgen::JsCast;
use web_sys::{DragEvent, Event, KeyboardEvent, MouseEvent};

use super::{Markup, Value};

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

impl Element {
    pub fn new(fixed: &'static str) -> Self {
        Self { fixed, set: Vec::new(), children: Vec::new(), on: Vec::new() }
    }

    pub fn whole(self) -> Markup {
        Markup::Element(Box::new(self))
    }

    #[must_use]
    pub fn child(mut self, child: Markup) -> Self {
        self.children.push(child);
        self
    }

    fn with(mut self, what: What, name: &'static str, value: Value) -> Self {
        self.set.push(Set { what, name, value });
        self
    }

    #[must_use]
    pub fn set(self, name: &'static str, value: Value) -> Self {
        self.with(What::Attribute, name, value)
    }

    #[must_use]
    pub fn class(self, name: &'static str, value: Value) -> Self {
        self.with(What::Class, name, value)
    }

    #[must_use]
    pub fn style(self, name: &'static str, value: Value) -> Self {
        self.with(What::Style, name, value)
    }

    #[must_use]
    pub fn holding(self, value: Value) -> Self {
        self.with(What::Holding, "value", value)
    }

    #[must_use]
    pub fn checked(self, value: Value) -> Self {
        self.with(What::Checked, "checked", value)
    }

    fn heard(mut self, event: &'static str, heard: Heard) -> Self {
        self.on.push((event, SendWrapper::new(heard)));
        self
    }

    #[must_use]
    pub fn on(self, event: &'static str, heard: impl FnMut(Event) + 'static) -> Self {
        self.heard(event, Box::new(heard))
    }

    #[must_use]
    pub fn on_mouse(
        self,
        event: &'static str,
        mut heard: impl FnMut(MouseEvent) + 'static,
    ) -> Self {
        self.heard(event, Box::new(move |event| heard(event.unchecked_into())))
    }

    #[must_use]
    pub fn on_key(
        self,
        event: &'static str,
        mut heard: impl FnMut(KeyboardEvent) + 'static,
    ) -> Self {
        self.heard(event, Box::new(move |event| heard(event.unchecked_into())))
    }

    #[must_use]
    pub fn on_drag(self, event: &'static str, mut heard: impl FnMut(DragEvent) + 'static) -> Self {
        self.heard(event, Box::new(move |event| heard(event.unchecked_into())))
    }
}
