//! The figures of a plan as texts: doses, ranges and facts.

use bleachfield_core::{
    bath::{Dose, Plan},
    journal::{Amount, Figure as Recorded, PlanRecord},
    message::Value,
    quantity::{
        Basis, ComputedEstimate, Mass, Volume, grams, in_grams, in_grams_per_litre, in_jug,
        in_millilitres, in_share, millilitres, on_scale,
    },
};
use leptos::prelude::*;

use crate::{
    components::{Fact, Figure},
    i18n::{field_name, format_number, format_value, t, t_with},
};

/// The bleach and the water to measure out.
pub fn doses(plan: &Plan) -> AnyView {
    dose_figures(&plan.dose, plan.soda_ash, &plan.water_volume)
}

/// As [`doses`], of a stored plan.
pub fn recorded_doses(record: &PlanRecord) -> AnyView {
    let dose = match record.product_amount {
        Amount::VolumeMl(ml) => Dose::Bottle(computed(ml).map(millilitres)),
        Amount::MassG(g) => Dose::Powder(computed(g).map(grams)),
    };
    let soda_ash = record.soda_ash_g.map(|g| computed(g).map(grams));
    dose_figures(&dose, soda_ash, &computed(record.water_to_add_ml).map(millilitres))
}

fn computed(figure: Recorded) -> ComputedEstimate<f64> {
    let Recorded { value, low, high, basis } = figure;
    ComputedEstimate { value, low, high, dominant: None, assumed: basis == Basis::Assumed }
}

fn dose_figures(
    dose: &Dose,
    soda_ash: Option<ComputedEstimate<Mass>>,
    water: &ComputedEstimate<Volume>,
) -> AnyView {
    let (name, number, unit, range) = match dose {
        Dose::Bottle(volume) => {
            let (number, unit, range) = jug_volume(volume);
            (t!("plan-dose_bottle"), number, unit, range)
        }
        Dose::Powder(mass) => {
            let number = format_number(in_grams(on_scale(mass.value).value), 4);
            let range = range_text(mass, |m| format_value(&Value::Mass(m)));
            (t!("plan-dose_powder"), number, "g", range)
        }
    };
    let soda_ash = soda_ash.map(|mass| {
        let number = format_number(in_grams(on_scale(mass.value).value), 4);
        let range = range_text(&mass, |m| format_value(&Value::Mass(m)));
        view! { <Figure name=t!("plan-soda_ash") number unit="g" range /> }
    });
    let (water, water_unit, water_range) = jug_volume(water);
    view! {
        <Figure name number unit range />
        {soda_ash}
        <Figure name=t!("plan-water") number=water unit=water_unit range=water_range />
    }
    .into_any()
}

/// Number, unit and range of a volume as a jug can measure it; litres from one litre up.
fn jug_volume(volume: &ComputedEstimate<Volume>) -> (String, &'static str, String) {
    let ml = in_millilitres(in_jug(volume.value).value);
    let (value, unit) = if ml >= 1000.0 { (ml / 1000.0, "L") } else { (ml, "mL") };
    let range = range_text(volume, |v| format_value(&Value::Volume(v)));
    (format_number(value, 4), unit, range)
}

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
        <p class="small soft">{t_with!("plan-consistency_readings", &[
            ("standard", &percent(in_share(readings.standard))),
            ("if_dry", &percent(in_share(readings.if_dry))),
            ("loose", &percent(in_share(readings.pulp_to_liquor))),
        ])}</p>
    }
    .into_any()
}
