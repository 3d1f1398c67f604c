//! The predicted pH of the bath, and what to add for it. Never acid.

use bleachfield_core::{
    bath::{PhHelp, PredictedPh},
    chemistry::{EquilibriumError, alkali::AlkaliReagent},
    message::Value,
    quantity::Celsius,
};
use leptos::prelude::*;

use super::figures::range_text;
use crate::{
    components::{Assumed, Fact},
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_text, no_acid},
};

type Prediction = Result<PredictedPh, EquilibriumError>;

fn ph(ph: f64) -> String {
    format_value(&Value::Ph(ph))
}

/// The pH with its range, and what to do about it.
pub fn short(predicted: &Prediction, alkali: RwSignal<AlkaliReagent>) -> AnyView {
    let predicted = match predicted {
        Ok(predicted) => *predicted,
        Err(error) => {
            let why = t_with!("plan-no_ph", &[("why", &render(&error.message()))]);
            return view! { <p>{why}</p> }.into_any();
        }
    };
    let (low, high) = (ph(predicted.window.low), ph(predicted.window.high));
    let leave = t_with!("plan-ph_leave", &[("low", &low), ("high", &high)]);
    let too_high = t_with!("plan-ph_too_high", &[("low", &low), ("high", &high)]);
    let below = t_with!("plan-ph_below", &[("low", &low), ("high", &high)]);
    let help = move || match predicted.help(alkali.get()) {
        Ok(PhHelp::Leave) => leave.clone(),
        Ok(PhHelp::TooHigh) => too_high.clone(),
        Ok(PhHelp::Add { alkali, mass }) => format!("{below} {}", dose_text(alkali, mass)),
        Err(error) => format!("{below} {}", render(&error.message())),
    };
    let cooled = predicted.ph_at_25;
    let is_low = cooled.value < predicted.window.low;
    let line = t_with!(
        "plan-ph_line",
        &[("ph", &ph(cooled.value)), ("low", &ph(cooled.low)), ("high", &ph(cooled.high)),]
    );
    view! {
        <div class="plan-ph">
            <p><strong>{line}</strong>{cooled.assumed.then(|| view! { " "<Assumed /> })}</p>
            {is_low.then(|| alkali_choice(alkali))}
            <p class="small">{help}</p>
        </div>
    }
    .into_any()
}

/// What the pH rests on, and which pH it is.
pub fn details(predicted: &Prediction, temperature: Celsius) -> AnyView {
    let Ok(predicted) = *predicted else { return ().into_any() };
    let cooled = predicted.ph_at_25;
    let differs = predicted.differs_when_cooled();
    let in_bath = differs.then(|| {
        let at = format_value(&Value::Celsius(temperature.get()));
        let name = t_with!("plan-ph_in_bath", &[("temperature", &at)]);
        let (low, high) = (ph(predicted.ph.low), ph(predicted.ph.high));
        let value = format!("{} ({low} – {high})", ph(predicted.ph.value));
        view! {
            <dl class="facts">
                <Fact name=t!("plan-ph_cooled") value=ph(cooled.value) />
                <Fact name value />
            </dl>
            <p class="small">{t!("plan-ph_which")}</p>
        }
    });
    view! {
        <h3>{t!("plan-ph")}</h3>
        <p>{range_text(&cooled, ph)}</p>
        {in_bath}
        {cooled.assumed.then(|| view! { <p><Assumed />" "{t!("plan-ph_assumed")}</p> })}
        {no_acid(predicted.window)}
    }
    .into_any()
}
