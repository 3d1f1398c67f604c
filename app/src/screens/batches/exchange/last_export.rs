//! The last export of the whole book, and the reminder that another is due.

use bleachfield_core::journal::Book;
use jiff::Timestamp;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::{
    i18n::{t, t_count, t_with},
    platform::{clock, local_storage},
    state::app_state,
};

/// In local storage: it concerns this device, not the studio.
const KEY: &str = "bleachfield.sent";

/// Days until the reminder (common practice, no source).
const DAYS: i64 = 14;

#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
struct LastExport {
    at: Timestamp,
    /// Number of entries in the file.
    entries: usize,
}

/// Records that the whole book was exported now.
pub fn record_export(entries: usize) {
    // If it cannot be stored, the reminder only comes too often.
    local_storage::set(KEY, &LastExport { at: clock::now(), entries });
}

/// The date of the last export, in words.
pub fn last_export_text() -> String {
    match local_storage::get::<LastExport>(KEY) {
        Some(last) => t_with!("exchange-sent_last", &[("date", &clock::local_date(last.at))]),
        None => t!("exchange-sent_never"),
    }
}

/// Says how many entries are on this device alone, if they have been for too long.
#[component]
pub fn ExportReminder() -> impl IntoView {
    let studio = app_state();
    let unexported = Memo::new(move |_| studio.book(overdue_entries));
    (move || {
        unexported.get().map(|entries| {
            view! {
                <p class="caution note">
                    <span>{t_count!("exchange-remind", entries)}</span>
                    <span class="small">{last_export_text()}</span>
                </p>
            }
        })
    })
    .into_any()
}

/// The number of entries since the last export, if that, or else the first entry, is
/// [`DAYS`] ago.
fn overdue_entries(book: &Book) -> Option<usize> {
    let last = local_storage::get::<LastExport>(KEY);
    let entries = book.len().saturating_sub(last.map_or(0, |last| last.entries));
    let since = match last {
        Some(last) => last.at,
        None => book.entries().map(|entry| entry.stamp.at()).min()?,
    };
    let days = clock::now().duration_since(since).as_hours() / 24;
    (entries > 0 && days >= DAYS).then_some(entries)
}
