//! The menu of an entry: take it back, bring it back, correct it.

use leptos::prelude::*;
use ulid::Ulid;

use super::{BatchWriter, correct};
use crate::{
    i18n::{key, t},
    route::BatchForm,
    screens::batches::telling::{Telling, line},
};

#[component]
pub fn EntryMenu(entry: Ulid, writing: BatchWriter) -> Option<impl IntoView> {
    let batch = writing.studio.book_now(|book| book.batches.get(&writing.batch).cloned())?;
    let told = batch.timeline.iter().find(|t| t.entry.id == entry)?.clone();
    let heading = line(&told, &batch);
    let written = told.entry.clone();
    let device = writing.studio.book_now(|book| {
        book.studio.devices.get(&written.device).cloned().unwrap_or(written.device.to_string())
    });
    let withdrawn_by = told.withdrawn_by;
    let can_correct = withdrawn_by.is_none() && correct::can(&told.body);
    let first = told.corrected_by.map(|_| {
        let first = bleachfield_core::journal::TimelineEntry {
            body: written.body.clone(),
            at: written.at,
            ..told.clone()
        };
        view! {
            <details class="more">
                <summary>{t!("form-entry-first_said")}</summary>
                <div class="inside"><Telling told=first batch=std::sync::Arc::new(batch.clone()) /></div>
            </details>
        }
    });
    Some(view! {
        <div class="stack">
            <p>{heading}</p>
            <p class="small soft">
                {crate::i18n::t_with!("form-entry-written_on", &[("device", &device)])}
            </p>
            {first}
            {match withdrawn_by {
                None => view! {
                    <button class="button touch soft" disabled=move || writing.busy.get()
                        on:click=move |_| writing.withdraw(entry, key!("form-entry-was_taken_back"))>
                        {t!("form-entry-take_back")}
                    </button>
                }.into_any(),
                Some(by) => view! {
                    <button class="button touch" disabled=move || writing.busy.get()
                        on:click=move |_| writing.withdraw(by, key!("form-entry-was_brought_back"))>
                        {t!("form-entry-bring_back")}
                    </button>
                }.into_any(),
            }}
            {can_correct.then(|| view! {
                <button class="button touch soft"
                    on:click=move |_| writing.show(BatchForm::Correct(entry))>
                    {t!("form-correct-title")}
                </button>
            })}
            <p class="small soft">{t!("form-entry-nothing_lost")}</p>
        </div>
    })
}
