//! The journal of the two people's phones, built in any order and closed in order of time.

use std::collections::BTreeMap;

use bleachfield_core::journal::{Body, DeviceId, Entry, EntryWriter, PhotoId, Subject, ulid_at};
use jiff::civil::{Date, time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use ulid::Ulid;

use super::DemoError;
use crate::photo::noise::RandomStream;

/// The bytes of each photo.
pub type Photos = BTreeMap<PhotoId, Vec<u8>>;

/// The time zone of all entries.
pub const ZONE: &str = "Etc/UTC";

/// The person who wrote an entry, each with a phone of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Author {
    Marl,
    Teasel,
}

impl Author {
    /// The phone's id, from fixed bits.
    pub fn device(self) -> DeviceId {
        DeviceId::from_random(match self {
            Author::Marl => 0x2_5a3c_91e7_04d8,
            Author::Teasel => 0x1_c47b_3f60_a92e,
        })
    }

    /// The phone's name.
    pub fn name(self) -> &'static str {
        match self {
            Author::Marl => "Marl's phone, at the sink",
            Author::Teasel => "Teasel's phone",
        }
    }
}

/// Collects entries in any order.
pub struct JournalBuilder {
    /// The end of the season.
    pub now: Timestamp,
    drafts: Vec<DraftEntry>,
    photos: Photos,
}

/// An entry without its clock stamp: stamps increase, so they are given in order of time.
struct DraftEntry {
    id: Ulid,
    author: Author,
    at: Timestamp,
    about: Subject,
    body: Body,
    random: u128,
}

impl JournalBuilder {
    /// # Errors
    /// Unless `now` lies in the years 1971 to 9998.
    pub fn new(now: Timestamp) -> Result<Self, DemoError> {
        let year = TimeZone::UTC.to_datetime(now).year();
        if !(1971..=9998).contains(&year) {
            return Err(DemoError::of("no season can end at")(now));
        }
        // Truncated to the minute.
        let second = now.as_second() - now.as_second().rem_euclid(60);
        let now = Timestamp::from_second(second).map_err(DemoError::of("an instant"))?;
        Ok(Self { now, drafts: Vec::new(), photos: BTreeMap::new() })
    }

    /// The date so many days before the end of the season.
    pub fn day(&self, days_ago: i64) -> Date {
        let today = TimeZone::UTC.to_datetime(self.now).date();
        today.checked_sub(days_ago.days()).unwrap_or(today)
    }

    /// A time of that date.
    pub fn on(&self, days_ago: i64, hour: i8, minute: i8) -> Timestamp {
        let at = self.day(days_ago).to_datetime(time(hour, minute, 0, 0));
        TimeZone::UTC.to_timestamp(at).unwrap_or(self.now)
    }

    /// So many minutes before the end of the season.
    pub fn minutes_ago(&self, minutes: i64) -> Timestamp {
        self.now.checked_sub(SignedDuration::from_mins(minutes)).unwrap_or(self.now)
    }

    /// An id for a batch, bath, lot or product that begins at an instant; differs from the
    /// entries' ids.
    pub fn fresh_id(&mut self, at: Timestamp) -> Ulid {
        let count = (self.drafts.len() as u64) << 8 | self.photos.len() as u64;
        ulid_at(at, pseudo_random(count ^ 0xb0a7))
    }

    /// Adds an entry. Returns its id.
    pub fn write(&mut self, author: Author, at: Timestamp, about: Subject, body: Body) -> Ulid {
        let random = pseudo_random(self.drafts.len() as u64);
        let id = ulid_at(at, random);
        self.drafts.push(DraftEntry { id, author, at, about, body, random });
        id
    }

    /// Adds a photo's bytes.
    pub fn add_photo(&mut self, id: PhotoId, bytes: Vec<u8>) {
        self.photos.insert(id, bytes);
    }

    /// The number of photos.
    pub fn photo_count(&self) -> usize {
        self.photos.len()
    }

    /// The entries in order of time, and the photos.
    ///
    /// # Errors
    /// An entry with a figure that is no number, or dated after the season's end.
    pub fn close(mut self) -> Result<(Vec<Entry>, Photos), DemoError> {
        self.drafts.sort_by_key(|draft| draft.at);
        let mut pens = [Author::Marl, Author::Teasel]
            .map(|author| (author, EntryWriter::new(author.device(), None)));
        let mut entries = Vec::with_capacity(self.drafts.len());
        for DraftEntry { id, author, at, about, body, random } in self.drafts {
            if at > self.now {
                return Err(DemoError::of("not yet happened")(body));
            }
            for (whose, pen) in &mut pens {
                if *whose == author {
                    let entry = pen
                        .write(at, random, ZONE, about, body.clone())
                        .map_err(DemoError::of("an entry"))?;
                    debug_assert_eq!(entry.id, id);
                    entries.push(entry);
                }
            }
        }
        Ok((entries, self.photos))
    }
}

/// 128 pseudo-random bits, the same for the same seed.
fn pseudo_random(seed: u64) -> u128 {
    let mut stream = RandomStream::new(seed);
    u128::from(stream.bits()) << 64 | u128::from(stream.bits())
}
