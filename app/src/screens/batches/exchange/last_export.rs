//! The last export of the whole book, and the reminder that another is due.

use bleachfield_core::journal::{Book, DeviceId};
use jiff::Timestamp;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::{
    i18n::{t, t_count, t_with},
    platform::{clock, demo, local_storage},
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
    let unexported = Memo::new(move |_| {
        // Nothing in the demo studio is worth keeping.
        if demo::is_open() {
            return None;
        }
        let last = local_storage::get::<LastExport>(KEY);
        studio.book(|book| overdue_entries(book, &studio.device(), last, clock::now()))
    });
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

/// The number of entries that this device wrote since the last export, if that, or else the
/// first of them, is [`DAYS`] ago. What came from another device is there as well.
fn overdue_entries(
    book: &Book,
    device: &DeviceId,
    last: Option<LastExport>,
    now: Timestamp,
) -> Option<usize> {
    let written = book.entries().filter(|entry| entry.device == *device);
    let written = written.map(|entry| entry.stamp.at());
    let unexported: Vec<Timestamp> =
        written.filter(|at| last.is_none_or(|last| *at > last.at)).collect();
    let since = last.map(|last| last.at).or_else(|| unexported.iter().min().copied())?;
    let days = now.duration_since(since).as_hours() / 24;
    (!unexported.is_empty() && days >= DAYS).then_some(unexported.len())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::{Body, Entry, EntryWriter, Note, Subject};
    use jiff::SignedDuration;

    fn day(days: i64) -> Timestamp {
        Timestamp::UNIX_EPOCH + SignedDuration::from_hours(24 * days)
    }

    fn device(name: &str) -> DeviceId {
        DeviceId::new(name).unwrap()
    }

    fn entries(name: &str, days: std::ops::Range<i64>) -> Vec<Entry> {
        let mut writer = EntryWriter::new(device(name), None);
        let note = |at: i64| {
            let body = Body::Note(Note { text: String::new() });
            let random = u128::from(name.as_bytes()[0]) << 8 | at as u128;
            writer.write(day(at), random, "", Subject::Studio, body).unwrap()
        };
        days.map(note).collect()
    }

    #[test]
    fn entries_of_another_phone_are_not_on_this_phone_alone() {
        let theirs = entries("theirs", 0..700);
        let book = Book::of(theirs.clone());
        assert_eq!(overdue_entries(&book, &device("here"), None, day(800)), None);
        let book = Book::of(theirs.into_iter().chain(entries("here", 700..703)));
        assert_eq!(overdue_entries(&book, &device("here"), None, day(800)), Some(3));
        assert_eq!(overdue_entries(&book, &device("here"), None, day(710)), None);
    }

    #[test]
    fn what_is_in_an_export_is_not_counted_again() {
        let book = Book::of(entries("here", 0..10));
        let last = Some(LastExport { at: day(6), entries: 7 });
        assert_eq!(overdue_entries(&book, &device("here"), last, day(19)), None);
        assert_eq!(overdue_entries(&book, &device("here"), last, day(21)), Some(3));
        let last = Some(LastExport { at: day(9), entries: 10 });
        assert_eq!(overdue_entries(&book, &device("here"), last, day(40)), None);
    }
}
