//! Sheets made straight from the batch: how far the pulp goes, and what was made.

use bleachfield_core::{pulp::wash::Record, quantity::in_grams};
use leptos::prelude::*;

use super::{Save, Writing};
use crate::{
    components::{AskField, TextField},
    i18n::t,
    screens::calculator::sums::SheetsSum,
};

#[component]
pub fn SheetsForm(writing: Writing) -> impl IntoView {
    let dry = writing.studio.book_now(|book| {
        let lump = Record::of(book, book.batches.get(&writing.batch)?).lump?;
        Some(in_grams(lump.dry_fibre().value))
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
                view! { <a href=format!("/lot/{lot}") class="press soft">{t!("lot-open")}</a> }
            })
            .collect_view();
        view! { <p>{t!("form-sheets-from_lot")}</p><div class="row">{links}</div> }
    });
    view! {
        <div class="stack">
            {from_lots}
            {sum.view()}
            <h3>{t!("form-as_done")}</h3>
            <AskField ask=sum.count />
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}
