//! Batches that wait for their next step, each with that step in words.

use bleachfield_core::journal::{Batch, BatchState};
use leptos::prelude::*;
use ulid::Ulid;

use super::{draining::Draining, running::called};
use crate::{
    i18n::t,
    route::Route,
    screens::batches::{NextStep, StepTarget},
    state::app_state,
};

/// A batch and what it waits for.
#[derive(Clone, PartialEq)]
struct WaitingBatch {
    batch: Ulid,
    name: String,
    /// Locale key under `sink.step`.
    key: &'static str,
    /// Where the step is taken.
    way: Route,
    /// Its bath was stopped and nothing was rinsed: that bath.
    to_drain: Option<Ulid>,
}

/// The batches in the middle of things; nothing where there is none.
#[component]
pub fn WaitingBatches() -> impl IntoView {
    let studio = app_state();
    let steps = Memo::new(move |_| {
        studio.book(|book| {
            let mut steps: Vec<WaitingBatch> =
                book.batches_by_change().into_iter().filter_map(step).collect();
            // A stopped bath goes on bleaching until it is drained: first.
            steps.sort_by_key(|step| step.to_drain.is_none());
            steps
        })
    });
    view! {
        <Show when=move || { steps.with(|steps| !steps.is_empty()) }>
            <section class="stack" aria-labelledby="next-steps">
                <h2 id="next-steps">{t!("sink-steps")}</h2>
                {move || steps.get().into_iter().map(|step| view! {
                    <a href=step.way.href() class="card">
                        <h3>{step.name}</h3>
                        <p>{t(&format!("sink-step-{}", step.key))}</p>
                    </a>
                    {step.to_drain.map(|bath| view! { <Draining bath /> })}
                }).collect_view()}
            </section>
        </Show>
    }
}

/// What the batch waits for, if it waits.
fn step(batch: &Batch) -> Option<WaitingBatch> {
    let next = NextStep::of(batch);
    let key = match (batch.state, next) {
        (BatchState::Stopped, _) => "drain",
        (BatchState::Unproven, _) => "unproven",
        (BatchState::Running | BatchState::Stored, _)
        | (_, NextStep::Watch | NextStep::Nothing) => {
            return None;
        }
        (_, NextStep::Weigh) => "weigh",
        (_, NextStep::Plan) => "plan",
        (_, NextStep::Start) => "start",
        (_, NextStep::Rinse) => "rinse_again",
        (_, NextStep::EndTests) => "end_tests",
        (_, NextStep::SignOff) => "sign_off",
        (_, NextStep::Store | NextStep::Sheets) => "store",
    };
    let way = match next.way(batch.id)? {
        StepTarget::Route(route) => route,
        StepTarget::Form(form) => Route::form(batch.id, form),
    };
    let to_drain = (batch.state == BatchState::Stopped)
        .then(|| batch.baths.iter().max_by_key(|bath| bath.stopped.map(|s| s.at)))
        .flatten()
        .map(|bath| bath.id);
    Some(WaitingBatch { batch: batch.id, name: called(batch), key, way, to_drain })
}
