//! Answers of cues on the timeline: one that an entry of the act itself says already is no line
//! of its own.

use jiff::SignedDuration;

use crate::journal::{Batch, Body, CueOutcome, ReadingOf, TimelineEntry};

/// Entries of one act of a person are this close (own estimate: one write, two clock reads).
const ONE_ACT: SignedDuration = SignedDuration::from_secs(2);

/// Whether the entry is an answer "done" to a cue, and what was done has an entry of its own
/// that is shown.
pub fn is_told_by_act(batch: &Batch, entry: &TimelineEntry) -> bool {
    let Body::CueAnswered(answer) = &entry.body else { return false };
    if answer.outcome != CueOutcome::Done {
        return false;
    }
    let kind = answer.cue.split('-').next().unwrap_or_default();
    batch.visible_entries().any(|other| {
        (other.at - entry.at).abs() <= ONE_ACT
            && match (kind, &other.body) {
                ("stir", Body::Stirred(stirred)) => stirred.bath == answer.bath,
                ("reheat", Body::Reheated(reheated)) => reheated.bath == answer.bath,
                ("stop", Body::BathStopped(stopped)) => stopped.bath == answer.bath,
                ("photo", Body::Photo(photo)) => photo.bath == Some(answer.bath),
                (kind, Body::Reading(reading)) => {
                    let asked = match reading.what {
                        ReadingOf::Celsius => "reheat",
                        ReadingOf::Ph => "ph",
                        ReadingOf::AvailableChlorineMgPerL
                        | ReadingOf::PeroxideMgPerL
                        | ReadingOf::StarchIodide => "strip",
                        _ => return false,
                    };
                    reading.bath == Some(answer.bath) && asked == kind
                }
                _ => false,
            }
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use ulid::Ulid;

    use super::*;
    use crate::{
        derive::sample::{book_of, exact},
        journal::{CueAnswered, EntryWriter, Reading, Stirred, Subject, sample::device},
    };

    const BATH: Ulid = Ulid(7);

    fn answer(cue: &str, outcome: CueOutcome) -> Body {
        Body::CueAnswered(CueAnswered { bath: BATH, cue: cue.into(), outcome })
    }

    /// Whether the last of the bodies is told by the others, all written in one act.
    fn told(bodies: Vec<Body>) -> bool {
        let about = Subject::Batch(Ulid(1));
        let mut writer = EntryWriter::new(device("a"), None);
        let now = jiff::Timestamp::UNIX_EPOCH;
        let entries = bodies
            .into_iter()
            .enumerate()
            .map(|(nth, body)| writer.write(now, nth as u128, "", about, body).unwrap());
        let book = crate::journal::Book::of(entries);
        let batch = book.batches.values().next().unwrap();
        is_told_by_act(batch, batch.timeline.last().unwrap())
    }

    #[test]
    fn stirring_at_a_cue_is_one_line() {
        let stirred = Body::Stirred(Stirred { bath: BATH });
        assert!(told(vec![stirred.clone(), answer("stir-900", CueOutcome::Done)]));
        assert!(!told(vec![stirred.clone(), answer("stir-900", CueOutcome::Skipped)]));
        assert!(!told(vec![stirred, answer("ph-900", CueOutcome::Done)]));
        assert!(!told(vec![answer("stir-900", CueOutcome::Done)]));
        let other = Body::Stirred(Stirred { bath: Ulid(8) });
        assert!(!told(vec![other, answer("stir-900", CueOutcome::Done)]));
    }

    #[test]
    fn a_reading_tells_the_cue_that_asked_for_it() {
        let read = |what| {
            Body::Reading(Reading {
                bath: Some(BATH),
                what,
                figure: Some(exact(10.0)),
                text: String::new(),
            })
        };
        assert!(told(vec![read(ReadingOf::Ph), answer("ph-1800", CueOutcome::Done)]));
        assert!(!told(vec![read(ReadingOf::Ph), answer("strip-1800", CueOutcome::Done)]));
    }

    #[test]
    fn an_answer_long_after_stirring_is_a_line() {
        // The entries of this book are a minute apart.
        let about = Subject::Batch(Ulid(1));
        let bodies = [Body::Stirred(Stirred { bath: BATH }), answer("stir-900", CueOutcome::Done)];
        let book = book_of(bodies.map(|body| (about, body)));
        let batch = book.batches.values().next().unwrap();
        assert!(!is_told_by_act(batch, batch.timeline.last().unwrap()));
    }
}
