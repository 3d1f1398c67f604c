//! What the page shows when the program has stopped: the running baths, their clocks, and how to
//! stop them without the app. Kept in local storage for public/boot.js, which has no sentences of
//! its own, so they are rendered here while the program still can.

use bleachfield_core::{
    derive::cue::{self, CueKind, CueStatus},
    journal::{Book, Oxidant},
};
use jiff::Timestamp;
use leptos::prelude::*;
use serde::Serialize;

use super::running_bath::{batch_name, cue_name};
use crate::{
    i18n::{key, t, t_with},
    platform::{clock, local_storage},
    state::{LoadState, app_state},
    storage::Persistence,
};

const KEY: &str = "bleachfield.if_stopped";

/// A running bath, without what changes every second.
#[derive(Clone, Debug, PartialEq)]
struct RunningFacts {
    name: String,
    oxidant: Oxidant,
    started: Timestamp,
    /// The planned end; `None` if there is none, or its cue was skipped.
    end: Option<Timestamp>,
    /// The next cue but for the end.
    next: Option<(CueKind, Timestamp)>,
}

/// The value under [`KEY`]. boot.js reads these names.
#[derive(Serialize)]
struct IfStopped {
    version: &'static str,
    words: Words,
    baths: Vec<BathIfStopped>,
}

#[derive(Serialize)]
struct Words {
    head: String,
    why: String,
    cues: String,
    again: String,
    report: String,
    comes_back: String,
}

#[derive(Serialize)]
struct BathIfStopped {
    name: String,
    since: String,
    started_ms: i64,
    /// What to say of the end before it and after it.
    end: String,
    end_past: String,
    end_ms: Option<i64>,
    next: String,
    how_head: String,
    how: Vec<String>,
}

/// Keeps it up to date while the app runs. Once, at the root.
pub fn keep_for_stop() {
    let state = app_state();
    // Until the book is loaded, what was kept before is the best there is.
    let facts = Memo::new(move |_| {
        let loaded = matches!(state.load_state(), LoadState::Ready(_));
        loaded.then(|| {
            let now = state.now();
            state.book(|book| running_facts(book, now))
        })
    });
    Effect::new(move |_| {
        if let Some(facts) = facts.get() {
            let on_disk = state.persistence() == Persistence::OnDisk;
            local_storage::set(KEY, &IfStopped::of(facts, on_disk, clock::local_time));
        }
    });
}

fn running_facts(book: &Book, now: Timestamp) -> Vec<RunningFacts> {
    let facts = |bath| {
        let cues = cue::cues(bath, now);
        let end = cues.iter().find(|cue| cue.what == CueKind::Stop);
        let next = cues
            .iter()
            .find(|cue| cue.what != CueKind::Stop && matches!(cue.status, CueStatus::Upcoming(_)));
        RunningFacts {
            name: book.batches.get(&bath.batch).map(batch_name).unwrap_or_default(),
            oxidant: bath.oxidant,
            started: bath.started,
            end: end
                .filter(|cue| !matches!(cue.status, CueStatus::Answered { .. }))
                .map(|cue| cue.due),
            next: next.map(|cue| (cue.what, cue.due)),
        }
    };
    book.running().into_iter().map(facts).collect()
}

impl IfStopped {
    /// `on_disk`: what is written lasts longer than the page. `time` writes a time of day.
    fn of(facts: Vec<RunningFacts>, on_disk: bool, time: fn(Timestamp) -> String) -> Self {
        Self {
            version: env!("CARGO_PKG_VERSION"),
            words: Words::new(on_disk),
            baths: facts.into_iter().map(|facts| BathIfStopped::of(facts, time)).collect(),
        }
    }
}

impl Words {
    fn new(on_disk: bool) -> Self {
        Self {
            head: t!("stopped-head"),
            why: if on_disk { t!("stopped-why") } else { t!("stopped-why_memory") },
            cues: t!("stopped-cues"),
            again: t!("stopped-again"),
            report: t!("stopped-report"),
            comes_back: t!("stopped-comes_back"),
        }
    }
}

impl BathIfStopped {
    fn of(facts: RunningFacts, time: fn(Timestamp) -> String) -> Self {
        let RunningFacts { name, oxidant, started, end, next } = facts;
        let oxidant_name = t(&format!("sink-oxidant-{}", <&str>::from(oxidant)));
        let since = t_with!("sink-since", &[("time", &time(started))]);
        let at_end = |key| end.map(|end| t_with(key, &[("time", &time(end))]));
        let next = next.map(|(what, due)| {
            t_with!("stopped-next", &[("what", &cue_name(what)), ("time", &time(due))])
        });
        let clear = if oxidant == Oxidant::Hypochlorite {
            t!("stopped-how_rinse_chlorine")
        } else {
            t!("stopped-how_rinse_peroxide")
        };
        Self {
            name,
            since: format!("{oxidant_name} · {since}"),
            started_ms: started.as_millisecond(),
            end: at_end(key!("stopped-end")).unwrap_or_else(|| t!("stopped-no_end")),
            end_past: at_end(key!("stopped-end_past")).unwrap_or_default(),
            end_ms: end.map(Timestamp::as_millisecond),
            next: next.unwrap_or_default(),
            how_head: t!("stopped-how_head"),
            how: vec![
                t!("stopped-how_danger"),
                t!("stopped-how_wear"),
                t!("stopped-how_drain"),
                clear,
                t!("stopped-how_enter"),
            ],
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::{
        BathStarted, BathStopped, Body, CueAnswered, CueOutcome, DeviceId, EntryWriter, Schedule,
        StopReason, Subject,
    };
    use jiff::SignedDuration;
    use ulid::Ulid;

    const BATH: Ulid = Ulid::from_parts(2, 2);
    const PAGE: &str = include_str!("../../../index.html");
    const SCRIPT: &str = include_str!("../../../../public/boot.js");

    fn after(minutes: i64) -> Timestamp {
        Timestamp::UNIX_EPOCH + SignedDuration::from_mins(minutes)
    }

    /// A bath that is to be stirred every 15 min and stopped after 60, and what followed.
    fn book_of(bodies: Vec<Body>) -> Book {
        let mut writer = EntryWriter::new(DeviceId::new("a").unwrap(), None);
        let schedule =
            Schedule { stir_every_min: Some(15.0), stop_at_min: Some(60.0), ..Schedule::default() };
        let started = Body::BathStarted(BathStarted {
            bath: BATH,
            plan: None,
            oxidant: Oxidant::Percarbonate,
            product: None,
            product_amount: None,
            water_added_ml: None,
            celsius: None,
            schedule,
        });
        let about = Subject::Batch(Ulid::from_parts(1, 1));
        let bodies = std::iter::once(started).chain(bodies).enumerate();
        Book::of(
            bodies.map(|(i, body)| {
                writer.write(after(i as i64), i as u128, "", about, body).unwrap()
            }),
        )
    }

    #[test]
    fn a_running_bath_is_kept_with_its_end_and_its_next_check() {
        let facts = running_facts(&book_of(Vec::new()), after(16));
        let [bath] = &facts[..] else { panic!("{facts:?}") };
        assert_eq!((bath.started, bath.oxidant), (after(0), Oxidant::Percarbonate));
        assert_eq!(bath.end, Some(after(60)));
        assert_eq!(bath.next, Some((CueKind::Stir, after(30))));
        // Once its end has passed it is still there.
        assert_eq!(running_facts(&book_of(Vec::new()), after(90))[0].end, Some(after(60)));
    }

    #[test]
    fn a_skipped_end_is_none_and_a_stopped_bath_is_gone() {
        let cue = "stop-3600".to_owned();
        let skipped = CueAnswered { bath: BATH, cue, outcome: CueOutcome::Skipped };
        let facts = running_facts(&book_of(vec![Body::CueAnswered(skipped)]), after(61));
        assert_eq!(facts[0].end, None);
        let stopped = BathStopped { bath: BATH, why: StopReason::Unsafe, note: String::new() };
        let book = book_of(vec![Body::BathStopped(stopped)]);
        assert_eq!(running_facts(&book, after(2)), []);
    }

    #[test]
    fn each_place_of_the_page_has_a_text() {
        let facts = running_facts(&book_of(Vec::new()), after(1));
        let kept = IfStopped::of(facts, true, |at| at.to_string());
        let kept = serde_json::to_value(kept).unwrap();
        let named = |attribute: &str| -> Vec<&str> {
            let places = PAGE.split(attribute).skip(1);
            places.map(|place| place.split('"').next().unwrap()).collect()
        };
        let (words, slots) = (named("data-word=\""), named("data-slot=\""));
        assert!(words.len() >= 5 && slots.len() >= 5, "{words:?} {slots:?}");
        let texts = words.into_iter().map(|word| &kept["words"][word]);
        let texts = texts.chain(slots.into_iter().map(|slot| &kept["baths"][0][slot]));
        for text in texts.chain(kept["baths"][0]["how"].as_array().unwrap()) {
            let text = text.as_str().unwrap_or_else(|| panic!("{kept:#}"));
            assert!(!text.is_empty() && !text.contains("stopped-"), "{text}");
        }
        assert!(SCRIPT.contains(&format!("'{KEY}'")));
        for name in ["started_ms", "end", "end_past", "end_ms", "how"] {
            assert!(SCRIPT.contains(&format!("bath.{name}")), "{name}");
        }
        assert_eq!(kept["baths"][0]["started_ms"], 0);
        assert_eq!(kept["baths"][0]["end_ms"], 3_600_000);
    }
}
