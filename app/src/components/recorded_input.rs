//! An input that a record or an assumption fills in.

use leptos::prelude::*;

use super::NumberInput;

/// An input filled with a known value, which is returned as it is, with its range and basis,
/// until the person changes the text: no figure goes through text on its way to another sum.
/// Copies share their signals.
#[derive(Clone, Copy)]
pub struct RecordedInput<T: Copy + Send + Sync + 'static> {
    pub input: NumberInput,
    known: StoredValue<Option<T>>,
}

impl<T: Copy + Send + Sync + 'static> RecordedInput<T> {
    /// `input` filled with the known value, which `shown` gives as a number in the usual unit of
    /// the input; empty without one.
    pub fn new(input: NumberInput, known: Option<T>, shown: impl Fn(T) -> f64) -> Self {
        let filled = Self { input, known: StoredValue::new(None) };
        if let Some(known) = known {
            filled.fill(known, shown);
        }
        filled
    }

    /// Fills in a known value.
    pub fn fill(self, known: T, shown: impl Fn(T) -> f64) {
        // First the value: whoever reads the text reads it too.
        self.known.set_value(Some(known));
        self.input.fill(shown(known));
    }

    /// The known value while nobody changed it. Tracks the text.
    pub fn known(self) -> Option<T> {
        if self.input.is_as_filled() { self.known.get_value() } else { None }
    }

    /// The known value, or what `typed` makes of the changed text, given in the base unit of
    /// its kind. Tracks the text.
    pub fn get(self, typed: impl Fn(f64) -> T) -> Option<T> {
        self.known().or_else(|| self.input.base().map(typed))
    }
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeMap;

    use bleachfield_core::{
        message::Field,
        quantity::{Basis, Estimate, QuantityKind, Unit},
    };

    use super::*;
    use crate::platform::preferences::{Preferences, PreferencesContext};

    fn in_owner(test: impl FnOnce()) {
        let owner = Owner::new();
        owner.with(|| {
            PreferencesContext::with(Preferences::default(), BTreeMap::new());
            test();
        });
    }

    #[test]
    fn a_filled_value_keeps_range_and_basis_until_its_text_is_changed() {
        in_owner(|| {
            let meter = Estimate { value: 9.04, low: 8.94, high: 9.14, basis: Basis::Measured };
            let input = NumberInput::new(Field("carry_over_ph"), QuantityKind::Ph);
            let filled = RecordedInput::new(input, Some(meter), |ph| ph.value);
            assert_eq!(filled.known(), Some(meter));
            input.text.set("9.1".to_owned());
            assert_eq!(filled.known(), None);
            input.text.set("9.04".to_owned());
            assert_eq!(filled.known(), Some(meter));
        });
    }

    #[test]
    fn a_filled_number_is_written_in_the_chosen_unit_and_a_typed_one_stays() {
        in_owner(|| {
            let input = NumberInput::new(Field("volume"), QuantityKind::Volume)
                .unit(Unit::Litre)
                .filled(1.5);
            let recorded = RecordedInput::new(input, Some(1500.0), |ml| ml / 1000.0);
            assert_eq!(input.text.get_untracked(), "1.5");
            input.choose_unit(Unit::Millilitre);
            assert_eq!(input.text.get_untracked(), "1500");
            assert_eq!((input.base(), recorded.known()), (Some(1500.0), Some(1500.0)));
            input.text.set("1 ½".to_owned());
            input.choose_unit(Unit::Cup);
            assert_eq!(input.text.get_untracked(), "1 ½");
            assert_eq!((input.base(), recorded.known()), (Some(375.0), None));
        });
    }
}
