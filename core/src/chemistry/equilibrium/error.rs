//! Why an equilibrium was not calculated.

use crate::message::{Message, Value};
use crate::quantity::OutOfRange;

/// Error of the pH solver and of the doses and readings built on it.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum EquilibriumError {
    /// A value outside the validity of the model, or outside what can exist.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Ionic strengths in mol/kg.
    #[error("ionic strength {ionic_strength} mol/kg; the activity model ends at {highest}")]
    TooConcentrated { ionic_strength: f64, highest: f64 },
    /// No amount of the chosen reagent brings the bath to this pH.
    #[error("this reagent cannot bring the bath to pH {target_ph}")]
    Unreachable { target_ph: f64 },
    /// Acid would release chlorine.
    #[error("no acid while hypochlorite is present")]
    AcidWithHypochlorite,
    #[error("hypochlorite and peroxide together have no equilibrium; give one of them")]
    TwoOxidants,
}

impl EquilibriumError {
    /// The error as a message, beside its field where it has one.
    pub fn message(&self) -> Message {
        match *self {
            Self::OutOfRange(error) => error.message(),
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
