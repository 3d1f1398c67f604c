//! The result of planning: what to measure out, what to expect, what can go wrong; or why there
//! is no plan, and the nearest ones that work.

use std::cmp::Reverse;

use bleachfield_core::{
    bath::{BleachAmount, Plan, RefusedPlan, Remedy, VesselLoad},
    caution::{Act, Caution, Situation, cautions},
    journal::Schedule,
    message::Value,
};
use leptos::prelude::*;

use super::{
    figures::{doses, facts},
    form::{MadePlan, PlanForm, PlanOutcome},
    start::StartBath,
};
use crate::{
    components::{Assumed, CautionList},
    i18n::{format_value, render, t, t_with},
    platform::clock,
    route::Route,
    screens::calculator::inputs::ChosenBleach,
    state::app_state,
};

pub fn view(form: PlanForm, outcome: PlanOutcome) -> AnyView {
    match outcome {
        PlanOutcome::Waiting => view! { <p class="card soft">{t!("plan-waiting")}</p> }.into_any(),
        PlanOutcome::Refused(refused) => view! { <NoPlan form refused /> }.into_any(),
        PlanOutcome::Planned(made) => view! { <Planned form made=*made /> }.into_any(),
    }
}

/// Why there is no plan, and a button for each remedy that the form can apply.
#[component]
fn NoPlan(form: PlanForm, refused: RefusedPlan) -> impl IntoView {
    let remedy = |remedy: &Remedy| {
        let remedy = *remedy;
        let text = render(&remedy.message());
        if PlanForm::can_apply(remedy) {
            view! {
                <button class="button plain" on:click=move |_| form.apply(remedy)>{text}</button>
            }
            .into_any()
        } else if let (Remedy::MeasureStrength(_), Some(product)) = (remedy, form.shelf_bleach()) {
            let href = Route::Product(product).href();
            view! { <a class="button plain" href=href>{text}</a> }.into_any()
        } else {
            view! { <p>{text}</p> }.into_any()
        }
    };
    view! {
        <section class="caution care" role="alert">
            <span class="severity">{t!("plan-refused_head")}</span>
            <p>{render(&refused.message())}</p>
            {(!refused.remedies.is_empty()).then(|| view! {
                <p>{t!("plan-ways_head")}</p>
                <div class="stack">{refused.remedies.iter().map(remedy).collect_view()}</div>
            })}
        </section>
    }
}

#[component]
fn Planned(form: PlanForm, made: MadePlan) -> impl IntoView {
    let plan = &made.plan;
    let assumed = plan.oven_dry.assumed || plan.active.assumed;
    let remarks =
        plan.remarks.iter().map(|remark| view! { <p>{render(remark)}</p> }).collect_view();
    let cautions = Signal::stored(plan_cautions(&made));
    view! {
        <section class="card stack wide" aria-live="polite">
            <h2>{t!("plan-result_head")}</h2>
            {doses(plan)}
            <p class="small soft">{t_with!("plan-pulp_water", &[
                ("water", &format_value(&Value::Mass(plan.pulp_water.value))),
            ])}</p>
            {assumed.then(|| view! { <p><Assumed />" "{t!("plan-assumed_why")}</p> })}
            {plan.soda_ash.map(|_| view! { <p>{t!("plan-soda_ash_why")}</p> })}
            {facts(plan)}
            {super::ph::view(&plan.ph, made.request.temperature, form.alkali)}
            {long_exposed(&made.chosen).then(|| view! { <p>{t!("plan-long_exposed")}</p> })}
            {remarks}
            {loads(plan)}
            {schedule(plan)}
        </section>
        <CautionList cautions />
        <StartBath form made=made.clone() />
    }
}

/// Whether the strength of this bottle rests on a loss that was studied for a shorter time.
fn long_exposed(chosen: &ChosenBleach) -> bool {
    chosen
        .used
        .shelf
        .and_then(|id| {
            app_state().book(|book| book.products.get(&id)?.strength_now(clock::now()).ok())
        })
        .is_some_and(|strength| strength.extrapolation.long_exposed)
}

/// The cautions of all acts of the plan, each once, the gravest first.
fn plan_cautions(made: &MadePlan) -> Vec<Caution> {
    let situation = Situation::of_plan(&made.request, &made.plan);
    let mut all = cautions(Act::Bath, &situation);
    let blending = situation.blender.then_some(Act::BlendingHot);
    for act in [Act::MakingLiquor, Act::Heating].into_iter().chain(blending) {
        for caution in cautions(act, &situation) {
            if !all.iter().any(|known| known.id == caution.id) {
                all.push(caution);
            }
        }
    }
    all.sort_by_key(|caution| Reverse(caution.severity));
    all
}

/// The share of each load, where the vessel does not hold the whole bath.
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
                    {load.soda_ash.map(|mass| view! { <td>{format_value(&Value::Mass(mass))}</td> })}
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
                    {plan.soda_ash.map(|_| view! { <th scope="col">{t!("plan-soda_ash")}</th> })}
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
    let schedule = Schedule::from(&plan.schedule);
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
