//! An input that the records fill in.

use leptos::prelude::*;

use crate::{components::NumberInput, i18n::format_number};

/// An input filled with a recorded value, which keeps its range and basis until the text is
/// changed. Copies share their signals.
#[derive(Clone, Copy)]
pub struct RecordedInput<T: Copy + Send + Sync + 'static> {
    pub input: NumberInput,
    filled: StoredValue<Option<(String, T)>>,
}

impl<T: Copy + Send + Sync + 'static> RecordedInput<T> {
    /// `input` filled with the recorded value, shown as the number `shown` gives.
    pub fn new(input: NumberInput, recorded: Option<T>, shown: impl Fn(T) -> f64) -> Self {
        let filled = recorded.map(|value| (format_number(shown(value), 3), value));
        let text = filled.as_ref().map(|(text, _)| text.clone()).unwrap_or_default();
        Self { input: input.filled(text), filled: StoredValue::new(filled) }
    }

    /// The recorded value, or what `typed` makes of the changed text, given in the base unit of
    /// its kind. Reactive.
    pub fn get(self, typed: impl Fn(f64) -> T) -> Option<T> {
        let text = self.input.text.get();
        let unchanged = |(filled, value): &(String, T)| (*filled == text).then_some(*value);
        self.filled
            .with_value(|filled| filled.as_ref().and_then(unchanged))
            .or_else(|| self.input.base().map(typed))
    }
}
