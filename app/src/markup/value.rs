//! What an attribute may be given.

use std::borrow::Cow;

use crate::signal::{Memo, RwSignal, Signal};

/// The text of an attribute, or that it is not there.
pub type Text = Option<Cow<'static, str>>;

/// An attribute's value, now or as its signals have it.
pub enum Value {
    Fixed(Text),
    Live(Box<dyn FnMut() -> Text + Send>),
}

/// What an attribute may be given.
pub trait IntoValue {
    fn into_value(self) -> Value;
}

/// What a closure for an attribute may return.
pub trait IntoText {
    fn into_text(self) -> Text;
}

impl IntoText for &'static str {
    fn into_text(self) -> Text {
        Some(Cow::Borrowed(self))
    }
}

impl IntoText for String {
    fn into_text(self) -> Text {
        Some(Cow::Owned(self))
    }
}

/// There without a value, or not there.
impl IntoText for bool {
    fn into_text(self) -> Text {
        self.then_some(Cow::Borrowed(""))
    }
}

impl<T: IntoText> IntoText for Option<T> {
    fn into_text(self) -> Text {
        self.and_then(IntoText::into_text)
    }
}

macro_rules! fixed {
    ($($kind:ty)*) => {$(
        impl IntoValue for $kind {
            fn into_value(self) -> Value {
                Value::Fixed(self.into_text())
            }
        }
    )*};
}
fixed!(&'static str String bool);

impl<T: IntoText> IntoValue for Option<T> {
    fn into_value(self) -> Value {
        Value::Fixed(self.into_text())
    }
}

macro_rules! numbers {
    ($($number:ty)*) => {$(
        impl IntoText for $number {
            fn into_text(self) -> Text {
                Some(Cow::Owned(self.to_string()))
            }
        }
        fixed!($number);
    )*};
}
numbers!(f64 i32 u32 usize);

macro_rules! signals {
    ($($signal:ty)*) => {$(
        impl IntoValue for $signal {
            fn into_value(self) -> Value {
                Value::Live(Box::new(move || self.get().into_text()))
            }
        }
    )*};
}
signals!(RwSignal<String> RwSignal<bool> Signal<String> Memo<bool>);

impl<F, T> IntoValue for F
where
    F: FnMut() -> T + Send + 'static,
    T: IntoText,
{
    fn into_value(mut self) -> Value {
        Value::Live(Box::new(move || self().into_text()))
    }
}
