//! The free text of an entry.

use bleachfield_core::journal::Body;

/// The text, if there is any.
pub fn note_of(body: &Body) -> Option<String> {
    note_mut(&mut body.clone()).map(std::mem::take).filter(|text| !text.trim().is_empty())
}

/// The text, to be changed; `None` for a kind of entry that has none.
pub fn note_mut(body: &mut Body) -> Option<&mut String> {
    Some(match body {
        Body::BatchStarted(b) => &mut b.note,
        Body::Cooked(b) => &mut b.note,
        Body::Planned(b) => &mut b.note,
        Body::Added(b) => &mut b.note,
        Body::BathStopped(b) => &mut b.note,
        Body::Reading(b) => &mut b.text,
        Body::Photo(b) => &mut b.caption,
        Body::Note(b) => &mut b.text,
        Body::Rinsed(b) => &mut b.note,
        Body::Antichlored(b) => &mut b.note,
        Body::EndTest(b) => &mut b.note,
        Body::AcidFinished(b) => &mut b.note,
        Body::SignedOff(b) => &mut b.reason,
        Body::Stored(b) => &mut b.note,
        Body::Sheets(b) => &mut b.note,
        Body::Abandoned(b) => &mut b.why,
        Body::ScheduleChanged(b) => &mut b.why,
        _ => return None,
    })
}
