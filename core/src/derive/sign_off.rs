//! The end tests of a batch and what bears on them, from its log.
//! Not here: which tests are needed and what they prove, which is `pulp::sign_off`.

use jiff::Timestamp;

use crate::journal::{Additive, Antichlor, Batch, Body, EndTest, EndTestOf, Outcome, Oxidant};
use crate::pulp::sign_off::{
    EndTestKind, EndTestResult, EndTestVerdict, OxidantsUsed, SignOff, UnmetTest, unmet_tests,
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
}

impl SignOffEvidence {
    /// The evidence of a batch: withdrawn entries left out, corrected entries
    /// as corrected.
    pub fn of(batch: &Batch) -> Self {
        let mut found = Self {
            used: OxidantsUsed {
                hypochlorite: batch.baths.iter().any(|b| b.oxidant == Oxidant::Hypochlorite),
                peroxide: batch.baths.iter().any(|b| b.oxidant != Oxidant::Hypochlorite),
            },
            ..Self::default()
        };
        for entry in batch.visible_entries() {
            let at = Some(entry.at);
            match &entry.body {
                Body::EndTest(test) => found.log.extend(end_test_result(test, entry.at)),
                Body::BathStarted(_) | Body::BathStopped(_) => {
                    (found.changed, found.last_oxidant) = (at, at);
                }
                Body::Added(added) => {
                    found.changed = at;
                    match added.what {
                        Additive::Hypochlorite => found.used.hypochlorite = true,
                        Additive::Percarbonate | Additive::Peroxide => found.used.peroxide = true,
                        // It may be an oxidant: only its note says, in free text.
                        Additive::Other => {}
                        _ => continue,
                    }
                    found.last_oxidant = at;
                }
                Body::Antichlored(antichlor) => {
                    found.changed = at;
                    found.used.peroxide |= antichlor.reagent == Antichlor::Peroxide;
                }
                Body::AcidFinished(_) | Body::ReserveAdded(_) => found.changed = at,
                _ => {}
            }
        }
        found
    }

    /// The tests that keep the batch from being signed off as clean.
    pub fn unmet_tests(&self) -> Vec<UnmetTest> {
        unmet_tests(self.used, &self.log, self.changed)
    }
}

impl SignOff {
    /// The sign-off in force; `None` if there is none, or no longer.
    pub fn of(batch: &Batch) -> Option<Self> {
        batch.signed_off.as_ref().map(|signed| Self {
            clean: signed.complete,
            unmet: if signed.complete {
                Vec::new()
            } else {
                SignOffEvidence::of(batch).unmet_tests()
            },
            reason: signed.reason.clone(),
        })
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
    use crate::quantity::{Basis, Estimate};

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
