//! A day of the calendar that a screen asks for.

use bleachfield_core::message::{Field, Message};
use jiff::civil::Date;
use leptos::prelude::*;

use crate::i18n::{field_name, render};

/// A question for one day. Copied freely; all copies share the same answer.
#[derive(Clone, Copy)]
pub struct DayInput {
    pub text: RwSignal<String>,
    field: Field,
}

impl DayInput {
    pub fn new(field: Field) -> Self {
        Self { text: RwSignal::new(String::new()), field }
    }

    /// The same question with a day filled in.
    #[must_use]
    pub fn filled(self, day: Date) -> Self {
        self.text.set(day.to_string());
        self
    }

    /// The day, or `None` while none is chosen. Follows the text.
    pub fn day(self) -> Option<Date> {
        self.text.with(|text| text.parse().ok())
    }
}

/// The field for an [`DayInput`].
#[component]
pub fn DayField(
    ask: DayInput,
    /// What was said against the dates; only what is about this one shows.
    #[prop(into)]
    refused: Signal<Option<Message>>,
    #[prop(into, optional)] hint: Option<String>,
) -> impl IntoView {
    let id = format!("day-{}", ask.field.0);
    let wrong_id = format!("{id}-wrong");
    let problem = Signal::derive(move || refused.get().filter(|m| m.field == Some(ask.field)));
    view! {
        <div class="field">
            <label for=id.clone()>{field_name(ask.field)}</label>
            <input id=id type="date" prop:value=ask.text
                on:input=move |event| ask.text.set(event_target_value(&event))
                aria-invalid=move || problem.get().is_some().to_string()
                aria-describedby=wrong_id.clone() />
            {hint.map(|hint| view! { <span class="hint">{hint}</span> })}
            <span id=wrong_id role="status">
                {move || problem.get().map(|problem| view! {
                    <span class="wrong">{render(&problem)}</span>
                })}
            </span>
        </div>
    }
}
