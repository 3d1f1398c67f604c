//! The next step of a batch: one, so that wet hands need not choose.

use bleachfield_core::{
    derive::{
        Station,
        ladder::{Ladder, RungKind},
    },
    journal::{Batch, BatchState, Book},
};
use ulid::Ulid;

use crate::{
    i18n::key,
    route::{BatchForm, Route},
};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextStep {
    /// Write down the cook of the raw fibre.
    Cook,
    /// Weigh the pulp: a plan needs it.
    Weigh,
    Plan,
    /// Start the planned bath.
    Start,
    /// Watch the running bath, and stop it, at the Sink.
    Watch,
    Rinse,
    EndTests,
    SignOff,
    Store,
    Sheets,
    Nothing,
}

/// Where a step is done.
pub enum StepTarget {
    Route(Route),
    /// A form of the batch's page.
    Form(BatchForm),
}

impl NextStep {
    /// The one next step at the station where the pulp is.
    pub fn of(book: &Book, batch: &Batch) -> Self {
        match Station::of(book, batch) {
            None => Self::Nothing,
            Some(Station::Cook) => Self::Cook,
            Some(Station::Rinse) => Self::Weigh,
            Some(Station::Plan) => Self::Plan,
            Some(Station::Bath) if batch.state == BatchState::Running => Self::Watch,
            Some(Station::Bath) => Self::Start,
            Some(Station::Wash) => Self::Rinse,
            Some(Station::Prove) => {
                let now = Ladder::of(book, batch).and_then(|ladder| ladder.now());
                if now == Some(RungKind::SignOff) { Self::SignOff } else { Self::EndTests }
            }
            Some(Station::Store) => Self::Store,
            Some(Station::Sheets) if batch.state == BatchState::Used => Self::Nothing,
            Some(Station::Sheets) => Self::Sheets,
        }
    }

    /// Locale key of its name.
    pub fn key(self) -> &'static str {
        match self {
            Self::Cook => key!("next-cook"),
            Self::Weigh => key!("next-weigh"),
            Self::Plan => key!("next-plan"),
            Self::Start => key!("next-start"),
            Self::Watch => key!("next-watch"),
            Self::Rinse => key!("next-rinse_now"),
            Self::EndTests => key!("next-end_tests"),
            Self::SignOff => key!("next-sign_off"),
            Self::Store => key!("next-store"),
            Self::Sheets => key!("next-sheets"),
            Self::Nothing => key!("next-nothing"),
        }
    }

    /// Where it is done; `None` for [`Self::Nothing`].
    pub fn target(self, batch: Ulid) -> Option<StepTarget> {
        Some(StepTarget::Form(match self {
            Self::Plan | Self::Start => return Some(StepTarget::Route(Route::Plan(batch))),
            Self::Watch => return Some(StepTarget::Route(Route::Sink)),
            // The ladder on the batch's page has the rinse or test that is next.
            Self::Rinse | Self::EndTests => {
                return Some(StepTarget::Route(Route::batch(batch)));
            }
            Self::Nothing => return None,
            Self::Cook => BatchForm::Cook,
            Self::Weigh => BatchForm::Weigh,
            Self::SignOff => BatchForm::SignOff,
            Self::Store => BatchForm::Store,
            Self::Sheets => BatchForm::Sheets,
        }))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::{Body, DeviceId, EntryWriter, Subject};
    use jiff::{SignedDuration, Timestamp};
    use serde_json::{Value, json};

    /// The next step after each of the entries.
    fn steps(bodies: &[Value]) -> Vec<NextStep> {
        let mut writer = EntryWriter::new(DeviceId::new("a").unwrap(), None);
        let batch = Ulid::from_parts(1, 1);
        let mut book = Book::default();
        let step = |(i, body): (usize, &Value)| {
            let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
            let body: Body = serde_json::from_value(body.clone()).unwrap();
            assert!(!matches!(body, Body::Unknown(_)), "{body:?}");
            let entry = writer.write(now, i as u128, "", Subject::Batch(batch), body).unwrap();
            book.add([entry]);
            NextStep::of(&book, &book.batches[&batch])
        };
        bodies.iter().enumerate().map(step).collect()
    }

    fn figure(value: f64) -> Value {
        json!({ "value": value, "low": value, "high": value, "basis": "measured" })
    }

    fn weighed() -> Value {
        json!({ "kind": "weighed", "wet_mass_g": figure(500.0), "dryness": figure(0.2), "how": "assumed" })
    }

    fn rinsed() -> Value {
        json!({ "kind": "rinsed", "water_l": figure(5.0) })
    }

    fn end_test(test: &str, outcome: &str) -> Value {
        json!({ "kind": "end_test", "test": test, "outcome": outcome })
    }

    #[test]
    fn a_rinse_before_any_bath_leads_to_the_plan() {
        let bodies = [json!({ "kind": "cooked" }), rinsed(), weighed()];
        assert_eq!(steps(&bodies), [NextStep::Weigh, NextStep::Weigh, NextStep::Plan]);
    }

    #[test]
    fn every_step_from_weighing_to_sheets() {
        let bath = Ulid::from_parts(2, 2);
        let bath_started = json!({
            "kind": "bath_started", "bath": bath, "oxidant": "hypochlorite", "schedule": {},
        });
        let stored = json!({
            "kind": "stored", "lot": Ulid::from_parts(3, 3), "wet_mass_g": figure(480.0),
            "dryness": figure(0.2), "form": "wet_cold",
        });
        let (bodies, expected): (Vec<Value>, Vec<NextStep>) = [
            (json!({ "kind": "batch_started", "name": "", "fibre": "" }), NextStep::Weigh),
            (weighed(), NextStep::Plan),
            (bath_started, NextStep::Watch),
            (json!({ "kind": "bath_stopped", "bath": bath, "why": "time_up" }), NextStep::Rinse),
            (rinsed(), NextStep::EndTests),
            (end_test("chlorine_strip", "failed"), NextStep::Rinse),
            (rinsed(), NextStep::EndTests),
            (end_test("chlorine_strip", "passed"), NextStep::EndTests),
            (end_test("last_rinse_ph", "passed"), NextStep::EndTests),
            (end_test("feel", "passed"), NextStep::SignOff),
            (json!({ "kind": "signed_off", "complete": true }), NextStep::Store),
            (stored, NextStep::Sheets),
            (json!({ "kind": "sheets", "count": 12 }), NextStep::Nothing),
        ]
        .into_iter()
        .unzip();
        assert_eq!(steps(&bodies), expected);
    }
}
