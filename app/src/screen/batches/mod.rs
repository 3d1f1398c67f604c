//! Batches: the book, one batch after another, and each batch's own page.

mod card;
mod empty;
mod evidence;
mod form;
mod label;
mod latest;
mod lots;
mod next;
mod notes;
mod page;
mod state;
mod sum;
mod telling;
mod timeline;

pub use form::Form;
pub use label::LabelPage;
pub use lots::{LotPage, Lots};
pub use next::{Next, Way};
pub use page::BatchPage;
pub use sum::SumPage;
pub use telling::name_of;

use crate::markup::prelude::*;
use bleachfield_core::journal::{Batch, BatchState, next_look, swatches};
use ulid::Ulid;

use crate::{
    device::clock,
    locale::{counted, lower, word, words},
    part::{Each, Page, TextField, icon},
    screen::exchange::Reminder,
    studio::studio,
};
use card::Card;
use empty::Empty;

/// The book.
#[component]
pub fn Batches() -> Markup {
    let studio = studio();
    let sought = RwSignal::new(String::new());
    let state = RwSignal::new(None::<BatchState>);
    let count = Memo::new(move || studio.book(|book| book.batches.len()));
    let found = Memo::new(move || {
        let (sought, state) = (lower(&sought.get()), state.get());
        studio.book(|book| {
            book.batches_by_change()
                .into_iter()
                .filter(|batch| state.is_none_or(|state| batch.state == state))
                .filter(|batch| holds(batch, &sought))
                .map(|batch| batch.id.to_string())
                .collect::<Vec<String>>()
        })
    });
    // Nothing to say of yellowing before anything was dried.
    let due = Memo::new(move || {
        let now = clock::now();
        let next: Vec<_> = studio.book(|book| {
            let looks = book.batches.values().map(|batch| next_look(&swatches(batch)));
            looks.flatten().collect()
        });
        let late = next.iter().filter(|due| **due <= now).count();
        match (next.is_empty(), late) {
            (true, _) => None,
            (_, 0) => Some(word("batches.yellowing")),
            (_, late) => Some(counted("batches.yellowing_due", late)),
        }
    });
    view! {
        <Page title=word("place.batches")>
            <div class="stack">
                <a href="/batches/new" class="press wet"><icon::Plus />{word("batches.new")}</a>
                {move || if count.get() == 0 {
                    view! { <Empty /> }.into_any()
                } else {
                    view! {
                        <Show when=Signal::derive(move || count.get() > 3)>
                            <Seek sought state />
                        </Show>
                        <p class="soft" role="status">{move || seen(found.get().len(), count.get())}</p>
                        <ul class="cards">
                            <Each keys=found each=|id: String| {
                                id.parse::<Ulid>().ok().map(|id| view! { <li><Card id /></li> }).into_any()
                            } />
                        </ul>
                    }
                    .into_any()
                }}
                <a href="/lots" class="press plain">{word("lot.title")}</a>
                {move || due.get().map(|due| view! {
                    <a href="/batches/yellowing" class="press plain">{due}</a>
                })}
                <Reminder />
                <div class="row even">
                    <a href="/batches/send" class="press plain"><icon::Send />{word("batches.send")}</a>
                    <a href="/batches/take" class="press plain"><icon::Take />{word("batches.take")}</a>
                </div>
            </div>
        </Page>
    }
}

/// Words and a state to look for.
#[component]
fn Seek(sought: RwSignal<String>, state: RwSignal<Option<BatchState>>) -> Markup {
    let studio = studio();
    let states = Memo::new(move || {
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
            <TextField label=word("batches.seek") text=sought />
            <div class="field">
                <label for="batches-state">{word("batches.state")}</label>
                <select id="batches-state" on:change=choose>
                    <option value="">{word("batches.any_state")}</option>
                    {move || states.get().into_iter().map(|s| view! {
                        <option value=s.key() selected=move || state.get() == Some(s)>
                            {word(&format!("state.{}", s.key()))}
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
    let text = lower(&text);
    sought.split_whitespace().all(|word| text.contains(word))
}

fn seen(found: usize, all: usize) -> String {
    match found {
        0 => word("batches.none_found"),
        _ if found == all => counted("batches.count", all),
        _ => words("batches.found", &[("n", &found.to_string()), ("all", &all.to_string())]),
    }
}

/// What a batch is called: its name, else its fibre, else that it has none.
pub fn called(batch: &Batch) -> String {
    [&batch.name, &batch.fibre]
        .into_iter()
        .find(|name| !name.trim().is_empty())
        .cloned()
        .unwrap_or_else(|| word("batches.nameless"))
}
