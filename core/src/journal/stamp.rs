//! Who wrote an entry, and in which order: devices and their hybrid logical clock.

use crate::json::{Json, Misread, Value, instant, parsed, text};
use jiff::Timestamp;
use std::fmt;
use std::str::FromStr;

/// The id of a phone or computer that writes entries: 1 to 32 characters out
/// of `a–z` and `0–9`. Made once, at random, and kept by the store.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
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

    /// A device id of ten characters out of 50 random bits.
    pub fn from_random(random: u64) -> Self {
        // Crockford's base 32 in lower case: no i, l, o or u to misread.
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

impl Json for DeviceId {
    fn to_json(&self) -> Value {
        Value::from(self.as_str())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        Self::new(text(value)?).map_err(|_| Misread::expected("device"))
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

/// A hybrid logical clock's reading: wall time to the millisecond, a counter
/// for what happened within one, and the device. Later than anything its
/// device had written or read before it, even when the wall clock went back.
///
/// Written as `2026-05-03T10:22:01.123Z-0007-k7m2`, the counter in four
/// hexadecimal digits; texts sort as the stamps do.
///
/// Source: Kulkarni, Demirbas, Madappa, Avva, Leone, "Logical Physical Clocks
/// and Consistent Snapshots in Globally Distributed Databases" (2014), from
/// memory.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct HlcTimestamp {
    /// Milliseconds since 1970, 0 to the end of the year 9999.
    millis: i64,
    counter: u16,
    device: DeviceId,
}

/// The last millisecond of the year 9999 in UTC that `jiff` can hold: a year
/// of five digits would no longer sort as text.
const LAST_MILLIS: i64 = 253_402_207_200_999;

impl HlcTimestamp {
    /// The wall time part.
    pub fn at(&self) -> Timestamp {
        Timestamp::from_millisecond(self.millis).unwrap_or(Timestamp::UNIX_EPOCH)
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

impl Json for HlcTimestamp {
    fn to_json(&self) -> Value {
        Value::String(self.to_string())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        parsed(value, "stamp")
    }
}

impl FromStr for HlcTimestamp {
    type Err = ClockError;

    fn from_str(text: &str) -> Result<Self, ClockError> {
        let bad = ClockError::HlcTimestamp;
        // 24 characters of time, a dash, 4 of counter, a dash, the device.
        let (time, rest) = text.split_at_checked(24).ok_or(bad)?;
        let (counter, device) =
            rest.strip_prefix('-').and_then(|r| r.split_once('-')).ok_or(bad)?;
        let at = instant(time).ok_or(bad)?;
        let hex = counter.len() == 4
            && counter.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        let stamp = Self {
            millis: at.as_millisecond(),
            counter: hex.then(|| u16::from_str_radix(counter, 16).ok()).flatten().ok_or(bad)?,
            device: DeviceId::new(device)?,
        };
        // One stamp has one text, or texts would not sort as stamps do.
        if stamp.to_string() == text && (0..=LAST_MILLIS).contains(&stamp.millis) {
            Ok(stamp)
        } else {
            Err(bad)
        }
    }
}

impl TryFrom<String> for HlcTimestamp {
    type Error = ClockError;
    fn try_from(text: String) -> Result<Self, ClockError> {
        text.parse()
    }
}

impl From<HlcTimestamp> for String {
    fn from(stamp: HlcTimestamp) -> String {
        stamp.to_string()
    }
}

/// How far ahead of the wall clock a stamp from elsewhere may pull this
/// device's own: 5 minutes. Common practice, no source.
pub const MAX_AHEAD_MS: i64 = 5 * 60 * 1000;

/// A device's hybrid logical clock. It never asks what time it is: the wall
/// clock's reading is handed in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clock {
    device: DeviceId,
    last: Option<(i64, u16)>,
}

impl Clock {
    /// A clock that goes on from the latest stamp that this device has
    /// written or seen.
    pub fn new(device: DeviceId, latest: Option<&HlcTimestamp>) -> Self {
        Self { device, last: latest.map(|s| (s.millis, s.counter)) }
    }

    /// The device it belongs to.
    pub fn device(&self) -> &DeviceId {
        &self.device
    }

    /// The next stamp, later than every one before it.
    pub fn tick(&mut self, now: Timestamp) -> HlcTimestamp {
        let wall = now.as_millisecond().clamp(0, LAST_MILLIS);
        let (millis, counter) = match self.last {
            Some(last) if last.0 >= wall => after(last),
            _ => (wall, 0),
        };
        self.last = Some((millis, counter));
        HlcTimestamp { millis, counter, device: self.device.clone() }
    }

    /// Takes note of a stamp from elsewhere, so that what is written here
    /// afterwards sorts behind it.
    ///
    /// A stamp more than [`MAX_AHEAD_MS`] ahead of `now` comes from a clock
    /// that is wrong (there or here). It is kept as it is, but must not drag
    /// this clock along: that is clamped to the limit, and said.
    pub fn receive(&mut self, stamp: &HlcTimestamp, now: Timestamp) -> ClockSkew {
        let limit = now
            .as_millisecond()
            .clamp(0, LAST_MILLIS)
            .saturating_add(MAX_AHEAD_MS)
            .min(LAST_MILLIS);
        let (seen, received) = if stamp.millis > limit {
            ((limit, 0), ClockSkew::Ahead { by_ms: stamp.millis - now.as_millisecond() })
        } else {
            ((stamp.millis, stamp.counter), ClockSkew::WithinLimit)
        };
        self.last = Some(self.last.map_or(seen, |last| last.max(seen)));
        received
    }
}

/// What [`Clock::receive`] made of a stamp.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClockSkew {
    Fine,
    /// The other clock is so far ahead of this one that it was not followed.
    Ahead {
        by_ms: i64,
    },
}

impl ClockSkew {
    /// The one further ahead of two.
    #[must_use]
    pub fn worse(self, other: ClockSkew) -> ClockSkew {
        match (self, other) {
            (ClockSkew::Ahead { by_ms: a }, ClockSkew::Ahead { by_ms: b }) => {
                ClockSkew::Ahead { by_ms: a.max(b) }
            }
            (ClockSkew::WithinLimit, other) => other,
            (ahead, ClockSkew::WithinLimit) => ahead,
        }
    }
}

/// The smallest reading behind `last`.
fn after((millis, counter): (i64, u16)) -> (i64, u16) {
    match counter.checked_add(1) {
        Some(next) => (millis, next),
        // More than 65 535 entries within one millisecond, or a clock stuck
        // that long: borrow the next millisecond.
        None => (millis.saturating_add(1).min(LAST_MILLIS), 0),
    }
}

/// A text that is no stamp or device.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClockError {
    HlcTimestamp,
    DeviceId,
}

impl fmt::Display for ClockError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            ClockError::HlcTimestamp => {
                "a stamp is written like 2026-05-03T10:22:01.123Z-0007-k7m2"
            }
            ClockError::DeviceId => "a device id is 1 to 32 characters out of a-z and 0-9",
        })
    }
}

impl std::error::Error for ClockError {}

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
    fn is_written_as_promised() {
        let mut clock = Clock::new(device("k7m2"), None);
        let now: Timestamp = "2026-05-03T10:22:01.123Z".parse().unwrap();
        assert_eq!(clock.tick(now).to_string(), "2026-05-03T10:22:01.123Z-0000-k7m2");
        assert_eq!(clock.tick(now).to_string(), "2026-05-03T10:22:01.123Z-0001-k7m2");
    }

    #[test]
    fn refuses_what_is_no_stamp() {
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
        let mut clock = Clock::new(device("here"), None);
        let mut wrong = Clock::new(device("there"), None);
        let stamp = wrong.tick(at(10_000_000_000));
        assert_eq!(clock.receive(&stamp, at(1_000)), ClockSkew::Ahead { by_ms: 9_999_999_000 });
        let own = clock.tick(at(1_001));
        assert!(own.at() <= at(1_000 + MAX_AHEAD_MS), "{own}");
        // A little ahead is followed, so that order is kept.
        let near = wrong.receive(&own, at(2_000));
        assert_eq!(near, ClockSkew::WithinLimit);
    }

    #[test]
    fn the_last_millisecond_is_the_last_jiff_holds() {
        assert_eq!(Timestamp::MAX.as_millisecond(), LAST_MILLIS);
    }

    proptest! {
        #[test]
        fn ticks_rise_whatever_the_wall_clock_does(walls in prop::collection::vec(0i64..4_000_000_000_000, 1..60)) {
            let mut clock = Clock::new(device("a"), None);
            let stamps: Vec<HlcTimestamp> = walls.iter().map(|w| clock.tick(at(*w))).collect();
            prop_assert!(stamps.windows(2).all(|w| w[0] < w[1]));
        }

        #[test]
        fn what_is_written_after_receiving_sorts_behind(wall in 0i64..4_000_000_000_000, ahead in 0..MAX_AHEAD_MS) {
            let stamp = Clock::new(device("zz"), None).tick(at(wall + ahead));
            let mut here = Clock::new(device("aa"), None);
            prop_assert_eq!(here.receive(&stamp, at(wall)), ClockSkew::WithinLimit);
            prop_assert!(here.tick(at(wall)) > stamp);
        }

        #[test]
        fn texts_sort_as_stamps(a in stamp(), b in stamp()) {
            prop_assert_eq!(a.to_string().cmp(&b.to_string()), a.cmp(&b));
            prop_assert_eq!(a.to_string().parse::<HlcTimestamp>(), Ok(a));
        }
    }

    fn stamp() -> impl Strategy<Value = HlcTimestamp> {
        (0..LAST_MILLIS, any::<u16>(), "[a-z0-9]{1,6}")
            .prop_map(|(millis, counter, d)| HlcTimestamp { millis, counter, device: device(&d) })
    }
}
