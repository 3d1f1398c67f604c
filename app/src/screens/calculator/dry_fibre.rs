//! Dry fibre in wet pulp, and the water it holds.

use bleachfield_core::{
    message::Value,
    pulp::WetPulp,
    quantity::{ComputedEstimate, Mass, in_grams},
};
use leptos::prelude::*;

use super::{bench::Bench, inputs::WetPulpForm};
use crate::{
    components::{Assumed, Explain, Fact, Figure, Term},
    i18n::{field_name, format_number, format_value, t, t_with},
    route::Sum,
};

#[component]
pub fn DryFibre() -> impl IntoView {
    let form = WetPulpForm::new();
    form.keep(Sum::DryFibre);
    let pulp = Memo::new(move |_| form.weighed_pulp().map(|weighed| weighed.pulp));
    let short = move || match pulp.get() {
        Some(pulp) => dry_fibre(&pulp, false),
        None => view! { <p class="soft">{t!("mix-dry_fibre_waiting")}</p> }.into_any(),
    };
    let full = move || {
        pulp.get().map(|pulp| {
            view! {
                {dry_fibre(&pulp, true)}
                <dl class="facts">
                    <Fact name=t!("mix-water_carried") value=mass_text(pulp.water().value) />
                    <Fact name=t!("mix-air_dry") value=mass_text(pulp.air_dry().value) />
                </dl>
                <p class="small soft">{t!("mix-oven_dry_why")}</p>
                <Explain term=Term::OvenDry />
            }
        })
    };
    let ready = Signal::derive(move || pulp.with(Option::is_some));
    view! {
        <Bench of=Sum::DryFibre short=short.into() full=full.into() ready>
            <section class="card stack">{form.view()}</section>
        </Bench>
    }
}

/// The dry fibre, marked if it is assumed, with its range in the full answer.
fn dry_fibre(pulp: &WetPulp, full: bool) -> AnyView {
    let dry = pulp.oven_dry();
    let range = if full { range(dry) } else { String::new() };
    view! {
        <Figure name=t!("mix-oven_dry") number=format_number(in_grams(dry.value), 4)
            unit="g".to_owned() range />
        {dry.assumed.then(|| view! {
            <p><Assumed />{full.then(|| view! { " "{t!("plan-assumed_why")} })}</p>
        })}
    }
    .into_any()
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
