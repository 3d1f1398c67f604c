//! Text fields. Invalid text stays in its field, with the error beside it.

use bleachfield_core::message::Message;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::{
    radio_group::unique_number,
    term::{Term, explanation},
};
use crate::i18n::render;

/// A field for a number with its unit. Any text is accepted; the caller parses it and returns
/// the problem.
#[component]
pub fn ValueField(
    #[prop(into)] label: String,
    text: RwSignal<String>,
    /// The unit of a number typed without one.
    #[prop(into)]
    unit: Signal<String>,
    #[prop(into)] problem: Signal<Option<Message>>,
    #[prop(into, optional)] hint: String,
    /// A term of the label, explained on tap.
    #[prop(optional_no_strip)]
    term: Option<Term>,
    /// On Enter, for screens with a single next step.
    #[prop(optional)]
    on_enter: Option<Callback<()>>,
) -> impl IntoView {
    let number = unique_number();
    let id = format!("field-{number}");
    let wrong_id = format!("wrong-{number}");
    let hint_id = format!("hint-{number}");
    let described = format!("{wrong_id} {hint_id}");
    let label = view! { <label for=id.clone()>{label}</label> };
    view! {
        <div class="field">
            {explained(label, term)}
            <div class="entry">
                <input id=id type="text" inputmode="decimal" autocomplete="off"
                    autocapitalize="off" spellcheck="false" enterkeyhint="done"
                    prop:value=text
                    on:input=move |event| text.set(event_target_value(&event))
                    on:keydown=move |event| {
                        if event.key() == "Enter" && let Some(enter) = on_enter {
                            enter.run(());
                        }
                    }
                    aria-invalid=move || problem.get().is_some().to_string()
                    aria-describedby=described />
                <span class="unit">{move || unit.get()}</span>
            </div>
            <span class="hint" id=hint_id>{hint}</span>
            <FieldError id=wrong_id problem />
        </div>
    }
}

/// A label or a name, with the button and the meaning of a term in it.
pub(super) fn explained(label: impl IntoView + 'static, term: Option<Term>) -> AnyView {
    let Some(term) = term else { return label.into_any() };
    let (ask, meaning) = explanation(term);
    view! { <div class="label-row">{label}{ask}</div>{meaning} }.into_any()
}

/// A field for a name or a note.
#[component]
pub fn TextField(
    #[prop(into)] label: String,
    text: RwSignal<String>,
    #[prop(into, optional)] hint: Option<String>,
    #[prop(into, optional)] problem: Signal<Option<Message>>,
    /// Several lines instead of one.
    #[prop(optional)]
    long: bool,
    /// Suggestions while typing.
    #[prop(optional)]
    offers: Vec<String>,
) -> impl IntoView {
    let number = unique_number();
    let id = format!("field-{number}");
    let wrong_id = format!("wrong-{number}");
    let list_id = format!("offers-{number}");
    let list = (!offers.is_empty()).then(|| list_id.clone());
    let invalid = move || problem.get().is_some().to_string();
    let control = if long {
        view! {
            <textarea id=id.clone() prop:value=text
                aria-invalid=invalid aria-describedby=wrong_id.clone()
                on:input=move |event| text.set(event_target_value(&event))></textarea>
        }
        .into_any()
    } else {
        view! {
            <input id=id.clone() type="text" autocomplete="off" enterkeyhint="done" list=list
                prop:value=text
                aria-invalid=invalid aria-describedby=wrong_id.clone()
                on:input=move |event| text.set(event_target_value(&event)) />
        }
        .into_any()
    };
    let offers = (!offers.is_empty()).then(|| {
        let options =
            offers.into_iter().map(|offer| view! { <option value=offer></option> }).collect_view();
        view! { <datalist id=list_id>{options}</datalist> }
    });
    view! {
        <div class="field">
            <label for=id>{label}</label>
            {control}
            {offers}
            {hint.map(|hint| view! { <span class="hint">{hint}</span> })}
            <FieldError id=wrong_id problem />
        </div>
    }
}

/// The error of the field above, or nothing; also announced.
#[component]
pub fn FieldError(id: String, #[prop(into)] problem: Signal<Option<Message>>) -> impl IntoView {
    view! {
        <span id=id role="status">
            {move || problem.get().map(|problem| {
                view! { <span class="wrong">{render(&problem)}</span> }
            })}
        </span>
    }
}

/// What is wrong with the choice above, if anything.
#[component]
pub fn ChoiceError(problem: Signal<Option<Message>>) -> impl IntoView {
    view! {
        <span class="field" role="status">
            {move || problem.get().map(|problem| {
                view! { <span class="wrong">{render(&problem)}</span> }
            })}
        </span>
    }
}

/// After a submit: focuses the first invalid field once errors are rendered, or scrolls to the
/// first choice that is missing, unless the focus has moved since.
pub fn to_first_wrong() {
    let pressed_from = document().active_element();
    request_animation_frame(move || {
        if document().active_element() != pressed_from {
            return;
        }
        let first = [
            "dialog[open] [aria-invalid=true]",
            "dialog[open] .wrong",
            "main [aria-invalid=true]",
            "main .wrong",
        ]
        .iter()
        .find_map(|fields| document().query_selector(fields).ok().flatten());
        if let Some(field) = first.and_then(|field| field.dyn_into::<HtmlElement>().ok()) {
            field.scroll_into_view();
            let _ = field.focus();
        }
    });
}
