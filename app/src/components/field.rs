//! Text fields. Invalid text stays in its field, with the error beside it.

use bleachfield_core::message::Message;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

use super::{
    radio_group::unique_number,
    term::{Term, explanation},
};
use crate::{
    i18n::{render, t, t_with},
    platform::draft::DraftScope,
};

/// The units that a person may choose for a field.
#[derive(Clone)]
pub struct UnitChoice {
    pub names: Vec<String>,
    /// Place of the chosen one.
    pub chosen: Signal<usize>,
    /// It is measured in halves, thirds and quarters, which a phone's keypad cannot type.
    pub fractions: Signal<bool>,
    pub choose: Callback<usize>,
}

/// Fractions of a kitchen measure.
const FRACTIONS: [char; 6] = ['⅛', '¼', '⅓', '½', '⅔', '¾'];

/// A field for a number with its unit. Any text is accepted; the caller parses it and returns
/// the problem.
#[component]
pub fn ValueField(
    #[prop(into)] label: String,
    text: RwSignal<String>,
    /// The unit of a number typed without one.
    #[prop(into)]
    unit: Signal<String>,
    #[prop(optional_no_strip)] units: Option<UnitChoice>,
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
    let fractions = units.as_ref().map(|units| fraction_row(text, units.fractions));
    let unit = match units {
        Some(units) => unit_list(&label, units),
        None => view! { <span class="unit">{move || unit.get()}</span> }.into_any(),
    };
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
                {unit}
            </div>
            {fractions}
            <span class="hint" id=hint_id>{hint}</span>
            <FieldError id=wrong_id problem />
        </div>
    }
}

/// The unit as a list to choose from: the phone shows it as it shows any list.
fn unit_list(label: &str, units: UnitChoice) -> AnyView {
    let UnitChoice { names, chosen, choose, .. } = units;
    let options = names.into_iter().enumerate().map(|(at, name)| {
        view! { <option value=at.to_string() prop:selected=move || chosen.get() == at>{name}</option> }
    });
    view! {
        <select class="unit" aria-label=t_with!("field-unit_of", &[("field", label)])
            on:change=move |event| {
                if let Ok(at) = event_target_value(&event).parse() {
                    choose.run(at);
                }
            }>
            {options.collect_view()}
        </select>
    }
    .into_any()
}

/// Buttons that put a fraction behind the number.
fn fraction_row(text: RwSignal<String>, shown: Signal<bool>) -> AnyView {
    let put = move |fraction: char| {
        text.update(|text| {
            let whole = text.trim_end_matches(|c| FRACTIONS.contains(&c)).trim_end();
            *text = if whole.is_empty() { fraction.into() } else { format!("{whole} {fraction}") };
        });
    };
    let button = move |fraction: char| {
        view! { <button type="button" on:click=move |_| put(fraction)>{fraction}</button> }
    };
    view! {
        <div class="fractions" role="group" aria-label=t!("field-fractions")
            hidden=move || !shown.get()>
            {FRACTIONS.map(button).collect_view()}
        </div>
    }
    .into_any()
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
    keep_text(&label, text);
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

/// Restores a text that was typed before and not saved, and keeps what is typed.
pub fn keep_text(label: &str, text: RwSignal<String>) {
    let Some(draft) = DraftScope::current() else { return };
    let initial = text.get_untracked();
    if let Some(kept) = draft.restore_once(label) {
        text.set(kept);
    }
    let label = label.to_owned();
    Effect::new(move |earlier: Option<()>| {
        let now = text.get();
        if earlier.is_some() {
            draft.keep(&label, (now != initial).then_some(now));
        }
    });
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
