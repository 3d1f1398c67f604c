//! What a batch's log has to say for it being clean, as the core's sign-off
//! rules take it.

use bleachfield_core::{
    bath,
    caution::{Residual, Situation},
    journal::{Batch, Body, Oxidant},
    pulp::sign_off::{Gap, Logged, Test, Used, gaps},
    quantity::Ph,
};
use jiff::Timestamp;

use super::latest;

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

/// What the hazard rules should know of a batch as it is now.
pub fn situation(batch: &Batch) -> Situation {
    let evidence = Evidence::of(batch);
    let gaps = evidence.gaps();
    let stands = |test| gaps.iter().any(|gap| gap.test == test);
    let (residual, oxidant) = match batch.baths.last().map(|bath| bath.oxidant) {
        None => (Residual::None, None),
        Some(Oxidant::Hypochlorite) if stands(Test::ChlorineStrip) => {
            (Residual::Hypochlorite, Some(bath::Oxidant::Hypochlorite))
        }
        Some(Oxidant::Percarbonate) if stands(Test::PeroxideStrip) => {
            (Residual::Peroxide, Some(bath::Oxidant::Percarbonate))
        }
        Some(Oxidant::Peroxide) if stands(Test::PeroxideStrip) => {
            (Residual::Peroxide, Some(bath::Oxidant::Peroxide))
        }
        // Its own strip passed; an earlier bath's bleach must have, too.
        Some(_) if stands(Test::ChlorineStrip) => (Residual::Hypochlorite, None),
        Some(_) => (Residual::None, None),
    };
    let ph = latest::ph(batch).and_then(|ph| Ph::new(ph.value).ok());
    Situation { oxidant, residual, ph, ..Situation::default() }
}
