//! The result of planning: what to measure out, what to expect, what can go wrong; or why there
//! is no plan, and the nearest ones that work.

use std::cmp::Reverse;

use bleachfield_core::{
    bath::{RefusedPlan, Remedy},
    caution::{Act, Caution, Situation, cautions},
    journal::Schedule,
    message::Value,
    quantity::Celsius,
};
use leptos::prelude::*;

use super::{
    figures::{doses, facts},
    form::{MadePlan, PlanForm, PlanOutcome},
    loads,
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
    let cautions = Signal::stored(bath_cautions(&Situation::of_plan(&made.request, &made.plan)));
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
            {loads::of_plan(plan)}
            {schedule(&Schedule::from(&plan.schedule), Some(plan.schedule.reheat_below))}
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

/// The cautions of all acts of a planned bath, each once, the gravest first.
pub fn bath_cautions(situation: &Situation) -> Vec<Caution> {
    let mut all = cautions(Act::Bath, situation);
    let blending = situation.blender.then_some(Act::BlendingHot);
    for act in [Act::MakingLiquor, Act::Heating].into_iter().chain(blending) {
        for caution in cautions(act, situation) {
            if !all.iter().any(|known| known.id == caution.id) {
                all.push(caution);
            }
        }
    }
    all.sort_by_key(|caution| Reverse(caution.severity));
    all
}

/// When to do what while the bath runs.
pub fn schedule(schedule: &Schedule, reheat_below: Option<Celsius>) -> AnyView {
    let minutes = |minutes: f64| format_value(&Value::Minutes(minutes));
    let lines = [
        schedule.stir_every_min.map(|m| t_with!("plan-stir_every", &[("time", &minutes(m))])),
        schedule.ph_at_min.first().map(|m| t_with!("plan-check_at", &[("time", &minutes(*m))])),
        reheat_below.map(|at| {
            let at = format_value(&Value::Celsius(at.get()));
            t_with!("plan-reheat_below", &[("temperature", &at)])
        }),
        schedule.stop_at_min.map(|m| t_with!("plan-stop_at", &[("time", &minutes(m))])),
    ];
    view! {
        <h3>{t!("plan-schedule_head")}</h3>
        <ul>{lines.into_iter().flatten().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
    }
    .into_any()
}
