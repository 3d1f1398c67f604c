//! Device ids and the hybrid logical clock that orders entries across devices.

use jiff::{SignedDuration, Timestamp};
use serde::{Deserialize, Serialize};
use serde_with::{DeserializeFromStr, SerializeDisplay};
use std::fmt;
use std::str::FromStr;

/// The id of a device that writes entries: 1 to 32 characters of `a–z` and
/// `0–9`. Generated once at random and kept by the store.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct DeviceId(String);

impl DeviceId {
    /// # Errors
    /// [`ClockError::DeviceId`] for anything but 1 to 32 of `a–z`, `0–9`.
    pub fn new(text: impl Into<String>) -> Result<Self, ClockError> {
        let text = text.into();
        let plain = text.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit());
        if plain && (1..=32).contains(&text.len()) {
            Ok(Self(text))
        } else {
            Err(ClockError::DeviceId)
        }
    }

    /// A device id of ten characters from 50 random bits.
    pub fn from_random(random: u64) -> Self {
        // Crockford's base 32 in lower case: without i, l, o and u, which are easily misread.
        const ALPHABET: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";
        Self((0..10).map(|i| ALPHABET[(random >> (5 * i)) as usize & 31] as char).collect())
    }

    /// The id as written in files.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl TryFrom<String> for DeviceId {
    type Error = ClockError;
    fn try_from(text: String) -> Result<Self, ClockError> {
        Self::new(text)
    }
}

impl From<DeviceId> for String {
    fn from(device: DeviceId) -> String {
        device.0
    }
}

impl fmt::Display for DeviceId {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// A timestamp of a hybrid logical clock: wall time to the millisecond, a
/// counter for events within one millisecond, and the device. Later than any
/// timestamp that its device had written or received before, even if the wall
/// clock was set back.
///
/// Written as `2026-05-03T10:22:01.123Z-0007-k7m2`, the counter in four
/// hexadecimal digits; texts sort as the timestamps do.
///
/// Source: Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks
/// and Consistent Snapshots in Globally Distributed Databases" (2014), from
/// memory.
#[derive(
    Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, SerializeDisplay, DeserializeFromStr,
)]
pub struct HlcTimestamp {
    /// Milliseconds since 1970, 0 to the end of the year 9999.
    millis: i64,
    counter: u16,
    device: DeviceId,
}

/// The last millisecond of the year 9999 in UTC that `jiff` can hold: a year
/// of five digits would not sort as text.
const LAST_MILLIS: i64 = 253_402_207_200_999;

impl HlcTimestamp {
    /// The wall time.
    pub fn at(&self) -> Timestamp {
        Timestamp::from_millisecond(self.millis).unwrap_or(Timestamp::UNIX_EPOCH)
    }

    /// Moves the wall time, within the years that a timestamp can hold.
    pub(super) fn move_by(&mut self, by: SignedDuration) {
        let by_ms = i64::try_from(by.as_millis()).unwrap_or_default();
        self.millis = self.millis.saturating_add(by_ms).clamp(0, LAST_MILLIS);
    }

    /// The device that wrote it.
    pub fn device(&self) -> &DeviceId {
        &self.device
    }
}

impl fmt::Display for HlcTimestamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.3}-{:04x}-{}", self.at(), self.counter, self.device)
    }
}

impl FromStr for HlcTimestamp {
    type Err = ClockError;

    fn from_str(text: &str) -> Result<Self, ClockError> {
        let error = ClockError::HlcTimestamp;
        // 24 characters of time, a dash, 4 of counter, a dash, the device.
        let (time, rest) = text.split_at_checked(24).ok_or(error)?;
        let (counter, device) =
            rest.strip_prefix('-').and_then(|r| r.split_once('-')).ok_or(error)?;
        let at: Timestamp = time.parse().map_err(|_| error)?;
        let timestamp = Self {
            millis: at.as_millisecond(),
            counter: u16::from_str_radix(counter, 16).map_err(|_| error)?,
            device: DeviceId::new(device)?,
        };
        // Only the canonical text is accepted: others would not sort as timestamps do.
        if timestamp.to_string() == text && (0..=LAST_MILLIS).contains(&timestamp.millis) {
            Ok(timestamp)
        } else {
            Err(error)
        }
    }
}

/// How far a received timestamp may pull this device's clock ahead of its wall
/// clock: 5 minutes. Common practice, no source.
pub const MAX_AHEAD_MS: i64 = 5 * 60 * 1000;

/// The hybrid logical clock of a device. Wall times are passed in; it never
/// reads a clock itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HybridLogicalClock {
    device: DeviceId,
    last: Option<(i64, u16)>,
}

impl HybridLogicalClock {
    /// A clock that continues from the latest timestamp that this device has
    /// written or received.
    pub fn new(device: DeviceId, latest: Option<&HlcTimestamp>) -> Self {
        Self { device, last: latest.map(|t| (t.millis, t.counter)) }
    }

    /// The device that the clock belongs to.
    pub fn device(&self) -> &DeviceId {
        &self.device
    }

    /// The next timestamp, later than every one before.
    pub fn tick(&mut self, now: Timestamp) -> HlcTimestamp {
        let wall = now.as_millisecond().clamp(0, LAST_MILLIS);
        let (millis, counter) = match self.last {
            Some(last) if last.0 >= wall => successor(last),
            _ => (wall, 0),
        };
        self.last = Some((millis, counter));
        HlcTimestamp { millis, counter, device: self.device.clone() }
    }

    /// Records a timestamp from another device, so that later ticks sort after
    /// it.
    ///
    /// A timestamp more than [`MAX_AHEAD_MS`] ahead of `now` comes from a wrong
    /// wall clock, there or here. This clock then advances only to the limit,
    /// and the skew is returned.
    pub fn receive(&mut self, timestamp: &HlcTimestamp, now: Timestamp) -> ClockSkew {
        let limit = now
            .as_millisecond()
            .clamp(0, LAST_MILLIS)
            .saturating_add(MAX_AHEAD_MS)
            .min(LAST_MILLIS);
        let (seen, skew) = if timestamp.millis > limit {
            ((limit, 0), ClockSkew::Ahead { by_ms: timestamp.millis - now.as_millisecond() })
        } else {
            ((timestamp.millis, timestamp.counter), ClockSkew::WithinLimit)
        };
        self.last = Some(self.last.map_or(seen, |last| last.max(seen)));
        skew
    }
}

/// How far the clock of a received timestamp is ahead of this device's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClockSkew {
    /// At most [`MAX_AHEAD_MS`] ahead.
    WithinLimit,
    /// Too far ahead to be followed.
    Ahead { by_ms: i64 },
}

/// The smallest reading after `last`.
fn successor((millis, counter): (i64, u16)) -> (i64, u16) {
    match counter.checked_add(1) {
        Some(next) => (millis, next),
        // 65 536 timestamps in one millisecond: use the next millisecond.
        None => (millis.saturating_add(1).min(LAST_MILLIS), 0),
    }
}

/// A text that is not a timestamp or a device id.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ClockError {
    #[error("a timestamp is written like 2026-05-03T10:22:01.123Z-0007-k7m2")]
    HlcTimestamp,
    #[error("a device id is 1 to 32 characters of a-z and 0-9")]
    DeviceId,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use proptest::prelude::*;

    fn device(name: &str) -> DeviceId {
        DeviceId::new(name).unwrap()
    }

    fn at(millis: i64) -> Timestamp {
        Timestamp::from_millisecond(millis).unwrap()
    }

    #[test]
    fn timestamps_are_written_as_documented() {
        let mut clock = HybridLogicalClock::new(device("k7m2"), None);
        let now: Timestamp = "2026-05-03T10:22:01.123Z".parse().unwrap();
        assert_eq!(clock.tick(now).to_string(), "2026-05-03T10:22:01.123Z-0000-k7m2");
        assert_eq!(clock.tick(now).to_string(), "2026-05-03T10:22:01.123Z-0001-k7m2");
    }

    #[test]
    fn malformed_timestamps_are_refused() {
        for text in [
            "",
            "2026-05-03",
            "2026-05-03T10:22:01.123Z-0007",
            "2026-05-03T10:22:01.123Z-0007-",
            "2026-05-03T10:22:01.123Z-0007-Phone",
            "2026-05-03T10:22:01.123Z-00g7-k7m2",
            "2026-05-03T10:22:01.123Z-+007-k7m2",
            "2026-05-03T10:22:01.1234Z-0007-k7m2",
            "2026-05-03T10:22:01.12é-0007-k7m2",
            "1969-12-31T23:59:59.999Z-0000-k7m2",
        ] {
            assert!(text.parse::<HlcTimestamp>().is_err(), "{text}");
        }
    }

    #[test]
    fn a_clock_far_ahead_is_not_followed() {
        let mut clock = HybridLogicalClock::new(device("here"), None);
        let mut wrong = HybridLogicalClock::new(device("there"), None);
        let timestamp = wrong.tick(at(10_000_000_000));
        assert_eq!(clock.receive(&timestamp, at(1_000)), ClockSkew::Ahead { by_ms: 9_999_999_000 });
        let own = clock.tick(at(1_001));
        assert!(own.at() <= at(1_000 + MAX_AHEAD_MS), "{own}");
        // Within the limit it is followed, so that order is kept.
        let near = wrong.receive(&own, at(2_000));
        assert_eq!(near, ClockSkew::WithinLimit);
    }

    #[test]
    fn the_last_millisecond_is_the_last_that_jiff_holds() {
        assert_eq!(Timestamp::MAX.as_millisecond(), LAST_MILLIS);
    }

    proptest! {
        #[test]
        fn ticks_increase_whatever_the_wall_clock_does(walls in prop::collection::vec(0i64..4_000_000_000_000, 1..60)) {
            let mut clock = HybridLogicalClock::new(device("a"), None);
            let timestamps: Vec<HlcTimestamp> = walls.iter().map(|w| clock.tick(at(*w))).collect();
            prop_assert!(timestamps.windows(2).all(|w| w[0] < w[1]));
        }

        #[test]
        fn ticks_after_receiving_sort_after_the_received_timestamp(wall in 0i64..4_000_000_000_000, ahead in 0..MAX_AHEAD_MS) {
            let timestamp = HybridLogicalClock::new(device("zz"), None).tick(at(wall + ahead));
            let mut here = HybridLogicalClock::new(device("aa"), None);
            prop_assert_eq!(here.receive(&timestamp, at(wall)), ClockSkew::WithinLimit);
            prop_assert!(here.tick(at(wall)) > timestamp);
        }

        #[test]
        fn texts_sort_as_timestamps(a in timestamp(), b in timestamp()) {
            prop_assert_eq!(a.to_string().cmp(&b.to_string()), a.cmp(&b));
            prop_assert_eq!(a.to_string().parse::<HlcTimestamp>(), Ok(a));
        }
    }

    fn timestamp() -> impl Strategy<Value = HlcTimestamp> {
        (0..LAST_MILLIS, any::<u16>(), "[a-z0-9]{1,6}")
            .prop_map(|(millis, counter, d)| HlcTimestamp { millis, counter, device: device(&d) })
    }
}
