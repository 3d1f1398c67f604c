//! What an entry should have said: its figures, its words, its time.

use bleachfield_core::{
    journal::{Body, Corrected, DrynessFrom},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{BatchWriter, Save, asks};
use crate::{
    components::{NumberField, NumberInput, TextField},
    i18n::{format_number, key, t},
    platform::clock,
    screens::batches::{
        notes::note_of_mut,
        telling::{EntryFigure, figures},
    },
};

/// Whether a kind of entry can be corrected here. A plan is what was planned,
/// and a colour is measured anew from its photo: neither is typed over.
pub fn can(body: &Body) -> bool {
    !matches!(
        body,
        Body::Planned(_) | Body::ColourReading(_) | Body::ColourTarget(_) | Body::Unknown(_)
    )
}

#[component]
pub fn Correct(entry: Ulid, writing: BatchWriter) -> Option<impl IntoView> {
    let told = writing.studio.book_now(|book| {
        let batch = book.batches.get(&writing.batch)?;
        batch.timeline.iter().find(|t| t.entry.id == entry).cloned()
    })?;
    let mut body = told.body.clone();
    let asks: Vec<(NumberInput, String)> = figures(&mut body).iter().map(ask).collect();
    let text = RwSignal::new(note_of_mut(&mut body).map(|n| n.clone()).unwrap_or_default());
    let has_text = note_of_mut(&mut body).is_some();
    let at_first = clock::to_field(told.at);
    let at = RwSignal::new(at_first.clone());
    let late = Signal::derive(move || {
        let at = clock::from_field(&at.get());
        match at {
            None => Some(Message::new(key!("refusal-time-unreadable"))),
            Some(at) if at > clock::now() => Some(Message::new(key!("refusal-time-future"))),
            Some(_) => None,
        }
    });
    let fibre = RwSignal::new(match &told.body {
        Body::BatchStarted(begun) => begun.fibre.clone(),
        _ => String::new(),
    });
    let begun = matches!(told.body, Body::BatchStarted(_));
    let why = RwSignal::new(String::new());
    let fields = asks
        .iter()
        .map(|(ask, label)| view! { <NumberField ask=*ask label=label.clone() /> })
        .collect_view();
    let questions: Vec<NumberInput> = asks.iter().map(|(ask, _)| *ask).collect();
    let run = Callback::new(move |()| {
        if !asks::all_well(&questions) || late.get_untracked().is_some() {
            return;
        }
        let mut body = told.body.clone();
        put(&mut body, &questions);
        if let Body::BatchStarted(begun) = &mut body {
            fibre.get_untracked().trim().clone_into(&mut begun.fibre);
        }
        if let Some(note) = note_of_mut(&mut body) {
            text.get_untracked().trim().clone_into(note);
        }
        let moved = at.get_untracked() != at_first;
        let at = clock::from_field(&at.get_untracked()).filter(|_| moved);
        // An earlier correction of the time stays in force.
        let at = at.or_else(|| (told.at != told.entry.at).then_some(told.at));
        if body == told.body && !moved {
            writing.close();
            return;
        }
        let why = why.get_untracked().trim().to_owned();
        let corrected = Corrected { entry, body: Box::new(body), at, why };
        writing.save(Body::Corrected(corrected));
    });
    Some(view! {
        <div class="stack">
            {begun.then(|| view! { <TextField label=t!("form-correct-fibre") text=fibre /> })}
            {fields}
            {has_text.then(|| view! { <TextField label=t!("form-note-text") text long=true /> })}
            <div class="field">
                <label for="happened-at">{t!("form-correct-at")}</label>
                <input id="happened-at" type="datetime-local" prop:value=at
                    on:input=move |event| at.set(event_target_value(&event)) />
                <super::FieldError problem=late />
            </div>
            <TextField label=t!("form-correct-why") text=why />
            <Save writing run />
        </div>
    })
}

/// A question filled with what the entry says now.
fn ask(held: &EntryFigure<'_>) -> (NumberInput, String) {
    // Every figure is asked for in the entry's own unit, but shares in percent.
    let value = held.figure.value * if held.kind == QuantityKind::Share { 100.0 } else { 1.0 };
    let shown = format_number(value, 4);
    let ask = NumberInput::new(Field(held.key), held.kind).unit(held.unit).filled(shown);
    (ask, t(&format!("figure-{}", held.key)))
}

/// Puts the answers in; a figure that was left alone keeps its range.
fn put(body: &mut Body, answers: &[NumberInput]) {
    let mut dryness_changed = false;
    for (held, answer) in figures(body).into_iter().zip(answers) {
        let Some(base) = answer.base() else { continue };
        let value = base / held.base;
        if (value - held.figure.value).abs() > 1e-3 * held.figure.value.abs().max(1e-9) {
            dryness_changed |= held.key == "dryness";
            let basis = match held.figure.basis {
                Basis::Assumed | Basis::Computed => Basis::Measured,
                known => known,
            };
            *held.figure = Estimate::exact(value, basis);
        }
    }
    if let Body::Weighed(weighed) = body
        && dryness_changed
    {
        // The dryness no longer is what the sample gave.
        weighed.how = DrynessFrom::OwnFigure;
        weighed.sample = None;
        weighed.dryness.basis = Basis::OwnRecord;
    }
}
