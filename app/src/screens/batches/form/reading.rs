//! A reading off a strip, meter or thermometer.

use bleachfield_core::{
    bath::by_thermometer,
    journal::{Body, Reading, ReadingOf},
    message::Message,
    quantity::{Basis, Estimate, PH, QuantityKind, TEMPERATURE},
};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, inputs, ph_figure, strip_figure, trimmed};
use crate::{
    components::{ChoiceError, NumberField, NumberInput, RadioGroup, TextField},
    i18n::{key, t},
    screens::batches::entry::name_of,
};

/// The most frequent first.
const QUANTITIES: [ReadingOf; 8] = [
    ReadingOf::Ph,
    ReadingOf::AvailableChlorineMgPerL,
    ReadingOf::PeroxideMgPerL,
    ReadingOf::Celsius,
    ReadingOf::StarchIodide,
    ReadingOf::TapPh,
    ReadingOf::HardnessMgPerL,
    ReadingOf::Other,
];

#[component]
pub fn ReadingForm(writer: BatchWriter) -> impl IntoView {
    let what = RwSignal::new(ReadingOf::Ph);
    let by_strip = RwSignal::new(true);
    let turned = RwSignal::new(None::<bool>);
    let text = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let ph = NumberInput::new(PH, QuantityKind::Ph);
    let strip = inputs::strip_input();
    let celsius = NumberInput::new(TEMPERATURE, QuantityKind::Temperature);
    let input = move |what| match what {
        ReadingOf::Ph | ReadingOf::TapPh => Some(ph),
        ReadingOf::AvailableChlorineMgPerL
        | ReadingOf::PeroxideMgPerL
        | ReadingOf::HardnessMgPerL => Some(strip),
        ReadingOf::Celsius => Some(celsius),
        ReadingOf::StarchIodide | ReadingOf::Other => None,
    };
    let missing = Signal::derive(move || {
        let missing = tried.get()
            && match what.get() {
                ReadingOf::StarchIodide => turned.get().is_none(),
                ReadingOf::Other => text.with(|t| t.trim().is_empty()),
                _ => false,
            };
        missing.then(|| Message::new(key!("refusal-reading-empty")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        let what = what.get_untracked();
        let input = input(what);
        if input.is_some_and(|input| !input.try_now()) || missing.get_untracked().is_some() {
            return;
        }
        let figure = match (what, input) {
            (ReadingOf::StarchIodide, _) => turned
                .get_untracked()
                .map(|turned| Estimate::exact(f64::from(u8::from(turned)), Basis::Strip)),
            (ReadingOf::Celsius, Some(input)) => input.base().map(by_thermometer),
            (ReadingOf::Ph | ReadingOf::TapPh, Some(input)) => {
                ph_figure(input, by_strip.get_untracked())
            }
            (ReadingOf::HardnessMgPerL, Some(input)) => {
                input.base().map(|g_per_l| Estimate::exact(g_per_l / 1e-3, Basis::Strip))
            }
            (_, Some(input)) => strip_figure(input),
            (_, None) => None,
        };
        let of_tap = matches!(what, ReadingOf::TapPh | ReadingOf::HardnessMgPerL);
        let bath = writer.running_bath().filter(|_| !of_tap);
        writer.save(Body::Reading(Reading { bath, what, figure, text: trimmed(text) }));
    });
    view! {
        <div class="stack">
            <RadioGroup label=t!("form-reading-what") value=what
                options=QUANTITIES.map(|w| (w, name_of("reading", w))).to_vec() />
            {move || {
                let what = what.get();
                match input(what) {
                    Some(ask) => {
                        let label = name_of("reading", what);
                        let is_ph = matches!(what, ReadingOf::Ph | ReadingOf::TapPh);
                        view! {
                            <NumberField ask label />
                            {is_ph.then(|| view! {
                                <RadioGroup label=t!("form-reading-by") value=by_strip options=vec![
                                    (true, t!("form-reading-by_strip")),
                                    (false, t!("form-reading-by_meter")),
                                ] />
                            })}
                        }.into_any()
                    }
                    None if what == ReadingOf::StarchIodide => view! {
                        <RadioGroup label=t!("form-reading-turned-label") value=turned options=vec![
                            (Some(false), t!("entry_line-not_turned")),
                            (Some(true), t!("entry_line-turned")),
                        ] />
                        <ChoiceError problem=missing />
                    }.into_any(),
                    None => ().into_any(),
                }
            }}
            <TextField label=t!("form-reading-text") text
                problem=Signal::derive(move || {
                    missing.get().filter(|_| what.get() == ReadingOf::Other)
                }) />
            <SaveButton writer run />
        </div>
    }
}
