//! The writer of a device's entries: timestamps them and checks their figures.
//! Randomness and the present instant are injected.

use super::{
    Body, ClockSkew, DeviceId, Entry, EntryError, HlcTimestamp, HybridLogicalClock, Subject,
};
use jiff::Timestamp;
use serde_json::Value;
use ulid::Ulid;

/// A ULID of this instant with injected randomness.
pub fn ulid_at(now: Timestamp, random: u128) -> Ulid {
    Ulid::from_parts(now.as_millisecond().max(0).unsigned_abs(), random)
}

/// Writes entries for a device, each with the next timestamp of its clock.
#[derive(Clone, Debug)]
pub struct EntryWriter {
    clock: HybridLogicalClock,
}

impl EntryWriter {
    /// A writer for `device` that continues after the latest known timestamp.
    pub fn new(device: DeviceId, latest: Option<&HlcTimestamp>) -> Self {
        Self { clock: HybridLogicalClock::new(device, latest) }
    }

    /// The device that writes.
    pub fn device(&self) -> &DeviceId {
        self.clock.device()
    }

    /// An entry about an event at `now`.
    ///
    /// `random` supplies 80 random bits for the entry's id; `zone` is the IANA
    /// name of the person's time zone.
    ///
    /// # Errors
    /// [`EntryError::NonFinite`] if a figure in it is NaN or infinite.
    pub fn write(
        &mut self,
        now: Timestamp,
        random: u128,
        zone: &str,
        about: Subject,
        body: Body,
    ) -> Result<Entry, EntryError> {
        self.write_at(now, now, random, zone, about, body)
    }

    /// As [`EntryWriter::write`], for an event at `at` that is written at `now`.
    ///
    /// # Errors
    /// As [`EntryWriter::write`].
    pub fn write_at(
        &mut self,
        at: Timestamp,
        now: Timestamp,
        random: u128,
        zone: &str,
        about: Subject,
        body: Body,
    ) -> Result<Entry, EntryError> {
        if !is_finite(&body, &serde_json::to_value(&body)?) {
            return Err(EntryError::NonFinite);
        }
        // To the millisecond, the resolution of browsers.
        let at = Timestamp::from_millisecond(at.as_millisecond()).unwrap_or(at);
        let stamp = self.clock.tick(now);
        Ok(Entry::new(ulid_at(now, random), stamp, at, zone.to_owned(), about, body))
    }

    /// Records entries from other devices. Returns the largest clock skew
    /// among them.
    pub fn receive<'a>(
        &mut self,
        entries: impl IntoIterator<Item = &'a Entry>,
        now: Timestamp,
    ) -> ClockSkew {
        entries
            .into_iter()
            .map(|entry| self.clock.receive(&entry.stamp, now))
            .fold(ClockSkew::WithinLimit, ClockSkew::max)
    }
}

/// Whether every figure of a body is finite. `serde_json` encodes NaN and
/// infinity as null; a known body has no other null, since absent members are
/// left out. An unknown body is JSON already.
fn is_finite(body: &Body, json: &Value) -> bool {
    match body {
        Body::Unknown(_) => true,
        Body::Corrected(correction) => is_finite(&correction.body, &json["body"]),
        _ => !contains_null(json),
    }
}

fn contains_null(json: &Value) -> bool {
    match json {
        Value::Null => true,
        Value::Array(items) => items.iter().any(contains_null),
        Value::Object(members) => members.values().any(contains_null),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::journal::sample::{at, bodies, device, figure, rinsed};
    use crate::journal::{Corrected, Schedule, ScheduleChanged};

    #[test]
    fn non_finite_figures_are_refused() {
        let mut writer = EntryWriter::new(device("a"), None);
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let rinsed = Body::Rinsed(rinsed(figure(bad)));
            // A bare number, an optional one, and one in a list.
            let schedule = Schedule { stir_every_min: Some(bad), ..Schedule::default() };
            let listed = Schedule { ph_at_min: vec![1.0, bad], ..Schedule::default() };
            let [stir, listed] = [schedule, listed].map(|schedule| {
                Body::ScheduleChanged(ScheduleChanged {
                    bath: Ulid(1),
                    schedule,
                    why: String::new(),
                })
            });
            for body in [rinsed, stir, listed] {
                let corrected = Body::Corrected(Corrected {
                    entry: Ulid(1),
                    body: Box::new(body.clone()),
                    at: None,
                    why: String::new(),
                });
                for body in [body, corrected] {
                    let written = writer.write(at(0), 1, "", Subject::Batch(Ulid(1)), body);
                    assert_eq!(written, Err(EntryError::NonFinite));
                }
            }
        }
    }

    #[test]
    fn finite_figures_of_every_kind_are_accepted() {
        for x in [0.0, -0.0, f64::MAX, f64::MIN_POSITIVE] {
            for (about, body) in bodies(x.min(f64::MAX / 2.0), 5) {
                let written = EntryWriter::new(device("a"), None).write(at(0), 1, "", about, body);
                assert!(written.is_ok(), "{written:?}");
            }
        }
    }
}
