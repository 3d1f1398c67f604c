//! The plan of a bath: choose the bleach and the aim, read what to measure out, and start it.

mod aim_form;
mod figures;
mod form;
mod ph;
mod result;
mod start;

use bleachfield_core::journal::Batch;
use leptos::prelude::*;
use ulid::Ulid;

use self::form::{PlanForm, PlanOutcome};
use crate::{
    components::{CautionList, NumberField, Page},
    i18n::t,
    route::Route,
    state::app_state,
};

/// The screen at `/batch/ID/plan`.
#[component]
pub fn PlanBath(id: Ulid) -> impl IntoView {
    let batch = app_state().book_now(|book| book.batches.get(&id).cloned());
    match batch {
        Some(batch) => view! { <BatchPlan batch /> }.into_any(),
        None => view! {
            <Page title=t!("plan-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

#[component]
fn BatchPlan(batch: Batch) -> impl IntoView {
    let form = PlanForm::of(&batch);
    let outcome = Memo::new(move |_| form.outcome());
    let refusal = Signal::derive(move || outcome.with(PlanOutcome::refusal));
    let choosing = Signal::derive(move || form.bleach_cautions());
    view! {
        <Page title=t!("plan-title") back=Route::batch(batch.id)>
            <div class="stack wide">
                <p class="soft">{batch.name}</p>
                <details class="more">
                    <summary>{t!("plan-lump_head")}</summary>
                    <div class="inside">{form.wet_pulp.view()}</div>
                </details>
                <section class="card stack">
                    <h2>{t!("plan-bleach_head")}</h2>
                    {form.bleach.view()}
                </section>
                <CautionList cautions=choosing />
                <section class="card stack">
                    <h2>{t!("plan-aim_head")}</h2>
                    {form.aim.view(form.bleach, refusal)}
                    <NumberField ask=form.squeezed_ph hint=t!("plan-squeezed_hint") />
                    {move || form.co_solutes.view(form.bleach.oxidant())}
                </section>
                {move || result::view(form, outcome.get())}
            </div>
        </Page>
    }
}
