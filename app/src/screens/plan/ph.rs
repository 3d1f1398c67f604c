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
    components::{Assumed, Fact, Figure},
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_text, no_acid},
};

pub fn view(
    predicted: &Result<PredictedPh, EquilibriumError>,
    temperature: Celsius,
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
    let cooled = predicted.ph_at_25;
    let is_low = cooled.value < predicted.window.low;
    let differs = predicted.differs_when_cooled();
    let name = if differs { t!("plan-ph_cooled") } else { t!("plan-ph") };
    let in_bath = differs.then(|| {
        let at = format_value(&Value::Celsius(temperature.get()));
        let name = t_with!("plan-ph_in_bath", &[("temperature", &at)]);
        let (low, high) = (ph(predicted.ph.low), ph(predicted.ph.high));
        let value = format!("{} ({low} – {high})", ph(predicted.ph.value));
        view! {
            <dl class="facts"><Fact name value /></dl>
            <p class="small">{t!("plan-ph_which")}</p>
        }
    });
    view! {
        {differs.then(|| view! { <h3>{t!("plan-ph")}</h3> })}
        <Figure mid=true name number=ph(cooled.value) unit=String::new()
            range=range_text(&cooled, ph) />
        {in_bath}
        {cooled.assumed.then(|| view! { <p><Assumed />" "{t!("plan-ph_assumed")}</p> })}
        {is_low.then(|| alkali_choice(alkali))}
        <p>{help}</p>
        {no_acid(predicted.window)}
    }
    .into_any()
}
