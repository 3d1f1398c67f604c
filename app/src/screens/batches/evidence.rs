//! What the hazard rules should know of a batch as it is now.

use bleachfield_core::{
    bath,
    caution::{Residual, Situation},
    derive::SignOffEvidence,
    journal::{Batch, Oxidant},
    pulp::sign_off::EndTestKind,
    quantity::Ph,
};

use super::latest;

/// A batch as the hazard rules see it.
pub fn situation(batch: &Batch) -> Situation {
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let stands = |test| gaps.iter().any(|gap| gap.test == test);
    let (residual, oxidant) = match batch.baths.last().map(|bath| bath.oxidant) {
        None => (Residual::None, None),
        Some(Oxidant::Hypochlorite) if stands(EndTestKind::ChlorineStrip) => {
            (Residual::Hypochlorite, Some(bath::Oxidant::Hypochlorite))
        }
        Some(Oxidant::Percarbonate) if stands(EndTestKind::PeroxideStrip) => {
            (Residual::Peroxide, Some(bath::Oxidant::Percarbonate))
        }
        Some(Oxidant::Peroxide) if stands(EndTestKind::PeroxideStrip) => {
            (Residual::Peroxide, Some(bath::Oxidant::Peroxide))
        }
        // Its own strip passed; an earlier bath's bleach must have, too.
        Some(_) if stands(EndTestKind::ChlorineStrip) => (Residual::Hypochlorite, None),
        Some(_) => (Residual::None, None),
    };
    let ph = latest::ph(batch).and_then(|ph| Ph::new(ph.value).ok());
    Situation { oxidant, residual, ph, ..Situation::default() }
}
