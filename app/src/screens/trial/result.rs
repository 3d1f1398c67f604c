//! What the pots show, and the plan that follows from one of them.

use bleachfield_core::{
    derive::{PotResult, TrialResult, TrialStatus},
    message::Value,
    trial::{Factor, scale_limits},
};
use leptos::prelude::*;
use strum::VariantArray;

use super::{
    chart::{ChartPot, chart},
    words::{bleach_name, factor_name, pot_title, treatment_of},
};
use crate::{
    components::{RadioGroup, WideTable},
    i18n::{format_number, format_value, render, t, t_with},
    route::{PlanStart, Route},
    screens::batches::name_of,
    state::app_state,
};

#[component]
pub fn ResultView(status: TrialStatus) -> impl IntoView {
    let result = app_state().book(|book| TrialResult::of(book, &status));
    if result.pots.iter().all(|pot| pot.colour.is_none()) {
        return view! { <p>{t!("trial-nothing_read")}</p> }.into_any();
    }
    let bleaches = bleach_names(&status);
    let charts = Factor::VARIANTS.iter().filter_map(|factor| {
        let pots = chart_pots(&result, &status, *factor);
        let first = pots.first()?.level;
        let varies = pots.iter().any(|pot| (pot.level - first).abs() > 1e-9);
        varies.then(|| chart(*factor, &pots, result.response.as_ref(), &bleaches))
    });
    let charts: Vec<AnyView> = charts.collect();
    view! {
        <p>{t_with!("trial-result_state", &[("state", &name_of("pulp_state", result.pulp))])}</p>
        {effects(&result)}
        {charts}
        <details class="more">
            <summary>{t!("trial-table")}</summary>
            <div class="inside">{table(&result)}</div>
        </details>
        <ScaleUp result status />
    }
    .into_any()
}

/// The bleaches by their numbers in the levels.
fn bleach_names(status: &TrialStatus) -> Vec<String> {
    let mut names: Vec<(usize, String)> = status
        .pots
        .iter()
        .map(|pot| (pot.of_bleach, bleach_name(&pot.record.product.name, pot.record.oxidant)))
        .collect();
    names.sort();
    names.dedup();
    names.into_iter().map(|(_, name)| name).collect()
}

fn level(pot: &PotResult, status: &TrialStatus, factor: Factor) -> f64 {
    match factor {
        Factor::Charge => (pot.charge * 1e4).round() / 100.0,
        Factor::Temperature => pot.celsius,
        Factor::Time => (pot.minutes / 5.0).round() * 5.0,
        Factor::Bleach => {
            let nth =
                status.pots.iter().find(|one| one.batch == pot.batch).map(|one| one.of_bleach);
            nth.unwrap_or(0) as f64
        }
    }
}

fn chart_pots(result: &TrialResult, status: &TrialStatus, factor: Factor) -> Vec<ChartPot> {
    let pots = result.pots.iter().filter_map(|pot| {
        let [lightness, ..] = pot.colour?;
        Some(ChartPot {
            number: pot.number,
            level: level(pot, status, factor),
            lightness: lightness.value,
            low: lightness.low,
            high: lightness.high,
        })
    });
    pots.collect()
}

/// What each factor does, in a sentence with its range; or that it cannot be told.
fn effects(result: &TrialResult) -> AnyView {
    let Some(response) = &result.response else {
        return view! { <p class="caution note" role="note">{t!("trial-too_few")}</p> }.into_any();
    };
    let lines = Factor::VARIANTS.iter().filter_map(|factor| {
        let (value, low, high) = response.effect(*factor as usize)?;
        let signed = |value: f64| {
            format!("{}{}", if value > 0.0 { "+" } else { "" }, format_number(value, 2))
        };
        let is_clear = low > 0.0 || high < 0.0;
        let factor = factor_name(*factor);
        let (value, low, high) = (signed(value), signed(low), signed(high));
        let text = if is_clear {
            t_with!(
                "trial-effect",
                &[("factor", &factor), ("value", &value), ("low", &low), ("high", &high)]
            )
        } else {
            t_with!("trial-effect_unclear", &[("factor", &factor), ("low", &low), ("high", &high)])
        };
        Some(view! { <li>{text}</li> })
    });
    view! { <ul>{lines.collect_view()}</ul> }.into_any()
}

fn table(result: &TrialResult) -> AnyView {
    let heads = vec![
        t!("trial-table_pot"),
        t!("trial-table_bleach"),
        t!("trial-table_treatment"),
        t!("trial-table_lightness"),
        t!("trial-table_range"),
    ];
    let rows = result.pots.iter().map(|pot| {
        let lightness = pot.colour.map(|[lightness, ..]| lightness);
        let number = |value: Option<f64>| value.map_or("–".into(), |l| format_number(l, 3));
        let range = lightness.map_or("–".into(), |l| {
            format!("{} – {}", format_number(l.low, 3), format_number(l.high, 3))
        });
        let cells = vec![
            bleach_name(&pot.product, pot.oxidant),
            treatment_of(pot.charge, pot.celsius, pot.minutes),
            number(lightness.map(|l| l.value)),
            range,
        ];
        (pot.number.to_string(), cells)
    });
    view! { <WideTable label=t!("trial-table") heads rows=rows.collect() /> }.into_any()
}

/// One pot is taken for the whole lump.
#[component]
fn ScaleUp(result: TrialResult, status: TrialStatus) -> impl IntoView {
    let parent = status.trial.parent;
    let read: Vec<usize> =
        (0..result.pots.len()).filter(|&nth| result.pots[nth].colour.is_some()).collect();
    let chosen = RwSignal::new(result.best.or(read.first().copied()).unwrap_or(0));
    let options = read.iter().map(|&nth| (nth, pot_title(result.pots[nth].number))).collect();
    let why = match (result.best, result.target) {
        (Some(nth), Some(target)) => {
            let pot = pot_title(result.pots[nth].number);
            let target = format_number(target, 3);
            t_with!("trial-best_target", &[("pot", &pot), ("target", &target)])
        }
        (Some(nth), None) => {
            t_with!("trial-best", &[("pot", &pot_title(result.pots[nth].number))])
        }
        (None, _) => String::new(),
    };
    let lump = app_state().book_now(|book| {
        let weighed = book.batches.get(&parent)?.weighed.clone()?;
        Some(weighed.wet_mass_g.value * weighed.dryness.value)
    });
    let pots = StoredValue::new(result.pots);
    let records = StoredValue::new(status.pots);
    let details = move || {
        let pot = pots.with_value(|pots| pots.get(chosen.get()).cloned())?;
        let record = records
            .with_value(|all| all.iter().find(|one| one.batch == pot.batch).cloned())?
            .record;
        let dry = record.dry_fibre_g.value;
        let consistency = record.consistency.value;
        let limits = scale_limits(dry, lump.unwrap_or(dry), consistency, consistency);
        let link = record.product.shelf.map(|product| {
            let start = PlanStart::new(
                product,
                pot.charge,
                pot.celsius,
                (pot.minutes / 5.0).round() * 5.0,
                consistency,
            );
            Route::StartPlan { batch: parent, start }.href()
        });
        let limits = limits.iter().map(|limit| view! { <li>{render(&limit.message())}</li> });
        let consistency = format_value(&Value::Share(consistency));
        Some(view! {
            <p>{treatment_of(pot.charge, pot.celsius, pot.minutes)}</p>
            <ul>
                {limits.collect_view()}
                <li>{t_with!("trial-limit-same_consistency", &[("consistency", &consistency)])}</li>
            </ul>
            {match link {
                Some(link) => view! {
                    <a class="button touch" href=link>{t!("trial-scale_up")}</a>
                }
                .into_any(),
                None => view! { <p class="soft">{t!("trial-no_product")}</p> }.into_any(),
            }}
        })
    };
    view! {
        <section class="card stack">
            <h2>{t!("trial-scale_head")}</h2>
            <p>{why}</p>
            <RadioGroup label=t!("trial-scale_pot") value=chosen options />
            {details}
        </section>
    }
}
