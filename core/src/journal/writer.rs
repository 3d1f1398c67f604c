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

/// An entry that is still to be written. Its id is known before, so that the body of another
/// entry of the same transaction can refer to it.
#[derive(Clone, Debug, PartialEq)]
pub struct NewEntry {
    /// From [`ulid_at`].
    pub id: Ulid,
    pub about: Subject,
    pub body: Body,
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
        check_figures(&body)?;
        Ok(self.stamped(at, now, ulid_at(now, random), zone, about, body))
    }

    /// Entries of one act, about an event at `now`, to be stored together or not at all. In
    /// the order given, which is the order of their timestamps.
    ///
    /// # Errors
    /// As [`EntryWriter::write`] if any of them cannot be written; then none is.
    pub fn write_all(
        &mut self,
        now: Timestamp,
        zone: &str,
        entries: Vec<NewEntry>,
    ) -> Result<Vec<Entry>, EntryError> {
        entries.iter().try_for_each(|entry| check_figures(&entry.body))?;
        let stamped = entries
            .into_iter()
            .map(|NewEntry { id, about, body }| self.stamped(now, now, id, zone, about, body));
        Ok(stamped.collect())
    }

    fn stamped(
        &mut self,
        at: Timestamp,
        now: Timestamp,
        id: Ulid,
        zone: &str,
        about: Subject,
        body: Body,
    ) -> Entry {
        // To the millisecond, the resolution of browsers.
        let at = Timestamp::from_millisecond(at.as_millisecond()).unwrap_or(at);
        let stamp = self.clock.tick(now);
        Entry::new(id, stamp, at, zone.to_owned(), about, body)
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

fn check_figures(body: &Body) -> Result<(), EntryError> {
    if is_finite(body, &serde_json::to_value(body)?) { Ok(()) } else { Err(EntryError::NonFinite) }
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
    use crate::journal::{BathStarted, Book, Corrected, Note, Schedule, ScheduleChanged};

    #[test]
    fn entries_of_one_act_refer_to_each_other_and_keep_their_order() {
        let (batch, plan, bath) = (Subject::Batch(Ulid(1)), ulid_at(at(0), 9), Ulid(3));
        let (_, planned) = find(|body| matches!(body, Body::Planned(_)));
        let (_, started) = find(|body| matches!(body, Body::BathStarted(_)));
        let Body::BathStarted(started) = started else { panic!("{started:?}") };
        let started = BathStarted { bath, plan: Some(plan), ..started };
        let entries = vec![
            NewEntry { id: plan, about: batch, body: planned },
            // A smaller id, as chance may have it within a millisecond.
            NewEntry { id: ulid_at(at(0), 2), about: batch, body: Body::BathStarted(started) },
        ];
        let written = EntryWriter::new(device("a"), None).write_all(at(0), "", entries).unwrap();
        assert_eq!(written.iter().map(|entry| entry.id).next(), Some(plan));
        assert!(written[0].order() < written[1].order());
        let book = Book::of(written);
        assert_eq!(book.bath(bath).unwrap().plan, Some(plan));
        assert_eq!(book.batches[&Ulid(1)].plan, Some(plan));
    }

    #[test]
    fn one_entry_that_cannot_be_written_stops_all_of_its_act() {
        let about = Subject::Batch(Ulid(1));
        let entry = |id, body| NewEntry { id: Ulid(id), about, body };
        let note = Body::Note(Note { text: String::new() });
        let bad = Body::Rinsed(rinsed(figure(f64::NAN)));
        let mut writer = EntryWriter::new(device("a"), None);
        let written = writer.write_all(at(0), "", vec![entry(1, note.clone()), entry(2, bad)]);
        assert_eq!(written, Err(EntryError::NonFinite));
        // The clock has not advanced either.
        let next = writer.write_all(at(0), "", vec![entry(1, note.clone())]).unwrap();
        let first = EntryWriter::new(device("a"), None).write_all(at(0), "", vec![entry(1, note)]);
        assert_eq!(Ok(next), first);
    }

    /// A sample of a kind of entry.
    fn find(is: impl Fn(&Body) -> bool) -> (Subject, Body) {
        bodies(2.0, 3).into_iter().find(|(_, body)| is(body)).unwrap()
    }

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
