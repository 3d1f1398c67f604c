//! An input that a record or an assumption fills in.

use leptos::prelude::*;

use super::NumberInput;
use crate::i18n::format_number;

/// An input filled with a known value, which is returned as it is, with its range and basis,
/// until the person changes the text: no figure goes through text on its way to another sum.
/// Copies share their signals.
#[derive(Clone, Copy)]
pub struct RecordedInput<T: Copy + Send + Sync + 'static> {
    pub input: NumberInput,
    filled: StoredValue<Option<Filled<T>>>,
}

/// A known value, and the text it was filled in as.
#[derive(Clone, PartialEq, Debug)]
struct Filled<T> {
    text: String,
    value: T,
}

impl<T: Copy> Filled<T> {
    /// The value while the text is as it was filled in.
    fn unchanged(&self, text: &str) -> Option<T> {
        (self.text == text).then_some(self.value)
    }
}

impl<T: Copy + Send + Sync + 'static> RecordedInput<T> {
    /// `input` filled with the known value, shown as the number that `shown` gives in the
    /// input's own unit; empty without one.
    pub fn new(input: NumberInput, known: Option<T>, shown: impl Fn(T) -> f64) -> Self {
        let filled = Self { input, filled: StoredValue::new(None) };
        if let Some(known) = known {
            filled.fill(known, shown);
        }
        filled
    }

    /// Fills in a known value.
    pub fn fill(self, known: T, shown: impl Fn(T) -> f64) {
        let text = format_number(shown(known), 4);
        // First the value: whoever reads the text reads it too.
        self.filled.set_value(Some(Filled { text: text.clone(), value: known }));
        self.input.text.set(text);
    }

    /// The known value while nobody changed it. Tracks the text.
    pub fn known(self) -> Option<T> {
        let text = self.input.text.get();
        self.filled.with_value(|filled| filled.as_ref()?.unchanged(&text))
    }

    /// The known value, or what `typed` makes of the changed text, given in the base unit of
    /// its kind. Tracks the text.
    pub fn get(self, typed: impl Fn(f64) -> T) -> Option<T> {
        self.known().or_else(|| self.input.base().map(typed))
    }
}

#[cfg(test)]
mod tests {
    use bleachfield_core::quantity::{Basis, Estimate};

    use super::*;

    #[test]
    fn a_filled_value_keeps_range_and_basis_until_its_text_is_changed() {
        let meter = Estimate { value: 9.04, low: 8.94, high: 9.14, basis: Basis::Measured };
        let filled = Filled { text: "9.0".to_owned(), value: meter };
        assert_eq!(filled.unchanged("9.0"), Some(meter));
        assert_eq!(filled.unchanged("9.1"), None);
        assert_eq!(filled.unchanged(""), None);
    }
}
