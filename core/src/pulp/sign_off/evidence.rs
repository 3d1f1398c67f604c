//! What a batch's log has to say for its being clean.

use jiff::Timestamp;

use super::{Gap, Logged, SignOff, Used, gaps};
use crate::journal::{Additive, Antichlor, Batch, Body, Oxidant};

/// The end tests of a batch and what bears on them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    pub used: Used,
    pub log: Vec<Logged>,
    /// The last thing that could have changed a test's answer.
    pub changed: Option<Timestamp>,
    /// The last time that bleach was in it or was put in it: what a zero
    /// chlorine test must be later than before acid.
    pub last_oxidant: Option<Timestamp>,
}

impl Evidence {
    /// The evidence of a batch, of all that is told of it: withdrawn entries
    /// left out, corrected ones as corrected.
    pub fn of(batch: &Batch) -> Self {
        let mut found = Self {
            used: Used {
                hypochlorite: batch.baths.iter().any(|b| b.oxidant == Oxidant::Hypochlorite),
                peroxide: batch.baths.iter().any(|b| b.oxidant != Oxidant::Hypochlorite),
            },
            ..Self::default()
        };
        for told in batch.visible_entries() {
            let at = Some(told.at);
            match &told.body {
                Body::EndTest(test) => found.log.extend(Logged::from_entry(test, told.at)),
                Body::BathStarted(_) | Body::BathStopped(_) => {
                    (found.changed, found.last_oxidant) = (at, at);
                }
                Body::Added(added) => {
                    found.changed = at;
                    match added.what {
                        Additive::Hypochlorite => found.used.hypochlorite = true,
                        Additive::Percarbonate | Additive::Peroxide => found.used.peroxide = true,
                        // It may be bleach: the note says, and nobody reads it here.
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

    /// What stands between the batch and "clean".
    pub fn gaps(&self) -> Vec<Gap> {
        gaps(self.used, &self.log, self.changed)
    }
}

impl SignOff {
    /// How a batch stands signed off; `None` if it is not, or no longer.
    pub fn of(batch: &Batch) -> Option<Self> {
        batch.signed_off.as_ref().map(|signed| Self {
            clean: signed.complete,
            gaps: if signed.complete { Vec::new() } else { Evidence::of(batch).gaps() },
            reason: signed.reason.clone(),
        })
    }
}
