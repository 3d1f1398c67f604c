//! Two to four batches side by side: what differs first, readings over time, last photos.

mod chart;
mod lines;
mod photos;

use std::sync::Arc;

use bleachfield_core::{derive::compare, journal::Batch};
use leptos::prelude::*;
use ulid::Ulid;

use super::facts::batch_name;
use crate::{
    components::Page,
    i18n::t,
    platform::{clock, print},
    route::Route,
    state::app_state,
};

/// A compared batch, with the letter that stands for it.
#[derive(Clone, PartialEq)]
struct Compared {
    letter: char,
    name: String,
    batch: Arc<Batch>,
}

impl Compared {
    /// Letter and name.
    fn label(&self) -> String {
        format!("{} {}", self.letter, self.name)
    }
}

/// `/batches/compare?of=ID.ID`.
#[component]
pub fn Compare(batches: Vec<Ulid>) -> impl IntoView {
    let found = Memo::new(move |_| {
        app_state().book(|book| {
            let known = batches.iter().filter_map(|id| book.batches.get(id));
            let known: Vec<&Batch> = known.take(4).collect();
            let compared = known.iter().zip('A'..).map(|(batch, letter)| Compared {
                letter,
                name: batch_name(batch),
                batch: Arc::new((*batch).clone()),
            });
            (compared.collect::<Vec<_>>(), compare(book, &known, clock::now()))
        })
    });
    view! {
        <Page title=t!("compare-title") back=Route::Batches>
            {move || {
                let (compared, lines) = found.get();
                if compared.len() < 2 {
                    return view! { <p>{t!("compare-too_few")}</p> }.into_any();
                }
                view! {
                    <div class="stack wide">
                        <ul class="compared">
                            {compared.iter().map(|one| view! {
                                <li>
                                    <strong>{one.letter.to_string()}</strong>" "
                                    <a href=Route::batch(one.batch.id).href()>{one.name.clone()}</a>
                                </li>
                            }).collect_view()}
                        </ul>
                        {lines::view(&compared, &lines)}
                        {chart::view(&compared)}
                        {photos::view(&compared)}
                        <button class="button bare no-print" on:click=move |_| print::page()>
                            {t!("batch-print")}
                        </button>
                    </div>
                }
                .into_any()
            }}
        </Page>
    }
}
