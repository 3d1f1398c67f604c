//! Neutral finish: citric or acetic acid for the alkali left in pulp.
//! Alkali doses are in [`alkali`](super::alkali).
//!
//! Acid on bleach releases chlorine gas, so every dose needs a [`ZeroChlorine`].

mod acid;
mod dose;
mod error;
mod residue;
mod zero_chlorine;

pub use acid::{AcidAmount, HIGHEST_TARGET, LOWEST_TARGET, NeutralisingAcid};
pub use dose::{AcidDose, acid_dose};
pub use error::{AcidDoseError, RESIDUE, STRENGTH, TARGET_PH, VOLUME};
pub use residue::{AlkaliEvidence, Residue};
pub use zero_chlorine::ZeroChlorine;

#[cfg(test)]
mod tests;
