//! What to add so that the liquor comes into its window. Never acid.

use bleachfield_core::{
    chemistry::{
        Refusal,
        alkali::{Advice, Alkali, Window, from_reading, from_recipe},
        equilibrium::Mix,
    },
    message::Value,
    quantity::{Basis, Known, in_grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    locale::{number, said, word, words, written},
    part::Choice,
};

/// A strip is read to half a unit (common practice, no source).
const STRIP_OFF: f64 = 0.5;

#[component]
pub fn Advise(mix: Mix, read: Option<f64>, ph: f64, window: Window) -> impl IntoView {
    let alkali = RwSignal::new(Alkali::SodaAsh);
    let low = read.unwrap_or(ph) < window.low;
    let advise = move || match read {
        Some(ph) => {
            let (low, high) = ((ph - STRIP_OFF).max(0.0), (ph + STRIP_OFF).min(14.0));
            from_reading(
                &mix,
                Known { value: ph, low, high, basis: Basis::Strip },
                window,
                alkali.get(),
            )
        }
        None => from_recipe(&mix, window, alkali.get()),
    };
    view! {
        <div class="stack">
            <h3>{word("liquor.advice_head")}</h3>
            {low.then(|| view! {
                <Choice label=word("liquor.with_what") value=alkali options=Alkali::ALL
                    .iter().map(|alkali| (*alkali, word(name(*alkali)))).collect() />
            })}
            <p>{move || told(advise())}</p>
            <p class="small soft">{word("liquor.never_acid")}</p>
        </div>
    }
}

fn told(advice: Result<Advice, Refusal>) -> String {
    match advice {
        Ok(Advice::Leave { ph }) => {
            words("liquor.leave", &[("ph", &written(&Value::Ph(ph.value)))])
        }
        Ok(Advice::TooHigh { ph }) => {
            words("liquor.too_high", &[("ph", &written(&Value::Ph(ph.value)))])
        }
        Ok(Advice::Add { ph, alkali, dose }) => {
            let grams = |c| number(in_grams_per_litre(c), 2);
            words(
                "liquor.add",
                &[
                    ("ph", &written(&Value::Ph(ph.value))),
                    ("alkali", &word(name(alkali))),
                    ("dose", &grams(dose.value)),
                    ("low", &grams(dose.low)),
                    ("high", &grams(dose.high)),
                ],
            )
        }
        Err(refusal) => said(&refusal.message()),
    }
}

fn name(alkali: Alkali) -> &'static str {
    match alkali {
        Alkali::SodaAsh => "liquor.soda_ash",
        Alkali::SodaMonohydrate => "liquor.soda_monohydrate",
        Alkali::WashingSoda => "liquor.washing_soda",
        Alkali::Lye => "liquor.lye",
        Alkali::BakingSoda => "liquor.baking_soda",
    }
}
