//! Batches: the book, one batch after another, and each batch's own page.

mod card;
mod empty;
mod evidence;
pub mod exchange;
mod form;
mod label;
mod latest;
mod lots;
mod new;
mod next;
mod notes;
mod page;
mod state;
mod telling;
mod timeline;

use self::{
    label::LabelPage,
    lots::{LotPage, Lots},
    new::NewBatch,
    page::BatchPage,
};
pub use self::{
    next::{NextStep, StepTarget},
    telling::name_of,
};

use bleachfield_core::{
    derive::{next_recheck, swatches},
    journal::{Batch, BatchState},
};
use leptos::prelude::*;
use ulid::Ulid;

use crate::{
    components::{Page, TextField, icon},
    i18n::{t, t_count, t_with},
    platform::clock,
    route::Route,
    screens::batches::exchange::Reminder,
    screens::{calculator::sums::SumPage, plan::PlanBath},
    state::app_state,
};
use card::Card;
use empty::Empty;

/// The piece's entry point: the book, its batches and lots, plans, sums, exchange.
pub fn screen(route: Route) -> AnyView {
    match route {
        Route::NewBatch => view! { <NewBatch /> }.into_any(),
        Route::Send { batch } => view! { <exchange::SendFile asked=batch /> }.into_any(),
        Route::Import => view! { <exchange::ImportFile /> }.into_any(),
        Route::Batch { id, form } => view! { <BatchPage id asked=form /> }.into_any(),
        Route::BatchLabel(id) => view! { <LabelPage id lot=false /> }.into_any(),
        Route::Plan(id) => view! { <PlanBath id /> }.into_any(),
        Route::Lots => view! { <Lots /> }.into_any(),
        Route::Lot(id) => view! { <LotPage id /> }.into_any(),
        Route::LotLabel(id) => view! { <LabelPage id lot=true /> }.into_any(),
        Route::Sum(of) => view! { <SumPage of /> }.into_any(),
        _ => view! { <Batches /> }.into_any(),
    }
}

/// The book.
#[component]
pub fn Batches() -> impl IntoView {
    let studio = app_state();
    let sought = RwSignal::new(String::new());
    let state = RwSignal::new(None::<BatchState>);
    let count = Memo::new(move |_| studio.book(|book| book.batches.len()));
    let found = Memo::new(move |_| {
        let (sought, state) = (sought.get().to_lowercase(), state.get());
        studio.book(|book| {
            book.batches_by_change()
                .into_iter()
                .filter(|batch| state.is_none_or(|state| batch.state == state))
                .filter(|batch| holds(batch, &sought))
                .map(|batch| batch.id)
                .collect::<Vec<Ulid>>()
        })
    });
    // Nothing to say of yellowing before anything was dried.
    let due = Memo::new(move |_| {
        let now = clock::now();
        let next: Vec<_> = studio.book(|book| {
            let looks = book.batches.values().map(|batch| next_recheck(&swatches(batch)));
            looks.flatten().collect()
        });
        let late = next.iter().filter(|due| **due <= now).count();
        match (next.is_empty(), late) {
            (true, _) => None,
            (_, 0) => Some(t!("batches-yellowing")),
            (_, late) => Some(t_count!("batches-yellowing_due", late)),
        }
    });
    view! {
        <Page title=t!("place-batches")>
            <div class="stack">
                <a href=Route::NewBatch.href() class="button touch"><icon::Plus />{t!("batches-new")}</a>
                {move || if count.get() == 0 {
                    view! { <Empty /> }.into_any()
                } else {
                    view! {
                        <Show when=move || { count.get() > 3 }>
                            <Seek sought state />
                        </Show>
                        <p class="soft" role="status">{move || seen(found.get().len(), count.get())}</p>
                        <ul class="cards">
                            <For each=move || found.get() key=|id| *id let:id><li><Card id /></li></For>
                        </ul>
                    }
                    .into_any()
                }}
                <a href=Route::Lots.href() class="button plain">{t!("lot-title")}</a>
                {move || due.get().map(|due| view! {
                    <a href=Route::Yellowing.href() class="button plain">{due}</a>
                })}
                <Reminder />
                <div class="row even">
                    <a href=Route::Send { batch: None }.href() class="button plain"><icon::Send />{t!("batches-send")}</a>
                    <a href=Route::Import.href() class="button plain"><icon::Take />{t!("batches-take")}</a>
                </div>
            </div>
        </Page>
    }
}

/// Words and a state to look for.
#[component]
fn Seek(sought: RwSignal<String>, state: RwSignal<Option<BatchState>>) -> impl IntoView {
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
            <TextField label=t!("batches-seek") text=sought />
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

/// Whether a batch's name, fibre or notes hold all the words sought.
fn holds(batch: &Batch, sought: &str) -> bool {
    let mut text = format!("{} {}", batch.name, batch.fibre);
    for told in batch.visible_entries() {
        if let Some(note) = notes::note_of(&told.body) {
            text.push(' ');
            text += &note;
        }
    }
    let text = text.to_lowercase();
    sought.split_whitespace().all(|word| text.contains(word))
}

fn seen(found: usize, all: usize) -> String {
    match found {
        0 => t!("batches-none_found"),
        _ if found == all => t_count!("batches-count", all),
        _ => t_with!("batches-found", &[("n", &found.to_string()), ("all", &all.to_string())]),
    }
}

/// What a batch is called: its name, else its fibre, else that it has none.
pub fn called(batch: &Batch) -> String {
    [&batch.name, &batch.fibre]
        .into_iter()
        .find(|name| !name.trim().is_empty())
        .cloned()
        .unwrap_or_else(|| t!("batches-nameless"))
}
