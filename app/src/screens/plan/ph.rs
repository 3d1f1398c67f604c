//! The pH to expect of the bath, and what to add for it. Never acid.

use bleachfield_core::{
    bath::{PhHelp, PredictedPh},
    chemistry::{EquilibriumError, alkali::AlkaliReagent},
    message::Value,
};
use leptos::prelude::*;

use super::result::band;
use crate::{
    components::{Assumed, Figure},
    i18n::{format_value, render, t, t_with},
    screens::calculator::inputs::{alkali_choice, dose_text, no_acid},
};

pub fn view(
    foreseen: &Result<PredictedPh, EquilibriumError>,
    alkali: RwSignal<AlkaliReagent>,
) -> AnyView {
    let foreseen = match foreseen {
        Ok(foreseen) => *foreseen,
        Err(refusal) => {
            let why = t_with!("plan-no_ph", &[("why", &render(&refusal.message()))]);
            return view! { <p>{why}</p> }.into_any();
        }
    };
    let written_ph = |ph: f64| format_value(&Value::Ph(ph));
    let low = foreseen.ph.value < foreseen.window.low;
    let window =
        [("low", written_ph(foreseen.window.low)), ("high", written_ph(foreseen.window.high))];
    let window = [(window[0].0, window[0].1.as_str()), (window[1].0, window[1].1.as_str())];
    let (leave, too_high, below) = (
        t_with!("plan-ph_leave", &window),
        t_with!("plan-ph_too_high", &window),
        t_with!("plan-ph_below", &window),
    );
    let help = move || match foreseen.help(alkali.get()) {
        Ok(PhHelp::Leave) => leave.clone(),
        Ok(PhHelp::TooHigh) => too_high.clone(),
        Ok(PhHelp::Add { alkali, mass }) => format!("{below} {}", dose_text(alkali, mass)),
        Err(refusal) => format!("{below} {}", render(&refusal.message())),
    };
    view! {
        <Figure mid=true name=t!("plan-ph") number=written_ph(foreseen.ph.value) unit=String::new()
            range=band(&foreseen.ph, written_ph) />
        {foreseen.ph.assumed.then(|| view! { <p><Assumed />" "{t!("plan-ph_assumed")}</p> })}
        {low.then(|| alkali_choice(alkali))}
        <p>{help}</p>
        {no_acid(foreseen.window)}
    }
    .into_any()
}
