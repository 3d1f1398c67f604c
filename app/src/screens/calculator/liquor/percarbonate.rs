//! Percarbonate in a liquor: what it releases, how long it lasts, what decomposes it early.

use bleachfield_core::{
    chemistry::{
        liquor::{PercarbonateFacts, Recipe, soda_lost},
        percarbonate::{DecompositionCause, STABILISERS},
    },
    message::Value,
    quantity::{Estimate, MassConcentration, grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    components::{Fact, NumberField, NumberInput},
    i18n::{format_number, format_value, t, t_with},
    screens::calculator::sums::refusal,
};

#[component]
pub fn PercarbonateCard(
    recipe: Memo<Option<Recipe>>,
    ph: Memo<Option<f64>>,
    hardness: NumberInput,
) -> impl IntoView {
    let facts = move || {
        Some(match recipe.get()?.percarbonate_facts(ph.get()?) {
            Ok(facts) => fact_list(&facts),
            Err(error) => refusal(&error.message()),
        })
    };
    let lost = move || {
        let soda = strength_text(soda_lost(grams_per_litre(hardness.base()?)));
        Some(t_with!("liquor-soda_lost", &[("soda", &soda)]))
    };
    view! {
        <section class="card stack">
            <h2>{t!("liquor-percarbonate_head")}</h2>
            {facts}
            <p>{t!("liquor-foam")}</p>
            <NumberField ask=hardness hint=t!("liquor-hardness_hint") />
            <p role="status">{lost}</p>
            {decomposition()}
        </section>
    }
}

fn fact_list(facts: &PercarbonateFacts) -> AnyView {
    let left = |left: Estimate<f64>| {
        // Below 0.5 % a strip shows nothing.
        let share =
            |share: f64| if share < 0.005 { "0".into() } else { format_number(share * 100.0, 2) };
        t_with!("liquor-left", &[("low", &share(left.low)), ("high", &share(left.high))])
    };
    let times = |n: f64| format_number(n, 2);
    let faster = facts.faster_than_cool;
    view! {
        <dl class="facts">
            <Fact name=t!("liquor-pure_percarbonate") value=strength_text(facts.percarbonate) />
            <Fact name=t!("liquor-dissolves") value=strength_text(facts.dissolves) />
            <Fact name=t!("liquor-brings_soda") value=strength_text(facts.soda_ash) />
            <Fact name=t!("liquor-gives_oxygen") value=format_value(&Value::Volume(facts.oxygen)) />
            <Fact name=t!("liquor-left_hour") value=left(facts.left_after_hour) />
            <Fact name=t!("liquor-left_day") value=left(facts.left_after_day) />
            <Fact name=t!("liquor-faster") value=t_with!("liquor-times", &[
                ("low", &times(faster.low)), ("high", &times(faster.high)),
            ]) />
        </dl>
    }
    .into_any()
}

/// What decomposes peroxide early, and the stabilisers used against it.
fn decomposition() -> AnyView {
    let causes = DecompositionCause::ALL.map(|cause| view! { <li>{t(cause.key())}</li> });
    let percent = |share: f64| format_number(share * 100.0, 2);
    let stabilisers = STABILISERS.map(|stabiliser| {
        view! {
            <li>{t_with!("liquor-stabiliser", &[
                ("name", &t(stabiliser.key)),
                ("least", &percent(stabiliser.least)),
                ("most", &percent(stabiliser.most)),
                ("source", stabiliser.source),
            ])}</li>
        }
    });
    view! {
        <h3>{t!("liquor-early_deaths")}</h3>
        <ul>{causes.into_iter().collect_view()}</ul>
        <h3>{t!("liquor-stabilisers")}</h3>
        <ul>{stabilisers.into_iter().collect_view()}</ul>
    }
    .into_any()
}

fn strength_text(strength: MassConcentration) -> String {
    format_value(&Value::Concentration(strength))
}
