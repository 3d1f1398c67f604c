//! The list of batches, with a filter.

use bleachfield_core::{
    derive::{next_recheck, swatches},
    journal::{Batch, BatchState, Book},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    card::BatchCard, empty::Empty, entry::note_of, exchange::ExportReminder,
    install_offer::InstallOffer,
};
use crate::{
    components::{Page, TextField, icon},
    i18n::{t, t_count, t_with},
    platform::clock,
    route::Route,
    state::app_state,
};

/// `/batches`.
#[component]
pub fn Batches() -> impl IntoView {
    let studio = app_state();
    let search = RwSignal::new(String::new());
    let state = RwSignal::new(None::<BatchState>);
    // A pot of a trial is on the page of its trial.
    let is_own = |book: &Book, id: Ulid| book.trial_of_pot(id).is_none();
    let count = Memo::new(move |_| {
        studio.book(|book| book.batches.keys().filter(|id| is_own(book, **id)).count())
    });
    let found = Memo::new(move |_| {
        let (search, state) = (search.get().to_lowercase(), state.get());
        studio.book(|book| {
            book.batches_by_change()
                .into_iter()
                .filter(|batch| is_own(book, batch.id))
                .filter(|batch| state.is_none_or(|state| batch.state == state))
                .filter(|batch| contains_words(batch, &search))
                .map(|batch| batch.id)
                .collect::<Vec<Ulid>>()
        })
    });
    let yellowing = Memo::new(move |_| yellowing_link());
    view! {
        <Page title=t!("place-batches")>
            <div class="stack">
                <a href=Route::NewBatch.href() class="button touch"><icon::Plus />{t!("batches-new")}</a>
                {move || if count.get() == 0 {
                    view! { <Empty /> }.into_any()
                } else {
                    view! {
                        <Show when=move || { count.get() > 3 }>
                            <Filter search state />
                        </Show>
                        <p class="soft" role="status">
                            {move || result_count(found.get().len(), count.get())}
                        </p>
                        <ul class="cards">
                            <For each=move || found.get() key=|id| *id let:id><li><BatchCard id /></li></For>
                        </ul>
                    }
                    .into_any()
                }}
                <div class="row even">
                    <a href=Route::Lots.href() class="button plain">{t!("lot-title")}</a>
                    <a href=Route::ClassSheet { batch: None }.href() class="button plain">
                        {t!("class-title")}
                    </a>
                </div>
                {move || yellowing.get().map(|label| view! {
                    <a href=Route::Yellowing.href() class="button plain">{label}</a>
                })}
                <ExportReminder />
                <InstallOffer />
                <div class="row even">
                    <a href=Route::Send { batch: None }.href() class="button plain"><icon::Export />{t!("batches-send")}</a>
                    <a href=Route::Import.href() class="button plain"><icon::Import />{t!("batches-take")}</a>
                </div>
            </div>
        </Page>
    }
}

/// The label of the link to yellowing, with the number of overdue measurements; `None`
/// before any swatch was dried. Tracks the book.
fn yellowing_link() -> Option<String> {
    let due: Vec<_> = app_state().book(|book| {
        book.batches.values().flat_map(|batch| next_recheck(&swatches(batch))).collect()
    });
    let now = clock::now();
    match due.iter().filter(|due| **due <= now).count() {
        _ if due.is_empty() => None,
        0 => Some(t!("batches-yellowing")),
        overdue => Some(t_count!("batches-yellowing_due", overdue)),
    }
}

#[component]
fn Filter(search: RwSignal<String>, state: RwSignal<Option<BatchState>>) -> impl IntoView {
    let studio = app_state();
    let states = Memo::new(move |_| {
        studio.book(|book| {
            let mut states: Vec<BatchState> = book.batches.values().map(|b| b.state).collect();
            states.sort();
            states.dedup();
            states
        })
    });
    let choose = move |event| {
        let key = event_target_value(&event);
        state.set(states.get_untracked().into_iter().find(|s| s.key() == key));
    };
    view! {
        <div class="row even">
            <TextField label=t!("batches-seek") text=search />
            <div class="field">
                <label for="batches-state">{t!("batches-state")}</label>
                <select id="batches-state" on:change=choose>
                    <option value="">{t!("batches-any_state")}</option>
                    {move || states.get().into_iter().map(|s| view! {
                        <option value=s.key() selected=move || state.get() == Some(s)>
                            {t(&format!("state-{}", s.key()))}
                        </option>
                    }).collect_view()}
                </select>
            </div>
        </div>
    }
}

/// Whether name, fibre and notes together contain all of the lower-case words.
fn contains_words(batch: &Batch, words: &str) -> bool {
    let mut text = format!("{} {}", batch.name, batch.fibre);
    for note in batch.visible_entries().filter_map(|entry| note_of(&entry.body)) {
        text.push(' ');
        text += &note;
    }
    let text = text.to_lowercase();
    words.split_whitespace().all(|word| text.contains(word))
}

fn result_count(found: usize, all: usize) -> String {
    match found {
        0 => t!("batches-none_found"),
        _ if found == all => t_count!("batches-count", all),
        _ => t_with!("batches-found", &[("n", &found.to_string()), ("all", &all.to_string())]),
    }
}
