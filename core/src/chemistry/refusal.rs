//! Why a chemical question was not answered.

use crate::message::{Field, Message, Value};
use crate::quantity::{Kind, OutOfRange};

/// A refusal: which field, what was given, what is allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Refusal {
    /// A value outside what the model was made for, or outside what can exist.
    OutOfRange(OutOfRange),
    /// A required value is missing.
    Missing { field: Field },
    /// The liquor is too strong in dissolved salts for the activity model.
    TooConcentrated { ionic_strength: f64, highest: f64 },
    /// No amount of the chosen thing brings the bath to this pH.
    Unreachable { target_ph: f64 },
    /// Acid was asked for while hypochlorite is present: it would release chlorine.
    AcidWithHypochlorite,
    /// Hypochlorite and peroxide were given together.
    TwoOxidants,
}

impl Refusal {
    /// The same refusal as a message for the locale, beside its field where it has one.
    pub fn message(&self) -> Message {
        match *self {
            Self::OutOfRange(error) => error.message(),
            Self::Missing { field } => Message::new("refusal-missing").beside(field),
            Self::TooConcentrated { ionic_strength, highest } => {
                Message::new("refusal-too_concentrated")
                    .with("given", Value::Number(ionic_strength))
                    .with("highest", Value::Number(highest))
            }
            Self::Unreachable { target_ph } => {
                Message::new("refusal-ph_unreachable").with("target", Value::Ph(target_ph))
            }
            Self::AcidWithHypochlorite => Message::new("refusal-acid_with_hypochlorite"),
            Self::TwoOxidants => Message::new("refusal-two_oxidants"),
        }
    }
}

impl From<OutOfRange> for Refusal {
    fn from(error: OutOfRange) -> Self {
        Self::OutOfRange(error)
    }
}

/// `given`, if it lies in `lowest..=highest`, which a NaN never does.
///
/// # Errors
/// [`Refusal::OutOfRange`], naming `field`; all three numbers in the base unit of `kind`.
pub fn within(
    field: Field,
    kind: Kind,
    given: f64,
    lowest: f64,
    highest: f64,
) -> Result<f64, Refusal> {
    Ok(OutOfRange::check(field, kind, given, lowest, highest)?)
}
