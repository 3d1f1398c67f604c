//! Cues as a calendar file, for a phone that locks: its own calendar rings
//! where a web page no longer may.
//!
//! RFC 5545 (2009): content lines §3.1, text §3.3.11, UTC date-times §3.3.5,
//! `VEVENT` §3.6.1, `VALARM` §3.6.6.

use super::CueState;
use jiff::Timestamp;
use jiff::tz::TimeZone;

/// What the calendar entry of a cue says.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CalendarWords {
    /// One short line, shown by the alarm.
    pub summary: String,
    /// More, if there is more; may have several lines.
    pub description: String,
}

/// An event with an alarm.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CalendarEvent {
    /// Names the event for good: a newer file with the same one moves it.
    pub uid: String,
    pub due: Timestamp,
    pub words: CalendarWords,
}

/// An iCalendar text with one event and one alarm for each of `cues`.
///
/// `made` is the present instant. `words` says what a cue is called; the core
/// has no words of its own. The same cue always has the same UID, so opening
/// a newer file moves the event instead of doubling it.
pub fn calendar(
    cues: &[CueState],
    made: Timestamp,
    words: impl Fn(&CueState) -> CalendarWords,
) -> String {
    let event = |cue: &CueState| CalendarEvent {
        uid: format!("{}-{}", cue.bath, cue.id),
        due: cue.due,
        words: words(cue),
    };
    calendar_of(&cues.iter().map(event).collect::<Vec<_>>(), made)
}

/// An iCalendar text with these events; `made` is the present instant.
pub fn calendar_of(events: &[CalendarEvent], made: Timestamp) -> String {
    let mut text = String::new();
    line(&mut text, "BEGIN:VCALENDAR");
    line(&mut text, "VERSION:2.0");
    line(&mut text, "PRODID:-//Bleachfield//Bath cues//EN");
    line(&mut text, "CALSCALE:GREGORIAN");
    line(&mut text, "METHOD:PUBLISH");
    for CalendarEvent { uid, due, words } in events {
        line(&mut text, "BEGIN:VEVENT");
        line(&mut text, &format!("UID:{uid}@bleachfield"));
        line(&mut text, &format!("DTSTAMP:{}", utc(made)));
        line(&mut text, &format!("DTSTART:{}", utc(*due)));
        line(&mut text, "DURATION:PT5M");
        line(&mut text, &format!("SUMMARY:{}", escaped(&words.summary)));
        if !words.description.is_empty() {
            line(&mut text, &format!("DESCRIPTION:{}", escaped(&words.description)));
        }
        line(&mut text, "TRANSP:TRANSPARENT");
        line(&mut text, "BEGIN:VALARM");
        line(&mut text, "ACTION:DISPLAY");
        line(&mut text, &format!("DESCRIPTION:{}", escaped(&words.summary)));
        line(&mut text, "TRIGGER:PT0S");
        line(&mut text, "END:VALARM");
        line(&mut text, "END:VEVENT");
    }
    line(&mut text, "END:VCALENDAR");
    text
}

/// Appends a content line, folded so that no line is over 75 octets and no
/// character is cut in two, and ended by CR LF.
fn line(text: &mut String, content: &str) {
    let mut room = 75;
    for c in content.chars() {
        if c.len_utf8() > room {
            text.push_str("\r\n ");
            room = 74;
        }
        text.push(c);
        room -= c.len_utf8();
    }
    text.push_str("\r\n");
}

fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for c in words.chars() {
        match c {
            '\\' | ';' | ',' => text.extend(['\\', c]),
            '\n' => text.push_str("\\n"),
            // Control characters have no place in a text value.
            c if c.is_control() && c != '\t' => {}
            c => text.push(c),
        }
    }
    text
}

/// `20260503T102201Z`; parts of a second are cut off.
fn utc(at: Timestamp) -> String {
    let t = TimeZone::UTC.to_datetime(at);
    format!(
        "{:04}{:02}{:02}T{:02}{:02}{:02}Z",
        t.year(),
        t.month(),
        t.day(),
        t.hour(),
        t.minute(),
        t.second()
    )
}
