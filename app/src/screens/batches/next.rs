//! What to do next with a batch: one thing, so that wet hands need not choose.

use bleachfield_core::{
    derive::SignOffEvidence,
    journal::{Batch, BatchState, Body},
    pulp::sign_off::SignOffStatus,
};
use ulid::Ulid;

use crate::i18n::key;
use crate::route::{BatchForm, Route};

/// The next step of a batch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextStep {
    /// Put it on the scale: no plan can be made without.
    Weigh,
    Plan,
    /// A plan was made and its bath has not begun.
    Start,
    /// A bath is running: watch it, and stop it, at the Sink.
    Watch,
    Rinse,
    EndTests,
    SignOff,
    Store,
    Sheets,
    /// Nothing is left to do.
    Nothing,
}

impl NextStep {
    /// The next step of `batch`.
    pub fn of(batch: &Batch) -> Self {
        // Rinsing before any bath is rinsing off the cook.
        let state = match batch.state {
            BatchState::Washing if batch.baths.is_empty() => BatchState::Planning,
            state => state,
        };
        match state {
            BatchState::Planning if batch.weighed.is_none() => NextStep::Weigh,
            BatchState::Planning if batch.plan.is_none() => NextStep::Plan,
            BatchState::Planning => NextStep::Start,
            BatchState::Running => NextStep::Watch,
            BatchState::Stopped => NextStep::Rinse,
            BatchState::Washing => washing(batch),
            BatchState::Clean | BatchState::Unproven => NextStep::Store,
            BatchState::Stored => NextStep::Sheets,
            BatchState::Used | BatchState::Abandoned => NextStep::Nothing,
        }
    }

    /// Locale key under `next`; nothing for [`NextStep::Nothing`].
    pub fn key(self) -> &'static str {
        match self {
            NextStep::Weigh => key!("next-weigh"),
            NextStep::Plan => key!("next-plan"),
            NextStep::Start => key!("next-start"),
            NextStep::Watch => key!("next-watch"),
            NextStep::Rinse => key!("next-rinse"),
            NextStep::EndTests => key!("next-end_tests"),
            NextStep::SignOff => key!("next-sign_off"),
            NextStep::Store => key!("next-store"),
            NextStep::Sheets => key!("next-sheets"),
            NextStep::Nothing => key!("next-nothing"),
        }
    }

    /// Where the step is taken: an address, or a form on the page itself.
    pub fn way(self, batch: Ulid) -> Option<StepTarget> {
        Some(match self {
            NextStep::Weigh => StepTarget::Form(BatchForm::Weigh),
            NextStep::Plan | NextStep::Start => StepTarget::Route(Route::Plan(batch)),
            NextStep::Watch => StepTarget::Route(Route::Sink),
            NextStep::Rinse => StepTarget::Form(BatchForm::Rinse),
            NextStep::EndTests => StepTarget::Form(BatchForm::EndTest),
            NextStep::SignOff => StepTarget::Form(BatchForm::SignOff),
            NextStep::Store => StepTarget::Form(BatchForm::Store),
            NextStep::Sheets => StepTarget::Form(BatchForm::Sheets),
            NextStep::Nothing => return None,
        })
    }
}

/// Where a step is taken.
pub enum StepTarget {
    Route(Route),
    Form(BatchForm),
}

/// After the first rinse: test, rinse again while a test fails, then sign off.
fn washing(batch: &Batch) -> NextStep {
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let failing = gaps.iter().any(|gap| gap.status == SignOffStatus::Failing);
    let tested_last = batch
        .visible_entries()
        .rev()
        .find_map(|told| match told.body {
            Body::EndTest(_) => Some(true),
            Body::Rinsed(_) | Body::Antichlored(_) => Some(false),
            _ => None,
        })
        .unwrap_or(false);
    match (gaps.is_empty(), failing && tested_last) {
        (true, _) => NextStep::SignOff,
        (false, true) => NextStep::Rinse,
        (false, false) => NextStep::EndTests,
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::*;
    use bleachfield_core::quantity::{Basis, Estimate};
    use jiff::{SignedDuration, Timestamp};

    /// The steps of a batch, one entry after another.
    fn steps(bodies: Vec<Body>) -> Vec<NextStep> {
        let mut pen = EntryWriter::new(DeviceId::new("a").unwrap(), None);
        let batch = Ulid::from_parts(1, 1);
        let mut book = Book::default();
        bodies
            .into_iter()
            .enumerate()
            .map(|(i, body)| {
                let now = Timestamp::UNIX_EPOCH + SignedDuration::from_mins(i as i64);
                let entry = pen.write(now, i as u128, "", Subject::Batch(batch), body).unwrap();
                book.add([entry]);
                NextStep::of(&book.batches[&batch])
            })
            .collect()
    }

    fn figure(value: f64) -> Figure {
        Estimate::exact(value, Basis::Measured)
    }

    #[test]
    fn rinsing_off_the_cook_leads_to_the_bath() {
        let weighed = Weighed {
            wet_mass_g: figure(500.0),
            dryness: figure(0.2),
            how: DrynessFrom::Assumed,
            sample: None,
        };
        let rinse = Rinsed {
            water_l: figure(5.0),
            minutes: None,
            dryness_after: None,
            ph: None,
            strip_mg_per_l: None,
            note: String::new(),
        };
        let bodies =
            vec![Body::Cooked(Cook::default()), Body::Rinsed(rinse), Body::Weighed(weighed)];
        assert_eq!(steps(bodies), [NextStep::Weigh, NextStep::Weigh, NextStep::Plan]);
    }

    #[test]
    fn the_whole_way_from_lump_to_sheet() {
        let bath = Ulid::from_parts(2, 2);
        let test = |test, outcome| {
            Body::EndTest(EndTest { test, outcome, figure: None, note: String::new() })
        };
        let (passed, failed) = (Outcome::Passed, Outcome::Failed);
        let rinse = Rinsed {
            water_l: figure(5.0),
            minutes: None,
            dryness_after: None,
            ph: None,
            strip_mg_per_l: None,
            note: String::new(),
        };
        let bodies = vec![
            Body::BatchStarted(BatchStarted::default()),
            Body::Weighed(Weighed {
                wet_mass_g: figure(500.0),
                dryness: figure(0.2),
                how: DrynessFrom::Assumed,
                sample: None,
            }),
            Body::BathStarted(BathStarted {
                bath,
                plan: None,
                oxidant: Oxidant::Hypochlorite,
                product: None,
                product_amount: None,
                water_added_ml: None,
                celsius: None,
                schedule: bleachfield_core::journal::Schedule::default(),
            }),
            Body::BathStopped(BathStopped { bath, why: StopReason::TimeUp, note: String::new() }),
            Body::Rinsed(rinse.clone()),
            test(EndTestOf::ChlorineStrip, failed),
            Body::Rinsed(rinse),
            test(EndTestOf::ChlorineStrip, passed),
            test(EndTestOf::LastRinsePh, passed),
            test(EndTestOf::Feel, passed),
            Body::SignedOff(SignedOff { complete: true, reason: String::new() }),
            Body::Stored(Stored {
                lot: Ulid::from_parts(3, 3),
                wet_mass_g: figure(480.0),
                dryness: figure(0.2),
                form: StoredForm::WetCold,
                place: String::new(),
                keep_by: None,
                note: String::new(),
            }),
            Body::Sheets(Sheets {
                count: 12,
                format: String::new(),
                width_mm: None,
                height_mm: None,
                grammage_g_per_m2: None,
                dry_g: None,
                note: String::new(),
            }),
        ];
        assert_eq!(
            steps(bodies),
            [
                NextStep::Weigh,
                NextStep::Plan,
                NextStep::Watch,
                NextStep::Rinse,
                NextStep::EndTests,
                NextStep::Rinse,
                NextStep::EndTests,
                NextStep::EndTests,
                NextStep::EndTests,
                NextStep::SignOff,
                NextStep::Store,
                NextStep::Sheets,
                NextStep::Nothing
            ]
        );
    }
}
