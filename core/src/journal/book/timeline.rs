//! Entries on a timeline: with the corrections and withdrawals that apply to them.

use crate::journal::{Body, Entry};
use jiff::Timestamp;
use ulid::Ulid;

/// An entry with its amendments applied.
#[derive(Clone, Debug, PartialEq)]
pub struct TimelineEntry {
    /// The entry as it was written.
    pub entry: Entry,
    /// Its body after correction.
    pub body: Body,
    /// The instant of the event after correction.
    pub at: Timestamp,
    /// The correction that applies.
    pub corrected_by: Option<Ulid>,
    /// The withdrawal that applies. Withdrawing that one restores this entry.
    pub withdrawn_by: Option<Ulid>,
}

impl TimelineEntry {
    /// An entry without amendments.
    pub(super) fn unamended(entry: Entry) -> Self {
        Self {
            body: entry.body.clone(),
            at: entry.at,
            entry,
            corrected_by: None,
            withdrawn_by: None,
        }
    }

    /// Whether it is shown on a timeline: not withdrawn, and not itself a
    /// withdrawal or a correction.
    pub fn is_visible(&self) -> bool {
        self.withdrawn_by.is_none()
            && !matches!(self.entry.body, Body::Withdrawn(_) | Body::Corrected(_))
    }
}

/// Inserts an entry by the instant of its event; events at one instant stay in
/// the order of their entries.
pub(super) fn insert(timeline: &mut Vec<TimelineEntry>, entry: &TimelineEntry) {
    let place = timeline.partition_point(|t| t.at <= entry.at);
    timeline.insert(place, entry.clone());
}
