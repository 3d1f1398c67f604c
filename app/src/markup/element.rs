//! An element as data.

use std::borrow::Cow;

use leptos::{
    prelude::NodeRef,
    tachys::html::{element::ElementType, node_ref::NodeRefContainer},
};
use send_wrapper::SendWrapper;
use wasm_bindgen::JsCast;
use web_sys::Event;

use super::{IntoMarkup, Markup, Value, What};

/// What is to know the element itself.
pub type Known = Box<dyn FnOnce(&web_sys::Element) + Send>;

/// What hears an event.
pub type Heard = Box<dyn FnMut(Event)>;

/// An element in the making.
pub struct Element(Markup);

/// An element, its attributes and what stands in it.
pub struct Tag {
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
    pub place: Place,
    pub name: &'static str,
    pub value: Value,
}

/// Where a value goes.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Place {
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
    pub fn new(fixed: &'static str) -> Self {
        let (set, children, on) = (Vec::new(), Vec::new(), Vec::new());
        Self(Markup::new(What::Element(Tag { fixed, set, children, on, known: None })))
    }

    fn tag(&mut self) -> &mut Tag {
        match self.0.0.as_deref_mut() {
            Some(What::Element(tag)) => tag,
            _ => unreachable!("an element is made as one"),
        }
    }

    pub fn whole(self) -> Markup {
        self.0
    }

    pub fn put(self, child: impl IntoMarkup) -> Self {
        child.stand_in(self)
    }

    #[inline(never)]
    pub fn child(mut self, child: Markup) -> Self {
        self.tag().children.push(child);
        self
    }

    #[inline(never)]
    pub fn holds(self, child: Element) -> Self {
        self.child(child.0)
    }

    #[inline(never)]
    pub fn says(self, text: &'static str) -> Self {
        self.child(Markup::text(text))
    }

    #[inline(never)]
    pub fn says_text(self, text: String) -> Self {
        self.child(Markup::new(What::Text(Cow::Owned(text))))
    }

    #[inline(never)]
    fn with(mut self, place: Place, name: &'static str, value: Value) -> Self {
        self.tag().set.push(Set { place, name, value });
        self
    }

    #[inline(never)]
    pub fn set(self, name: &'static str, value: Value) -> Self {
        self.with(Place::Attribute, name, value)
    }

    pub fn class(self, name: &'static str, value: Value) -> Self {
        self.with(Place::Class, name, value)
    }

    pub fn style(self, name: &'static str, value: Value) -> Self {
        self.with(Place::Style, name, value)
    }

    pub fn holding(self, value: Value) -> Self {
        self.with(Place::Holding, "value", value)
    }

    pub fn checked(self, value: Value) -> Self {
        self.with(Place::Checked, "checked", value)
    }

    #[inline(never)]
    fn heard(mut self, event: &'static str, heard: Heard) -> Self {
        self.tag().on.push((event, SendWrapper::new(heard)));
        self
    }

    /// `E` is what the browser makes of this event: the macro knows.
    pub fn on<E: JsCast>(self, event: &'static str, mut heard: impl FnMut(E) + 'static) -> Self {
        self.heard(event, Box::new(move |event| heard(event.unchecked_into())))
    }

    pub fn known_to<T: ElementType<Output: JsCast> + 'static>(
        mut self,
        reference: NodeRef<T>,
    ) -> Self {
        self.tag().known = Some(Box::new(move |node| reference.load(node)));
        self
    }
}
