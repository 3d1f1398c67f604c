//! Batches that wait for their next step, each with that step in words.

use bleachfield_core::{
    derive::TrialStatus,
    journal::{Batch, BatchState, Book},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    drain_advice::DrainAdvice, running_bath::batch_name, screen_cautions::DrainingCautions,
};
use crate::{
    components::icon,
    i18n::{t, t_with},
    route::Route,
    screens::batches::{NextStep, StepTarget},
    state::app_state,
};

#[derive(Clone, PartialEq)]
struct WaitingBatch {
    name: String,
    /// Locale key under `sink-step`.
    step: &'static str,
    /// Where the step is taken.
    route: Route,
    /// A stopped bath that is not drained yet.
    to_drain: Option<Ulid>,
}

/// Batches that wait; nothing if there are none. A stopped bath goes on bleaching until it is
/// drained, so those come first.
#[component]
pub fn WaitingBatches() -> impl IntoView {
    let state = app_state();
    let batches = Memo::new(move |_| {
        state.book(|book| {
            let mut batches: Vec<WaitingBatch> = book
                .batches_by_change()
                .into_iter()
                .filter_map(|batch| waiting(book, batch))
                .collect();
            batches.sort_by_key(|batch| batch.to_drain.is_none());
            batches.extend(book.trials.values().filter_map(|trial| waiting_trial(book, trial.id)));
            batches
        })
    });
    view! {
        <Show when=move || { batches.with(|batches| !batches.is_empty()) }>
            <section class="stack" aria-labelledby="next-steps">
                <h2 id="next-steps">{t!("sink-steps")}</h2>
                <DrainingCautions />
                {move || batches.get().into_iter().map(|batch| view! {
                    <a href=batch.route.href() class="card">
                        <h3>{batch.name}</h3>
                        <p>{t(&format!("sink-step-{}", batch.step))}</p>
                    </a>
                    {batch.to_drain.map(|bath| view! { <DrainAdvice bath /> })}
                }).collect_view()}
            </section>
        </Show>
    }
}

/// The stopped baths that are not drained yet: they go on bleaching.
pub fn to_drain(book: &Book) -> Vec<Ulid> {
    let batches = book.batches_by_change().into_iter();
    batches.filter_map(|batch| waiting(book, batch)?.to_drain).collect()
}

/// A line for each bath that is to be drained, above the running ones.
#[component]
pub fn BathsToDrain() -> impl IntoView {
    let state = app_state();
    let batches = Memo::new(move |_| {
        state.book(|book| {
            let batches = book.batches_by_change().into_iter();
            let waiting = batches.filter_map(|batch| waiting(book, batch));
            waiting.filter(|batch| batch.to_drain.is_some()).collect::<Vec<_>>()
        })
    });
    move || {
        let line = |batch: WaitingBatch| {
            view! {
                <a href=batch.route.href() class="to-drain">
                    <icon::Hand />
                    <span>{t_with!("sink-to_drain", &[("batch", &batch.name)])}</span>
                </a>
            }
        };
        batches.get().into_iter().map(line).collect_view()
    }
}

/// A trial whose pots are not all out; the pots themselves are on its page.
fn waiting_trial(book: &Book, trial: Ulid) -> Option<WaitingBatch> {
    let status = TrialStatus::of(book, trial).filter(|status| !status.is_over())?;
    let name = book.batches.get(&status.trial.parent).map(batch_name)?;
    Some(WaitingBatch { name, step: "trial", route: Route::Trial(trial), to_drain: None })
}

/// `None` if the batch does not wait.
fn waiting(book: &Book, batch: &Batch) -> Option<WaitingBatch> {
    if book.trial_of_pot(batch.id).is_some() {
        return None;
    }
    let next = NextStep::of(book, batch);
    let step = match (batch.state, next) {
        (BatchState::Stopped, _) => "drain",
        (BatchState::Unproven, _) => "unproven",
        (BatchState::Running | BatchState::Stored, _)
        | (_, NextStep::Watch | NextStep::Nothing) => return None,
        (_, NextStep::Cook) => "cook",
        (_, NextStep::Weigh) => "weigh",
        (_, NextStep::Plan) => "plan",
        (_, NextStep::Start) => "start",
        (_, NextStep::Rinse) => "rinse_again",
        (_, NextStep::EndTests) => "end_tests",
        (_, NextStep::SignOff) => "sign_off",
        (_, NextStep::Store | NextStep::Sheets) => "store",
    };
    let route = match next.target(batch.id)? {
        StepTarget::Route(route) => route,
        StepTarget::Form(form) => Route::form(batch.id, form),
    };
    let to_drain = (batch.state == BatchState::Stopped)
        .then(|| batch.baths.iter().max_by_key(|bath| bath.stopped.map(|s| s.at)))
        .flatten()
        .map(|bath| bath.id);
    Some(WaitingBatch { name: batch_name(batch), step, route, to_drain })
}
