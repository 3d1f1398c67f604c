//! Wet pulp on the scale, and its dryness.

use bleachfield_core::{journal::Body, message::Value, quantity::QuantityKind};
use leptos::prelude::*;

use super::{BatchWriter, SaveButton};
use crate::{
    components::Assumed,
    i18n::{format_value, t, t_with},
    screens::calculator::inputs::WetPulpForm,
};

#[component]
pub fn WeighForm(writer: BatchWriter) -> impl IntoView {
    let form = WetPulpForm::new();
    let run = Callback::new(move |()| {
        if form.try_now()
            && let Some(pulp) = form.weighed_pulp()
        {
            writer.save(Body::Weighed(pulp.entry));
        }
    });
    view! {
        <div class="stack">
            {form.view()}
            {move || result(form)}
            <SaveButton writer run />
        </div>
    }
}

/// Dryness, dry fibre and water of the weighed pulp.
fn result(form: WetPulpForm) -> Option<impl IntoView> {
    let weighed = form.weighed_pulp()?;
    let (dry, water) = (weighed.pulp.oven_dry(), weighed.pulp.water());
    let mass = |value| format_value(&Value::Mass(value));
    let range = (dry.low < dry.high)
        .then(|| t_with!("figure_range", &[("low", &mass(dry.low)), ("high", &mass(dry.high))]));
    Some(view! {
        <dl class="facts">
            <dt>{t!("figure-dryness")}</dt>
            <dd>{format_value(&QuantityKind::Share.value(weighed.entry.dryness.value))}</dd>
            <dt>{t!("figure-dry_fibre")}</dt>
            <dd>
                {mass(dry.value)}{dry.assumed.then(|| view! { " "<Assumed /> })}
                {range.map(|range| view! { <span class="range">{range}</span> })}
            </dd>
            <dt>{t!("figure-water_in_lump")}</dt>
            <dd>{mass(water.value)}</dd>
        </dl>
    })
}
