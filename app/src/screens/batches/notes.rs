//! The free words in an entry.

use bleachfield_core::journal::Body;

/// What the person wrote into it, where the kind has room for words.
pub fn note_of(body: &Body) -> Option<String> {
    note_of_mut(&mut body.clone()).map(std::mem::take).filter(|text| !text.trim().is_empty())
}

/// The same words, to be changed.
pub fn note_of_mut(body: &mut Body) -> Option<&mut String> {
    let text = match body {
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
    };
    Some(text)
}
