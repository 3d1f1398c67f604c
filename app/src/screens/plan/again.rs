//! A plan made again with other pulp: each figure beside what it was, and what differs in words.

use bleachfield_core::{
    bath::Bleach,
    derive::{differences, figures_beside, last_plan},
    journal::{Book, PlanRecord, ProductUsed},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{PlanSteps, form::PlanForm, form::PlanOutcome, steps::PlanStep};
use crate::{
    components::{FigureTable, Page},
    i18n::{format_value, render, t, t_with},
    platform::clock,
    route::Route,
    screens::batches::batch_name,
    state::app_state,
};

/// The plan that is made again.
#[derive(Clone, PartialEq)]
pub struct Earlier {
    pub name: String,
    pub plan: PlanRecord,
}

/// The screen at `/plan?again=ID`: begins a batch with the plan of another.
#[component]
pub fn PlanAgain(of: Ulid) -> impl IntoView {
    let found = app_state().book_now(|book| {
        let batch = book.batches.get(&of)?;
        let plan = last_plan(batch)?.clone();
        let bottle = bottle_now(book, &plan);
        Some((batch.fibre.clone(), Earlier { name: batch_name(batch), plan }, bottle))
    });
    let Some((fibre, earlier, bottle)) = found else {
        return view! {
            <Page title=t!("again-title") back=Route::batch(of)><p>{t!("again-no_plan")}</p></Page>
        }
        .into_any();
    };
    let form = PlanForm::without_batch();
    form.plant.set(fibre);
    form.bleach.fill(earlier.plan.oxidant.into(), bottle.as_ref().unwrap_or(&earlier.plan.product));
    form.aim.fill_as_before(&earlier.plan);
    let title = t_with!("again-title_of", &[("batch", &earlier.name)]);
    view! {
        <PlanSteps form route=Route::PlanAgain(of) back=Route::batch(of) title
            first=PlanStep::Pulp again=earlier />
    }
    .into_any()
}

/// The bottle that was used, as it is today; where it is gone, another of the same oxidant.
fn bottle_now(book: &Book, plan: &PlanRecord) -> Option<ProductUsed> {
    let now = clock::now();
    let shelf = book.shelf();
    let same = shelf.iter().find(|product| Some(product.id) == plan.product.shelf);
    let like = shelf.iter().find(|product| {
        Bleach::of(product, now).is_some_and(|bleach| bleach.oxidant() == plan.oxidant.into())
    });
    ProductUsed::from_shelf(same.or(like)?, now)
}

/// Now and then, and why they differ.
pub fn beside(earlier: Earlier, outcome: Memo<PlanOutcome>) -> AnyView {
    let earlier = StoredValue::new(earlier);
    let now = Memo::new(move |_| outcome.with(PlanOutcome::record));
    let dash = || "–".to_owned();
    let table = move || {
        let rows = earlier
            .with_value(|earlier| now.with(|now| figures_beside(&earlier.plan, now.as_ref())));
        let rows = rows.into_iter().map(|(figure, now, then)| {
            let text = |value| format_value(&value);
            let cells = [now, then].map(|value| value.map_or_else(dash, text));
            (t(&format!("again-figure-{}", figure.key())), cells.to_vec())
        });
        let heads = vec![t!("again-figure"), t!("again-now"), t!("again-then")];
        view! { <FigureTable heads rows=rows.collect() /> }
    };
    let words = move || {
        now.with(|now| {
            let Some(now) = now else { return vec![t!("again-weigh")] };
            let found = earlier.with_value(|earlier| differences(&earlier.plan, now));
            if found.is_empty() {
                vec![t!("again-nothing_differs")]
            } else {
                found.iter().map(render).collect()
            }
        })
    };
    view! {
        <section class="card stack again">
            <h2>{earlier.with_value(|earlier| {
                t_with!("again-beside", &[("batch", &earlier.name)])
            })}</h2>
            <div role="status">
                <ul class="plain-list">
                    {move || {
                        words().into_iter().map(|line| view! { <li>{line}</li> }).collect_view()
                    }}
                </ul>
            </div>
            {table}
        </section>
    }
    .into_any()
}
