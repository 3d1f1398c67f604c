//! Wet pulp on the scale, and how dry it is.

use bleachfield_core::{journal::Body, message::Value, quantity::QuantityKind};
use leptos::prelude::*;

use super::{BatchWriter, Save};
use crate::{
    components::Assumed,
    i18n::{format_value, t, t_with},
    screens::calculator::inputs::WetPulpForm,
};

#[component]
pub fn Weigh(writing: BatchWriter) -> impl IntoView {
    let form = WetPulpForm::new();
    let run = Callback::new(move |()| {
        if form.try_now()
            && let Some(lump) = form.weighed_pulp()
        {
            writing.save(Body::Weighed(lump.entry));
        }
    });
    view! {
        <div class="stack">
            {form.view()}
            {move || told(form)}
            <Save writing run />
        </div>
    }
}

/// What it comes to: dry fibre and water in the lump.
fn told(form: WetPulpForm) -> Option<AnyView> {
    let lump = form.weighed_pulp()?;
    let (dry, water) = (lump.pulp.oven_dry(), lump.pulp.water());
    let mass = |value| format_value(&Value::Mass(value));
    let range = t_with!("figure_range", &[("low", &mass(dry.low)), ("high", &mass(dry.high))]);
    Some(
        view! {
            <dl class="facts">
                <dt>{t!("figure-dryness")}</dt>
                <dd>{format_value(&QuantityKind::Share.value(lump.entry.dryness.value))}</dd>
                <dt>{t!("figure-dry_fibre")}</dt>
                <dd>
                    {mass(dry.value)}{dry.assumed.then(|| view! { " "<Assumed /> })}
                    {(dry.low < dry.high).then(|| view! { <span class="range">{range}</span> })}
                </dd>
                <dt>{t!("figure-water_in_lump")}</dt>
                <dd>{mass(water.value)}</dd>
            </dl>
        }
        .into_any(),
    )
}
