//! The figures of a plan as texts.

use bleachfield_core::{
    bath::Plan,
    message::Value,
    quantity::{ComputedEstimate, grams, in_grams, in_grams_per_litre, in_share},
};
use leptos::prelude::*;

use crate::{
    components::Fact,
    i18n::{field_name, format_number, format_value, t, t_with},
};

/// A range in words, with the input that dominates it; empty if low and high read the same.
pub fn range_text<Q: Copy>(figure: &ComputedEstimate<Q>, write: impl Fn(Q) -> String) -> String {
    let (low, high) = (write(figure.low), write(figure.high));
    if low == high {
        return String::new();
    }
    match figure.dominant {
        Some(field) => {
            t_with!("plan-band", &[("low", &low), ("high", &high), ("field", &field_name(field))])
        }
        None => t_with!("plan-band_only", &[("low", &low), ("high", &high)]),
    }
}

/// What the bath is, with ranges.
pub fn facts(plan: &Plan) -> AnyView {
    let percent = |share: f64| format!("{} %", format_number(share * 100.0, 3));
    let strength = |g_per_l: f64| format!("{} g/L", format_number(g_per_l, 3));
    let mass = |g: f64| format_value(&Value::Mass(grams(g)));
    let ranged = |figure: ComputedEstimate<f64>, write: &dyn Fn(f64) -> String| {
        let (value, low, high) = (write(figure.value), write(figure.low), write(figure.high));
        if low == high { value } else { format!("{value} ({low} – {high})") }
    };
    let readings = &plan.readings;
    view! {
        <dl class="facts">
            <Fact name=t!("plan-dry_fibre") assumed=plan.oven_dry.assumed
                value=ranged(plan.oven_dry.map(in_grams), &mass) />
            <Fact name=t!("plan-charge") value=ranged(plan.charge.map(in_share), &percent) />
            <Fact name=t!("plan-strength")
                value=ranged(plan.strength.map(in_grams_per_litre), &strength) />
            <Fact name=t!("plan-consistency")
                value=ranged(plan.consistency.map(in_share), &percent) />
            <Fact name=t!("plan-total") value=format_value(&Value::Volume(plan.total_volume.value)) />
        </dl>
        <p class="small soft">{t_with!("plan-pulp_water", &[
            ("water", &format_value(&Value::Mass(plan.pulp_water.value))),
        ])}</p>
        <p class="small soft">{t_with!("plan-consistency_readings", &[
            ("standard", &percent(in_share(readings.standard))),
            ("if_dry", &percent(in_share(readings.if_dry))),
            ("loose", &percent(in_share(readings.pulp_to_liquor))),
        ])}</p>
    }
    .into_any()
}
