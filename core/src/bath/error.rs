//! The public error of this module: one variant for each subject.

use super::{dilution::DilutionError, heat::HeatError, plan::PlanError};
use crate::{message::Message, quantity::OutOfRange};

/// Any error of this module.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum BathError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(transparent)]
    Dilution(#[from] DilutionError),
    #[error(transparent)]
    Heat(#[from] HeatError),
    #[error(transparent)]
    Plan(#[from] PlanError),
}

impl BathError {
    /// The message for a person, beside the field concerned if there is one.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::Dilution(error) => error.message(),
            Self::Heat(error) => error.message(),
            Self::Plan(error) => error.message(),
        }
    }
}
