//! The form for a reading of a running bath: pH, strip, temperature, or a remark.

use bleachfield_core::{
    bath::by_thermometer,
    caution::Caution,
    chemistry::{
        alkali::{meter_ph, strip_ph},
        oxidant_strip,
    },
    derive::cue::CueKind,
    journal::{Body, Figure, Oxidant, Reading, ReadingOf},
    message::Field,
    quantity::{PH, QuantityKind, TEMPERATURE, Unit},
};
use leptos::prelude::*;

use super::running_bath::RunningBath;
use crate::{
    components::{CautionCard, NumberField, NumberInput, RadioGroup, TextField, to_first_wrong},
    i18n::t,
};

const STRIP: Field = Field("bath_strip");

/// The answers. Copied freely.
#[derive(Clone, Copy)]
struct Answers {
    ph: NumberInput,
    by_meter: RwSignal<bool>,
    strip: NumberInput,
    celsius: NumberInput,
    remark: RwSignal<String>,
}

#[component]
pub fn ReadingForm(running: RunningBath) -> impl IntoView {
    let answers = Answers::new();
    let Answers { ph, by_meter, strip, celsius, remark } = answers;
    let empty = RwSignal::new(false);
    let latest = running.latest_readings();
    let of_ph = Signal::derive(move || {
        let read = ph.base().map(|value| ph_figure(value, by_meter.get()));
        read.map_or_else(Vec::new, |read| latest.with(|latest| latest.cautions_of_ph(read)))
    });
    let of_celsius = Signal::derive(move || {
        celsius
            .base()
            .map(by_thermometer)
            .map_or_else(Vec::new, |read| latest.with(|latest| latest.cautions_of_celsius(read)))
    });
    let strip_label = if running.oxidant == Oxidant::Hypochlorite {
        t!("sink-chlorine_strip")
    } else {
        t!("sink-peroxide_strip")
    };
    let save = Callback::new(move |()| {
        if let Some(bodies) = answers.entries(running) {
            empty.set(bodies.is_empty());
            running.write(bodies, t!("sink-said-reading"), Some(running.sheets.reading));
        }
    });
    view! {
        <div class="stack">
            <NumberField ask=ph label=t!("sink-ph") on_enter=save />
            <Show when=move || { !ph.is_empty() }>
                <RadioGroup label=t!("sink-reading-by") quiet=true value=by_meter options=vec![
                    (false, t!("sink-reading-by_strip")),
                    (true, t!("sink-reading-by_meter")),
                ] />
            </Show>
            <FieldCautions cautions=of_ph />
            <NumberField ask=strip label=strip_label hint=t!("sink-reading-strip_hint")
                on_enter=save />
            <NumberField ask=celsius label=t!("sink-temperature") on_enter=save />
            <FieldCautions cautions=of_celsius />
            <TextField label=t!("sink-reading-seen") text=remark />
            <p role="status">
                {move || empty.get().then(|| view! {
                    <span class="refused">{t!("sink-reading-nothing")}</span>
                })}
            </p>
            <button class="button touch" disabled=move || running.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-reading-save")}</button>
        </div>
    }
}

impl Answers {
    fn new() -> Self {
        Self {
            ph: NumberInput::new(PH, QuantityKind::Ph).optional(),
            by_meter: RwSignal::new(false),
            strip: NumberInput::new(STRIP, QuantityKind::Concentration)
                .unit(Unit::MilligramsPerLitre)
                .between(0.0, 20.0)
                .optional(),
            celsius: NumberInput::new(TEMPERATURE, QuantityKind::Temperature).optional(),
            remark: RwSignal::new(String::new()),
        }
    }

    /// A reading for each answer, and answers to the cues that asked for it; `None` while one
    /// cannot be read.
    fn entries(self, running: RunningBath) -> Option<Vec<Body>> {
        if [self.ph, self.strip, self.celsius].map(NumberInput::try_now).contains(&false) {
            return None;
        }
        let reading = |what, figure, text| {
            Body::Reading(Reading { bath: Some(running.bath), what, figure, text })
        };
        let measured = |what, figure| reading(what, Some(figure), String::new());
        let mut bodies = Vec::new();
        if let Some(ph) = self.ph.base() {
            let figure = ph_figure(ph, self.by_meter.get_untracked());
            bodies.push(measured(ReadingOf::Ph, figure));
            bodies.extend(running.answers(CueKind::Ph));
        }
        if let Some(g_per_l) = self.strip.base() {
            let what = match running.oxidant {
                Oxidant::Hypochlorite => ReadingOf::AvailableChlorineMgPerL,
                Oxidant::Percarbonate | Oxidant::Peroxide => ReadingOf::PeroxideMgPerL,
            };
            let figure = oxidant_strip(g_per_l * 1000.0);
            bodies.push(measured(what, figure));
            bodies.extend(running.answers(CueKind::Strip));
        }
        if let Some(celsius) = self.celsius.base() {
            bodies.push(measured(ReadingOf::Celsius, by_thermometer(celsius)));
        }
        let remark = self.remark.get_untracked().trim().to_owned();
        if !remark.is_empty() {
            bodies.push(reading(ReadingOf::Other, None, remark));
        }
        Some(bodies)
    }
}

/// Cautions right under the field whose value raises them.
#[component]
pub fn FieldCautions(cautions: Signal<Vec<Caution>>) -> impl IntoView {
    view! {
        <div class="stack" role="status">
            {move || cautions.get().into_iter().map(|caution| view! {
                <CautionCard caution />
            }).collect_view()}
        </div>
    }
}

/// A pH with the range of a meter or a strip.
fn ph_figure(ph: f64, by_meter: bool) -> Figure {
    if by_meter { meter_ph(ph) } else { strip_ph(ph) }
}
