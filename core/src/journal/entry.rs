//! Entries: immutable records of single events, and their JSON.
//! They are written by `EntryWriter` and projected by `Book`.

mod unknown;

use super::{Body, DeviceId, HlcTimestamp};
use jiff::Timestamp;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use serde_json::{Map, Value};
use serde_with::{As, DefaultOnNull};
use ulid::Ulid;

/// A record of one event. Immutable: corrections and withdrawals are further
/// entries.
///
/// Decoding loses nothing: members that this version does not know, at any
/// depth, are kept and written out again.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    pub id: Ulid,
    /// Its place in the order of all entries.
    pub stamp: HlcTimestamp,
    /// The device that wrote it.
    pub device: DeviceId,
    /// The instant of the event, which may be well before the entry was written.
    pub at: Timestamp,
    /// IANA name of the time zone that the person saw; empty if unknown.
    pub zone: String,
    pub about: Subject,
    pub body: Body,
    /// Members that this version does not know.
    unknown: Map<String, Value>,
}

/// The members of an [`Entry`] that this version knows.
#[derive(Serialize, Deserialize)]
#[serde(remote = "Entry")]
struct KnownMembers {
    id: Ulid,
    stamp: HlcTimestamp,
    device: DeviceId,
    at: Timestamp,
    #[serde(default, with = "As::<DefaultOnNull>")]
    zone: String,
    about: Subject,
    body: Body,
    #[serde(skip)]
    unknown: Map<String, Value>,
}

/// What an entry is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Subject {
    Batch(Ulid),
    /// Any shelf product: bottle, tub or jar.
    Bottle(Ulid),
    /// A lot of stored pulp.
    Lot(Ulid),
    Studio,
}

impl Subject {
    /// The batch, if it is one.
    pub fn batch(self) -> Option<Ulid> {
        match self {
            Subject::Batch(id) => Some(id),
            _ => None,
        }
    }
}

impl Entry {
    /// An entry with all its members known.
    pub(super) fn new(
        id: Ulid,
        stamp: HlcTimestamp,
        at: Timestamp,
        zone: String,
        about: Subject,
        body: Body,
    ) -> Self {
        let device = stamp.device().clone();
        Self { id, stamp, device, at, zone, about, body, unknown: Map::new() }
    }

    /// The entry as JSON: members sorted by name, absent ones left out.
    pub fn to_json(&self) -> Value {
        let mut members = self.known_members();
        unknown::restore(&mut members, &self.unknown);
        let mut json = Value::Object(members);
        json.sort_all_objects();
        json
    }

    /// The entry as one line of JSON text; equal entries have equal texts.
    pub fn to_text(&self) -> String {
        self.to_json().to_string()
    }

    /// Decodes what [`Entry::to_json`] of this or a newer version returned.
    ///
    /// # Errors
    /// [`EntryError::Decode`] if a member other than `body` cannot be decoded;
    /// such a body becomes [`Body::Unknown`].
    pub fn from_json(json: Value) -> Result<Self, EntryError> {
        let mut entry = KnownMembers::deserialize(&json)?;
        if let Value::Object(all) = json {
            entry.unknown = unknown::members_beyond(all, &entry.known_members());
        }
        Ok(entry)
    }

    /// Decodes one line of JSON text.
    ///
    /// # Errors
    /// As [`Entry::from_json`].
    pub fn from_text(text: &str) -> Result<Self, EntryError> {
        Self::from_json(serde_json::from_str(text)?)
    }

    /// The key of the one order that all devices agree on.
    pub fn order(&self) -> (&HlcTimestamp, Ulid) {
        (&self.stamp, self.id)
    }

    fn known_members(&self) -> Map<String, Value> {
        match KnownMembers::serialize(self, serde_json::value::Serializer) {
            Ok(Value::Object(members)) => members,
            // A struct whose keys are all strings always encodes as an object.
            _ => Map::new(),
        }
    }
}

/// As [`Entry::to_json`].
impl Serialize for Entry {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.to_json().serialize(serializer)
    }
}

/// As [`Entry::from_json`]; for self-describing formats that keep `1` and `1.0` apart.
impl<'de> Deserialize<'de> for Entry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::from_json(Value::deserialize(deserializer)?).map_err(de::Error::custom)
    }
}

/// An entry that cannot be written or decoded.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EntryError {
    /// JSON has no NaN and no infinity.
    #[error("a figure is NaN or infinite")]
    NonFinite,
    /// `reason` is the decoder's, for a report and not for a person.
    #[error("not an entry: {reason}")]
    Decode { reason: String },
}

impl From<serde_json::Error> for EntryError {
    fn from(error: serde_json::Error) -> Self {
        EntryError::Decode { reason: error.to_string() }
    }
}

#[cfg(test)]
mod tests;
