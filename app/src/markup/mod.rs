//! What a screen shows, as data.
//!
//! `view!` (`app/markup`) reads markup as Leptos has it and puts a [`Markup`] together,
//! whatever the view; one piece of code shows it and keeps it up to date (`standing`).
//! Leptos makes a type of each view and the compiler code of each type, and a phone would
//! fetch all of it. Components are Leptos's own, and its views and these stand in each
//! other.

mod children;
mod element;
mod leptos_view;
mod standing;
mod value;

use std::borrow::Cow;

pub use bleachfield_markup::view;
pub use children::{Children, ChildrenFn, children};
pub use element::Element;
use element::Tag;
use leptos::tachys::view::Render;
use send_wrapper::SendWrapper;
use standing::Standing;
pub use value::{IntoValue, Value};

/// What a module of screens needs: Leptos, with views as data.
pub mod prelude {
    pub use leptos::prelude::*;

    pub use super::{Children, ChildrenFn, CollectView, IntoAny, Markup, view};
    pub use crate::part::Show;
    pub use crate::signal::{Memo, RwSignal, Signal, StoredValue, effect};

    /// Any view is of the same type here.
    pub type AnyView = Markup;
}

/// Something to show. One address, as are an [`Element`] and [`Parts`] in the making: there
/// are thousands of places that hand one on.
pub struct Markup(Option<Box<What>>);

/// What is shown.
enum What {
    Text(Cow<'static, str>),
    Element(Tag),
    Parts(Vec<Markup>),
    /// Shown anew whenever a signal changes that it read.
    Live(Box<dyn FnMut() -> Markup + Send>),
    /// A view of Leptos's own.
    Leptos(leptos::prelude::AnyView),
    /// Made already, and on no page yet.
    Standing(SendWrapper<Standing>),
}

impl Markup {
    pub const NOTHING: Self = Self(None);

    #[inline(never)]
    fn new(what: What) -> Self {
        Self(Some(Box::new(what)))
    }

    #[inline(never)]
    pub fn text(text: &'static str) -> Self {
        Self::new(What::Text(Cow::Borrowed(text)))
    }

    #[inline(never)]
    fn live(live: Box<dyn FnMut() -> Markup + Send>) -> Self {
        Self::new(What::Live(live))
    }

    /// The same, made now: what comes on a page later has only to be put there.
    pub fn standing(self) -> Self {
        Self::new(What::Standing(SendWrapper::new(Render::build(self))))
    }

    pub fn parts() -> Parts {
        Parts(Self::several(Vec::new()))
    }

    #[inline(never)]
    fn several(parts: Vec<Markup>) -> Self {
        Self::new(What::Parts(parts))
    }

    /// A view of Leptos's own.
    pub fn of(view: impl leptos::prelude::IntoView + 'static) -> Self {
        Self::new(What::Leptos(leptos::prelude::IntoAny::into_any(view)))
    }
}

/// Several, one after another.
pub struct Parts(Markup);

impl Parts {
    #[inline(never)]
    pub fn and(mut self, next: Markup) -> Self {
        if let Some(What::Parts(parts)) = self.0.0.as_deref_mut() {
            parts.push(next);
        }
        self
    }

    pub fn whole(self) -> Markup {
        self.0
    }
}

/// What may stand in a view's braces.
pub trait IntoMarkup: Sized {
    fn into_markup(self) -> Markup;

    /// As the next that `element` holds.
    fn stand_in(self, element: Element) -> Element {
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
        Markup::several(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl IntoMarkup for Markup {
    fn into_markup(self) -> Markup {
        self
    }
}

impl IntoMarkup for Element {
    fn into_markup(self) -> Markup {
        self.whole()
    }
}

impl IntoMarkup for () {
    fn into_markup(self) -> Markup {
        Markup::NOTHING
    }
}

impl IntoMarkup for &'static str {
    fn into_markup(self) -> Markup {
        Markup::text(self)
    }
}

impl IntoMarkup for String {
    fn into_markup(self) -> Markup {
        Markup::new(What::Text(Cow::Owned(self)))
    }

    fn stand_in(self, element: Element) -> Element {
        element.says_text(self)
    }
}

impl<T: IntoMarkup> IntoMarkup for Option<T> {
    fn into_markup(self) -> Markup {
        self.map_or(Markup::NOTHING, IntoMarkup::into_markup)
    }
}

impl<T: IntoMarkup> IntoMarkup for Vec<T> {
    fn into_markup(self) -> Markup {
        Markup::several(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl<T: IntoMarkup, const N: usize> IntoMarkup for [T; N] {
    fn into_markup(self) -> Markup {
        Markup::several(self.into_iter().map(IntoMarkup::into_markup).collect())
    }
}

impl<F, T> IntoMarkup for F
where
    F: FnMut() -> T + Send + 'static,
    T: IntoMarkup,
{
    fn into_markup(mut self) -> Markup {
        Markup::live(Box::new(move || self().into_markup()))
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
