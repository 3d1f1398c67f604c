//! The answer of a wash: number of rinses, plans compared, expected readings.

use bleachfield_core::{
    chemistry::water::TAP_CELSIUS,
    message::{Message, Value},
    pulp::wash::{
        Alkali, Efficiency, PulpLiquor, RinsePlan, RinseSplit, Solute, Wash, compare,
        norden::Washer,
    },
    quantity::{Basis, Volume, in_grams_per_litre, in_millilitres},
};
use leptos::prelude::*;

use crate::{
    components::{Assumed, Figure},
    i18n::{format_number, format_value, key, render, t, t_count, t_with},
    screens::calculator::sums::view::{answer_view, fact_rows, folded, table},
};

/// Most rinses that the same water is split into for comparison.
const SPLITS: u32 = 5;

/// A rinse plan's name (message key) and its result.
pub type NamedPlan = (&'static str, Result<RinsePlan, Message>);

/// The whole answer. `refused` is why no efficiency was learnt from the records.
pub fn wash_answer(
    wash: &Wash,
    plans: &[NamedPlan],
    alkali: Alkali,
    refused: Option<Message>,
) -> AnyView {
    let first = plans.first().map(|(_, plan)| plan.clone());
    answer_view(first, key!("wash-water_waiting"), |plan| {
        if plan.rinses == 0 {
            return rinse_count(plan);
        }
        view! {
            {rinse_count(plan)}
            {comparison(plans)}
            {efficiency_view(&wash.efficiency)}
            {refused.map(|why| view! { <p class="small">{render(&why)}</p> })}
            {expected_readings(wash, plan, alkali)}
            {splits(wash, plan)}
            {mill_figures(wash, plan)}
            <p class="small soft">{t!("wash-floor")}</p>
        }
        .into_any()
    })
}

/// The number of rinses, and the solute that decides it.
pub fn rinse_count(plan: &RinsePlan) -> AnyView {
    if plan.rinses == 0 {
        return view! { <p class="good">{t!("wash-clean_already")}</p> }.into_any();
    }
    let slowest =
        plan.slowest.map(|slowest| t_with!("wash-slowest", &[("solute", &t(slowest.word()))]));
    view! {
        <Figure name=t!("wash-rinses_of") number=plan.rinses.to_string()
            unit=t_with!("wash-times_litres", &[("each", &litres(plan.each))])
            range=rinse_range(plan) />
        {slowest.map(|text| view! { <p>{text}</p> })}
    }
    .into_any()
}

/// The plans in a table.
fn comparison(plans: &[NamedPlan]) -> AnyView {
    let row = |(name, plan): &NamedPlan| match plan {
        Ok(plan) => vec![
            t(name),
            rinses(plan),
            litres(plan.each),
            litres(plan.water),
            format_value(&Value::Minutes(plan.minutes.round())),
        ],
        Err(why) => vec![t(name), render(why)],
    };
    let heads = [
        t!("wash-plan_head"),
        t!("wash-rinses"),
        t!("wash-each"),
        t!("wash-water"),
        t!("wash-time"),
    ];
    table(heads, plans.iter().map(row).collect())
}

/// The washing efficiency and its evidence.
fn efficiency_view(efficiency: &Efficiency) -> AnyView {
    let exponent = efficiency.exponent;
    let value = format_number(exponent.value, 2);
    let text = match efficiency.pairs {
        0 => t_with!("wash-efficiency-assumed", &[("e", &value)]),
        pairs => t_with!(
            "wash-efficiency-learnt",
            &[
                ("e", &value),
                ("low", &format_number(exponent.low, 2)),
                ("high", &format_number(exponent.high, 2)),
                ("readings", &t_count!("wash-efficiency-pairs", pairs as usize)),
            ],
        ),
    };
    let assumed = exponent.basis == Basis::Assumed;
    view! { <p class="small">{text}{assumed.then(|| view! { " "<Assumed /> })}</p> }.into_any()
}

/// The readings to expect after each rinse.
fn expected_readings(wash: &Wash, plan: &RinsePlan, alkali: Alkali) -> AnyView {
    let known: Vec<Solute> =
        Solute::ALL.into_iter().filter(|s| wash.liquor.get(*s).is_some()).collect();
    let mut heads = vec![t!("wash-after")];
    heads.extend(known.iter().map(|solute| match solute {
        Solute::Alkali => t!("figure-ph"),
        other => t_with!("wash-in_mg", &[("solute", &t(other.word()))]),
    }));
    let row = |n: u32, liquor: &PulpLiquor| {
        let mut row = vec![n.to_string()];
        row.extend(known.iter().map(|solute| {
            let Some(left) = liquor.get(*solute) else { return String::new() };
            match solute {
                Solute::Alkali => alkali
                    .ph(left.value, TAP_CELSIUS)
                    .map_or_else(|_| "–".to_owned(), |ph| format_value(&Value::Ph(ph))),
                _ => format_number(in_grams_per_litre(left.value) * 1000.0, 2),
            }
        }));
        row
    };
    let mut rows = vec![row(0, &wash.liquor)];
    rows.extend(plan.steps.iter().map(|step| row(step.number, &step.left)));
    folded(t!("wash-expect"), table(heads, rows))
}

/// The same water split into more rinses.
fn splits(wash: &Wash, plan: &RinsePlan) -> Option<AnyView> {
    let splits = compare(&wash.pulp, plan.water, SPLITS, wash.efficiency).ok()?;
    let row = |split: &RinseSplit| {
        let left = format_value(&Value::Share(split.left.value));
        vec![split.rinses.to_string(), litres(split.each), left]
    };
    let heads = [t!("wash-rinses"), t!("wash-each"), t!("wash-left")];
    let rows = splits.iter().map(row).collect();
    let inside = view! {
        <p>{t_with!("wash-split_why", &[("water", &litres(plan.water))])}</p>
        {table(heads, rows)}
    };
    Some(folded(t!("wash-split_head"), inside))
}

/// Washing figures that mills quote, of all rinses as one washer.
fn mill_figures(wash: &Wash, plan: &RinsePlan) -> Option<AnyView> {
    let washer = Washer::of_plan(wash, plan)?;
    let number = |value: f64| format_number(value, 3);
    let fact = |key, value: Option<String>| value.map(|value| fact_rows([(key, value)]));
    let dilution = format!("{} L/kg", number(washer.dilution_factor()));
    let inside = view! {
        <dl class="facts">
            {fact(key!("wash-merit-norden"), washer.norden().map(number))}
            {fact_rows([(key!("wash-merit-dilution"), dilution)])}
            {fact(key!("wash-merit-displacement"), washer.displacement_ratio().map(number))}
            {fact(key!("wash-merit-yield"), washer.wash_yield().map(|y| format_value(&Value::Share(y))))}
        </dl>
        <p class="small soft">{t!("wash-merit-why")}</p>
    };
    Some(folded(t!("wash-merit-head"), inside))
}

fn rinses(plan: &RinsePlan) -> String {
    let range = rinse_range(plan);
    if range.is_empty() { plan.rinses.to_string() } else { format!("{} ({range})", plan.rinses) }
}

/// "3 to 6"; "3 or more" if the worst case has no limit; empty without a range.
fn rinse_range(plan: &RinsePlan) -> String {
    let fewest = plan.fewest.to_string();
    match plan.most {
        Some(most) if most == plan.fewest => String::new(),
        Some(most) => t_with!("figure_range", &[("low", &fewest), ("high", &most.to_string())]),
        None => t_with!("wash-or_more", &[("n", &fewest)]),
    }
}

fn litres(volume: Volume) -> String {
    format!("{} L", format_number(in_millilitres(volume) / 1000.0, 2))
}
