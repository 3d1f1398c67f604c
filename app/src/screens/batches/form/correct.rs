//! Corrects an entry: its figures, its text, its time.

use bleachfield_core::{
    journal::{Body, Corrected, DrynessFrom},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{BatchWriter, ChoiceError, SaveButton, all_valid, trimmed};
use crate::{
    components::{NumberField, NumberInput, TextField},
    i18n::{format_number, key, t},
    platform::clock,
    screens::batches::entry::{EntryFigure, figures_mut, note_mut},
};

/// Whether a kind of entry can be corrected. A plan is what was planned, and a colour is
/// measured again from its photo: neither is typed over.
pub fn can_correct(body: &Body) -> bool {
    !matches!(
        body,
        Body::Planned(_) | Body::ColourReading(_) | Body::ColourTarget(_) | Body::Unknown(_)
    )
}

#[component]
pub fn CorrectForm(entry: Ulid, writer: BatchWriter) -> Option<impl IntoView> {
    let old = writer
        .read(|_, batch| batch.timeline.iter().find(|known| known.entry.id == entry).cloned())??;
    let mut body = old.body.clone();
    let (inputs, labels): (Vec<NumberInput>, Vec<String>) =
        figures_mut(&mut body).iter().map(|figure| (input(figure), figure.name())).unzip();
    let fields = inputs.iter().zip(labels);
    let fields = fields.map(|(ask, label)| view! { <NumberField ask=*ask label /> }).collect_view();
    let fibre = match &body {
        Body::BatchStarted(started) => Some(RwSignal::new(started.fibre.clone())),
        _ => None,
    };
    let note = note_mut(&mut body).map(|note| RwSignal::new(note.clone()));
    let old_at = clock::to_field(old.at);
    let at = RwSignal::new(old_at.clone());
    let at_problem = Signal::derive(move || match clock::from_field(&at.get()) {
        None => Some(Message::new(key!("refusal-time-unreadable"))),
        Some(at) if at > clock::now() => Some(Message::new(key!("refusal-time-future"))),
        Some(_) => None,
    });
    let why = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if !all_valid(&inputs) || at_problem.get_untracked().is_some() {
            return;
        }
        let mut body = old.body.clone();
        correct_figures(&mut body, &inputs);
        if let (Body::BatchStarted(started), Some(fibre)) = (&mut body, fibre) {
            started.fibre = trimmed(fibre);
        }
        if let (Some(text), Some(note)) = (note_mut(&mut body), note) {
            *text = trimmed(note);
        }
        let at = at.get_untracked();
        let moved = at != old_at;
        if body == old.body && !moved {
            return writer.close();
        }
        // An earlier correction of the time stays in force.
        let at = clock::from_field(&at)
            .filter(|_| moved)
            .or_else(|| (old.at != old.entry.at).then_some(old.at));
        writer.save(Body::Corrected(Corrected {
            entry,
            body: Box::new(body),
            at,
            why: trimmed(why),
        }));
    });
    Some(view! {
        <div class="stack">
            {fibre.map(|text| view! { <TextField label=t!("form-correct-fibre") text /> })}
            {fields}
            {note.map(|text| view! { <TextField label=t!("form-note-text") text long=true /> })}
            <div class="field">
                <label for="happened-at">{t!("form-correct-at")}</label>
                <input id="happened-at" type="datetime-local" prop:value=at
                    on:input=move |event| at.set(event_target_value(&event)) />
                <ChoiceError problem=at_problem />
            </div>
            <TextField label=t!("form-correct-why") text=why />
            <SaveButton writer run />
        </div>
    })
}

/// An input with the present value, in the unit of the record, but shares in percent.
fn input(figure: &EntryFigure<'_>) -> NumberInput {
    let factor = if figure.kind == QuantityKind::Share { 100.0 } else { 1.0 };
    NumberInput::new(Field(figure.key), figure.kind)
        .unit(figure.unit)
        .filled(format_number(figure.figure.value * factor, 4))
}

/// Writes the typed values into the body; a figure that was not changed keeps its range.
fn correct_figures(body: &mut Body, inputs: &[NumberInput]) {
    let mut dryness_changed = false;
    for (figure, input) in figures_mut(body).into_iter().zip(inputs) {
        let Some(base) = input.base() else { continue };
        let (value, old) = (base / figure.base, *figure.figure);
        if (value - old.value).abs() > 1e-3 * old.value.abs().max(1e-9) {
            dryness_changed |= figure.key == "dryness";
            let basis = match old.basis {
                Basis::Assumed | Basis::Computed => Basis::Measured,
                basis => basis,
            };
            *figure.figure = Estimate::exact(value, basis);
        }
    }
    if let Body::Weighed(weighed) = body
        && dryness_changed
    {
        // It no longer comes from the sample.
        weighed.how = DrynessFrom::OwnFigure;
        weighed.sample = None;
        weighed.dryness.basis = Basis::OwnRecord;
    }
}
