//! Batches that wait for their next step, each with that step in words.

use bleachfield_core::{
    caution::{Act, Residual, Situation, cautions},
    journal::{Batch, BatchState, Oxidant},
};
use leptos::prelude::*;
use leptos_router::components::A;
use ulid::Ulid;

use super::running::called;
use crate::{locale::word, part::CautionList, studio::studio};

/// A batch and what it waits for.
#[derive(Clone, PartialEq)]
struct Step {
    batch: Ulid,
    name: String,
    /// Locale key under `sink.step`.
    key: &'static str,
    /// Its bath was stopped and nothing was rinsed: what was in it.
    to_drain: Option<Oxidant>,
}

/// The batches in the middle of things; nothing where there is none.
#[component]
pub fn Steps() -> impl IntoView {
    let studio = studio();
    let steps = Memo::new(move |_| {
        studio.book(|book| {
            let mut steps: Vec<Step> =
                book.batches_by_change().into_iter().filter_map(step).collect();
            // A stopped bath goes on bleaching until it is drained: first.
            steps.sort_by_key(|step| step.to_drain.is_none());
            steps
        })
    });
    let draining = Signal::derive(move || {
        let oxidant = steps.with(|steps| steps.iter().find_map(|step| step.to_drain));
        let Some(oxidant) = oxidant else { return Vec::new() };
        let residual = match oxidant {
            Oxidant::Hypochlorite => Residual::Hypochlorite,
            Oxidant::Percarbonate | Oxidant::Peroxide => Residual::Peroxide,
        };
        let situation =
            Situation { oxidant: Some(oxidant.into()), residual, ..Situation::default() };
        cautions(Act::Draining, &situation)
    });
    view! {
        <Show when=move || steps.with(|steps| !steps.is_empty())>
            <section class="stack" aria-labelledby="next-steps">
                <h2 id="next-steps">{word("sink.steps")}</h2>
                <For each=move || steps.get() key=|step| (step.batch, step.key, step.name.clone()) let:step>
                    <A href=way(&step) attr:class="card">
                        <h3>{step.name.clone()}</h3>
                        <p>{word(&format!("sink.step.{}", step.key))}</p>
                    </A>
                </For>
                <CautionList cautions=draining />
            </section>
        </Show>
    }
}

/// What the batch waits for, if it waits.
fn step(batch: &Batch) -> Option<Step> {
    let key = match batch.state {
        BatchState::Planning if batch.weighed.is_none() => "weigh",
        BatchState::Planning if batch.plan.is_none() => "plan",
        BatchState::Planning => "start",
        BatchState::Stopped => "rinse",
        BatchState::Washing => "wash",
        BatchState::Unproven => "unproven",
        BatchState::Clean => "store",
        BatchState::Running | BatchState::Stored | BatchState::Used | BatchState::GivenUp => {
            return None;
        }
    };
    let to_drain = (batch.state == BatchState::Stopped)
        .then(|| batch.baths.iter().max_by_key(|bath| bath.stopped.map(|s| s.at)))
        .flatten()
        .map(|bath| bath.oxidant);
    Some(Step { batch: batch.id, name: called(batch), key, to_drain })
}

fn way(step: &Step) -> String {
    let batch = step.batch;
    match step.key {
        "plan" | "start" => format!("/batch/{batch}/plan"),
        _ => format!("/batch/{batch}"),
    }
}
