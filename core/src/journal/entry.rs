//! An entry: one thing that happened, written once and never altered.

use super::{Body, Clock, ClockSkew, DeviceId, HlcTimestamp};
use crate::choice;
use crate::json::{self, Json, Misread, member, member_or_default, members, object};
use jiff::Timestamp;
use serde_json::{Map, Value};
use std::fmt;
use ulid::Ulid;

/// One thing that happened. Immutable: correcting and withdrawing write
/// further entries.
///
/// Reading an entry loses nothing of it. Members that this version does not
/// know, at whatever depth, ride along in `rest` and are written out again.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    pub id: Ulid,
    /// Where it stands among all entries.
    pub stamp: HlcTimestamp,
    /// The device that it was written on.
    pub device: DeviceId,
    /// When it happened, which may be well before it was written down.
    pub at: Timestamp,
    /// The time zone that the person saw, by IANA name; empty if unknown.
    pub zone: String,
    pub about: Subject,
    pub body: Body,
    /// What a newer version wrote and this one does not know.
    rest: Map<String, Value>,
}

/// What an entry is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Subject {
    Batch(Ulid),
    /// Any shelf product: bottle, tub or jar.
    Bottle(Ulid),
    /// A lot of stored pulp.
    Lot(Ulid),
    Studio,
}

choice!(Subject {
    Batch(id) = "batch",
    Bottle(id) = "bottle",
    Lot(id) = "lot",
    Studio = "studio",
});

impl Subject {
    /// The batch, if it is one.
    pub fn batch(self) -> Option<Ulid> {
        match self {
            Subject::Batch(id) => Some(id),
            _ => None,
        }
    }
}

/// A ULID from an instant and randomness handed in: the core draws no lots.
pub fn ulid_at(now: Timestamp, random: u128) -> Ulid {
    Ulid::from_parts(now.as_millisecond().max(0).unsigned_abs(), random)
}

/// What a device writes entries with: its clock, and the check that what is
/// written can be read again.
#[derive(Clone, Debug)]
pub struct EntryWriter {
    clock: Clock,
}

impl EntryWriter {
    /// A pen for `device` that goes on after the latest stamp it knows of.
    pub fn new(device: DeviceId, latest: Option<&HlcTimestamp>) -> Self {
        Self { clock: Clock::new(device, latest) }
    }

    /// The device that writes.
    pub fn device(&self) -> &DeviceId {
        self.clock.device()
    }

    /// An entry about something that happened just now.
    ///
    /// `random` wants 80 fresh random bits for the entry's id; `zone` is the
    /// IANA name of the time zone the person sees.
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

    /// As [`EntryWriter::write`], for something that happened at `at` and is only
    /// written down `now`.
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
        // JSON has no NaN: such a figure would be written as null and come
        // back as nothing.
        match Body::from_json(&body.to_json()) {
            Ok(read) if read == body => {}
            _ => return Err(EntryError::NonFinite),
        }
        let stamp = self.clock.tick(now);
        let device = self.clock.device().clone();
        Ok(Entry {
            id: ulid_at(now, random),
            stamp,
            device,
            // To the millisecond, as browsers tell it: what is read back from
            // a file then equals what was written.
            at: Timestamp::from_millisecond(at.as_millisecond()).unwrap_or(at),
            zone: zone.to_owned(),
            about,
            body,
            rest: Map::new(),
        })
    }

    /// Takes note of entries from elsewhere. The answer is the worst clock
    /// among them.
    pub fn receive<'a>(
        &mut self,
        entries: impl IntoIterator<Item = &'a Entry>,
        now: Timestamp,
    ) -> ClockSkew {
        entries
            .into_iter()
            .map(|entry| self.clock.receive(&entry.stamp, now))
            .fold(ClockSkew::WithinLimit, ClockSkew::worse)
    }
}

impl Entry {
    /// The entry as JSON: members sorted by name, absent ones left out.
    pub fn to_json(&self) -> Value {
        let mut value = self.known_part();
        overlay(&mut value, &self.rest);
        value.sort_all_objects();
        value
    }

    /// The entry as one line of JSON text; equal entries have equal texts.
    pub fn to_text(&self) -> String {
        json::written(&self.to_json())
    }

    /// Reads what [`Entry::to_json`] or a newer version of it wrote.
    ///
    /// # Errors
    /// [`EntryError::Decode`] if the envelope (id, stamp, device, at,
    /// about) is not one; a body that makes no sense is kept as
    /// [`Body::Unknown`].
    pub fn from_json(value: Value) -> Result<Self, EntryError> {
        let mut entry = Self::known(&value)?;
        if let (Value::Object(all), Value::Object(known)) = (value, entry.known_part()) {
            entry.rest = beyond(all, &known);
        }
        Ok(entry)
    }

    /// Reads one line of JSON text.
    ///
    /// # Errors
    /// As [`Entry::from_json`].
    pub fn from_text(text: &str) -> Result<Self, EntryError> {
        Self::from_json(parsed(text)?)
    }

    /// The place of this entry in the one order that all devices agree on.
    pub fn order(&self) -> (&HlcTimestamp, Ulid) {
        (&self.stamp, self.id)
    }

    /// The entry without what this version does not know.
    fn known(value: &Value) -> Result<Self, Misread> {
        let all = members(value)?;
        Ok(Entry {
            id: member(all, "id")?,
            stamp: member(all, "stamp")?,
            device: member(all, "device")?,
            at: member(all, "at")?,
            zone: member_or_default(all, "zone")?,
            about: member(all, "about")?,
            body: member(all, "body")?,
            rest: Map::new(),
        })
    }

    fn known_part(&self) -> Value {
        let Entry { id, stamp, device, at, zone, about, body, rest: _ } = self;
        object(&[
            ("id", id, false),
            ("stamp", stamp, false),
            ("device", device, false),
            ("at", at, false),
            ("zone", zone, false),
            ("about", about, false),
            ("body", body, false),
        ])
    }
}

/// Entries as one JSON array, in the order given.
pub fn entries_to_text(entries: &[Entry]) -> String {
    json::written(&Value::Array(entries.iter().map(Entry::to_json).collect()))
}

/// Reads what [`entries_to_text`] wrote.
///
/// # Errors
/// As [`Entry::from_json`], for the first that is no entry.
pub fn entries_from_text(text: &str) -> Result<Vec<Entry>, EntryError> {
    let Value::Array(list) = parsed(text)? else {
        return Err(Misread::expected("list").into());
    };
    list.into_iter().map(Entry::from_json).collect()
}

fn parsed(text: &str) -> Result<Value, EntryError> {
    json::read(text.as_bytes()).map_err(|e| EntryError::Decode { why: e.to_string() })
}

/// An entry that cannot be written or read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryError {
    /// A figure is NaN or infinite.
    NotANumber,
    /// The text is no entry.
    Unreadable {
        /// The reader's own words, for the report, not for a person.
        why: String,
    },
}

impl fmt::Display for EntryError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            EntryError::NonFinite => f.write_str("a figure is not a number"),
            EntryError::Decode { why } => write!(f, "not an entry: {why}"),
        }
    }
}

impl std::error::Error for EntryError {}

impl From<Misread> for EntryError {
    fn from(wrong: Misread) -> Self {
        let Misread { member, expected } = wrong;
        let why = if member.is_empty() {
            expected.to_owned()
        } else {
            [member, ": no ", expected].concat()
        };
        EntryError::Decode { why }
    }
}

/// What `all` has and `known` has not, at any depth of objects in objects.
/// Objects within arrays are compared place by place; see [`overlay`].
fn beyond(all: Map<String, Value>, known: &Map<String, Value>) -> Map<String, Value> {
    let mut rest = Map::new();
    for (name, value) in all {
        match (known.get(&name), value) {
            (None, value) => {
                rest.insert(name, value);
            }
            (Some(known), value) => {
                if let Some(more) = beyond_value(value, known) {
                    rest.insert(name, more);
                }
            }
        }
    }
    rest
}

fn beyond_value(value: Value, known: &Value) -> Option<Value> {
    match (value, known) {
        (Value::Object(all), Value::Object(known)) => {
            let rest = beyond(all, known);
            (!rest.is_empty()).then_some(Value::Object(rest))
        }
        (Value::Array(all), Value::Array(known)) if all.len() == known.len() => {
            let rest: Vec<Value> = all
                .into_iter()
                .zip(known)
                .map(|(v, k)| beyond_value(v, k).unwrap_or_default())
                .collect();
            rest.iter().any(|v| !v.is_null()).then_some(Value::Array(rest))
        }
        _ => None,
    }
}

/// Puts back what [`beyond`] took aside.
fn overlay(value: &mut Value, rest: &Map<String, Value>) {
    let Value::Object(members) = value else { return };
    for (name, more) in rest {
        match members.get_mut(name) {
            Some(known) => overlay_value(known, more),
            None => {
                members.insert(name.clone(), more.clone());
            }
        }
    }
}

fn overlay_value(known: &mut Value, more: &Value) {
    match (known, more) {
        (known @ Value::Object(_), Value::Object(more)) => overlay(known, more),
        (Value::Array(known), Value::Array(more)) => {
            known.iter_mut().zip(more).for_each(|(k, m)| overlay_value(k, m));
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests;
