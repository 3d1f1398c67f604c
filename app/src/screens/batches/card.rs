//! A batch as a card that links to its page.

use bleachfield_core::{
    colour::{display::DisplayColour, space::Lab},
    derive::{BatchResult, Cost, Proof, find::BatchOrder, is_past_keep_by},
    journal::{Batch, BatchState, Book, Lot, PhotoId},
    message::Value,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{facts, marks::proof_mark, state_mark::StateMark};
use crate::{
    components::{Picture, icon},
    i18n::{format_number, format_value, t, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

#[component]
pub fn BatchCard(
    id: Ulid,
    /// What the list is sorted by; the card shows that figure.
    order: Memo<BatchOrder>,
) -> impl IntoView {
    let studio = app_state();
    let summary = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|batch| BatchSummary::of(book, batch)))
    });
    (move || {
        let summary = summary.get()?;
        let BatchSummary { name, fibre, tags, state, changed, ph, colour, photo, proof, past, .. } =
            summary.clone();
        let alt = t_with!("photo-of", &[("name", &name)]);
        Some(view! {
            <a href=Route::batch(id).href() class="card batch-card">
                {photo.map(|photo| view! { <Picture photo small=true alt=alt /> })}
                <div class="grow">
                    <h2>{name}</h2>
                    {(!fibre.is_empty()).then(|| view! { <p class="soft">{fibre}</p> })}
                    <p class="row tight">
                        <StateMark state=Signal::stored(state) />
                        {ph.map(|ph| view! {
                            <span>{t_with!("batches-ph", &[("ph", &format_number(ph, 3))])}</span>
                        })}
                        {colour.map(|lab| view! {
                            <span>
                                <span class="swatch small" style:background=DisplayColour::new(lab).css()
                                    aria-hidden="true"></span>
                                " "
                                {t_with!("batches-lightness", &[("n", &format_number(lab.l, 2))])}
                            </span>
                        })}
                    </p>
                    {sorted_by(order.get(), &summary).map(|text| view! { <p class="small">{text}</p> })}
                    {proof.and_then(proof_mark)}
                    {past.then(|| view! { <div class="pulp-mark"><icon::Clock />{t!("lot-past")}</div> })}
                    {(!tags.is_empty()).then(|| view! {
                        <p class="row tight">
                            {tags.into_iter().map(|tag| view! { <span class="tag">{tag}</span> }).collect_view()}
                        </p>
                    })}
                    <p class="small soft">{t_with!("batches-changed", &[("when", &changed)])}</p>
                </div>
            </a>
        })
    }).into_any()
}

/// The figure that the list is sorted by, where the card does not show it anyway.
fn sorted_by(order: BatchOrder, summary: &BatchSummary) -> Option<String> {
    match order {
        BatchOrder::Changed | BatchOrder::Lightness => None,
        BatchOrder::Started => Some(t_with!("find-started", &[("date", &summary.started)])),
        BatchOrder::Yield => Some(match summary.kept {
            Some(kept) => {
                t_with!("find-yield", &[("share", &format_value(&Value::Share(kept)))])
            }
            None => t!("find-no_yield"),
        }),
        BatchOrder::Cost => Some(summary.cost.map_or_else(|| t!("find-no_cost"), cost_text)),
    }
}

/// A cost in the person's own money; "at least" where the price of something is not known.
pub fn cost_text(cost: Cost) -> String {
    let amount = format_number(cost.known, 3);
    if cost.is_complete {
        t_with!("find-cost", &[("cost", &amount)])
    } else {
        t_with!("find-cost_at_least", &[("cost", &amount)])
    }
}

/// What the card shows; it is rendered again only if one of these changes.
#[derive(Clone, PartialEq)]
struct BatchSummary {
    name: String,
    fibre: String,
    tags: Vec<String>,
    started: String,
    kept: Option<f64>,
    cost: Option<Cost>,
    state: BatchState,
    changed: String,
    ph: Option<f64>,
    colour: Option<Lab>,
    photo: Option<PhotoId>,
    /// Of pulp that was stored or used.
    proof: Option<Proof>,
    /// A lot of it that is not used up is past its date.
    past: bool,
}

impl BatchSummary {
    fn of(book: &Book, batch: &Batch) -> Self {
        let stored = matches!(batch.state, BatchState::Stored | BatchState::Used);
        let lots = batch.lots.iter().filter_map(|lot| book.lots.get(lot));
        let past = |lot: &Lot| lot.dry_g_left() > 0.0 && is_past_keep_by(lot, clock::today());
        let result = BatchResult::of(book, batch);
        Self {
            tags: batch.tags.iter().cloned().collect(),
            started: clock::local_date(batch.started),
            kept: result.bleach_yield,
            cost: result.cost,
            name: facts::batch_name(batch),
            fibre: batch.fibre.clone(),
            state: batch.state,
            changed: clock::local(batch.changed),
            ph: facts::latest_ph(batch).map(|ph| ph.value),
            colour: facts::latest_colour(batch),
            photo: batch.photos.last().cloned(),
            proof: stored.then(|| Proof::of(batch)),
            past: lots.into_iter().any(past),
        }
    }
}
