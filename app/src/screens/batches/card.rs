//! One batch as a card in the book.

use leptos::prelude::*;
use ulid::Ulid;

use super::{latest, state::StateMark};
use crate::{
    components::Picture,
    i18n::{format_number, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

/// What the card shows of a batch; it is drawn again when any of it changes.
#[derive(Clone, PartialEq)]
struct BatchSummary {
    name: String,
    fibre: String,
    state: bleachfield_core::journal::BatchState,
    when: String,
    ph: Option<String>,
    colour: Option<(String, String)>,
    photo: Option<bleachfield_core::journal::PhotoId>,
}

/// The card of a batch, a way to its page.
#[component]
pub fn Card(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let face = Memo::new(move |_| {
        studio.book(|book| {
            let batch = book.batches.get(&id)?;
            Some(BatchSummary {
                name: super::called(batch),
                fibre: batch.fibre.clone(),
                state: batch.state,
                when: t_with!("batches-changed", &[("when", &clock::local(batch.changed))]),
                ph: latest::ph(batch)
                    .map(|ph| t_with!("batches-ph", &[("ph", &format_number(ph.value, 3))])),
                colour: latest::colour(batch).map(|(chip, lightness)| {
                    let words =
                        t_with!("batches-lightness", &[("n", &format_number(lightness, 2))]);
                    (chip.css(), words)
                }),
                photo: latest::photo(batch),
            })
        })
    });
    (move || {
        let BatchSummary { name, fibre, state, when, ph, colour, photo } = face.get()?;
        let alt = t_with!("photo-of", &[("name", &name)]);
        Some(view! {
            <a href=Route::batch(id).href() class="card batch-card">
                {photo.map(|photo| view! { <Picture photo small=true alt=alt /> })}
                <div class="grow">
                    <h2>{name}</h2>
                    {(!fibre.is_empty()).then(|| view! { <p class="soft">{fibre}</p> })}
                    <p class="row tight">
                        <StateMark state=Signal::stored(state) />
                        {ph.map(|ph| view! { <span>{ph}</span> })}
                        {colour.map(|(css, words)| view! {
                            <span>
                                <span class="swatch small" style:background=css aria-hidden="true"></span>
                                " "{words}
                            </span>
                        })}
                    </p>
                    <p class="small soft">{when}</p>
                </div>
            </a>
        })
    }).into_any()
}
