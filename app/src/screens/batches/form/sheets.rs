//! Sheets made straight from the batch: how far the pulp goes, and what was made.

use bleachfield_core::derive::Proof;
use leptos::prelude::*;

use super::{BatchWriter, SaveButton, trimmed};
use crate::{
    components::{NumberField, TextField},
    i18n::t,
    route::Route,
    screens::{batches::marks::proof_mark, calculator::sums::SheetsSum},
};

#[component]
pub fn SheetsForm(writer: BatchWriter) -> impl IntoView {
    let sum = SheetsSum::new(writer.dry_fibre());
    let note = RwSignal::new(String::new());
    let run = Callback::new(move |()| {
        if let Some(entry) = sum.entry(trimmed(note)) {
            writer.save(entry);
        }
    });
    let proof = writer.read(|_, batch| Proof::of(batch));
    let lots = writer.read(|_, batch| batch.lots.clone()).unwrap_or_default();
    let from_lots = (!lots.is_empty()).then(|| {
        let links = lots.into_iter().map(|lot| {
            view! { <a href=Route::Lot(lot).href() class="button soft">{t!("lot-open")}</a> }
        });
        view! { <p>{t!("form-sheets-from_lot")}</p><div class="row">{links.collect_view()}</div> }
    });
    view! {
        <div class="stack">
            {proof.and_then(proof_mark)}
            {from_lots}
            {sum.view()}
            <h3>{t!("form-as_done")}</h3>
            <NumberField ask=sum.count />
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
}
