//! Step 2: the bleach, and what it must never meet.

use bleachfield_core::bath::RefusedPlan;
use leptos::prelude::*;

use crate::{
    i18n::t,
    platform::clock,
    screens::plan::{
        dangers::Dangers,
        form::{PlanForm, PlanOutcome},
        refused::NoPlan,
        signs::CautionSigns,
        steps::PlanStep,
    },
    state::app_state,
};

#[component]
pub fn BleachStep(
    form: PlanForm,
    outcome: Memo<PlanOutcome>,
    refused: Signal<Option<RefusedPlan>>,
) -> impl IntoView {
    let cautions = form.choosing;
    let standing = Signal::derive(move || {
        cautions.get().into_iter().filter(|caution| !caution.id.is_of_this_bath()).collect()
    });
    view! {
        <section class="card stack">
            {form.bleach.view()}
            <NoPlan form refused />
            {move || long_exposed(form).then(|| view! { <p>{t!("plan-long_exposed")}</p> })}
        </section>
        <Dangers form outcome step=PlanStep::Bleach />
        <CautionSigns cautions=standing />
    }
}

/// Whether the strength of this bottle rests on a loss that was studied for a shorter time.
fn long_exposed(form: PlanForm) -> bool {
    form.shelf_bleach()
        .and_then(|id| {
            app_state().book(|book| book.products.get(&id)?.strength_now(clock::now()).ok())
        })
        .is_some_and(|strength| strength.extrapolation.long_exposed)
}
