//! Why a chemical question was not answered.

use crate::message::{Field, Message, Value};

/// A refusal: which field, what was given, what is allowed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Refusal {
    /// A value outside what the model was made for, or outside what can exist.
    OutOfRange { field: Field, given: f64, lowest: f64, highest: f64 },
    /// A value that is not a number at all.
    NotANumber { field: Field },
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
            Self::OutOfRange { field, given, lowest, highest } => {
                Message::new("refusal.out_of_range")
                    .beside(field)
                    .with("given", Value::Number(given))
                    .with("lowest", Value::Number(lowest))
                    .with("highest", Value::Number(highest))
            }
            Self::NotANumber { field } => Message::new("refusal.not_a_number").beside(field),
            Self::Missing { field } => Message::new("refusal.missing").beside(field),
            Self::TooConcentrated { ionic_strength, highest } => {
                Message::new("refusal.too_concentrated")
                    .with("given", Value::Number(ionic_strength))
                    .with("highest", Value::Number(highest))
            }
            Self::Unreachable { target_ph } => {
                Message::new("refusal.ph_unreachable").with("target", Value::Ph(target_ph))
            }
            Self::AcidWithHypochlorite => Message::new("refusal.acid_with_hypochlorite"),
            Self::TwoOxidants => Message::new("refusal.two_oxidants"),
        }
    }
}

/// `given`, if it is a number between `lowest` and `highest` inclusive.
///
/// # Errors
/// [`Refusal::NotANumber`] or [`Refusal::OutOfRange`], naming `field`.
pub fn within(field: Field, given: f64, lowest: f64, highest: f64) -> Result<f64, Refusal> {
    if given.is_nan() {
        return Err(Refusal::NotANumber { field });
    }
    if (lowest..=highest).contains(&given) {
        Ok(given)
    } else {
        Err(Refusal::OutOfRange { field, given, lowest, highest })
    }
}
