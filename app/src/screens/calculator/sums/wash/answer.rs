//! What comes of a wash: the rinses, their plans side by side, what to expect of each.

use bleachfield_core::{
    message::Value,
    pulp::wash::{PulpLiquor, RinsePlan, Solute, Wash, compare, norden::Washer},
    quantity::{Basis, Volume, in_grams_per_litre, in_millilitres},
};
use leptos::prelude::*;

use super::{WATER_CELSIUS, WashSum};
use crate::{
    components::{Assumed, Fact, Figure},
    i18n::{format_number, format_value, render, t, t_count, t_with},
    screens::calculator::sums::{refusal, table},
};

/// As many ways to split the same water are set side by side.
const SPLITS: u32 = 5;

impl WashSum {
    /// All there is to say: the number, the plans side by side, and what they rest on.
    pub(super) fn answer(self, wash: &Wash) -> AnyView {
        let plans = self.plans(wash);
        let Some((_, first)) = plans.first() else {
            return view! { <p class="soft">{t!("wash-water_waiting")}</p> }.into_any();
        };
        let plan = match first {
            Ok(plan) => plan.clone(),
            Err(why) => return refusal(why),
        };
        if plan.rinses == 0 {
            return lead_of(&plan);
        }
        let rows = plans
            .iter()
            .map(|(name, plan)| match plan {
                Ok(plan) => vec![
                    t(name),
                    rinses(plan),
                    litres(plan.each),
                    litres(plan.water),
                    format_value(&Value::Minutes(plan.minutes.round())),
                ],
                Err(why) => vec![t(name), render(why)],
            })
            .collect();
        let heads = ["plan_head", "rinses", "each", "water", "time"];
        view! {
            {lead_of(&plan)}
            {table(heads.map(|head| t(&format!("wash-{head}"))).to_vec(), rows)}
            {self.how_well()}
            {self.falls(wash, &plan)}
            {self.splits(wash, &plan)}
            {merit(wash, &plan)}
            <p class="small soft">{t!("wash-floor")}</p>
        }
        .into_any()
    }

    /// What the efficiency rests on.
    fn how_well(self) -> AnyView {
        let efficiency = self.efficiency();
        let exponent = format_number(efficiency.exponent.value, 2);
        let refused = self.efficiency.with_value(|e| e.as_ref().err().map(render));
        let text = match efficiency.pairs {
            0 => t_with!("wash-efficiency-assumed", &[("e", &exponent)]),
            pairs => t_with!(
                "wash-efficiency-learnt",
                &[
                    ("e", &exponent),
                    ("low", &format_number(efficiency.exponent.low, 2)),
                    ("high", &format_number(efficiency.exponent.high, 2)),
                    ("readings", &t_count!("wash-efficiency-pairs", pairs as usize)),
                ],
            ),
        };
        let assumed = efficiency.exponent.basis == Basis::Assumed;
        view! {
            <p class="small">{text}{assumed.then(|| view! { " "<Assumed /> })}</p>
            {refused.map(|why| view! { <p class="small">{why}</p> })}
        }
        .into_any()
    }

    /// What to expect of the readings, rinse by rinse.
    fn falls(self, wash: &Wash, plan: &RinsePlan) -> AnyView {
        let alkali = self.alkali();
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
                        .ph(left.value, WATER_CELSIUS)
                        .map_or_else(|_| "–".to_owned(), |ph| format_value(&Value::Ph(ph))),
                    _ => format_number(in_grams_per_litre(left.value) * 1000.0, 2),
                }
            }));
            row
        };
        let mut rows = vec![row(0, &wash.liquor)];
        rows.extend(plan.steps.iter().map(|step| row(step.number, &step.left)));
        view! {
            <details class="more">
                <summary>{t!("wash-expect")}</summary>
                <div class="inside">{table(heads, rows)}</div>
            </details>
        }
        .into_any()
    }

    /// The same water in more rinses.
    fn splits(self, wash: &Wash, plan: &RinsePlan) -> AnyView {
        let Ok(splits) = compare(&wash.pulp, plan.water, SPLITS, wash.efficiency) else {
            return ().into_any();
        };
        let rows = splits
            .iter()
            .map(|row| {
                let left = format_value(&Value::Share(row.left.value));
                vec![row.rinses.to_string(), litres(row.each), left]
            })
            .collect();
        let heads = ["rinses", "each", "left"].map(|head| t(&format!("wash-{head}"))).to_vec();
        view! {
            <details class="more">
                <summary>{t!("wash-split_head")}</summary>
                <div class="inside stack">
                    <p>{t_with!("wash-split_why", &[("water", &litres(plan.water))])}</p>
                    {table(heads, rows)}
                </div>
            </details>
        }
        .into_any()
    }
}

/// The number of rinses, and what decides it.
pub(super) fn lead_of(plan: &RinsePlan) -> AnyView {
    if plan.rinses == 0 {
        return view! { <p class="good">{t!("wash-clean_already")}</p> }.into_any();
    }
    let slowest =
        plan.slowest.map(|slowest| t_with!("wash-slowest", &[("solute", &t(slowest.word()))]));
    view! {
        <Figure name=t!("wash-rinses_of") number=plan.rinses.to_string()
            unit=t_with!("wash-times_litres", &[("each", &litres(plan.each))])
            range=spread_of(plan) />
        {slowest.map(|text| view! { <p>{text}</p> })}
    }
    .into_any()
}

/// The figures of merit that mills quote, of all rinses as one washer.
fn merit(wash: &Wash, plan: &RinsePlan) -> AnyView {
    let Some(washer) = Washer::of_plan(wash, plan) else { return ().into_any() };
    let fact = |key: &str, value: Option<String>| {
        value.map(|value| view! { <Fact name=t(&format!("wash-merit-{key}")) value /> })
    };
    view! {
        <details class="more">
            <summary>{t!("wash-merit-head")}</summary>
            <div class="inside stack">
                <dl class="facts">
                    {fact("norden", washer.norden().map(|n| format_number(n, 3)))}
                    {fact("dilution", Some(format!("{} L/kg", format_number(washer.dilution_factor(), 3))))}
                    {fact("displacement", washer.displacement_ratio().map(|d| format_number(d, 3)))}
                    {fact("yield", washer.wash_yield().map(|y| format_value(&Value::Share(y))))}
                </dl>
                <p class="small soft">{t!("wash-merit-why")}</p>
            </div>
        </details>
    }
    .into_any()
}

fn rinses(plan: &RinsePlan) -> String {
    let spread = spread_of(plan);
    if spread.is_empty() { plan.rinses.to_string() } else { format!("{} ({spread})", plan.rinses) }
}

/// "3 to 6", or "3 or more" where the worst case has no end.
fn spread_of(plan: &RinsePlan) -> String {
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
