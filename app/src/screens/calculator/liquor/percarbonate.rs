//! What percarbonate is and does: what dissolves, how long it lasts, and what kills it early.

use bleachfield_core::{
    chemistry::{
        Refusal,
        liquor::{PercarbonateTruth, Recipe, WorkedOut, soda_lost},
        percarbonate::{EarlyDeath, STABILISERS},
    },
    message::Value,
    quantity::{Estimate, grams_per_litre},
};
use leptos::prelude::*;

use crate::{
    components::{Fact, NumberField, NumberInput},
    i18n::{number, said, word, words, written},
};

#[component]
pub fn Truth(
    recipe: Memo<Option<Recipe>>,
    worked: Memo<Option<Result<WorkedOut, Refusal>>>,
    hardness: NumberInput,
) -> impl IntoView {
    let truth = move || {
        let ph = worked.with(|w| w.as_ref()?.as_ref().ok().map(|w| w.ph))?;
        match recipe.get()?.percarbonate_truth(ph) {
            Ok(truth) => Some(facts(&truth)),
            Err(refusal) => Some(
                view! { <p class="caution care" role="alert">{said(&refusal.message())}</p> }
                    .into_any(),
            ),
        }
    };
    let lost = move || {
        let lost = soda_lost(grams_per_litre(hardness.base()?));
        Some(words("liquor.soda_lost", &[("soda", &written(&Value::Concentration(lost)))]))
    };
    view! {
        <section class="card stack">
            <h2>{word("liquor.percarbonate_head")}</h2>
            {truth}
            <p>{word("liquor.foam")}</p>
            <NumberField ask=hardness hint=word("liquor.hardness_hint") />
            <p role="status">{lost}</p>
            {early_deaths()}
        </section>
    }
}

fn facts(truth: &PercarbonateTruth) -> AnyView {
    let percent = |left: Estimate<f64>| {
        // Less than half a percent is nothing that a strip would show.
        let share = |share: f64| if share < 0.005 { "0".into() } else { number(share * 100.0, 2) };
        words("liquor.left", &[("low", &share(left.low)), ("high", &share(left.high))])
    };
    let strength = |c| written(&Value::Concentration(c));
    let times = |n: f64| number(n, 2);
    let faster = truth.faster_than_cool;
    view! {
        <dl class="facts">
            <Fact name=word("liquor.pure_percarbonate") value=strength(truth.percarbonate) />
            <Fact name=word("liquor.dissolves") value=strength(truth.dissolves) />
            <Fact name=word("liquor.brings_soda") value=strength(truth.soda_ash) />
            <Fact name=word("liquor.gives_oxygen") value=written(&Value::Volume(truth.oxygen)) />
            <Fact name=word("liquor.left_hour") value=percent(truth.left_after_hour) />
            <Fact name=word("liquor.left_day") value=percent(truth.left_after_day) />
            <Fact name=word("liquor.faster") value=words("liquor.times", &[
                ("low", &times(faster.low)), ("high", &times(faster.high)),
            ]) />
        </dl>
    }
    .into_any()
}

/// What ends a bath of peroxide early, and what is used against it.
fn early_deaths() -> AnyView {
    let deaths = EarlyDeath::ALL.map(|death| view! { <li>{word(death.key())}</li> });
    let percent = |share: f64| number(share * 100.0, 2);
    let keepers = STABILISERS.map(|keeper| {
        view! {
            <li>{words("liquor.stabiliser", &[
                ("name", &word(keeper.key)),
                ("least", &percent(keeper.least)),
                ("most", &percent(keeper.most)),
                ("source", keeper.source),
            ])}</li>
        }
    });
    view! {
        <h3>{word("liquor.early_deaths")}</h3>
        <ul>{deaths.into_iter().collect_view()}</ul>
        <h3>{word("liquor.stabilisers")}</h3>
        <ul>{keepers.into_iter().collect_view()}</ul>
    }
    .into_any()
}
