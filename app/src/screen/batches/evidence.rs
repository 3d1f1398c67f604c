//! What a batch's log has to say for it being clean, as the core's sign-off
//! rules take it.

use bleachfield_core::{
    journal::{Batch, Body, Oxidant},
    pulp::sign_off::{Gap, Logged, Used, gaps},
};
use jiff::Timestamp;

/// The end tests of a batch and what bears on them.
pub struct Evidence {
    pub used: Used,
    pub log: Vec<Logged>,
    /// The last thing that could have changed a test's answer.
    pub changed: Option<Timestamp>,
}

impl Evidence {
    pub fn of(batch: &Batch) -> Self {
        let used = Used {
            hypochlorite: batch.baths.iter().any(|b| b.oxidant == Oxidant::Hypochlorite),
            peroxide: batch.baths.iter().any(|b| b.oxidant != Oxidant::Hypochlorite),
        };
        let mut evidence = Self { used, log: Vec::new(), changed: None };
        for told in batch.told() {
            match &told.body {
                Body::EndTest(test) => evidence.log.extend(Logged::from_entry(test, told.at)),
                Body::BathStarted(_)
                | Body::BathStopped(_)
                | Body::Added(_)
                | Body::Antichlored(_)
                | Body::AcidFinished(_)
                | Body::ReserveAdded(_) => evidence.changed = Some(told.at),
                _ => {}
            }
        }
        evidence
    }

    /// What stands between the batch and "clean".
    pub fn gaps(&self) -> Vec<Gap> {
        gaps(self.used, &self.log, self.changed)
    }
}
