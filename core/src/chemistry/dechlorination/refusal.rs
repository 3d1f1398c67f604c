//! What an antichlor dose refuses, and beside which field.

use crate::message::{Field, Message, Value};
use crate::quantity::{MassConcentration, Ratio, Volume, in_share};

pub const RESIDUAL: Field = Field("antichlor-residual");
pub const VOLUME: Field = Field("antichlor-volume");
pub const PURITY: Field = Field("antichlor-purity");
pub const REAGENT: Field = Field("antichlor-reagent");
pub const VESSEL: Field = Field("antichlor-vessel");

/// Why there is no antichlor dose.
#[derive(Clone, Debug, PartialEq)]
pub enum AntichlorRefusal {
    /// A residual below nothing.
    NegativeResidual { given: MassConcentration },
    /// A volume of nothing or less.
    NoVolume { given: Volume },
    /// Purity outside 0–100 %.
    BadPurity { given: Ratio },
    /// Peroxide into a chlorine liquor too strong for it.
    TooStrongForPeroxide { given: MassConcentration, limit: MassConcentration },
    /// Peroxide into chlorine in a closed vessel: it would burst.
    ClosedVessel,
}

impl AntichlorRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::NegativeResidual { given } => new("antichlor-refusal-negative_residual")
                .beside(RESIDUAL)
                .with("given", Value::Concentration(*given)),
            Self::NoVolume { given } => new("antichlor-refusal-no_volume")
                .beside(VOLUME)
                .with("given", Value::Volume(*given)),
            Self::BadPurity { given } => new("antichlor-refusal-bad_purity")
                .beside(PURITY)
                .with("given", Value::Share(in_share(*given))),
            Self::TooStrongForPeroxide { given, limit } => {
                new("antichlor-refusal-too_strong_for_peroxide")
                    .beside(REAGENT)
                    .with("given", Value::Concentration(*given))
                    .with("limit", Value::Concentration(*limit))
            }
            Self::ClosedVessel => new("antichlor-refusal-closed_vessel").beside(VESSEL),
        }
    }
}
