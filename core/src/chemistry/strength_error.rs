//! Why the strength of a product is not known.

use crate::message::{Field, Message};
use crate::quantity::OutOfRange;

/// Error of titrations, strips and the ageing of bottles.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum StrengthError {
    /// A value outside the validity of the method, or outside what can exist.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error("{} is missing", .field.0)]
    Missing { field: Field },
}

impl StrengthError {
    /// The error as a message beside its field.
    pub fn message(&self) -> Message {
        match *self {
            Self::OutOfRange(error) => error.message(),
            Self::Missing { field } => Message::new("refusal-missing").beside(field),
        }
    }
}
