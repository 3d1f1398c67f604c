//! A reading of a running bath: pH, strip, temperature, or words.

use bleachfield_core::{
    caution::Caution,
    derive::cue::CueKind,
    journal::{Body, Figure, Oxidant, Reading, ReadingOf},
    message::Field,
    quantity::{Basis, Celsius, Estimate, PH, Ph, QuantityKind, TEMPERATURE, Unit},
};
use leptos::prelude::*;

use super::{
    latest::{LatestReadings, raised},
    running::RunningBath,
};
use crate::{
    components::{
        BottomSheet, CautionCard, NumberField, NumberInput, RadioGroup, TextField, to_first_wrong,
    },
    i18n::{key, t},
};

/// The test strip of a bath.
const STRIP: Field = Field("bath_strip");

/// How far a pH read off a strip's colours may be out. Common practice, no
/// source: strips for the whole range step by one.
const PH_STRIP: f64 = 0.5;

/// How far a hobby meter that was calibrated lately may be out. Common
/// practice, no source.
const PH_METER: f64 = 0.1;

/// How far a strip of colour steps may be out, as a part of what it shows.
/// Common practice, no source: the steps about double.
const STRIP_PART: f64 = 0.4;

/// How far a kitchen thermometer may be out, °C. Common practice, no source.
const THERMOMETER: f64 = 1.0;

#[component]
pub fn ReadingSheet(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("sink-reading-title")>
            <ReadingForm running open />
        </BottomSheet>
    }
}

#[component]
fn ReadingForm(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    let ph = NumberInput::new(PH, QuantityKind::Ph).optional();
    let by_meter = RwSignal::new(false);
    let strip = NumberInput::new(STRIP, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 20.0)
        .optional();
    let celsius = NumberInput::new(TEMPERATURE, QuantityKind::Temperature).optional();
    let seen = RwSignal::new(String::new());
    let nothing = RwSignal::new(false);
    let latest =
        Memo::new(move |_| running.studio.book(|book| LatestReadings::of(book, running.bath)));
    let of_ph = Signal::derive(move || {
        let mut situation = latest.with(LatestReadings::situation);
        situation.ph = ph.base().and_then(|value| Ph::new(value).ok());
        situation.ph.map(|_| raised(&situation, true, false)).unwrap_or_default()
    });
    let of_heat = Signal::derive(move || {
        let mut situation = latest.with(LatestReadings::situation);
        situation.temperature = celsius.base().and_then(|value| Celsius::new(value).ok());
        situation.temperature.map(|_| raised(&situation, false, true)).unwrap_or_default()
    });
    let chlorine = running.oxidant == Oxidant::Hypochlorite;
    let (strip_label, strip_of) = if chlorine {
        (key!("sink-chlorine_strip"), ReadingOf::AvailableChlorineMgPerL)
    } else {
        (key!("sink-peroxide_strip"), ReadingOf::PeroxideMgPerL)
    };
    let save = move |()| {
        let readable = [ph, strip, celsius].map(NumberInput::try_now);
        if readable.contains(&false) {
            return;
        }
        let reading = |what, figure| {
            Body::Reading(Reading {
                bath: Some(running.bath),
                what,
                figure: Some(figure),
                text: String::new(),
            })
        };
        let mut bodies = Vec::new();
        if let Some(value) = ph.base() {
            let figure = if by_meter.get_untracked() {
                give_or_take(value, PH_METER, Basis::Measured)
            } else {
                give_or_take(value, PH_STRIP, Basis::Strip)
            };
            let within = Figure { high: figure.high.min(14.0), ..figure };
            bodies.push(reading(ReadingOf::Ph, within));
            bodies.extend(running.answers(CueKind::Ph));
        }
        if let Some(value) = strip.base() {
            // The field's base unit is g/L.
            let figure = Estimate::within(value * 1000.0, STRIP_PART, Basis::Strip);
            bodies.push(reading(strip_of, figure));
            bodies.extend(running.answers(CueKind::Strip));
        }
        if let Some(value) = celsius.base() {
            bodies.push(reading(
                ReadingOf::Celsius,
                give_or_take(value, THERMOMETER, Basis::Measured),
            ));
        }
        let text = seen.get_untracked().trim().to_owned();
        if !text.is_empty() {
            bodies.push(Body::Reading(Reading {
                bath: Some(running.bath),
                what: ReadingOf::Other,
                figure: None,
                text,
            }));
        }
        nothing.set(bodies.is_empty());
        running.write(bodies, t!("sink-said-reading"), Some(open));
    };
    let enter = Callback::new(save);
    view! {
        <div class="stack">
            <NumberField ask=ph label=t!("sink-ph") on_enter=enter />
            <Show when=move || { !ph.is_empty() }>
                <RadioGroup label=t!("sink-reading-by") quiet=true value=by_meter options=vec![
                    (false, t!("sink-reading-by_strip")),
                    (true, t!("sink-reading-by_meter")),
                ] />
            </Show>
            <Beside cautions=of_ph />
            <NumberField ask=strip label=t(strip_label) hint=t!("sink-reading-strip_hint")
                on_enter=enter />
            <NumberField ask=celsius label=t!("sink-temperature") on_enter=enter />
            <Beside cautions=of_heat />
            <TextField label=t!("sink-reading-seen") text=seen />
            <p role="status">
                {move || nothing.get().then(|| view! {
                    <span class="refused">{t!("sink-reading-nothing")}</span>
                })}
            </p>
            <button class="button touch" disabled=move || running.busy.get()
                on:click=move |_| { enter.run(()); to_first_wrong() }>{t!("sink-reading-save")}</button>
        </div>
    }
}

/// What there is to say about a number, right under it.
#[component]
pub fn Beside(cautions: Signal<Vec<Caution>>) -> impl IntoView {
    view! {
        <div class="stack" role="status">
            {move || cautions.get().into_iter().map(|caution| view! {
                <CautionCard caution />
            }).collect_view()}
        </div>
    }
}

/// A value that may be out by `by` either way, never below nothing.
pub fn give_or_take(value: f64, by: f64, basis: Basis) -> Figure {
    Estimate { value, low: (value - by).max(0.0), high: value + by, basis }
}
