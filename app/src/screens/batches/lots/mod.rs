//! Lots: pulp put by. What each holds, where it came from, where it went.

mod page;
mod take;

pub use page::LotPage;

use bleachfield_core::{
    derive::lot::{LotLedger, movements},
    journal::{Book, Lot},
    message::Value,
    quantity::in_grams,
};
use leptos::prelude::*;

use super::telling::name_of;
use crate::{
    components::Page,
    i18n::{format_value, render, t, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

/// The screen at `/lots`.
#[component]
pub fn Lots() -> impl IntoView {
    let studio = app_state();
    view! {
        <Page title=t!("lot-title") back=Route::Batches>
            <div class="stack">
                {move || studio.book(|book| {
                    let (ledger, refused) = ledger(book);
                    let empty = book.lots.is_empty().then(|| view! {
                        <p class="card empty">{t!("lot-empty")}</p>
                    });
                    let refused = refused.into_iter().map(|why| view! {
                        <p class="caution care">{render(&why)}</p>
                    }).collect_view();
                    let mut lots: Vec<&Lot> = book.lots.values().collect();
                    lots.sort_by_key(|lot| std::cmp::Reverse((lot.stored, lot.id)));
                    let lots = lots.into_iter().map(|lot| card(&ledger, lot)).collect_view();
                    view! { {empty}{refused}<ul class="cards">{lots}</ul> }
                })}
            </div>
        </Page>
    }
}

/// The lots of the book, and what in their movements cannot be, in words.
pub fn ledger(book: &Book) -> (LotLedger, Vec<bleachfield_core::message::Message>) {
    let (ledger, refused) = LotLedger::reconcile(&movements(book));
    (ledger, refused.iter().map(|why| why.message()).collect())
}

/// A lot's name, or what it came from.
pub fn called(lot: &Lot) -> String {
    if lot.name.trim().is_empty() {
        t_with!("lot-nameless", &[("date", &clock::local_date(lot.stored))])
    } else {
        lot.name.clone()
    }
}

/// What a lot still holds, in grams of dry fibre.
pub fn held(ledger: &LotLedger, lot: &Lot) -> f64 {
    ledger.lot(lot.id).map_or(0.0, |account| in_grams(account.held()))
}

/// A lot as a card, a way to its page.
pub fn card(ledger: &LotLedger, lot: &Lot) -> AnyView {
    let left = bleachfield_core::quantity::grams(held(ledger, lot));
    let left = t_with!("lot-left", &[("mass", &format_value(&Value::Mass(left)))]);
    let keep =
        lot.keep_by.map(|day| t_with!("entry_line-keep_by", &[("date", &clock::local_day(day))]));
    view! {
        <li>
            <a href=Route::Lot(lot.id).href() class="card">
                <h2>{called(lot)}</h2>
                <p>{left}</p>
                <p class="soft">
                    {name_of("stored_form", lot.form)}
                    {(!lot.place.is_empty()).then(|| format!(", {}", lot.place))}
                    {keep.map(|keep| format!(". {keep}"))}
                </p>
            </a>
        </li>
    }
    .into_any()
}
