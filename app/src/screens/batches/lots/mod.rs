//! Lots: stored pulp, where it came from and where it went.

mod actions;
mod page;
mod summary;

pub use page::LotPage;
pub use summary::{card, ledger};

use bleachfield_core::journal::Lot;
use leptos::prelude::*;

use crate::{
    components::Page,
    i18n::{render, t},
    route::Route,
    state::app_state,
};

/// `/lots`.
#[component]
pub fn Lots() -> impl IntoView {
    let studio = app_state();
    view! {
        <Page title=t!("lot-title") back=Route::Batches>
            <div class="stack">
                {move || studio.book(|book| {
                    let (ledger, errors) = ledger(book);
                    let empty = book.lots.is_empty().then(|| view! {
                        <p class="card empty">{t!("lot-empty")}</p>
                    });
                    let errors = errors.into_iter().map(|error| view! {
                        <p class="caution care">{render(&error)}</p>
                    }).collect_view();
                    let mut lots: Vec<&Lot> = book.lots.values().collect();
                    lots.sort_by_key(|lot| std::cmp::Reverse((lot.stored, lot.id)));
                    let cards = lots.into_iter().map(|lot| card(book, &ledger, lot)).collect_view();
                    view! { {empty}{errors}<ul class="cards">{cards}</ul> }
                })}
            </div>
        </Page>
    }
}
