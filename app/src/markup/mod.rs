//! What a screen shows, as data.
//!
//! `view!` (`app/markup`) reads markup as Leptos has it and puts a [`Markup`] together,
//! whatever the view; one piece of code shows it and keeps it up to date (`standing`).
//! Leptos makes a type of each view and the compiler code of each type, and a phone would
//! fetch all of it. Components are Leptos's own, and its views and these stand in each
//! other.

mod element;
mod leptos_view;
mod standing;
mod value;

use std::borrow::Cow;

pub use bleachfield_markup::view;
pub use element::Element;
pub use value::{IntoValue, Value};

/// What a module of screens needs: Leptos, with views as data.
pub mod prelude {
    pub use leptos::prelude::*;

    pub use super::{CollectView, IntoAny, Markup, view};
    pub use crate::signal::{Memo, RwSignal, Signal, StoredValue, effect};

    /// Any view is of the same type here.
    pub type AnyView = Markup;
}

/// Something to show.
pub enum Markup {
    Nothing,
    Text(Cow<'static, str>),
    Element(Box<Element>),
    Parts(Vec<Markup>),
    /// Shown anew whenever a signal changes that it read.
    Live(Box<dyn FnMut() -> Markup + Send>),
    /// A view of Leptos's own.
    Leptos(Box<leptos::prelude::AnyView>),
}

impl Markup {
    pub fn text(text: &'static str) -> Self {
        Self::Text(Cow::Borrowed(text))
    }

    #[inline(never)]
    pub fn parts() -> Box<Parts> {
        Box::new(Parts(Vec::new()))
    }

    /// What a component returns.
    pub fn of(view: impl leptos::prelude::IntoView + 'static) -> Self {
        Self::Leptos(Box::new(leptos::prelude::IntoAny::into_any(view)))
    }
}

/// Several, one after another.
pub struct Parts(Vec<Markup>);

impl Parts {
    #[inline(never)]
    pub fn and(mut self: Box<Self>, next: Markup) -> Box<Self> {
        self.0.push(next);
        self
    }

    #[allow(clippy::boxed_local)] // as it is handed on
    pub fn whole(self: Box<Self>) -> Markup {
        Markup::Parts(self.0)
    }
}

/// What may stand in a view's braces.
pub trait IntoMarkup: Sized {
    fn into_markup(self) -> Markup;

    /// As the next that `element` holds.
    fn stand_in(self, element: Box<Element>) -> Box<Element> {
        element.child(self.into_markup())
    }
}

/// [`IntoMarkup`] under the name that Leptos has for it.
pub trait IntoAny {
    fn into_any(self) -> Markup;
}

impl<T: IntoMarkup> IntoAny for T {
    fn into_any(self) -> Markup {
        self.into_markup()
    }
}

/// One after another, under the name that Leptos has for it.
pub trait CollectView {
    fn collect_view(self) -> Markup;
}

impl<I: IntoIterator<Item: IntoMarkup>> CollectView for I {
    fn collect_view(self) -> Markup {
        Markup::Parts(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl IntoMarkup for Markup {
    fn into_markup(self) -> Markup {
        self
    }
}

impl IntoMarkup for Box<Element> {
    fn into_markup(self) -> Markup {
        Markup::Element(self)
    }
}

impl IntoMarkup for leptos::prelude::AnyView {
    fn into_markup(self) -> Markup {
        Markup::Leptos(Box::new(self))
    }
}

impl IntoMarkup for () {
    fn into_markup(self) -> Markup {
        Markup::Nothing
    }
}

impl IntoMarkup for &'static str {
    fn into_markup(self) -> Markup {
        Markup::text(self)
    }
}

impl IntoMarkup for String {
    fn into_markup(self) -> Markup {
        Markup::Text(Cow::Owned(self))
    }

    fn stand_in(self, element: Box<Element>) -> Box<Element> {
        element.says_text(self)
    }
}

impl<T: IntoMarkup> IntoMarkup for Option<T> {
    fn into_markup(self) -> Markup {
        self.map_or(Markup::Nothing, IntoMarkup::into_markup)
    }
}

impl<T: IntoMarkup> IntoMarkup for Vec<T> {
    fn into_markup(self) -> Markup {
        Markup::Parts(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl<T: IntoMarkup, const N: usize> IntoMarkup for [T; N] {
    fn into_markup(self) -> Markup {
        Markup::Parts(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl<F, T> IntoMarkup for F
where
    F: FnMut() -> T + Send + 'static,
    T: IntoMarkup,
{
    fn into_markup(mut self) -> Markup {
        Markup::Live(Box::new(move || self().into_markup()))
    }
}

macro_rules! numbers {
    ($($number:ty)*) => {$(
        impl IntoMarkup for $number {
            fn into_markup(self) -> Markup {
                self.to_string().into_markup()
            }
        }
    )*};
}
numbers!(i32 u32 usize);
