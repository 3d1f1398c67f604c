//! The facts of a batch that the hazard rules look at.

use bleachfield_core::{
    caution::{BleachInUse, Residual, Situation},
    derive::SignOffEvidence,
    journal::{Batch, Oxidant},
    pulp::sign_off::EndTestKind,
    quantity::Interval,
};

use super::facts::latest_ph;

/// The situation of a batch as it is now.
pub fn situation(batch: &Batch) -> Situation {
    let gaps = SignOffEvidence::of(batch).unmet_tests();
    let unmet = |test| gaps.iter().any(|gap| gap.test == test);
    let of = |oxidant: Oxidant| BleachInUse::Known(oxidant.into());
    let (residual, oxidant) = match batch.baths.last().map(|bath| bath.oxidant) {
        None => (Residual::None, BleachInUse::None),
        // Of either kind something may be left.
        Some(oxidant) if unmet(EndTestKind::ChlorineStrip) && unmet(EndTestKind::PeroxideStrip) => {
            (Residual::Unknown, of(oxidant))
        }
        Some(oxidant @ Oxidant::Hypochlorite) if unmet(EndTestKind::ChlorineStrip) => {
            (Residual::Hypochlorite, of(oxidant))
        }
        Some(oxidant @ (Oxidant::Percarbonate | Oxidant::Peroxide))
            if unmet(EndTestKind::PeroxideStrip) =>
        {
            (Residual::Peroxide, of(oxidant))
        }
        // Its own strip passed; that of an earlier hypochlorite bath must pass too.
        Some(_) if unmet(EndTestKind::ChlorineStrip) => (Residual::Hypochlorite, BleachInUse::None),
        Some(_) => (Residual::None, BleachInUse::None),
    };
    let ph = latest_ph(batch).and_then(Interval::ph);
    Situation { oxidant, residual, ph, ..Situation::default() }
}
