//! The public error of this module: one variant for each subject.
//! Not here: the errors themselves, which stand with their subject.

use super::cook::CookError;
use super::sheet::SheetError;
use super::sign_off::SignOffError;
use super::storage::StorageError;
use super::wash::WashError;
use crate::message::Message;
use crate::quantity::OutOfRange;

/// Any error of this module.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PulpError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(transparent)]
    Cook(#[from] CookError),
    #[error(transparent)]
    Wash(#[from] WashError),
    #[error(transparent)]
    SignOff(#[from] SignOffError),
    #[error(transparent)]
    Storage(#[from] StorageError),
    #[error(transparent)]
    Sheet(#[from] SheetError),
}

impl PulpError {
    /// The error as a message, beside its field where it has one.
    pub fn message(&self) -> Message {
        match self {
            Self::OutOfRange(error) => error.message(),
            Self::Cook(error) => error.message(),
            Self::Wash(error) => error.message(),
            Self::SignOff(error) => error.message(),
            Self::Storage(error) => error.message(),
            Self::Sheet(error) => error.message(),
        }
    }
}
