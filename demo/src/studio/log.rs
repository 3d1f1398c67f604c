//! The two people's phones, and what they wrote down.

use std::collections::BTreeMap;

use bleachfield_core::journal::{Body, DeviceId, Entry, EntryWriter, PhotoId, Subject, ulid_at};
use jiff::civil::{Date, time};
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp, ToSpan};
use ulid::Ulid;

use super::Failure;

/// Each photo's bytes.
pub type Photos = BTreeMap<PhotoId, Vec<u8>>;

/// The studio keeps its clocks by no country's time.
pub const ZONE: &str = "Etc/UTC";

/// Who wrote it, each on a phone of their own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hand {
    Marl,
    Teasel,
}

impl Hand {
    /// The phone's id: random bits that were drawn once.
    pub fn device(self) -> DeviceId {
        DeviceId::from_random(match self {
            Hand::Marl => 0x2_5a3c_91e7_04d8,
            Hand::Teasel => 0x1_c47b_3f60_a92e,
        })
    }

    /// What they call the phone.
    pub fn name(self) -> &'static str {
        match self {
            Hand::Marl => "Marl's phone, at the sink",
            Hand::Teasel => "Teasel's phone",
        }
    }
}

/// Everything written, in whatever order it is told.
pub struct Log {
    /// The end of the season.
    pub now: Timestamp,
    drafts: Vec<Draft>,
    photos: Photos,
}

/// An entry before its stamp: stamps only rise, so they are given in order of time.
struct Draft {
    id: Ulid,
    hand: Hand,
    at: Timestamp,
    about: Subject,
    body: Body,
    random: u128,
}

impl Log {
    /// # Errors
    /// Unless `now` lies in the years 1971 to 9998.
    pub fn new(now: Timestamp) -> Result<Self, Failure> {
        let year = TimeZone::UTC.to_datetime(now).year();
        if !(1971..=9998).contains(&year) {
            return Err(Failure::of("no season can end at")(now));
        }
        // To the minute, as people tell the time.
        let second = now.as_second() - now.as_second().rem_euclid(60);
        let now = Timestamp::from_second(second).map_err(Failure::of("an instant"))?;
        Ok(Self { now, drafts: Vec::new(), photos: BTreeMap::new() })
    }

    /// A day of the season by how many days it lies back.
    pub fn day(&self, days_ago: i64) -> Date {
        let today = TimeZone::UTC.to_datetime(self.now).date();
        today.checked_sub(days_ago.days()).unwrap_or(today)
    }

    /// A time of such a day.
    pub fn on(&self, days_ago: i64, hour: i8, minute: i8) -> Timestamp {
        let at = self.day(days_ago).to_datetime(time(hour, minute, 0, 0));
        TimeZone::UTC.to_timestamp(at).unwrap_or(self.now)
    }

    /// So many minutes before the end of the season.
    pub fn minutes_ago(&self, minutes: i64) -> Timestamp {
        self.now.checked_sub(SignedDuration::from_mins(minutes)).unwrap_or(self.now)
    }

    /// An id for a batch, bath, lot or product that begins at an instant.
    pub fn fresh_id(&mut self, at: Timestamp) -> Ulid {
        // Apart from the entries' ids, which count drafts.
        let count = (self.drafts.len() as u64) << 8 | self.photos.len() as u64;
        ulid_at(at, chance(count ^ 0xb0a7))
    }

    /// Writes something down. The answer is the entry's id.
    pub fn write(&mut self, hand: Hand, at: Timestamp, about: Subject, body: Body) -> Ulid {
        let random = chance(self.drafts.len() as u64);
        let id = ulid_at(at, random);
        self.drafts.push(Draft { id, hand, at, about, body, random });
        id
    }

    /// Keeps a photo's bytes.
    pub fn keep(&mut self, id: PhotoId, bytes: Vec<u8>) {
        self.photos.insert(id, bytes);
    }

    /// How many photos there are.
    pub fn photos(&self) -> usize {
        self.photos.len()
    }

    /// The entries in their order, and the photos.
    ///
    /// # Errors
    /// An entry with a figure that is no number, or dated after the season's end.
    pub fn close(mut self) -> Result<(Vec<Entry>, Photos), Failure> {
        self.drafts.sort_by_key(|draft| draft.at);
        let mut pens =
            [Hand::Marl, Hand::Teasel].map(|hand| (hand, EntryWriter::new(hand.device(), None)));
        let mut entries = Vec::with_capacity(self.drafts.len());
        for Draft { id, hand, at, about, body, random } in self.drafts {
            if at > self.now {
                return Err(Failure::of("not yet happened")(body));
            }
            for (whose, pen) in &mut pens {
                if *whose == hand {
                    let entry = pen
                        .write(at, random, ZONE, about, body.clone())
                        .map_err(Failure::of("an entry"))?;
                    debug_assert_eq!(entry.id, id);
                    entries.push(entry);
                }
            }
        }
        Ok((entries, self.photos))
    }
}

/// 128 bits that look like chance and are the same each time: two steps of Steele,
/// Lea and Flood's SplitMix64 (2014), from memory.
fn chance(seed: u64) -> u128 {
    let step = |n: u64| {
        let mut z = n.wrapping_mul(0x9e37_79b9_7f4a_7c15);
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    };
    u128::from(step(2 * seed + 1)) << 64 | u128::from(step(2 * seed + 2))
}
