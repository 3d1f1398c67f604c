//! An entry as text with its format: as the store keeps it, and as files carry one that the
//! version that wrote them could not read.

use super::{FORMAT, migrated};
use crate::journal::Entry;
use serde::{Deserialize, Serialize};

/// An entry as it is stored. Its members are a stored format: they never change.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct EntryRecord {
    /// The key in the store: the entry's ULID.
    pub id: String,
    /// The format of `text`; [`UNKNOWN_FORMAT`] if `text` is no JSON of an entry.
    pub format: u32,
    /// The JSON of the entry.
    pub text: String,
}

/// The format of what was stored under an entry's key in another shape: its text is whatever
/// could be read of it. No version writes it for an entry, and none can open it.
pub const UNKNOWN_FORMAT: u32 = 0;

impl EntryRecord {
    pub fn of(entry: &Entry) -> Self {
        Self { id: entry.id.to_string(), format: FORMAT, text: entry.to_text() }
    }

    /// The entry; `None` if this version cannot read it: damaged, or of a newer format.
    pub fn decode(&self) -> Option<Entry> {
        let json = serde_json::from_str(&self.text).ok()?;
        Entry::from_json(migrated(json, self.format)?).ok()
    }
}

/// Separates records that this version can read from those that it cannot. None is lost.
pub fn decode_all(
    records: impl IntoIterator<Item = EntryRecord>,
) -> (Vec<Entry>, Vec<EntryRecord>) {
    let (mut entries, mut unreadable) = (Vec::new(), Vec::new());
    for record in records {
        match record.decode() {
            Some(entry) => entries.push(entry),
            None => unreadable.push(record),
        }
    }
    (entries, unreadable)
}
