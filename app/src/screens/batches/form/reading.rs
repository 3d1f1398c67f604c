//! A reading off a strip, meter or thermometer.

use bleachfield_core::{
    journal::{Body, Figure, Reading, ReadingOf},
    message::Message,
    quantity::{Basis, Estimate, PH, QuantityKind, TEMPERATURE},
};
use leptos::prelude::*;

use super::{BatchWriter, Save, asks};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, TextField},
    i18n::{key, t},
    screens::batches::telling::name_of,
};

/// What can be read, most often first.
const WHAT: [ReadingOf; 8] = [
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
pub fn ReadingForm(writing: BatchWriter) -> impl IntoView {
    let what = RwSignal::new(ReadingOf::Ph);
    let by_strip = RwSignal::new(true);
    let turned = RwSignal::new(None::<bool>);
    let text = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let ph = NumberInput::new(PH, QuantityKind::Ph);
    let strip = asks::strip();
    let celsius = NumberInput::new(TEMPERATURE, QuantityKind::Temperature);
    let ask = move |what| match what {
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
        let ask = ask(what);
        if ask.is_some_and(|ask| !ask.try_now()) || missing.get_untracked().is_some() {
            return;
        }
        let figure = match (what, ask) {
            (ReadingOf::StarchIodide, _) => turned
                .get_untracked()
                .map(|turned| Estimate::exact(f64::from(u8::from(turned)), Basis::Strip)),
            (ReadingOf::Celsius, Some(ask)) => asks::figure(ask, 1.0, Basis::Measured),
            (ReadingOf::Ph | ReadingOf::TapPh, Some(ask)) => {
                ph_figure(ask, by_strip.get_untracked())
            }
            (_, Some(ask)) => asks::figure(ask, 1e-3, Basis::Strip),
            (_, None) => None,
        };
        let tap = matches!(what, ReadingOf::TapPh | ReadingOf::HardnessMgPerL);
        let bath = writing.running().filter(|_| !tap);
        let text = text.get_untracked().trim().to_owned();
        writing.save(Body::Reading(Reading { bath, what, figure, text }));
    });
    view! {
        <div class="stack">
            <RadioGroup label=t!("form-reading-what") value=what
                options=WHAT.map(|w| (w, name_of("reading", w))).to_vec() />
            {move || {
                let what = what.get();
                match ask(what) {
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
                        <super::FieldError problem=missing />
                    }.into_any(),
                    None => ().into_any(),
                }
            }}
            <TextField label=t!("form-reading-text") text
                problem=Signal::derive(move || {
                    missing.get().filter(|_| what.get() == ReadingOf::Other)
                }) />
            <Save writing run />
        </div>
    }
}

/// A pH with its range: half a unit either way off a strip, a tenth off a
/// meter. Common practice, no source.
fn ph_figure(ask: NumberInput, by_strip: bool) -> Option<Figure> {
    let (half, basis) = if by_strip { (0.5, Basis::Strip) } else { (0.1, Basis::Measured) };
    ask.base().map(|value| Estimate {
        value,
        low: (value - half).max(0.0),
        high: (value + half).min(14.0),
        basis,
    })
}
