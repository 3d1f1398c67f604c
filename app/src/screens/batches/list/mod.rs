//! The list of batches: searched, filtered, sorted, and chosen from to compare.

mod filter;
mod state;

use std::cell::RefCell;

use bleachfield_core::derive::{find::BatchIndex, next_recheck, swatches};
use leptos::{ev, prelude::*};
use leptos_use::use_event_listener;
use ulid::Ulid;

use self::{
    filter::Filter,
    state::{ListState, MOST_COMPARED},
};
use super::{
    card::BatchCard, empty::Empty, exchange::ExportReminder, facts::batch_name,
    install_offer::InstallOffer,
};
use crate::{
    components::{Page, icon},
    i18n::{t, t_count, t_with},
    platform::clock,
    route::{self, Route},
    state::app_state,
};

thread_local! {
    /// Kept from screen to screen: only what changed meanwhile is folded again.
    static INDEX: RefCell<BatchIndex> = RefCell::new(BatchIndex::default());
    /// How far down the list was left, px, with what it showed.
    static LEFT_AT: RefCell<(String, f64)> = const { RefCell::new((String::new(), 0.0)) };
}

/// `/batches`.
#[component]
pub fn Batches() -> impl IntoView {
    let studio = app_state();
    let list = ListState::of_address();
    // Counts the states of the book that the index has followed.
    let indexed = Memo::new(move |followed: Option<&u32>| {
        studio.book(|book| INDEX.with_borrow_mut(|index| index.update(book)));
        followed.map_or(0, |followed| followed.wrapping_add(1))
    });
    let count = Memo::new(move |_| {
        // Not `track`, which would not make the index follow.
        indexed.get();
        INDEX.with_borrow(BatchIndex::len)
    });
    let search = Memo::new(move |_| list.search());
    let found = Memo::new(move |_| {
        indexed.get();
        search.with(|search| INDEX.with_borrow(|index| index.find(search)))
    });
    let order = Memo::new(move |_| list.order());
    let yellowing = Memo::new(move |_| yellowing_link());
    keep_place(list);
    view! {
        <Page title=t!("place-batches")>
            <div class="stack">
                <a href=Route::NewBatch.href() class="button touch"><icon::Plus />{t!("batches-new")}</a>
                {move || if count.get() == 0 {
                    view! { <Empty /> }.into_any()
                } else {
                    view! {
                        <Show when=move || { count.get() > 3 || list.narrows() }>
                            <Filter list />
                        </Show>
                        <div class="row tight">
                            <p class="soft grow" role="status">
                                {move || result_count(found.get().len(), count.get())}
                            </p>
                            <Show when=move || list.narrows()>
                                <button class="button bare" on:click=move |_| list.clear()>
                                    {t!("find-clear")}
                                </button>
                            </Show>
                            <Show when=move || { count.get() > 1 && list.chosen().is_none() }>
                                <button class="button bare" on:click=move |_| list.choose(Some(&[]))>
                                    {t!("compare-choose")}
                                </button>
                            </Show>
                        </div>
                        <ul class="cards">
                            <For each=move || found.get() key=|id| *id let:id><li>
                                {move || list.chosen().is_some().then(|| choice(list, id))}
                                <BatchCard id order />
                            </li></For>
                        </ul>
                        <Show when=move || list.chosen().is_some()>
                            <ChosenBar list />
                        </Show>
                    }
                    .into_any()
                }}
                <div class="row even">
                    <a href=Route::Lots.href() class="button plain">{t!("lot-title")}</a>
                    <a href=Route::ClassSheet { batch: None }.href() class="button plain">
                        {t!("class-title")}
                    </a>
                </div>
                <Show when=move || { count.get() > 0 }>
                    <a href=Route::Season.href() class="button plain">{t!("season-title")}</a>
                </Show>
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

/// Remembers how far down the list is, and goes there again when the same list is shown again.
fn keep_place(list: ListState) {
    let query = untrack(|| list.query());
    let left_at = LEFT_AT.with_borrow(|(of, top)| if *of == query { *top } else { 0.0 });
    let is_there = StoredValue::new(left_at == 0.0);
    if left_at > 0.0 {
        scroll_to(left_at, is_there, FRAMES_TO_WAIT, None);
    }
    let _ = use_event_listener(window(), ev::scroll, move |_| {
        // The router scrolls to the top before the next screen is shown.
        if is_there.try_get_value() == Some(true) && route::current() == Some(Route::Batches) {
            let query = untrack(|| list.query());
            LEFT_AT.set((query, window().scroll_y().unwrap_or(0.0)));
        }
    });
}

/// The cards come after the first frame, their photos later.
const FRAMES_TO_WAIT: u8 = 30;

/// `reached` is how far it came in the frame before. Who scrolls meanwhile is left alone.
fn scroll_to(top: f64, is_there: StoredValue<bool>, frames: u8, reached: Option<f64>) {
    request_animation_frame(move || {
        let place = window().scroll_y().unwrap_or(top);
        let is_moved = reached.is_some_and(|reached| (place - reached).abs() >= 2.0);
        if frames == 0 || is_moved || (place - top).abs() < 2.0 {
            is_there.try_set_value(true);
        } else {
            window().scroll_to_with_x_and_y(0.0, top);
            scroll_to(top, is_there, frames - 1, window().scroll_y().ok());
        }
    });
}

/// The tick that puts a batch among those to compare.
fn choice(list: ListState, id: Ulid) -> AnyView {
    let name = app_state().book_now(|book| book.batches.get(&id).map(batch_name));
    let label = t_with!("compare-take", &[("name", &name.unwrap_or_default())]);
    let is_chosen = Memo::new(move |_| list.chosen().is_some_and(|chosen| chosen.contains(&id)));
    let is_full = move || {
        !is_chosen.get() && list.chosen().is_some_and(|chosen| chosen.len() >= MOST_COMPARED)
    };
    view! {
        <label class="tick">
            <input type="checkbox" prop:checked=is_chosen disabled=is_full
                on:change=move |_| list.toggle(id) />
            {label}
        </label>
    }
    .into_any()
}

/// How many batches are chosen, and the way to their comparison.
#[component]
fn ChosenBar(list: ListState) -> impl IntoView {
    let chosen = Memo::new(move |_| list.chosen().unwrap_or_default());
    view! {
        <div class="card row compare-bar">
            <p role="status">{move || match chosen.get().len() {
                0 | 1 => t!("compare-choose_two"),
                n if n >= MOST_COMPARED => t!("compare-no_more"),
                n => t_count!("compare-chosen", n),
            }}</p>
            {move || (chosen.get().len() > 1).then(|| view! {
                <a class="button" href=Route::Compare(chosen.get()).href()>{t!("compare-go")}</a>
            })}
            <button class="button bare" on:click=move |_| list.choose(None)>{t!("compare-leave")}</button>
        </div>
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

fn result_count(found: usize, all: usize) -> String {
    match found {
        0 => t!("batches-none_found"),
        _ if found == all => t_count!("batches-count", all),
        _ => t_with!("batches-found", &[("n", &found.to_string()), ("all", &all.to_string())]),
    }
}
