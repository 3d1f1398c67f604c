//! Why there is no acid dose.

use super::acid::{HIGHEST_TARGET, LOWEST_TARGET};
use crate::chemistry::equilibrium::EquilibriumError;
use crate::message::{Field, Message, Value};
use crate::quantity::{MassConcentration, OutOfRange, Volume, in_grams_per_litre, in_millilitres};

pub const RESIDUE: Field = Field("acid-residue");
pub const VOLUME: Field = Field("acid-volume");
pub const TARGET_PH: Field = Field("acid-target_ph");
pub const STRENGTH: Field = Field("acid-strength");

/// Why there is no acid dose.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AcidDoseError {
    #[error("target pH {given} is not between {} and {}", LOWEST_TARGET, HIGHEST_TARGET)]
    BadTarget { given: f64 },
    #[error("vinegar of {given} g in 100 mL is not between 1 and 30")]
    BadStrength { given: f64 },
    #[error("alkali of {} g/L is below zero", in_grams_per_litre(*.given))]
    NegativeResidue { given: MassConcentration },
    #[error("volume of {} mL is not above zero", in_millilitres(*.given))]
    NoVolume { given: Volume },
    /// The water is at the target already, or below it.
    #[error("pH {ph} is already at or below the target, {target}")]
    NothingToDo { ph: f64, target: f64 },
    #[error(transparent)]
    Equilibrium(#[from] EquilibriumError),
}

impl AcidDoseError {
    /// The error as a message beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::BadTarget { given } => new("acid-refusal-bad_target")
                .beside(TARGET_PH)
                .with("given", Value::Ph(*given))
                .with("min", Value::Ph(LOWEST_TARGET))
                .with("max", Value::Ph(HIGHEST_TARGET)),
            Self::BadStrength { given } => new("acid-refusal-bad_strength")
                .beside(STRENGTH)
                .with("given", Value::Number(*given)),
            Self::NegativeResidue { given } => new("acid-refusal-negative_residue")
                .beside(RESIDUE)
                .with("given", Value::Concentration(*given)),
            Self::NoVolume { given } => {
                new("acid-refusal-no_volume").beside(VOLUME).with("given", Value::Volume(*given))
            }
            Self::NothingToDo { ph, target } => new("acid-refusal-nothing_to_do")
                .with("ph", Value::Ph(*ph))
                .with("target", Value::Ph(*target)),
            Self::Equilibrium(error) => error.message(),
        }
    }
}

impl From<OutOfRange> for AcidDoseError {
    fn from(error: OutOfRange) -> Self {
        Self::Equilibrium(error.into())
    }
}
