//! Step 1: the wet pulp.

use bleachfield_core::{bath::RefusedPlan, message::Value, quantity::Mass};
use leptos::prelude::*;

use crate::{
    components::Assumed,
    i18n::{format_value, t, t_with},
    screens::{
        calculator::inputs::WetPulpForm,
        plan::{form::PlanForm, refused::NoPlan},
    },
};

#[component]
pub fn PulpStep(form: PlanForm, refused: Signal<Option<RefusedPlan>>) -> impl IntoView {
    let pulp = form.wet_pulp;
    // A dried sample is asked for in full where one was recorded.
    let open = untrack(|| !pulp.dryness_is_assumed() && pulp.weighed_pulp().is_none());
    let summary = move || {
        if pulp.dryness_is_assumed() { t!("plan-dryness_assumed") } else { t!("plan-dryness") }
    };
    view! {
        <section class="card stack">
            {pulp.wet_field()}
            <NoPlan form refused />
            {dry_line(pulp)}
            <details class="more" open=open>
                <summary>{summary}</summary>
                <div class="inside">{pulp.dryness_fields()}</div>
            </details>
        </section>
    }
}

/// The dry fibre in it, and what would make the figure better.
fn dry_line(pulp: WetPulpForm) -> AnyView {
    let dry = Memo::new(move |_| pulp.weighed_pulp().map(|weighed| weighed.pulp.oven_dry()));
    let mass = |mass: Mass| format_value(&Value::Mass(mass));
    view! {
        <p>
            {move || dry.get().map(|dry| {
                let text = t_with!("plan-dry_line", &[
                    ("dry", &mass(dry.value)),
                    ("low", &mass(dry.low)),
                    ("high", &mass(dry.high)),
                ]);
                view! { {text}{dry.assumed.then(|| view! { " "<Assumed /> })} }
            })}
        </p>
        {move || pulp.dryness_is_assumed().then(|| view! {
            <p class="small soft">{t!("plan-dry_better")}</p>
        })}
    }
    .into_any()
}
