//! Step 3: how much bleach, how warm, how long; and what comes of it.

use bleachfield_core::{bath::RefusedPlan, journal::Schedule};
use leptos::prelude::*;

use crate::{
    components::{NumberField, Term},
    i18n::{render, t},
    route::Route,
    screens::{
        plan::{
            dangers::Dangers,
            figures::facts,
            form::{PlanForm, PlanOutcome},
            ph,
            refused::NoPlan,
            schedule,
            steps::PlanStep,
        },
        sink::forecast::planned_forecast,
    },
};

#[component]
pub fn BathStep(
    form: PlanForm,
    outcome: Memo<PlanOutcome>,
    refusal: Signal<Option<RefusedPlan>>,
) -> impl IntoView {
    let refused = Signal::derive(move || outcome.with(PlanOutcome::refusal));
    let oxidant = Memo::new(move |_| form.bleach.oxidant());
    let more_open = form.squeezed_ph_is_needed;
    let planned = Signal::derive(move || outcome.with(PlanOutcome::record));
    view! {
        <section class="card stack">
            {form.aim.preset_choice(oxidant)}
            {form.batch.map(|batch| view! {
                <a class="button bare" href=Route::WaysToColour(batch).href()>{t!("ways-title")}</a>
            })}
            {form.aim.main_fields(oxidant, refused)}
            <NoPlan form refused=refusal />
            <Dangers form outcome step=PlanStep::Bath />
            {move || outcome.with(|outcome| match outcome {
                PlanOutcome::Planned(made) => Some(view! {
                    {ph::short(&made.plan.ph, form.alkali)}
                    {made.plan.remarks.iter().map(|remark| view! {
                        <p class="small">{render(remark)}</p>
                    }).collect_view()}
                }),
                _ => None,
            })}
            {planned_forecast(planned, form.batch)}
        </section>
        <details class="more" open=more_open>
            <summary>{t!("plan-more")}</summary>
            <div class="inside stack">
                <NumberField ask=form.squeezed_ph.input hint=t!("plan-squeezed_hint") refused
                    term=Term::CarryOver />
                {form.aim.more_fields(oxidant, refused)}
                {move || form.co_solutes.view(oxidant.get())}
            </div>
        </details>
        {move || outcome.with(|outcome| match outcome {
            PlanOutcome::Planned(made) => Some(view! {
                <details class="more">
                    <summary>{t!("plan-comes_of_it")}</summary>
                    <div class="inside stack">
                        <h2 class="visually-hidden">{t!("plan-comes_of_it")}</h2>
                        {facts(&made.plan)}
                        {ph::details(&made.plan.ph, made.request.temperature)}
                        {made.plan.soda_ash.map(|_| view! { <p>{t!("plan-soda_ash_why")}</p> })}
                        {schedule::view(
                            &Schedule::from(&made.plan.schedule),
                            Some(made.plan.schedule.reheat_below),
                        )}
                    </div>
                </details>
            }),
            _ => None,
        })}
    }
}
