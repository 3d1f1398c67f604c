//! Input of one number: its text, the quantity it is parsed as, and the error to show.

use bleachfield_core::{
    message::{Field, Message},
    quantity::{NumberSpec, ParsedQuantity, QuantityKind, Unit},
};
use leptos::prelude::*;

use super::{Term, ValueField};
use crate::{
    i18n::{field_name, sentence_case, unit_name},
    platform::preferences::{DecimalMark, preferences_context},
};

/// A number that a screen asks for; copies share their signals.
#[derive(Clone, Copy)]
pub struct NumberInput {
    pub text: RwSignal<String>,
    spec: NumberSpec,
    /// May be left empty.
    optional: bool,
    /// Submission was attempted: an empty field is now an error.
    tried: RwSignal<bool>,
}

impl NumberInput {
    /// A number of `kind` with the kind's base unit and limits.
    pub fn new(field: Field, kind: QuantityKind) -> Self {
        Self::of(NumberSpec::new(field, kind))
    }

    /// As `spec`, with the reader's own measures and decimal mark.
    pub fn of(spec: NumberSpec) -> Self {
        let preferences = preferences_context().get_untracked();
        let mark = if preferences.mark == DecimalMark::Comma { ',' } else { '.' };
        Self {
            text: RwSignal::default(),
            spec: spec.reader(preferences.measures, mark),
            optional: false,
            tried: RwSignal::new(false),
        }
    }

    /// Sets the unit of a number typed without one.
    #[must_use]
    pub fn unit(self, unit: Unit) -> Self {
        Self { spec: self.spec.unit(unit), ..self }
    }

    /// Sets limits, in the base unit of the kind.
    #[must_use]
    pub fn between(self, min: f64, max: f64) -> Self {
        Self { spec: self.spec.between(min, max), ..self }
    }

    /// Allows an empty field.
    #[must_use]
    pub fn optional(self) -> Self {
        Self { optional: true, ..self }
    }

    /// Fills in an initial text.
    #[must_use]
    pub fn filled(self, text: impl Into<String>) -> Self {
        self.text.set(text.into());
        self
    }

    pub fn field(self) -> Field {
        self.spec.field
    }

    /// The parsed text; `None` if empty or invalid. Tracks the text.
    pub fn typed(self) -> Option<ParsedQuantity> {
        self.spec.parse(&self.text.get()).ok()
    }

    /// The value in the base unit of its kind (g, mL, share, °C, min, g/L).
    pub fn base(self) -> Option<f64> {
        self.typed().map(|typed| typed.base)
    }

    pub fn is_empty(self) -> bool {
        self.text.with(|text| text.trim().is_empty())
    }

    /// Validates for submission: an empty field is an error from now on unless optional.
    pub fn try_now(self) -> bool {
        self.tried.set(true);
        self.wrong().is_none()
    }

    /// The error to show beside the field.
    pub fn wrong(self) -> Option<Message> {
        if self.is_empty() && (self.optional || !self.tried.get()) {
            return None;
        }
        self.spec.parse(&self.text.get()).err().map(|error| error.message())
    }
}

/// The field of a [`NumberInput`].
#[component]
pub fn NumberField(
    ask: NumberInput,
    /// In place of the field's own name.
    #[prop(into, optional)]
    label: Option<String>,
    #[prop(into, optional)] hint: String,
    /// A term of the label, explained on tap.
    #[prop(optional)]
    term: Option<Term>,
    /// An error of a later calculation; shown if it is about this field.
    #[prop(into, optional)]
    refused: Signal<Option<Message>>,
    #[prop(optional)] on_enter: Option<Callback<()>>,
) -> impl IntoView {
    let label = label.unwrap_or_else(|| sentence_case(field_name(ask.field())));
    let unit = unit_name(ask.spec.unit);
    // Memo: `refused` changes with each key press, this field's own problem rarely.
    let problem = Memo::new(move |_| {
        ask.wrong().or_else(|| refused.get().filter(|m| m.field == Some(ask.field())))
    });
    let on_enter = on_enter.unwrap_or_else(|| Callback::new(|()| ()));
    view! { <ValueField label text=ask.text unit problem hint term on_enter /> }
}
