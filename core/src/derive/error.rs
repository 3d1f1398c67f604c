//! The public error of this module: one variant for each subject.
//! Not here: the errors themselves, which stand with their subject.

use super::lot::LotError;
use super::product_age::ProductDateError;
use crate::message::Message;

/// Any error of this module.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DeriveError {
    #[error(transparent)]
    Lot(#[from] LotError),
    #[error(transparent)]
    ProductDate(#[from] ProductDateError),
}

impl DeriveError {
    /// The error as a message, beside its field where it has one.
    pub fn message(&self) -> Message {
        match self {
            Self::Lot(error) => error.message(),
            Self::ProductDate(error) => error.message(),
        }
    }
}
