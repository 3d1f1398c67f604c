//! Input of a calendar date.

use bleachfield_core::message::{Field, Message};
use jiff::civil::Date;
use leptos::prelude::*;

use crate::{components::FieldError, i18n::field_name};

/// A date that a screen asks for; copies share their signals.
#[derive(Clone, Copy)]
pub struct DateInput {
    text: RwSignal<String>,
    field: Field,
}

impl DateInput {
    pub fn new(field: Field) -> Self {
        Self { text: RwSignal::default(), field }
    }

    /// Fills in an initial date.
    #[must_use]
    pub fn filled(self, date: Date) -> Self {
        self.text.set(date.to_string());
        self
    }

    /// The date; `None` if none is chosen. Tracks the text.
    pub fn date(self) -> Option<Date> {
        self.text.with(|text| text.parse().ok())
    }
}

/// The field of a [`DateInput`].
#[component]
pub fn DateField(
    input: DateInput,
    /// An error of the dates; shown if it is about this one.
    #[prop(into)]
    refused: Signal<Option<Message>>,
    #[prop(into, optional)] hint: Option<String>,
) -> impl IntoView {
    let id = format!("day-{}", input.field.0);
    let wrong_id = format!("{id}-wrong");
    let problem = Signal::derive(move || refused.get().filter(|m| m.field == Some(input.field)));
    view! {
        <div class="field">
            <label for=id.clone()>{field_name(input.field)}</label>
            <input id=id type="date" prop:value=input.text
                on:input=move |event| input.text.set(event_target_value(&event))
                aria-invalid=move || problem.get().is_some().to_string()
                aria-describedby=wrong_id.clone() />
            {hint.map(|hint| view! { <span class="hint">{hint}</span> })}
            <FieldError id=wrong_id problem />
        </div>
    }
}
