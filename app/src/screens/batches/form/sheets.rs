//! Sheets made straight from the batch: how far the pulp goes, and what was made.

use bleachfield_core::{derive::WashRecord, quantity::in_grams};
use leptos::prelude::*;

use super::{BatchWriter, Save};
use crate::{
    components::{NumberField, TextField},
    i18n::t,
    route::Route,
    screens::calculator::sums::SheetsSum,
};

#[component]
pub fn SheetsForm(writing: BatchWriter) -> impl IntoView {
    let dry = writing.studio.book_now(|book| {
        let pulp = WashRecord::of(book, book.batches.get(&writing.batch)?).pulp?;
        Some(in_grams(pulp.dry_fibre().value))
    });
    let lots = writing
        .studio
        .book_now(|book| book.batches.get(&writing.batch).map(|b| b.lots.clone()))
        .unwrap_or_default();
    let sum = SheetsSum::new(dry);
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if let Some(entry) = sum.entry(note.get_untracked().trim().to_owned()) {
            writing.save(entry);
        }
    });
    let from_lots = (!lots.is_empty()).then(|| {
        let links = lots
            .into_iter()
            .map(|lot| {
                view! { <a href=Route::Lot(lot).href() class="button soft">{t!("lot-open")}</a> }
            })
            .collect_view();
        view! { <p>{t!("form-sheets-from_lot")}</p><div class="row">{links}</div> }
    });
    view! {
        <div class="stack">
            {from_lots}
            {sum.view()}
            <h3>{t!("form-as_done")}</h3>
            <NumberField ask=sum.count />
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}
