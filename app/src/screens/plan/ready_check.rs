//! The ready check: what is needed on the table, in the order in which it goes in. Ticked before
//! a bath starts; the ticks are not recorded.

use bleachfield_core::{
    bath::{HeatError, MeasuredDose, Oxidant, ROOM_CELSIUS},
    derive::BathToMeasure,
    journal::PlanRecord,
    message::Value,
    quantity::{Celsius, Mass, in_grams, in_millilitres},
};
use leptos::prelude::*;

use super::heat::HotAndColdForm;
use crate::{
    components::Assumed,
    i18n::{amount, format_number, format_value, mass_text, solution_text, t, t_with, volume_text},
};

/// The list. Sets `ready` while all of it is ticked.
#[component]
pub fn ReadyCheck(
    record: PlanRecord,
    /// What a strip shows in a cooled sample: low and high.
    ph: Option<(f64, f64)>,
    ready: RwSignal<bool>,
    hot_and_cold: HotAndColdForm,
) -> impl IntoView {
    let bath = BathToMeasure::of(&record);
    let lines = lines(&record, &bath);
    let ticks = RwSignal::new(vec![false; lines.len()]);
    Effect::new(move |_| ready.set(ticks.with(|ticks| ticks.iter().all(|ticked| *ticked))));
    let line = |(nth, (big, text)): (usize, (Option<String>, String))| {
        view! {
            <li><label class="tick touch">
                <input type="checkbox" prop:checked=move || ticks.with(|ticks| ticks[nth])
                    on:change=move |event| {
                        let ticked = event_target_checked(&event);
                        ticks.update(|ticks| ticks[nth] = ticked);
                    } />
                <span>{big.map(|big| view! { <b class="big">{big}</b>" " })}{text}</span>
            </label></li>
        }
    };
    let assumed = record.dry_fibre_g.basis == bleachfield_core::quantity::Basis::Assumed;
    view! {
        <section class="card stack plan-ready">
            <h2 class="visually-hidden">{t!("plan-result_head")}</h2>
            <ol class="plan-ticks">{lines.into_iter().enumerate().map(line).collect_view()}</ol>
            {load_line(&bath).map(|line| view! { <p class="plan-loads">{line}</p> })}
            {solution_line(&bath)}
            {warmth(&bath, hot_and_cold)}
            <p class="small">{expected(&record, &bath, ph)}</p>
            <p class="small soft">
                {range_line(&bath)}{assumed.then(|| view! { " "<Assumed /> })}
            </p>
        </section>
    }
}

/// The ticks: the amount, which is set large, and the words.
fn lines(record: &PlanRecord, bath: &BathToMeasure) -> Vec<(Option<String>, String)> {
    let out = &bath.whole;
    let water = match &bath.water_at {
        Ok(at) => t_with!("plan-ready_water_at", &[("temperature", &degrees(*at))]),
        Err(_) => t!("plan-ready_water"),
    };
    let mut lines =
        vec![(None, t!("plan-ready_wear")), (Some(volume_text(in_millilitres(out.water))), water)];
    if let Some(soda) = out.soda_ash {
        lines.push((Some(mass_text(in_grams(soda))), t!("plan-ready_soda")));
    }
    let bleach = (Some(dose_amount(&out.dose)), dose_words(record, bath));
    let pulp = (Some(mass_text(in_grams(bath.pulp))), t!("plan-ready_pulp"));
    if bath.pulp_first {
        lines.extend([pulp, bleach]);
    } else {
        lines.extend([bleach, pulp]);
    }
    lines
}

/// What is poured: of the solution, where there is one.
fn dose_amount(dose: &MeasuredDose) -> String {
    match dose {
        MeasuredDose::Direct(direct) => amount(*direct),
        MeasuredDose::Solution(solution) => volume_text(in_millilitres(solution.take)),
    }
}

fn dose_words(record: &PlanRecord, bath: &BathToMeasure) -> String {
    if matches!(bath.whole.dose, MeasuredDose::Solution(_)) {
        return t!("plan-ready_solution");
    }
    let name = record.product.name.trim();
    let from = match bath.oxidant {
        _ if !name.is_empty() => t_with!("plan-ready_from", &[("product", name)]),
        Oxidant::Hypochlorite => t!("plan-ready_bleach"),
        Oxidant::Percarbonate => t!("plan-ready_powder"),
        Oxidant::Peroxide => t!("plan-ready_peroxide"),
    };
    if bath.pulp_first { format!("{from}. {}", t!("plan-ready_when_cooled")) } else { from }
}

/// How a dose that is too small to measure is measured all the same.
fn solution_line(bath: &BathToMeasure) -> Option<AnyView> {
    solution_text(&bath.whole.dose).map(|text| view! { <p>{text}</p> }.into_any())
}

/// "In 8 pots: 8 × 150 g pulp + 13 mL + 440 mL".
pub fn load_line(bath: &BathToMeasure) -> Option<String> {
    (bath.loads > 1).then(|| {
        let each = &bath.each;
        let mut parts = vec![dose_amount(&each.dose)];
        if matches!(each.dose, MeasuredDose::Solution(_)) {
            parts[0] = t_with!("plan-load_solution", &[("amount", &parts[0])]);
        }
        parts.extend(
            each.soda_ash.map(|mass: Mass| {
                t_with!("plan-bar_soda", &[("amount", &mass_text(in_grams(mass)))])
            }),
        );
        parts.push(t_with!(
            "plan-bar_water",
            &[("amount", &volume_text(in_millilitres(each.water))),]
        ));
        let pulp = format_value(&Value::Mass(bath.pulp_of_each));
        t_with!(
            "plan-load_line",
            &[("count", &bath.loads.to_string()), ("pulp", &pulp), ("rest", &parts.join(" + ")),]
        )
    })
}

/// How warm the water must be, and how to get it.
fn warmth(bath: &BathToMeasure, form: HotAndColdForm) -> AnyView {
    let room = format_value(&Value::Celsius(ROOM_CELSIUS));
    match &bath.water_at {
        Ok(at) => {
            let water = if bath.loads > 1 { bath.each.water } else { bath.whole.water };
            view! {
                <p class="small soft">{t_with!("plan-warm_why", &[("room", &room)])}</p>
                {form.view(water, *at)}
            }
            .into_any()
        }
        Err(HeatError::TooCold { target, reaches }) => {
            let values = [("reaches", degrees(*reaches)), ("target", degrees(*target))];
            let text =
                t_with!("plan-too_cold", &[("reaches", &values[0].1), ("target", &values[1].1),]);
            view! { <p class="caution care">{text}</p> }.into_any()
        }
        Err(_) => view! { <p class="small">{t!("plan-too_hot")}</p> }.into_any(),
    }
}

/// What strips show once it is mixed.
fn expected(record: &PlanRecord, bath: &BathToMeasure, ph: Option<(f64, f64)>) -> String {
    let g_per_l = |value: f64| format_number(value, 2);
    let strength = t_with!(
        "plan-expect_strength",
        &[("low", &g_per_l(bath.strength.low)), ("high", &g_per_l(bath.strength.high)),]
    );
    let recorded = record.ph.map(|ph| (ph.low, ph.high));
    let ph = ph.or(recorded).map(|(low, high)| {
        let write = |ph| format_value(&Value::Ph(ph));
        t_with!("plan-expect_ph", &[("low", &write(low)), ("high", &write(high))])
    });
    format!("{strength} {} {}", ph.unwrap_or_default(), t!("plan-start_clock"))
}

/// The range of the need.
fn range_line(bath: &BathToMeasure) -> String {
    use bleachfield_core::bath::Dose;
    let (low, high) = match bath.dose {
        Dose::Bottle(need) => (
            volume_text(round(in_millilitres(need.low))),
            volume_text(round(in_millilitres(need.high))),
        ),
        Dose::Powder(need) => {
            (mass_text(round(in_grams(need.low))), mass_text(round(in_grams(need.high))))
        }
    };
    t_with!("plan-right_amount", &[("low", &low), ("high", &high)])
}

/// To three figures.
fn round(value: f64) -> f64 {
    if value <= 0.0 {
        return 0.0;
    }
    let unit = 10f64.powi(value.log10().floor() as i32 - 2);
    (value / unit).round() * unit
}

fn degrees(at: Celsius) -> String {
    format_value(&Value::Celsius(at.get().round()))
}
