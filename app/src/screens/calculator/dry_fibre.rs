//! Dry fibre in wet pulp, and the water it holds.

use bleachfield_core::{
    message::Value,
    quantity::{ComputedEstimate, Mass, in_grams},
};
use leptos::prelude::*;

use super::inputs::WetPulpForm;
use crate::{
    components::{Assumed, Fact, Figure},
    i18n::{field_name, format_number, format_value, t, t_with},
};

#[component]
pub fn DryFibre() -> impl IntoView {
    let form = WetPulpForm::new();
    view! {
        <section class="card stack">{form.view()}</section>
        {move || form.weighed_pulp().map(|weighed| {
            let pulp = weighed.pulp;
            let dry = pulp.oven_dry();
            view! {
                <section class="card stack" aria-live="polite">
                    <Figure name=t!("mix-oven_dry") number=format_number(in_grams(dry.value), 4)
                        unit="g".to_owned() range=range(dry) />
                    {dry.assumed.then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
                    <dl class="facts">
                        <Fact name=t!("mix-water_carried") value=mass_text(pulp.water().value) />
                        <Fact name=t!("mix-air_dry") value=mass_text(pulp.air_dry().value) />
                    </dl>
                    <p class="small soft">{t!("mix-oven_dry_why")}</p>
                </section>
            }
        })}
    }
}

/// The range and the input that dominates it; empty where there is none.
fn range(mass: ComputedEstimate<Mass>) -> String {
    let Some(field) = mass.dominant else { return String::new() };
    t_with!(
        "plan-band",
        &[
            ("low", &mass_text(mass.low)),
            ("high", &mass_text(mass.high)),
            ("field", &field_name(field)),
        ],
    )
}

fn mass_text(mass: Mass) -> String {
    format_value(&Value::Mass(mass))
}
