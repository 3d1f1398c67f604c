//! A batch as a card that links to its page.

use bleachfield_core::{
    colour::{display::DisplayColour, space::Lab},
    derive::{Proof, is_past_keep_by},
    journal::{Batch, BatchState, Book, Lot, PhotoId},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{facts, marks::proof_mark, state_mark::StateMark};
use crate::{
    components::{Picture, icon},
    i18n::{format_number, t, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

#[component]
pub fn BatchCard(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let summary = Memo::new(move |_| {
        studio.book(|book| book.batches.get(&id).map(|batch| BatchSummary::of(book, batch)))
    });
    (move || {
        let summary = summary.get()?;
        let BatchSummary { name, fibre, state, changed, ph, colour, photo, proof, past } = summary;
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
                    {proof.and_then(proof_mark)}
                    {past.then(|| view! { <div class="pulp-mark"><icon::Clock />{t!("lot-past")}</div> })}
                    <p class="small soft">{t_with!("batches-changed", &[("when", &changed)])}</p>
                </div>
            </a>
        })
    }).into_any()
}

/// What the card shows; it is rendered again only if one of these changes.
#[derive(Clone, PartialEq)]
struct BatchSummary {
    name: String,
    fibre: String,
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
        Self {
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
