//! The menu of an entry: withdraw, restore, correct.

use std::sync::Arc;

use bleachfield_core::journal::TimelineEntry;
use leptos::prelude::*;
use ulid::Ulid;

use super::{BatchWriter, correct::can_correct};
use crate::{
    i18n::{key, t, t_with},
    route::BatchForm,
    screens::batches::entry::{EntryView, title_and_time},
};

#[component]
pub fn EntryMenu(entry: Ulid, writer: BatchWriter) -> Option<impl IntoView> {
    let (batch, devices) =
        writer.read(|book, batch| (Arc::new(batch.clone()), book.studio.devices.clone()))?;
    let current = batch.timeline.iter().find(|known| known.entry.id == entry)?;
    let written = &current.entry;
    let device = devices.get(&written.device).cloned().unwrap_or(written.device.to_string());
    let original = current.corrected_by.map(|_| {
        let original =
            TimelineEntry { body: written.body.clone(), at: written.at, ..current.clone() };
        view! {
            <details class="more">
                <summary>{t!("form-entry-first_said")}</summary>
                <div class="inside"><EntryView entry=original batch=batch.clone() /></div>
            </details>
        }
    });
    let withdraw_or_restore = match current.withdrawn_by {
        None => view! {
            <button class="button touch soft" disabled=move || writer.busy.get()
                on:click=move |_| writer.withdraw(entry, key!("form-entry-was_taken_back"))>
                {t!("form-entry-take_back")}
            </button>
        }
        .into_any(),
        Some(withdrawal) => view! {
            <button class="button touch" disabled=move || writer.busy.get()
                on:click=move |_| writer.withdraw(withdrawal, key!("form-entry-was_brought_back"))>
                {t!("form-entry-bring_back")}
            </button>
        }
        .into_any(),
    };
    let correctable = current.withdrawn_by.is_none() && can_correct(&current.body);
    Some(view! {
        <div class="stack">
            <p>{title_and_time(current, &batch)}</p>
            <p class="small soft">{t_with!("form-entry-written_on", &[("device", &device)])}</p>
            {original}
            {withdraw_or_restore}
            {correctable.then(|| view! {
                <button class="button touch soft"
                    on:click=move |_| writer.open(BatchForm::Correct(entry))>
                    {t!("form-correct-title")}
                </button>
            })}
            <p class="small soft">{t!("form-entry-nothing_lost")}</p>
        </div>
    })
}
