//! The end tests of a batch and what bears on them, from its log. A reading that was saved with a
//! rinse, or after one, counts as the test that it is.
//! Not here: which tests are needed and what they prove, which is `pulp::sign_off`.

use jiff::Timestamp;
use ulid::Ulid;

use crate::journal::{
    Additive, Antichlor, Batch, Body, EndTest, EndTestOf, Figure, Outcome, Oxidant, Reading,
    ReadingOf, Rinsed, StripOf,
};
use crate::pulp::sign_off::{
    EndTestKind, EndTestReading, EndTestResult, EndTestVerdict, OxidantsUsed, SignOff,
    SignOffStatus, UnmetTest, ZeroChlorine, unmet_tests,
};

/// The end tests of a batch and what bears on them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SignOffEvidence {
    pub used: OxidantsUsed,
    pub log: Vec<EndTestResult>,
    /// The last change that could affect a test.
    pub changed: Option<Timestamp>,
    /// The last time that an oxidant was in the batch or was added to it: a
    /// chlorine test at zero must be later before acid is added.
    pub last_oxidant: Option<Timestamp>,
    /// Something was added that only a note names; it may be any oxidant.
    pub unnamed: bool,
}

impl SignOffEvidence {
    /// The evidence of a batch: withdrawn entries left out, corrected entries
    /// as corrected.
    pub fn of(batch: &Batch) -> Self {
        let mut found = Self { used: used(batch), ..Self::default() };
        found.log = test_results(batch).into_iter().map(|(_, result)| result).collect();
        for entry in batch.visible_entries() {
            let at = Some(entry.at);
            match &entry.body {
                Body::BathStarted(_) | Body::BathStopped(_) => {
                    (found.changed, found.last_oxidant) = (at, at);
                }
                Body::Added(added) => {
                    found.changed = at;
                    match added.what {
                        Additive::Hypochlorite | Additive::Percarbonate | Additive::Peroxide => {}
                        // It may be an oxidant: only its note says, in free text.
                        Additive::Other => found.unnamed = true,
                        _ => continue,
                    }
                    found.last_oxidant = at;
                }
                Body::Antichlored(_) | Body::AcidFinished(_) | Body::ReserveAdded(_) => {
                    found.changed = at;
                }
                _ => {}
            }
        }
        found
    }

    /// The tests that keep the batch from being signed off as clean.
    pub fn unmet_tests(&self) -> Vec<UnmetTest> {
        unmet_tests(self.used, &self.log, self.changed)
    }

    /// The proof that acid may be added.
    ///
    /// # Errors
    /// The test that is unmet.
    pub fn acid_proof(&self) -> Result<ZeroChlorine, UnmetTest> {
        let hypochlorite = self.used.hypochlorite || self.unnamed;
        let used = OxidantsUsed { hypochlorite, ..self.used };
        ZeroChlorine::from_log(used, &self.log, self.last_oxidant)
    }
}

impl SignOff {
    /// The sign-off in force; `None` if there is none, or no longer. One that was complete is not
    /// clean while a later test fails.
    pub fn of(batch: &Batch) -> Option<Self> {
        batch.signed_off.as_ref().map(|signed| {
            let mut unmet = SignOffEvidence::of(batch).unmet_tests();
            if signed.complete {
                unmet.retain(|test| test.status == SignOffStatus::Failing);
            }
            Self {
                clean: signed.complete && unmet.is_empty(),
                unmet,
                reason: signed.reason.clone(),
            }
        })
    }
}

/// The oxidants that the batch has met.
fn used(batch: &Batch) -> OxidantsUsed {
    let mut used = OxidantsUsed {
        hypochlorite: batch.baths.iter().any(|b| b.oxidant == Oxidant::Hypochlorite),
        peroxide: batch.baths.iter().any(|b| b.oxidant != Oxidant::Hypochlorite),
    };
    for entry in batch.visible_entries() {
        match &entry.body {
            Body::Added(added) => match added.what {
                Additive::Hypochlorite => used.hypochlorite = true,
                Additive::Percarbonate | Additive::Peroxide => used.peroxide = true,
                _ => {}
            },
            Body::Antichlored(done) => used.peroxide |= done.reagent == Antichlor::Peroxide,
            _ => {}
        }
    }
    used
}

/// Every result of an end test in the batch's log, each with its entry: of end tests, of the
/// readings saved with a rinse or an antichlor, and of readings after a rinse.
pub(super) fn test_results(batch: &Batch) -> Vec<(Ulid, EndTestResult)> {
    let tap_ph = batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Reading(reading) if reading.what == ReadingOf::TapPh => Some(reading.figure?.value),
        _ => None,
    });
    let mut known = ReadingContext { used: used(batch), tap_ph, rinsed: false };
    let mut results = Vec::new();
    for entry in batch.visible_entries() {
        let at = entry.at;
        let found = match &entry.body {
            Body::EndTest(test) => end_test_result(test, at).into_iter().collect(),
            Body::Rinsed(rinse) => {
                known.rinsed = true;
                known.of_rinse(rinse, at)
            }
            Body::Antichlored(done) => known.of_strip(done.strip_mg_per_l, None, at),
            Body::Reading(reading) if reading.bath.is_none() && known.rinsed => {
                known.of_reading(reading, at)
            }
            // What is read before the next rinse is of the liquor, not of rinsed pulp.
            Body::BathStarted(_) | Body::BathStopped(_) | Body::Added(_) => {
                known.rinsed = false;
                Vec::new()
            }
            _ => Vec::new(),
        };
        results.extend(found.into_iter().map(|result| (entry.entry.id, result)));
    }
    results
}

/// What bears on the verdict of a reading.
struct ReadingContext {
    used: OxidantsUsed,
    /// The last pH of the tap water that was read.
    tap_ph: Option<f64>,
    /// Rinsed since the last oxidant.
    rinsed: bool,
}

impl ReadingContext {
    fn of_rinse(&self, rinse: &Rinsed, at: Timestamp) -> Vec<EndTestResult> {
        let strip = self.of_strip(rinse.strip_mg_per_l, rinse.strip_of, at);
        strip.into_iter().chain(self.of_ph(rinse.ph, at)).collect()
    }

    fn of_reading(&self, reading: &Reading, at: Timestamp) -> Vec<EndTestResult> {
        let figure = reading.figure;
        match reading.what {
            ReadingOf::Ph => self.of_ph(figure, at).into_iter().collect(),
            ReadingOf::AvailableChlorineMgPerL => {
                self.of_strip(figure, Some(StripOf::AvailableChlorine), at)
            }
            ReadingOf::PeroxideMgPerL => self.of_strip(figure, Some(StripOf::Peroxide), at),
            // That it did not turn proves nothing: nobody said at which pH.
            ReadingOf::StarchIodide if figure.is_some_and(|turned| turned.value != 0.0) => {
                let turned = EndTestReading::StarchIodide { turned: true, liquor_ph: None };
                vec![EndTestResult::of(turned, at)]
            }
            _ => Vec::new(),
        }
    }

    /// A strip that is not named fails the test of every oxidant that was used when it has
    /// colour, and passes none when it has not: a strip of the other kind shows no colour either.
    fn of_strip(
        &self,
        strip: Option<Figure>,
        named: Option<StripOf>,
        at: Timestamp,
    ) -> Vec<EndTestResult> {
        let Some(strip) = strip else { return Vec::new() };
        let has_colour = strip.value != 0.0;
        let verdict = if has_colour { EndTestVerdict::Fail } else { EndTestVerdict::Pass };
        let is_of = |kind, used| match named {
            Some(named) => named == kind,
            None => has_colour && used,
        };
        let kinds = [
            (StripOf::AvailableChlorine, self.used.hypochlorite, EndTestKind::ChlorineStrip),
            (StripOf::Peroxide, self.used.peroxide, EndTestKind::PeroxideStrip),
        ];
        let found = kinds.into_iter().filter(|(kind, used, _)| is_of(*kind, *used));
        found.map(|(_, _, test)| EndTestResult { test, verdict, at }).collect()
    }

    /// A pH is a test once the tap water was read.
    fn of_ph(&self, ph: Option<Figure>, at: Timestamp) -> Option<EndTestResult> {
        let (rinse, tap) = (ph?.value, self.tap_ph?);
        Some(EndTestResult::of(EndTestReading::RinsePh { rinse, tap }, at))
    }
}

/// The result of a recorded end test. A strip that was called passed but has a
/// figure other than zero has failed. `None` for a smell, which proves nothing.
pub fn end_test_result(entry: &EndTest, at: Timestamp) -> Option<EndTestResult> {
    let test = match entry.test {
        EndTestOf::ChlorineStrip => EndTestKind::ChlorineStrip,
        EndTestOf::PeroxideStrip => EndTestKind::PeroxideStrip,
        EndTestOf::StarchIodide => EndTestKind::StarchIodide,
        EndTestOf::LastRinsePh => EndTestKind::RinsePh,
        EndTestOf::Feel => EndTestKind::Feel,
        EndTestOf::Smell => return None,
    };
    let is_strip = matches!(test, EndTestKind::ChlorineStrip | EndTestKind::PeroxideStrip);
    let has_colour = is_strip && entry.figure.is_some_and(|figure| figure.value != 0.0);
    let verdict = match entry.outcome {
        Outcome::Passed if has_colour => EndTestVerdict::Fail,
        Outcome::Passed => EndTestVerdict::Pass,
        Outcome::Failed => EndTestVerdict::Fail,
        Outcome::Unclear => EndTestVerdict::Inconclusive,
    };
    Some(EndTestResult { test, verdict, at })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::derive::sample::{book, exact, reading, rinse};
    use crate::journal::{Added, Amount, BathStopped, StopReason, sample::bath_started};
    use crate::quantity::{Basis, Estimate};

    fn evidence(bodies: Vec<Body>) -> SignOffEvidence {
        SignOffEvidence::of(book(bodies).batches.values().next().unwrap())
    }

    /// A bath that was stopped, and what came after it.
    fn after_bath(oxidant: Oxidant, bodies: Vec<Body>) -> SignOffEvidence {
        let bath = Ulid(1);
        let stopped = BathStopped { bath, why: StopReason::TimeUp, note: String::new() };
        let bath = [Body::BathStarted(bath_started(bath, oxidant)), Body::BathStopped(stopped)];
        evidence(bath.into_iter().chain(bodies).collect())
    }

    fn rinse_with(strip: f64, strip_of: Option<StripOf>, ph: f64) -> Body {
        let Body::Rinsed(rinse) = rinse(5.0, Some(strip), Some(ph)) else { unreachable!() };
        Body::Rinsed(Rinsed { strip_of, ..rinse })
    }

    fn status_of(evidence: &SignOffEvidence, test: EndTestKind) -> SignOffStatus {
        crate::pulp::sign_off::status(test, &evidence.log, evidence.changed)
    }

    #[test]
    fn strip_and_ph_of_the_last_rinse_count_as_end_tests() {
        let tap = || reading(ReadingOf::TapPh, exact(7.4));
        let chlorine = Some(StripOf::AvailableChlorine);
        let found = after_bath(
            Oxidant::Hypochlorite,
            vec![rinse_with(20.0, chlorine, 9.0), rinse_with(0.0, chlorine, 7.6), tap()],
        );
        let unmet: Vec<_> = found.unmet_tests().iter().map(|unmet| unmet.test).collect();
        assert_eq!(unmet, [EndTestKind::Feel]);
        assert!(found.acid_proof().is_ok());
        // What the last rinse showed stands, not what an earlier one did.
        let failing = after_bath(
            Oxidant::Hypochlorite,
            vec![tap(), rinse_with(0.0, chlorine, 7.6), rinse_with(5.0, chlorine, 9.0)],
        );
        for test in [EndTestKind::ChlorineStrip, EndTestKind::RinsePh] {
            assert_eq!(status_of(&failing, test), SignOffStatus::Failing);
        }
        // Without the tap water a pH proves nothing.
        let no_tap = after_bath(Oxidant::Hypochlorite, vec![rinse_with(0.0, chlorine, 7.6)]);
        assert_eq!(status_of(&no_tap, EndTestKind::RinsePh), SignOffStatus::Missing);
    }

    #[test]
    fn a_strip_that_is_not_named_may_fail_a_test_and_passes_none() {
        let status = |strip, strip_of| {
            let found = after_bath(Oxidant::Hypochlorite, vec![rinse_with(strip, strip_of, 7.6)]);
            status_of(&found, EndTestKind::ChlorineStrip)
        };
        assert_eq!(status(0.0, None), SignOffStatus::Missing);
        assert_eq!(status(0.0, Some(StripOf::Peroxide)), SignOffStatus::Missing);
        assert_eq!(status(2.0, None), SignOffStatus::Failing);
    }

    #[test]
    fn a_reading_counts_only_after_a_rinse_and_before_the_next_addition() {
        let zero = || reading(ReadingOf::AvailableChlorineMgPerL, exact(0.0));
        let status = |bodies| {
            status_of(&after_bath(Oxidant::Hypochlorite, bodies), EndTestKind::ChlorineStrip)
        };
        assert_eq!(status(vec![zero()]), SignOffStatus::Missing);
        assert_eq!(status(vec![rinse(5.0, None, None), zero()]), SignOffStatus::Passed);
        let amount = Amount::MassG(exact(1.0));
        let added = Body::Added(Added {
            bath: None,
            what: Additive::Hypochlorite,
            product: None,
            amount,
            note: String::new(),
        });
        let bodies = vec![rinse(5.0, None, None), zero(), added];
        assert_eq!(status(bodies), SignOffStatus::Outdated);
    }

    #[test]
    fn acid_asks_for_the_strips_of_the_oxidants_that_the_batch_has_met() {
        let asked = |evidence: SignOffEvidence| evidence.acid_proof().err().map(|unmet| unmet.test);
        assert_eq!(asked(evidence(vec![rinse(5.0, None, None)])), None);
        let percarbonate = |bodies| after_bath(Oxidant::Percarbonate, bodies);
        assert_eq!(asked(percarbonate(vec![])), Some(EndTestKind::PeroxideStrip));
        let zero = rinse_with(0.0, Some(StripOf::Peroxide), 9.0);
        assert_eq!(asked(percarbonate(vec![zero.clone()])), None);
        let chlorine = after_bath(Oxidant::Hypochlorite, vec![zero]);
        assert_eq!(asked(chlorine), Some(EndTestKind::ChlorineStrip));
        let amount = Amount::MassG(exact(1.0));
        let other = Body::Added(Added {
            bath: None,
            what: Additive::Other,
            product: None,
            amount,
            note: "a powder".into(),
        });
        assert_eq!(asked(evidence(vec![other])), Some(EndTestKind::ChlorineStrip));
    }

    #[test]
    fn a_test_that_fails_after_a_sign_off_ends_it() {
        let signed = crate::journal::SignedOff { complete: true, reason: String::new() };
        let fails = EndTest {
            test: EndTestOf::Feel,
            outcome: Outcome::Failed,
            figure: None,
            note: String::new(),
        };
        let sign_off =
            |bodies: Vec<Body>| SignOff::of(book(bodies).batches.values().next().unwrap()).unwrap();
        assert!(sign_off(vec![Body::SignedOff(signed.clone())]).clean);
        assert!(!sign_off(vec![Body::SignedOff(signed), Body::EndTest(fails)]).clean);
    }

    #[test]
    fn a_strip_called_passed_with_colour_on_it_has_failed() {
        let entry = EndTest {
            test: EndTestOf::ChlorineStrip,
            outcome: Outcome::Passed,
            figure: Some(Estimate::exact(0.5, Basis::Strip)),
            note: String::new(),
        };
        let result = end_test_result(&entry, Timestamp::UNIX_EPOCH).unwrap();
        assert_eq!(result.verdict, EndTestVerdict::Fail);
    }
}
