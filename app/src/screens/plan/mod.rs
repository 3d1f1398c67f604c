//! The plan of a bath: choose the bleach and the aim, read what to measure out, and start it.

mod aim_form;
mod figures;
mod form;
mod kept;
mod loads;
mod ph;
mod ready_sheet;
mod result;
mod start;

use bleachfield_core::{
    derive::KeptPlan,
    journal::{Batch, PlanRecord},
};
use leptos::prelude::*;
use ulid::Ulid;

use self::{
    form::{PlanForm, PlanOutcome},
    kept::WaitingPlan,
};
use crate::{
    components::{CautionList, NumberField, Page},
    i18n::t,
    platform::clock,
    route::Route,
    state::app_state,
};

/// The screen at `/batch/ID/plan`: the kept plan, which is what starts; the form where there is
/// none, or where `change` asks for it.
#[component]
pub fn PlanBath(id: Ulid, change: bool) -> impl IntoView {
    let found = app_state().book_now(|book| {
        let batch = book.batches.get(&id)?;
        let kept = KeptPlan::of(book, batch, clock::now()).map(|kept| kept.record);
        Some((batch.clone(), kept))
    });
    match found {
        Some((batch, Some(_))) if !change => view! { <WaitingPlan batch /> }.into_any(),
        Some((batch, kept)) => view! { <BatchPlan batch kept /> }.into_any(),
        None => view! {
            <Page title=t!("plan-title") back=Route::Batches><p>{t!("batch-unknown")}</p></Page>
        }
        .into_any(),
    }
}

#[component]
fn BatchPlan(batch: Batch, kept: Option<PlanRecord>) -> impl IntoView {
    let form = PlanForm::of(&batch);
    if let Some(kept) = &kept {
        form.fill(kept);
    }
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
                    <NumberField ask=form.squeezed_ph.input hint=t!("plan-squeezed_hint") />
                    {move || form.co_solutes.view(form.bleach.oxidant())}
                </section>
                {move || result::view(form, outcome.get())}
            </div>
        </Page>
    }
}
