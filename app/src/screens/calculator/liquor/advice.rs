//! The alkali that brings a liquor into its pH window. Acid is never advised.

use bleachfield_core::{
    chemistry::{
        alkali::{Advice, AlkaliReagent, WINDOW_CELSIUS, from_reading, from_recipe},
        liquor::SolvedLiquor,
    },
    message::Value,
    quantity::{Estimate, grams, in_grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_text, no_acid},
};

/// `reading` is the pH of a sample cooled to room temperature; without one the predicted pH counts.
#[component]
pub fn AlkaliAdvice(
    liquor: SolvedLiquor,
    reading: Option<Estimate<f64>>,
    /// Volume of the bath.
    litres: f64,
    alkali: RwSignal<AlkaliReagent>,
) -> impl IntoView {
    let SolvedLiquor { mix, ph_at_25, window, .. } = liquor;
    let too_low = reading.map_or(ph_at_25, |reading| reading.value) < window.low;
    let text = move || {
        let advice = match reading {
            Some(reading) => from_reading(&mix, reading, WINDOW_CELSIUS, window, alkali.get()),
            None => from_recipe(&mix, window, alkali.get()),
        };
        advice.map_or_else(|error| render(&error.message()), |advice| advice_text(advice, litres))
    };
    view! {
        <div class="stack">
            <h3>{t!("liquor-advice_head")}</h3>
            {too_low.then(|| alkali_choice(alkali))}
            <p>{text}</p>
            {no_acid(window)}
        </div>
    }
}

fn advice_text(advice: Advice, litres: f64) -> String {
    let at = |ph: Estimate<f64>| format_value(&Value::Ph(ph.value));
    match advice {
        Advice::Leave { ph } => t_with!("liquor-leave", &[("ph", &at(ph))]),
        Advice::TooHigh { ph } => t_with!("liquor-too_high", &[("ph", &at(ph))]),
        Advice::Add { ph, alkali, dose } => {
            let mass = dose.map(|dose| grams(in_grams_per_litre(dose) * litres));
            let below = t_with!("liquor-add", &[("ph", &at(ph))]);
            format!("{below} {}", dose_text(alkali, mass))
        }
    }
}
