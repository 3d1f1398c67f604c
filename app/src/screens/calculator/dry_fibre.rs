//! What is dry fibre in a wet lump, and what water it carries.

use bleachfield_core::{message::Value, quantity::ComputedEstimate as Ranged};
use leptos::prelude::*;

use super::inputs::LumpForm;
use crate::{
    components::{Assumed, Fact, Figure},
    i18n::{field_name, format_number, format_value, t, t_with},
};

#[component]
pub fn DryFibre() -> impl IntoView {
    let form = LumpForm::new();
    view! {
        <section class="card stack">{form.view()}</section>
        {move || form.lump().map(|lump| {
            let dry = lump.pulp.oven_dry();
            let mass = |m| format_value(&Value::Mass(m));
            let band = |f: Ranged<bleachfield_core::quantity::Mass>| match f.dominant {
                Some(field) => t_with!("plan-band", &[
                    ("low", &mass(f.low)), ("high", &mass(f.high)), ("field", &field_name(field)),
                ]),
                None => String::new(),
            };
            let grams = bleachfield_core::quantity::in_grams(dry.value);
            view! {
                <section class="card stack" aria-live="polite">
                    <Figure name=t!("mix-oven_dry") number=format_number(grams, 4) unit="g".to_owned()
                        range=band(dry) />
                    {dry.assumed.then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
                    <dl class="facts">
                        <Fact name=t!("mix-water_carried") value=mass(lump.pulp.water().value) />
                        <Fact name=t!("mix-air_dry") value=mass(lump.pulp.air_dry().value) />
                    </dl>
                    <p class="small soft">{t!("mix-oven_dry_why")}</p>
                </section>
            }
        })}
    }
}
