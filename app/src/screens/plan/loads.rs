//! The share of each load, where the vessel does not hold the whole bath.

use bleachfield_core::{
    bath::{BleachAmount, Plan, VesselLoad},
    journal::{Amount, PlanRecord},
    message::Value,
    quantity::{Mass, Volume, grams, millilitres},
};
use leptos::prelude::*;

use crate::i18n::{format_value, t, t_with};

/// The contents of one vessel.
struct LoadRow {
    pulp: Mass,
    bleach: Value,
    soda_ash: Option<Mass>,
    water: Volume,
}

/// `None` where one vessel holds everything.
pub fn of_plan(plan: &Plan) -> Option<AnyView> {
    let rows = || {
        let loads = plan.loads.measurable();
        let row = |load: VesselLoad| LoadRow {
            pulp: load.pulp,
            bleach: match load.dose {
                BleachAmount::Bottle(volume) => Value::Volume(volume),
                BleachAmount::Powder(mass) => Value::Mass(mass),
            },
            soda_ash: load.soda_ash,
            water: load.water,
        };
        loads.into_iter().map(row).collect()
    };
    (plan.loads.count > 1).then(|| table(plan.loads.count as usize, rows()))
}

/// As [`of_plan`], of a stored plan.
pub fn of_record(record: &PlanRecord) -> Option<AnyView> {
    let pulp: f64 = record.loads.iter().map(|load| load.wet_pulp_g).sum();
    let shown = record.loads.len();
    // The first loads of very many are stored; together they hold their part of the pulp.
    let count = (record.wet_mass_g.value / pulp * shown as f64).round() as usize;
    let rows = record.loads.iter().map(|load| LoadRow {
        pulp: grams(load.wet_pulp_g),
        bleach: match load.product_amount {
            Amount::VolumeMl(ml) => Value::Volume(millilitres(ml.value)),
            Amount::MassG(g) => Value::Mass(grams(g.value)),
        },
        soda_ash: load.soda_ash_g.map(grams),
        water: millilitres(load.water_to_add_ml),
    });
    (shown > 1).then(|| table(count.max(shown), rows.collect()))
}

fn table(count: usize, rows: Vec<LoadRow>) -> AnyView {
    let shown = rows.len();
    let with_soda = rows.iter().any(|row| row.soda_ash.is_some());
    let mass = |mass| format_value(&Value::Mass(mass));
    let row = |(i, load): (usize, LoadRow)| {
        view! {
            <tr>
                <th scope="row">{i + 1}</th>
                <td>{mass(load.pulp)}</td>
                <td>{format_value(&load.bleach)}</td>
                {load.soda_ash.map(|soda_ash| view! { <td>{mass(soda_ash)}</td> })}
                <td>{format_value(&Value::Volume(load.water))}</td>
            </tr>
        }
    };
    view! {
        <h3>{t_with!("plan-loads_head", &[("count", &count.to_string())])}</h3>
        <table class="loads">
            <thead><tr>
                <th scope="col">{t!("plan-load")}</th>
                <th scope="col">{t!("plan-load_pulp")}</th>
                <th scope="col">{t!("plan-load_bleach")}</th>
                {with_soda.then(|| view! { <th scope="col">{t!("plan-soda_ash")}</th> })}
                <th scope="col">{t!("plan-load_water")}</th>
            </tr></thead>
            <tbody>{rows.into_iter().enumerate().map(row).collect_view()}</tbody>
        </table>
        {(shown < count).then(|| view! {
            <p class="small">{t_with!("plan-loads_more", &[("shown", &shown.to_string())])}</p>
        })}
    }
    .into_any()
}
