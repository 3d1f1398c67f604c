//! What came of the plan: what to measure out, what comes of it, what can go
//! wrong, or why there is no plan and which nearest ones would work.

use bleachfield_core::{
    bath::{BleachAmount, Dose, Plan, RefusedPlan, Remedy, VesselLoad},
    caution::{Act, Situation, cautions},
    message::Value,
    quantity::{
        ComputedEstimate as Ranged, in_grams, in_grams_per_litre, in_jug, in_millilitres, in_share,
        on_scale,
    },
};
use leptos::prelude::*;

use super::{MadePlan, PlanForm, PlanOutcome, start::StartBath};
use crate::{
    components::{Assumed, CautionList, Fact, Figure},
    i18n::{field_name, format_number, format_value, render, t, t_with},
};

/// The outcome as it stands.
pub fn view(form: PlanForm, outcome: PlanOutcome) -> AnyView {
    match outcome {
        PlanOutcome::Waiting => view! { <p class="card soft">{t!("plan-waiting")}</p> }.into_any(),
        PlanOutcome::Refused(_, refused) => view! { <NoPlan form refused /> }.into_any(),
        PlanOutcome::Planned(made) => view! { <Planned form made=*made /> }.into_any(),
    }
}

/// Why there is no plan, and one press for each plan that would work.
#[component]
fn NoPlan(form: PlanForm, refused: RefusedPlan) -> impl IntoView {
    let ways = refused.remedies.iter().map(|way| {
        let way = *way;
        let words = render(&way.message());
        if form.can_take(way) {
            view! {
                <button class="button plain" on:click=move |_| form.take(way)>{words}</button>
            }
            .into_any()
        } else {
            view! { <p>{words}</p> }.into_any()
        }
    });
    let ways: Vec<_> = ways.collect();
    view! {
        <section class="caution care" role="alert">
            <span class="severity">{t!("plan-refused_head")}</span>
            <p>{render(&refused.message())}</p>
            {(!ways.is_empty()).then(|| view! {
                <p>{t!("plan-ways_head")}</p>
                <div class="stack">{ways}</div>
            })}
        </section>
    }
}

#[component]
fn Planned(form: PlanForm, made: MadePlan) -> impl IntoView {
    let plan = &made.plan;
    let (name, number, unit, range) = dose(plan);
    let water = in_jug(plan.water_volume.value).value;
    let (water_number, water_unit) = litres(in_millilitres(water));
    let water_range = band(&plan.water_volume, |v| format_value(&Value::Volume(v)));
    let assumed = plan.oven_dry.assumed || plan.active.assumed;
    let situation = Situation::of_plan(&made.request, plan);
    let mut all = cautions(Act::Bath, &situation);
    for act in [Act::MakingLiquor, Act::Heating, Act::BlendingHot] {
        if act == Act::BlendingHot && !situation.blender {
            continue;
        }
        for caution in cautions(act, &situation) {
            if !all.iter().any(|known| known.id == caution.id) {
                all.push(caution);
            }
        }
    }
    all.sort_by_key(|caution| std::cmp::Reverse(caution.severity));
    let all = Signal::stored(all);
    let remarks =
        plan.remarks.iter().map(|remark| view! { <p>{render(remark)}</p> }).collect_view();
    view! {
        <section class="card stack wide" aria-live="polite">
            <h2>{t!("plan-result_head")}</h2>
            <Figure name number unit range />
            <Figure name=t!("plan-water") number=water_number unit=water_unit range=water_range />
            <p class="small soft">{t_with!("plan-pulp_water", &[
                ("water", &format_value(&Value::Mass(plan.pulp_water.value))),
            ])}</p>
            {assumed.then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
            {facts(plan)}
            {super::ph::view(&plan.ph, form.alkali)}
            {remarks}
            {loads(plan)}
            {schedule(plan)}
        </section>
        <CautionList cautions=all />
        <StartBath form made=made.clone() />
    }
}

impl PlanForm {
    /// Whether the screen itself can make this change.
    fn can_take(self, way: Remedy) -> bool {
        !matches!(way, Remedy::StrongerBottle(_) | Remedy::WashFirst)
    }

    /// Makes the change in the answers.
    fn take(self, way: Remedy) {
        match way {
            Remedy::Press(dryness) => self.lump.set_dryness(in_share(dryness)),
            Remedy::LeaveOut(what) => self.company.leave_out(what),
            other => {
                self.aim.take(other);
            }
        }
    }
}

fn dose(plan: &Plan) -> (String, String, String, String) {
    match &plan.dose {
        Dose::Bottle(volume) => {
            let value = in_millilitres(in_jug(volume.value).value);
            let (number, unit) = litres(value);
            (
                t!("plan-dose_bottle"),
                number,
                unit,
                band(volume, |v| format_value(&Value::Volume(v))),
            )
        }
        Dose::Powder(mass) => {
            let value = in_grams(on_scale(mass.value).value);
            let range = band(mass, |m| format_value(&Value::Mass(m)));
            (t!("plan-dose_powder"), format_number(value, 4), "g".into(), range)
        }
    }
}

/// A volume as a jug is read: millilitres, or litres from one litre up.
fn litres(ml: f64) -> (String, String) {
    if ml >= 1000.0 {
        (format_number(ml / 1000.0, 4), "L".into())
    } else {
        (format_number(ml, 4), "mL".into())
    }
}

/// The band of a figure in words, and what it is mostly due to.
pub(super) fn band<Q: Copy>(figure: &Ranged<Q>, write: impl Fn(Q) -> String) -> String {
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

fn facts(plan: &Plan) -> AnyView {
    let percent = |share: f64| format!("{} %", format_number(share * 100.0, 3));
    let ranged = |figure: Ranged<f64>, write: &dyn Fn(f64) -> String| {
        let (value, low, high) = (write(figure.value), write(figure.low), write(figure.high));
        if low == high { value } else { format!("{value} ({low} – {high})") }
    };
    let strength = |g_per_l: f64| format!("{} g/L", format_number(g_per_l, 3));
    let dry = plan.oven_dry.map(in_grams);
    let readings = &plan.readings;
    view! {
        <dl class="facts">
            <Fact name=t!("plan-dry_fibre") assumed=dry.assumed
                value=ranged(dry, &|g| format_value(&Value::Mass(bleachfield_core::quantity::grams(g)))) />
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
    }.into_any()
}

fn loads(plan: &Plan) -> Option<AnyView> {
    let count = plan.loads.count;
    (count > 1).then(|| {
        let rows = plan.loads.measurable();
        let shown = rows.len();
        let row = |(i, load): (usize, &VesselLoad)| {
            let dose = match load.dose {
                BleachAmount::Bottle(volume) => format_value(&Value::Volume(volume)),
                BleachAmount::Powder(mass) => format_value(&Value::Mass(mass)),
            };
            view! {
                <tr>
                    <th scope="row">{i + 1}</th>
                    <td>{format_value(&Value::Mass(load.pulp))}</td>
                    <td>{dose}</td>
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
                    <th scope="col">{t!("plan-load_water")}</th>
                </tr></thead>
                <tbody>{rows.iter().enumerate().map(row).collect_view()}</tbody>
            </table>
            {(shown < count as usize).then(|| view! {
                <p class="small">{t_with!("plan-loads_more", &[("shown", &shown.to_string())])}</p>
            })}
        }
    }).map(IntoAny::into_any)
}

fn schedule(plan: &Plan) -> AnyView {
    let schedule: bleachfield_core::journal::Schedule = (&plan.schedule).into();
    let minutes = |minutes: f64| format_value(&Value::Minutes(minutes));
    let lines = [
        schedule.stir_every_min.map(|m| t_with!("plan-stir_every", &[("time", &minutes(m))])),
        schedule.ph_at_min.first().map(|m| t_with!("plan-check_at", &[("time", &minutes(*m))])),
        Some(t_with!(
            "plan-reheat_below",
            &[("temperature", &format_value(&Value::Celsius(plan.schedule.reheat_below.get())))],
        )),
        schedule.stop_at_min.map(|m| t_with!("plan-stop_at", &[("time", &minutes(m))])),
    ];
    view! {
        <h3>{t!("plan-schedule_head")}</h3>
        <ul>{lines.into_iter().flatten().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
    }
    .into_any()
}
