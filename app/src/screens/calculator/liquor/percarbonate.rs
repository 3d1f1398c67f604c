//! What percarbonate is and does: what dissolves, how long it lasts, and what kills it early.

use bleachfield_core::{
    chemistry::{
        EquilibriumError,
        liquor::{PercarbonateFacts, Recipe, SolvedLiquor, soda_lost},
        percarbonate::{DecompositionCause, STABILISERS},
    },
    message::Value,
    quantity::{Estimate, grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    components::{Fact, NumberField, NumberInput},
    i18n::{format_number, format_value, render, t, t_with},
};

#[component]
pub fn Truth(
    recipe: Memo<Option<Recipe>>,
    worked: Memo<Option<Result<SolvedLiquor, EquilibriumError>>>,
    hardness: NumberInput,
) -> impl IntoView {
    let truth = move || {
        let ph = worked.with(|w| w.as_ref()?.as_ref().ok().map(|w| w.ph))?;
        match recipe.get()?.percarbonate_facts(ph) {
            Ok(truth) => Some(facts(&truth)),
            Err(refusal) => Some(
                view! { <p class="caution care" role="alert">{render(&refusal.message())}</p> }
                    .into_any(),
            ),
        }
    };
    let lost = move || {
        let lost = soda_lost(grams_per_litre(hardness.base()?));
        Some(t_with!("liquor-soda_lost", &[("soda", &format_value(&Value::Concentration(lost)))]))
    };
    view! {
        <section class="card stack">
            <h2>{t!("liquor-percarbonate_head")}</h2>
            {truth}
            <p>{t!("liquor-foam")}</p>
            <NumberField ask=hardness hint=t!("liquor-hardness_hint") />
            <p role="status">{lost}</p>
            {early_deaths()}
        </section>
    }
}

fn facts(truth: &PercarbonateFacts) -> AnyView {
    let percent = |left: Estimate<f64>| {
        // Less than half a percent is nothing that a strip would show.
        let share =
            |share: f64| if share < 0.005 { "0".into() } else { format_number(share * 100.0, 2) };
        t_with!("liquor-left", &[("low", &share(left.low)), ("high", &share(left.high))])
    };
    let strength = |c| format_value(&Value::Concentration(c));
    let times = |n: f64| format_number(n, 2);
    let faster = truth.faster_than_cool;
    view! {
        <dl class="facts">
            <Fact name=t!("liquor-pure_percarbonate") value=strength(truth.percarbonate) />
            <Fact name=t!("liquor-dissolves") value=strength(truth.dissolves) />
            <Fact name=t!("liquor-brings_soda") value=strength(truth.soda_ash) />
            <Fact name=t!("liquor-gives_oxygen") value=format_value(&Value::Volume(truth.oxygen)) />
            <Fact name=t!("liquor-left_hour") value=percent(truth.left_after_hour) />
            <Fact name=t!("liquor-left_day") value=percent(truth.left_after_day) />
            <Fact name=t!("liquor-faster") value=t_with!("liquor-times", &[
                ("low", &times(faster.low)), ("high", &times(faster.high)),
            ]) />
        </dl>
    }
    .into_any()
}

/// What ends a bath of peroxide early, and what is used against it.
fn early_deaths() -> AnyView {
    let deaths = DecompositionCause::ALL.map(|death| view! { <li>{t(death.key())}</li> });
    let percent = |share: f64| format_number(share * 100.0, 2);
    let keepers = STABILISERS.map(|keeper| {
        view! {
            <li>{t_with!("liquor-stabiliser", &[
                ("name", &t(keeper.key)),
                ("least", &percent(keeper.least)),
                ("most", &percent(keeper.most)),
                ("source", keeper.source),
            ])}</li>
        }
    });
    view! {
        <h3>{t!("liquor-early_deaths")}</h3>
        <ul>{deaths.into_iter().collect_view()}</ul>
        <h3>{t!("liquor-stabilisers")}</h3>
        <ul>{keepers.into_iter().collect_view()}</ul>
    }
    .into_any()
}
