//! A number that a screen asks for: what was typed, what it is read as, and
//! what is wrong with it.

use bleachfield_core::{
    message::{Field, Message},
    quantity::{NumberSpec, ParsedQuantity, QuantityKind, Unit},
};
use leptos::prelude::*;

use super::ValueField;
use crate::{
    i18n::{field_name, sentence_case, unit_name},
    platform::preferences::{DecimalMark, preferences_context},
};

/// A question for one number. Copied freely; all copies share the same text.
#[derive(Clone, Copy)]
pub struct NumberInput {
    pub text: RwSignal<String>,
    spec: NumberSpec,
    /// An empty field is fine.
    optional: bool,
    /// The person has tried to go on: an empty field now counts as missing.
    tried: RwSignal<bool>,
}

impl NumberInput {
    /// Asks for `field`, a `kind`, with the kind's own base unit and limits.
    pub fn new(field: Field, kind: QuantityKind) -> Self {
        Self::of(NumberSpec::new(field, kind))
    }

    /// Asks as `spec` says; cups and decimal mark are this reader's own.
    pub fn of(spec: NumberSpec) -> Self {
        let preferences = preferences_context().get_untracked();
        let mark = if preferences.mark == DecimalMark::Comma { ',' } else { '.' };
        Self {
            text: RwSignal::new(String::new()),
            spec: spec.reader(preferences.measures, mark),
            optional: false,
            tried: RwSignal::new(false),
        }
    }

    /// The same question, with `unit` for a number typed without one.
    #[must_use]
    pub fn unit(self, unit: Unit) -> Self {
        Self { spec: self.spec.unit(unit), ..self }
    }

    /// The same question with limits, in the base unit of its kind.
    #[must_use]
    pub fn between(self, min: f64, max: f64) -> Self {
        Self { spec: self.spec.between(min, max), ..self }
    }

    /// The same question, which may be left empty.
    #[must_use]
    pub fn optional(self) -> Self {
        Self { optional: true, ..self }
    }

    /// The same question with something filled in.
    #[must_use]
    pub fn filled(self, text: impl Into<String>) -> Self {
        self.text.set(text.into());
        self
    }

    /// Which field it is.
    pub fn field(self) -> Field {
        self.spec.field
    }

    /// What was typed, read; `None` where it is empty or cannot be read.
    /// Follows the text.
    pub fn typed(self) -> Option<ParsedQuantity> {
        self.spec.parse(&self.text.get()).ok()
    }

    /// The value in the base unit of its kind (g, mL, share, °C, min, g/L).
    pub fn base(self) -> Option<f64> {
        self.typed().map(|typed| typed.base)
    }

    /// Whether nothing was typed.
    pub fn is_empty(self) -> bool {
        self.text.with(|text| text.trim().is_empty())
    }

    /// Marks an empty field as missing from now on, and says whether the
    /// screen may go on with this answer.
    pub fn try_now(self) -> bool {
        self.tried.set(true);
        self.wrong().is_none()
    }

    /// What is wrong with the text, to be shown beside it.
    pub fn wrong(self) -> Option<Message> {
        if self.is_empty() && (self.optional || !self.tried.get()) {
            return None;
        }
        self.spec.parse(&self.text.get()).err().map(|refusal| refusal.message())
    }
}

/// The field for an [`NumberInput`].
#[component]
pub fn NumberField(
    ask: NumberInput,
    /// In place of the field's own name.
    #[prop(into, optional)]
    label: Option<String>,
    #[prop(into, optional)] hint: Option<String>,
    /// A refusal from further on that belongs beside this field, such as a
    /// plan that cannot be made with it.
    #[prop(into, optional)]
    refused: Signal<Option<Message>>,
    #[prop(optional)] on_enter: Option<Callback<()>>,
) -> impl IntoView {
    let label = label.unwrap_or_else(|| sentence_case(field_name(ask.field())));
    let unit = unit_name(ask.spec.unit);
    // Remembered: a refusal changes with each key, and what is wrong here seldom.
    let problem = Memo::new(move |_| {
        ask.wrong().or_else(|| refused.get().filter(|m| m.field == Some(ask.field())))
    });
    let enter = on_enter.unwrap_or_else(|| Callback::new(|()| ()));
    view! {
        <ValueField label text=ask.text unit problem hint=hint.unwrap_or_default() on_enter=enter />
    }
}
