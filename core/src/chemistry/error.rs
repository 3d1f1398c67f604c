//! The public error of this module: one variant for each subject.

use super::acid_dose::AcidDoseError;
use super::alkaline_reserve::ReserveError;
use super::dechlorination::AntichlorError;
use super::equilibrium::EquilibriumError;
use super::strength_error::StrengthError;
use crate::message::Message;
use crate::quantity::OutOfRange;

/// Any error of this module.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ChemistryError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(transparent)]
    Equilibrium(#[from] EquilibriumError),
    #[error(transparent)]
    Strength(#[from] StrengthError),
    #[error(transparent)]
    Antichlor(#[from] AntichlorError),
    #[error(transparent)]
    AcidDose(#[from] AcidDoseError),
    #[error(transparent)]
    Reserve(#[from] ReserveError),
}

impl ChemistryError {
    /// The error as a message, beside its field where it has one.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::Equilibrium(error) => error.message(),
            Self::Strength(error) => error.message(),
            Self::Antichlor(error) => error.message(),
            Self::AcidDose(error) => error.message(),
            Self::Reserve(error) => error.message(),
        }
    }
}
