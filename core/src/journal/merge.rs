//! Merging the entries of two devices: set union by id.

use super::Entry;
use std::collections::BTreeMap;
use std::collections::btree_map;
use ulid::Ulid;

/// The union of two sets of entries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Merged {
    /// Each id once, in the order that all devices agree on.
    pub entries: Vec<Entry>,
    /// Ids that came with two contents; see [`merge`].
    pub conflicts: Vec<Conflict>,
}

/// One id with two contents. Entries are written once, so this takes an edited
/// file, or a device that was copied as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    pub id: Ulid,
    pub kept: Entry,
    pub dropped: Entry,
}

/// The union of two sets of entries by id.
///
/// Commutative, associative and idempotent: all devices come to hold the same
/// entries. No id is lost. If one id comes with two contents, one of them is
/// kept by a rule that depends on the two alone (see [`preferred`]), and the
/// conflict is reported.
pub fn merge(a: impl IntoIterator<Item = Entry>, b: impl IntoIterator<Item = Entry>) -> Merged {
    let mut all: BTreeMap<Ulid, Entry> = BTreeMap::new();
    let mut conflicts = Vec::new();
    for entry in a.into_iter().chain(b) {
        match all.entry(entry.id) {
            btree_map::Entry::Vacant(slot) => {
                slot.insert(entry);
            }
            btree_map::Entry::Occupied(mut slot) if *slot.get() != entry => {
                let (kept, dropped) = preferred(slot.get().clone(), entry);
                slot.insert(kept.clone());
                conflicts.push(Conflict { id: kept.id, kept, dropped });
            }
            btree_map::Entry::Occupied(_) => {}
        }
    }
    let mut entries: Vec<Entry> = all.into_values().collect();
    entries.sort_unstable_by(|x, y| x.order().cmp(&y.order()));
    conflicts.sort_unstable_by_key(|c| (c.id, c.dropped.to_text()));
    Merged { entries, conflicts }
}

/// Orders two contents of one id into kept and dropped: the earlier timestamp
/// is kept, or else the text that sorts first.
pub(super) fn preferred(a: Entry, b: Entry) -> (Entry, Entry) {
    let a_first = a.stamp.cmp(&b.stamp).then_with(|| a.to_text().cmp(&b.to_text())).is_le();
    if a_first { (a, b) } else { (b, a) }
}

#[cfg(test)]
mod tests;
