//! Lengths of time.

use jiff::SignedDuration;

use super::t_with;

/// Its one or two largest units: "40 s", "12 min", "1 h 12 min", "3 d 4 h". A negative length
/// counts as none; what is left over is cut off.
pub fn format_duration(length: SignedDuration) -> String {
    let seconds = length.as_secs().max(0);
    let (minutes, hours, days) = (seconds / 60, seconds / 3600, seconds / 86_400);
    let of_hours = |n: i64| t_with!("duration-hours", &[("n", &n.to_string())]);
    let of_minutes = |n: i64| t_with!("duration-minutes", &[("n", &n.to_string())]);
    match () {
        () if minutes == 0 => t_with!("duration-seconds", &[("n", &seconds.to_string())]),
        () if hours == 0 => of_minutes(minutes),
        () if hours < 48 => joined(of_hours(hours), minutes % 60, of_minutes),
        () => {
            let of_days = t_with!("duration-days", &[("n", &days.to_string())]);
            joined(of_days, hours % 24, of_hours)
        }
    }
}

/// As a stopwatch shows it: "4:05", "1:12:05"; from 48 hours on as [`format_duration`], since a
/// clock has no room for more.
pub fn format_elapsed(length: SignedDuration) -> String {
    let seconds = length.as_secs().max(0);
    let (h, m, s) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    match h {
        0 => format!("{m}:{s:02}"),
        1..48 => format!("{h}:{m:02}:{s:02}"),
        _ => format_duration(length),
    }
}

/// The larger part, and `n` of the smaller unit unless that is none.
fn joined(large: String, n: i64, small: impl Fn(i64) -> String) -> String {
    if n == 0 { large } else { format!("{large} {}", small(n)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn from_48_hours_on_days_are_shown() {
        let elapsed = |hours, minutes| {
            format_elapsed(SignedDuration::from_hours(hours) + SignedDuration::from_mins(minutes))
        };
        assert_eq!(elapsed(0, 4), "4:00");
        assert_eq!(elapsed(26, 25), "26:25:00");
        assert_eq!(elapsed(950, 25), "39 d 14 h");
    }

    #[test]
    fn the_smaller_unit_is_left_out_where_there_is_none_of_it() {
        let written = |seconds| format_duration(SignedDuration::from_secs(seconds));
        assert_eq!(written(-5), "0 s");
        assert_eq!(written(59), "59 s");
        assert_eq!(written(720), "12 min");
        assert_eq!(written(3600), "1 h");
        assert_eq!(written(4320), "1 h 12 min");
        assert_eq!(written(48 * 3600 + 59), "2 d");
    }
}
