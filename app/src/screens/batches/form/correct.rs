//! Corrects an entry: its figures, its text, its time.

use bleachfield_core::{
    journal::{Body, Corrected, DrynessFrom, Figure},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{BatchWriter, SaveButton, all_valid, inputs::own_dryness_figure, trimmed};
use crate::{
    components::{ChoiceError, NumberField, NumberInput, TextField},
    i18n::{key, t},
    platform::clock,
    screens::batches::entry::{EntryFigure, figures_mut, note_mut},
};

/// Whether a kind of entry can be corrected. A plan is what was planned, a colour is measured
/// again from its photo, and tags are changed in their own form: none is typed over.
pub fn can_correct(body: &Body) -> bool {
    !matches!(
        body,
        Body::Planned(_)
            | Body::Tagged(_)
            | Body::ColourReading(_)
            | Body::ColourTarget(_)
            | Body::Unknown(_)
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
        .filled(figure.figure.value * factor)
}

/// The figure as corrected: as uncertain as it was, absolutely for a pH or a temperature, else
/// as a part of it. One that was assumed or computed has been told by the person since.
fn corrected(old: Figure, value: f64, kind: QuantityKind, key: &str) -> Figure {
    let told = if key == "retention" { Basis::OwnRecord } else { Basis::Measured };
    match old.basis {
        Basis::Assumed | Basis::Computed => Estimate::exact(value, told),
        _ if matches!(kind, QuantityKind::Ph | QuantityKind::Temperature) => Estimate {
            value,
            low: (value - (old.value - old.low)).max(0.0),
            high: value + (old.high - old.value),
            basis: old.basis,
        },
        _ if old.value > 0.0 => old.map(|end| end * value / old.value),
        basis => Estimate::exact(value, basis),
    }
}

/// Writes the typed values into the body; a figure that was not changed keeps its range.
fn correct_figures(body: &mut Body, inputs: &[NumberInput]) {
    let mut dryness_changed = false;
    for (figure, input) in figures_mut(body).into_iter().zip(inputs) {
        let Some(base) = input.base() else { continue };
        let (value, old) = (base / figure.base, *figure.figure);
        if (value - old.value).abs() > 1e-3 * old.value.abs().max(1e-9) {
            dryness_changed |= figure.key == "dryness";
            *figure.figure = corrected(old, value, figure.kind, figure.key);
        }
    }
    if let Body::Weighed(weighed) = body
        && dryness_changed
    {
        // It no longer comes from the sample.
        weighed.how = DrynessFrom::OwnFigure;
        weighed.sample = None;
        weighed.dryness = own_dryness_figure(weighed.dryness.value);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_corrected_figure_is_as_uncertain_as_it_was() {
        let meter = Estimate { value: 9.0, low: 8.9, high: 9.1, basis: Basis::Measured };
        let ph = corrected(meter, 9.5, QuantityKind::Ph, "ph");
        assert!((ph.low - 9.4).abs() < 1e-9 && (ph.high - 9.6).abs() < 1e-9);
        let strip = Estimate { value: 10.0, low: 5.0, high: 15.0, basis: Basis::Strip };
        let strip = corrected(strip, 20.0, QuantityKind::Concentration, "strip");
        assert_eq!((strip.low, strip.high, strip.basis), (10.0, 30.0, Basis::Strip));
    }

    #[test]
    fn what_was_assumed_is_the_persons_own_once_it_is_corrected() {
        let assumed = Estimate { value: 0.45, low: 0.3, high: 0.6, basis: Basis::Assumed };
        let own = corrected(assumed, 0.5, QuantityKind::Share, "retention");
        assert_eq!(own, Estimate::exact(0.5, Basis::OwnRecord));
        let planned = Estimate::exact(65.0, Basis::Computed);
        let poured = corrected(planned, 70.0, QuantityKind::Volume, "product_amount");
        assert_eq!(poured.basis, Basis::Measured);
    }
}
