//! What to add so that the liquor comes into its window. Never acid.

use bleachfield_core::{
    chemistry::{
        EquilibriumError,
        alkali::{Advice, AlkaliReagent, PhWindow, from_reading, from_recipe},
        equilibrium::Mix,
    },
    message::Value,
    quantity::{Basis, Estimate, grams, in_grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_in_words, no_acid},
};

/// A pH that was read, and how far the reading may be off.
#[derive(Clone, Copy, PartialEq)]
pub struct MeasuredPh {
    pub ph: f64,
    pub off: f64,
    pub basis: Basis,
}

/// `litres` of the bath are to be helped.
#[component]
pub fn Advise(
    mix: Mix,
    read: Option<MeasuredPh>,
    ph: f64,
    window: PhWindow,
    litres: f64,
    alkali: RwSignal<AlkaliReagent>,
) -> impl IntoView {
    let low = read.map_or(ph, |read| read.ph) < window.low;
    let advise = move || match read {
        Some(MeasuredPh { ph, off, basis }) => {
            let (low, high) = ((ph - off).max(0.0), (ph + off).min(14.0));
            from_reading(&mix, Estimate { value: ph, low, high, basis }, window, alkali.get())
        }
        None => from_recipe(&mix, window, alkali.get()),
    };
    view! {
        <div class="stack">
            <h3>{t!("liquor-advice_head")}</h3>
            {low.then(|| alkali_choice(alkali))}
            <p>{move || told(advise(), litres)}</p>
            {no_acid(window)}
        </div>
    }
}

fn told(advice: Result<Advice, EquilibriumError>, litres: f64) -> String {
    match advice {
        Ok(Advice::Leave { ph }) => {
            t_with!("liquor-leave", &[("ph", &format_value(&Value::Ph(ph.value)))])
        }
        Ok(Advice::TooHigh { ph }) => {
            t_with!("liquor-too_high", &[("ph", &format_value(&Value::Ph(ph.value)))])
        }
        Ok(Advice::Add { ph, alkali, dose }) => {
            let mass = dose.map(|dose| grams(in_grams_per_litre(dose) * litres));
            let below = t_with!("liquor-add", &[("ph", &format_value(&Value::Ph(ph.value)))]);
            format!("{below} {}", dose_in_words(alkali, mass))
        }
        Err(refusal) => render(&refusal.message()),
    }
}
