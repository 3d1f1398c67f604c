//! Instants and days as files write them, by RFC 3339 (2002), section 5.6.
//!
//! `jiff` reads many more forms, with errors in words for each; in the page
//! those are forty kilobytes that nobody would ever see.

use super::{Json, Misread, Value, text};
use jiff::civil::{Date, DateTime, Time};
use jiff::{Timestamp, tz::Offset};

/// An instant such as `2026-05-03T10:22:01.123Z`, or with an offset such as
/// `+02:00` for the `Z`. A leap second counts as the second before it.
pub fn instant(text: &str) -> Option<Timestamp> {
    let (date, rest) = text.split_at_checked(10)?;
    let (time, mut rest) = rest.strip_prefix(['T', 't', ' '])?.split_at_checked(8)?;
    let [h1, h2, b':', m1, m2, b':', s1, s2] = time.as_bytes() else { return None };
    let mut nanoseconds = 0;
    if let Some(fraction) = rest.strip_prefix('.') {
        let digits = fraction.bytes().take_while(u8::is_ascii_digit).count();
        if !(1..=9).contains(&digits) {
            return None;
        }
        nanoseconds = number(&fraction.as_bytes()[..digits])? * 10i32.pow(9 - digits as u32);
        rest = &fraction[digits..];
    }
    let second = number(&[*s1, *s2])?;
    let second = if second == 60 { 59 } else { second };
    let time = Time::new(
        number(&[*h1, *h2])? as i8,
        number(&[*m1, *m2])? as i8,
        second as i8,
        nanoseconds,
    );
    let at = DateTime::from_parts(day(date)?, time.ok()?);
    offset(rest)?.to_timestamp(at).ok()
}

/// A day such as `2026-05-03`.
pub fn day(text: &str) -> Option<Date> {
    let [y1, y2, y3, y4, b'-', m1, m2, b'-', d1, d2] = text.as_bytes() else { return None };
    let year = number(&[*y1, *y2, *y3, *y4])?;
    Date::new(year as i16, number(&[*m1, *m2])? as i8, number(&[*d1, *d2])? as i8).ok()
}

fn offset(text: &str) -> Option<Offset> {
    if matches!(text, "Z" | "z") {
        return Some(Offset::UTC);
    }
    let [sign @ (b'+' | b'-'), h1, h2, b':', m1, m2] = text.as_bytes() else { return None };
    let (hours, minutes) = (number(&[*h1, *h2])?, number(&[*m1, *m2])?);
    if hours > 23 || minutes > 59 {
        return None;
    }
    let seconds = 60 * (60 * hours + minutes);
    Offset::from_seconds(if *sign == b'-' { -seconds } else { seconds }).ok()
}

/// At most nine digits as a number.
fn number(digits: &[u8]) -> Option<i32> {
    digits.iter().try_fold(0, |sum, digit| {
        digit.is_ascii_digit().then(|| 10 * sum + i32::from(digit - b'0'))
    })
}

impl Json for Timestamp {
    fn to_json(&self) -> Value {
        Value::String(self.to_string())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        instant(text(value)?).ok_or(Misread::expected("instant"))
    }
}

impl Json for Date {
    fn to_json(&self) -> Value {
        Value::String(self.to_string())
    }
    fn from_json(value: &Value) -> Result<Self, Misread> {
        day(text(value)?).ok_or(Misread::expected("day"))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_standards_own_examples_are_read() {
        // RFC 3339 (2002), section 5.8.
        let same = |a: &str, b: &str| assert_eq!(instant(a), Some(b.parse().unwrap()), "{a}");
        same("1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50.52Z");
        same("1996-12-19T16:39:57-08:00", "1996-12-20T00:39:57Z");
        same("1990-12-31T23:59:60Z", "1990-12-31T23:59:59Z");
        same("1937-01-01T12:00:27.87+00:20", "1937-01-01T11:40:27.87Z");
    }

    #[test]
    fn what_is_no_instant_or_day_is_refused() {
        for text in [
            "",
            "2026-05-03",
            "2026-05-03T10:22:01",
            "2026-05-03T10:22Z",
            "2026-02-30T10:22:01Z",
            "2026-05-03T24:00:00Z",
            "2026-05-03T10:22:01.Z",
            "2026-05-03T10:22:01+2:00",
            "2026-05-03T10:22:01.1234567890Z",
            "2026-05-03T10:22:01+02:60",
            "2026-05-03T10:22:01ZZ",
            "2026-05-0äT10:22:01Z",
            "9999-12-31T23:59:59Z!",
        ] {
            assert_eq!(instant(text), None, "{text}");
        }
        for text in ["", "2026-5-3", "2026-13-01", "2026-02-29", "20260503", "+026-05-03"] {
            assert_eq!(day(text), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn instants_and_days_are_read_as_written(
            second in -62_000_000_000i64..253_000_000_000,
            nanosecond in prop_oneof![Just(0), 0..1_000_000_000i32, (0..1000i32).prop_map(|m| m * 1_000_000)],
        ) {
            let at = Timestamp::new(second, nanosecond).unwrap();
            prop_assert_eq!(instant(&at.to_string()), Some(at));
            let date = Offset::UTC.to_datetime(at).date();
            prop_assert_eq!(day(&date.to_string()), Some(date));
        }
    }
}
