//! When the book was last sent out, and the reminder that it should be again.

use bleachfield_core::journal::Book;
use jiff::Timestamp;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::{
    i18n::{t, t_count, t_with},
    platform::{clock, local_storage},
    state::app_state,
};

/// Where it sits in local storage: it is about this phone, not about the studio.
const KEY: &str = "bleachfield.sent";

/// How many days of writing may go unsent before it is said. Common practice,
/// no source.
const DAYS: i64 = 14;

/// The last time that the whole book went out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
struct LastExport {
    at: Timestamp,
    /// How many entries it held.
    entries: usize,
}

/// Remembers that the whole book went out just now.
pub fn whole_book_sent(entries: usize) {
    // A phone that cannot remember it only reminds too often.
    local_storage::set(KEY, &LastExport { at: clock::now(), entries });
}

/// When the whole book last went out, in words.
pub fn last_sent() -> String {
    match local_storage::get::<LastExport>(KEY) {
        Some(sent) => t_with!("exchange-sent_last", &[("date", &clock::local_date(sent.at))]),
        None => t!("exchange-sent_never"),
    }
}

/// Says that the book stands on this phone alone, once there is much to lose.
#[component]
pub fn Reminder() -> impl IntoView {
    let studio = app_state();
    let unsent = Memo::new(move |_| studio.book(unsent));
    (move || {
        unsent.get().map(|entries| {
            view! {
                <p class="caution note">
                    <span>{t_count!("exchange-remind", entries)}</span>
                    <span class="small">{last_sent()}</span>
                </p>
            }
        })
    })
    .into_any()
}

/// How many entries are on this phone alone, if that is worth saying.
fn unsent(book: &Book) -> Option<usize> {
    let sent = local_storage::get::<LastExport>(KEY);
    let entries = book.len().saturating_sub(sent.map_or(0, |sent| sent.entries));
    let since = match sent {
        Some(sent) => sent.at,
        None => book.entries().map(|entry| entry.stamp.at()).min()?,
    };
    let days = clock::now().duration_since(since).as_hours() / 24;
    (entries > 0 && days >= DAYS).then_some(entries)
}
