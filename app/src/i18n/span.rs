//! Lengths of time in words.

use jiff::SignedDuration;

use super::words;

/// A length of time as one says it: "40 s", "12 min", "1 h 12 min", "3 d 4 h".
/// Less than nothing counts as nothing; parts of the smallest unit are cut off.
pub fn span(length: SignedDuration) -> String {
    let seconds = length.as_secs().max(0);
    let (minutes, hours, days) = (seconds / 60, seconds / 3600, seconds / 86_400);
    let part = |unit: &str, n: i64| words(unit, &[("n", &n.to_string())]);
    let two = |large: String, small: &str, n: i64| match n {
        0 => large,
        n => format!("{large} {}", part(small, n)),
    };
    match () {
        () if minutes == 0 => part("span.seconds", seconds),
        () if hours == 0 => part("span.minutes", minutes),
        () if hours < 48 => two(part("span.hours", hours), "span.minutes", minutes % 60),
        () => two(part("span.days", days), "span.hours", hours % 24),
    }
}

/// A length of time as a clock face counts it: "4:05", "1:12:05". Days are told as
/// [`span`] tells them: no clock face has room for a bath that was forgotten.
pub fn counted_up(length: SignedDuration) -> String {
    let seconds = length.as_secs().max(0);
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match h {
        0 => format!("{m}:{s:02}"),
        1..48 => format!("{h}:{m:02}:{s:02}"),
        _ => span(length),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_forgotten_bath_is_told_in_days() {
        let counted = |hours, minutes| {
            counted_up(SignedDuration::from_hours(hours) + SignedDuration::from_mins(minutes))
        };
        assert_eq!(counted(0, 4), "4:00");
        assert_eq!(counted(26, 25), "26:25:00");
        assert_eq!(counted(950, 25), "39 d 14 h");
    }
}
