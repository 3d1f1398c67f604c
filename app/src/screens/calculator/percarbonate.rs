//! Percarbonate in a liquor: what it releases, how long it lasts, what decomposes it early.

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, Oxidant, by_thermometer},
    caution::{Act, Situation, cautions},
    chemistry::{
        liquor::{HARDNESS, PercarbonateFacts, Recipe, soda_lost},
        percarbonate::{DecompositionCause, STABILISERS},
    },
    message::{Field, Value},
    quantity::{
        Estimate, Interval, MassConcentration, QuantityKind, Unit, grams_per_litre,
        in_grams_per_litre,
    },
};
use leptos::prelude::*;

use super::{
    bench::{ActCautions, Bench},
    session::keep_inputs,
    sums::{folded, refusal},
};
use crate::{
    components::{Fact, Figure, NumberField, NumberInput, Term},
    i18n::{format_number, format_value, t, t_with},
    route::Sum,
};

const ACTIVE: Field = Field("liquor_strength");
const SODA: Field = Field("soda_in_liquor");

#[component]
pub fn Percarbonate() -> impl IntoView {
    let strength =
        |field, min, max| NumberInput::new(field, QuantityKind::Concentration).between(min, max);
    let active = strength(ACTIVE, 0.01, 60.0);
    let soda = strength(SODA, 0.0, 30.0).filled(0.0);
    let celsius = NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature)
        .between(5.0, 80.0)
        .filled(45.0);
    let hardness = strength(HARDNESS, 0.0, 2.0).unit(Unit::MilligramsPerLitre).optional();
    keep_inputs(Sum::Percarbonate, &[active, soda, celsius, hardness]);
    let facts = Memo::new(move |_| {
        let recipe = Recipe {
            oxidant: Oxidant::Percarbonate,
            active: grams_per_litre(active.base()?),
            soda_ash: grams_per_litre(soda.base()?),
            vinegar: 0.0,
            celsius: celsius.base()?,
            co_solutes: Vec::new(),
        };
        let ph = match recipe.solve() {
            Ok(liquor) => liquor.ph,
            Err(error) => return Some(Err(error.message())),
        };
        Some(recipe.percarbonate_facts(ph).map_err(|error| error.message()))
    });
    let refused = Signal::derive(move || facts.get().and_then(Result::err));
    let short = move || match facts.get() {
        Some(Ok(facts)) => amounts(&facts),
        Some(Err(why)) => refusal(&why),
        None => view! { <p class="soft">{t!("mix-percarbonate_waiting")}</p> }.into_any(),
    };
    let full = move || {
        facts.get().and_then(Result::ok).map(|facts| view! { {amounts(&facts)}{fact_list(&facts)} })
    };
    let ready = Signal::derive(move || matches!(facts.get(), Some(Ok(_))));
    let lost = move || {
        let soda = strength_text(soda_lost(grams_per_litre(hardness.base()?)));
        Some(t_with!("liquor-soda_lost", &[("soda", &soda)]))
    };
    let warn = Signal::derive(move || {
        let temperature =
            celsius.base().and_then(|degrees| Interval::celsius(by_thermometer(degrees)));
        let strength = active.base().map(grams_per_litre).map(Interval::exact);
        cautions(Act::MakingLiquor, &Situation { temperature, strength, ..percarbonate_bath() })
    });
    view! {
        <Bench of=Sum::Percarbonate short=short.into() full=full.into() ready>
            <section class="card stack">
                <NumberField ask=active hint=t!("liquor-counts_peroxide") refused
                    term=Term::Percarbonate />
                <div class="bench-fields">
                    <NumberField ask=soda refused />
                    <NumberField ask=celsius refused />
                </div>
                <NumberField ask=hardness hint=t!("liquor-hardness_hint") term=Term::Hardness />
                <p role="status">{lost}</p>
            </section>
            <p>{t!("liquor-foam")}</p>
            <ActCautions cautions=warn standing=cautions(Act::MakingLiquor, &percarbonate_bath()) />
            {decomposition()}
        </Bench>
    }
}

fn percarbonate_bath() -> Situation {
    Situation { oxidant: Oxidant::Percarbonate.into(), ..Situation::without_bleach() }
}

/// The powder for a litre, and what is left of it an hour after mixing.
fn amounts(facts: &PercarbonateFacts) -> AnyView {
    let powder = format_number(in_grams_per_litre(facts.percarbonate), 3);
    view! {
        <div class="row even top">
            <Figure name=t!("liquor-pure_percarbonate") number=powder unit="g" />
            <Figure name=t!("liquor-left_hour") number=left_text(facts.left_after_hour) unit="" />
        </div>
    }
    .into_any()
}

fn left_text(left: Estimate<f64>) -> String {
    // Below 0.5 % a strip shows nothing.
    let share =
        |share: f64| if share < 0.005 { "0".into() } else { format_number(share * 100.0, 2) };
    t_with!("liquor-left", &[("low", &share(left.low)), ("high", &share(left.high))])
}

fn fact_list(facts: &PercarbonateFacts) -> AnyView {
    let times = |n: f64| format_number(n, 2);
    let faster = facts.faster_than_cool;
    view! {
        <dl class="facts">
            <Fact name=t!("liquor-dissolves") value=strength_text(facts.dissolves) />
            <Fact name=t!("liquor-brings_soda") value=strength_text(facts.soda_ash) />
            <Fact name=t!("liquor-gives_oxygen") value=format_value(&Value::Volume(facts.oxygen)) />
            <Fact name=t!("liquor-left_day") value=left_text(facts.left_after_day) />
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
        {folded(t!("liquor-early_deaths"), view! { <ul>{causes.into_iter().collect_view()}</ul> })}
        {folded(t!("liquor-stabilisers"), view! { <ul>{stabilisers.into_iter().collect_view()}</ul> })}
    }
    .into_any()
}

fn strength_text(strength: MassConcentration) -> String {
    format_value(&Value::Concentration(strength))
}
