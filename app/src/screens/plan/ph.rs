//! The predicted pH of the bath, and what to add for it. Never acid.

use bleachfield_core::{
    bath::{PhHelp, PredictedPh},
    chemistry::{EquilibriumError, alkali::AlkaliReagent},
    message::Value,
};
use leptos::prelude::*;

use super::figures::range_text;
use crate::{
    components::{Assumed, Figure},
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_text, no_acid},
};

pub fn view(
    predicted: &Result<PredictedPh, EquilibriumError>,
    alkali: RwSignal<AlkaliReagent>,
) -> AnyView {
    let predicted = match predicted {
        Ok(predicted) => *predicted,
        Err(error) => {
            let why = t_with!("plan-no_ph", &[("why", &render(&error.message()))]);
            return view! { <p>{why}</p> }.into_any();
        }
    };
    let ph = |ph: f64| format_value(&Value::Ph(ph));
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
    let is_low = predicted.ph.value < predicted.window.low;
    view! {
        <Figure mid=true name=t!("plan-ph") number=ph(predicted.ph.value) unit=String::new()
            range=range_text(&predicted.ph, ph) />
        {predicted.ph.assumed.then(|| view! { <p><Assumed />" "{t!("plan-ph_assumed")}</p> })}
        {is_low.then(|| alkali_choice(alkali))}
        <p>{help}</p>
        {no_acid(predicted.window)}
    }
    .into_any()
}
