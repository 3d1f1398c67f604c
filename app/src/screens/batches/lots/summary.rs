//! What lists of lots show: name and remaining mass, from the ledger of all lots.

use bleachfield_core::{
    derive::lot::{LotLedger, movements},
    journal::{Book, Lot},
    message::{Message, Value},
    quantity::{grams, in_grams},
};
use leptos::prelude::*;

use crate::{
    i18n::{format_value, t_with},
    platform::clock,
    route::Route,
    screens::batches::{entry::name_of, marks::lot_marks},
};

/// The ledger of the book's lots, and the errors in their movements.
pub fn ledger(book: &Book) -> (LotLedger, Vec<Message>) {
    let (ledger, errors) = LotLedger::reconcile(&movements(book));
    (ledger, errors.iter().map(|error| error.message()).collect())
}

/// Its name, or the day on which it was stored.
pub fn lot_name(lot: &Lot) -> String {
    if lot.name.trim().is_empty() {
        t_with!("lot-nameless", &[("date", &clock::local_date(lot.stored))])
    } else {
        lot.name.clone()
    }
}

/// The dry fibre that is left, g.
pub fn remaining_g(ledger: &LotLedger, lot: &Lot) -> f64 {
    ledger.lot(lot.id).map_or(0.0, |account| in_grams(account.held()))
}

/// "12 g left".
pub fn remaining_text(dry_g: f64) -> String {
    t_with!("lot-left", &[("mass", &format_value(&Value::Mass(grams(dry_g))))])
}

/// A lot as a card that links to its page.
pub fn card(book: &Book, ledger: &LotLedger, lot: &Lot) -> AnyView {
    let keep_by =
        lot.keep_by.map(|day| t_with!("entry_line-keep_by", &[("date", &clock::local_day(day))]));
    view! {
        <li>
            <a href=Route::Lot(lot.id).href() class="card">
                <h2>{lot_name(lot)}</h2>
                <p>{remaining_text(remaining_g(ledger, lot))}</p>
                {lot_marks(book, lot)}
                <p class="soft">
                    {name_of("stored_form", lot.form)}
                    {(!lot.place.is_empty()).then(|| format!(", {}", lot.place))}
                    {keep_by.map(|keep_by| format!(". {keep_by}"))}
                </p>
            </a>
        </li>
    }
    .into_any()
}
