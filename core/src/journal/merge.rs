//! Bringing two devices' entries together: set union by id.

use super::Entry;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry as Slot;
use ulid::Ulid;

/// Two sets of entries as one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Merged {
    /// Each entry once, in the order that all devices agree on.
    pub entries: Vec<Entry>,
    /// Ids that came with two contents; see [`merge`].
    pub conflicts: Vec<Conflict>,
}

/// One id, two contents. An entry is written once, so this takes a file that
/// somebody edited, or a device that was copied whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Conflict {
    pub id: Ulid,
    pub kept: Entry,
    pub dropped: Entry,
}

/// The union of two sets of entries by id.
///
/// It does not matter which is `a`, how often it is done, or in which order
/// several devices meet: all come to hold the same entries. No id is ever
/// lost. Where one id comes with two contents, one of them is kept by a rule
/// that looks at nothing but the two (see [`preferred`]), and both are told.
pub fn merge(a: impl IntoIterator<Item = Entry>, b: impl IntoIterator<Item = Entry>) -> Merged {
    merged(&mut a.into_iter().chain(b))
}

/// One piece of code, wherever the entries come from.
fn merged(told: &mut dyn Iterator<Item = Entry>) -> Merged {
    let mut all: BTreeMap<Ulid, Entry> = BTreeMap::new();
    let mut conflicts = Vec::new();
    for entry in told {
        match all.entry(entry.id) {
            Slot::Vacant(slot) => {
                slot.insert(entry);
            }
            Slot::Occupied(mut slot) if *slot.get() != entry => {
                let (kept, dropped) = preferred(slot.get().clone(), entry);
                slot.insert(kept.clone());
                conflicts.push(Conflict { id: kept.id, kept, dropped });
            }
            Slot::Occupied(_) => {}
        }
    }
    let mut entries: Vec<Entry> = all.into_values().collect();
    entries.sort_unstable_by(|x, y| x.order().cmp(&y.order()));
    conflicts.sort_unstable_by_key(|c| (c.id, c.dropped.to_text()));
    Merged { entries, conflicts }
}

/// Which of two contents of one id is kept, and which is not: that with the
/// earlier stamp, or else the one whose text sorts first.
pub(super) fn preferred(a: Entry, b: Entry) -> (Entry, Entry) {
    let a_first = a.stamp.cmp(&b.stamp).then_with(|| a.to_text().cmp(&b.to_text())).is_le();
    if a_first { (a, b) } else { (b, a) }
}

#[cfg(test)]
mod tests;
