//! Cues as a calendar file (RFC 5545, 2009), by the `icalendar` crate: a phone's own calendar
//! rings even while the page is suspended. What is due and when is decided in `derive::cue`.

use crate::derive::cue::CueState;
use chrono::TimeDelta;
use icalendar::{Alarm, Calendar, Component, Event, EventLike, Property};
use jiff::Timestamp;

/// The text of a calendar event.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CalendarWords {
    /// One short line, shown by the alarm.
    pub summary: String,
    /// Details; may be empty or have several lines.
    pub description: String,
}

/// An iCalendar text with an event and an alarm for each of `cues`.
///
/// `made` is the present instant; `words` gives the texts of a cue.
pub fn calendar(
    cues: &[CueState],
    made: Timestamp,
    words: impl Fn(&CueState) -> CalendarWords,
) -> String {
    let mut calendar = Calendar::empty();
    for (name, value) in [
        ("VERSION", "2.0"),
        ("PRODID", "-//Bleachfield//Bath cues//EN"),
        ("CALSCALE", "GREGORIAN"),
        ("METHOD", "PUBLISH"),
    ] {
        calendar.append_property(Property::new(name, value));
    }
    calendar.extend(cues.iter().map(|cue| event(cue, &words(cue), made)));
    calendar.to_string()
}

/// An event with an alarm at its start. Its id is stable: importing a newer file moves
/// the event instead of adding one.
///
/// The library adds a random UID and the system time to each component that
/// has no UID and DTSTAMP, so both are set on the event and on its alarm.
fn event(cue: &CueState, words: &CalendarWords, made: Timestamp) -> Event {
    let uid = format!("{}-{}", cue.bath, cue.id);
    let summary = printable(&words.summary);
    let mut alarm = Alarm::display(&summary, TimeDelta::zero());
    alarm
        .add_property("TRIGGER", "PT0S")
        .add_property("UID", format!("{uid}-alarm@bleachfield"))
        .add_property("DTSTAMP", utc(made));
    let mut event = Event::with_uid(&format!("{uid}@bleachfield"));
    event
        .add_property("DTSTAMP", utc(made))
        .add_property("DTSTART", utc(cue.due))
        .add_property("DURATION", "PT5M")
        .add_property("TRANSP", "TRANSPARENT")
        .summary(&summary)
        .alarm(alarm);
    if !words.description.is_empty() {
        event.description(&printable(&words.description));
    }
    event.done()
}

/// Without control characters, which a text value must not have.
fn printable(text: &str) -> String {
    text.chars().filter(|c| !c.is_control() || matches!(c, '\n' | '\t')).collect()
}

/// `20260503T102201Z`, to the second.
fn utc(at: Timestamp) -> String {
    at.strftime("%Y%m%dT%H%M%SZ").to_string()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::cue::{CueKind, CueStatus};
    use jiff::SignedDuration;
    use proptest::prelude::*;
    use ulid::Ulid;

    fn at(second: i64) -> Timestamp {
        Timestamp::from_second(1_780_000_000 + second).unwrap()
    }

    fn stop() -> CueState {
        CueState {
            id: "stop-3600".to_owned(),
            bath: Ulid(1),
            batch: Ulid(2),
            what: CueKind::Stop,
            due: at(3600),
            status: CueStatus::Upcoming(SignedDuration::from_secs(3600)),
        }
    }

    fn unfolded(text: &str) -> String {
        text.replace("\r\n ", "")
    }

    #[test]
    fn an_event_has_a_stable_id_and_an_alarm_at_its_start() {
        let words = |_: &CueState| {
            CalendarWords {
            summary: "Stop the bath, rinse; cattail \u{2014} the long one that will not fit on a single line of the file".into(),
            description: "Line one\nline two \\ end\u{7}".into(),
        }
        };
        let text = calendar(&[stop()], at(1), words);
        assert!(text.split("\r\n").all(|l| l.len() <= 75 && !l.contains(['\r', '\n'])));
        let summary = r"Stop the bath\, rinse\; cattail — the long one that will not fit on a single line of the file";
        let lines = [
            "BEGIN:VCALENDAR",
            "VERSION:2.0",
            "PRODID:-//Bleachfield//Bath cues//EN",
            "CALSCALE:GREGORIAN",
            "METHOD:PUBLISH",
            "BEGIN:VEVENT",
            r"DESCRIPTION:Line one\nline two \\ end",
            "DTSTAMP:20260528T202641Z",
            "DTSTART:20260528T212640Z",
            "DURATION:PT5M",
            &format!("SUMMARY:{summary}"),
            "TRANSP:TRANSPARENT",
            "UID:00000000000000000000000001-stop-3600@bleachfield",
            "BEGIN:VALARM",
            "ACTION:DISPLAY",
            &format!("DESCRIPTION:{summary}"),
            "DTSTAMP:20260528T202641Z",
            "TRIGGER:PT0S",
            "UID:00000000000000000000000001-stop-3600-alarm@bleachfield",
            "END:VALARM",
            "END:VEVENT",
            "END:VCALENDAR",
            "",
        ];
        assert_eq!(unfolded(&text), lines.join("\r\n"));
    }

    #[test]
    fn a_description_is_left_out_if_empty() {
        let text = calendar(&[stop()], at(0), |_| CalendarWords {
            summary: "Stop".into(),
            description: String::new(),
        });
        assert_eq!(text.matches("DESCRIPTION").count(), 1);
    }

    proptest! {
        #[test]
        fn any_text_gives_lines_of_75_octets_that_unfold(summary in ".*", description in "\\PC*") {
            let words = |_: &CueState| CalendarWords {
                summary: summary.clone(),
                description: description.clone(),
            };
            let text = calendar(&[stop()], at(0), words);
            prop_assert!(text.split("\r\n").all(|l| l.len() <= 75 && !l.contains(['\r', '\n'])));
            let escaped = printable(&summary)
                .replace('\\', "\\\\")
                .replace(',', "\\,")
                .replace(';', "\\;")
                .replace('\n', "\\n");
            let line = format!("\r\nSUMMARY:{escaped}\r\n");
            prop_assert!(unfolded(&text).contains(&line));
        }
    }
}
