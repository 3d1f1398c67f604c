//! The facts of a batch that the hazard rules look at.

use bleachfield_core::{
    caution::{Residual, Situation},
    derive::SignOffEvidence,
    journal::{Batch, Oxidant},
    pulp::sign_off::EndTestKind,
    quantity::Ph,
};

use super::facts::latest_ph;

/// The situation of a batch as it is now.
pub fn situation(batch: &Batch) -> Situation {
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let unmet = |test| gaps.iter().any(|gap| gap.test == test);
    let (residual, oxidant) = match batch.baths.last().map(|bath| bath.oxidant) {
        None => (Residual::None, None),
        Some(oxidant @ Oxidant::Hypochlorite) if unmet(EndTestKind::ChlorineStrip) => {
            (Residual::Hypochlorite, Some(oxidant.into()))
        }
        Some(oxidant @ (Oxidant::Percarbonate | Oxidant::Peroxide))
            if unmet(EndTestKind::PeroxideStrip) =>
        {
            (Residual::Peroxide, Some(oxidant.into()))
        }
        // Its own strip passed; that of an earlier hypochlorite bath must pass too.
        Some(_) if unmet(EndTestKind::ChlorineStrip) => (Residual::Hypochlorite, None),
        Some(_) => (Residual::None, None),
    };
    let ph = latest_ph(batch).and_then(|ph| Ph::new(ph.value).ok());
    Situation { oxidant, residual, ph, ..Situation::default() }
}
