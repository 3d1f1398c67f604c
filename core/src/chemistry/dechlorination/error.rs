//! Why there is no antichlor dose, and the fields of its inputs.

use super::refusal::{AntichlorRemedy, GasRefusal};
use crate::chemistry::equilibrium::EquilibriumError;
use crate::message::{Field, Message, Value};
use crate::quantity::{
    MassConcentration, OutOfRange, Ratio, Volume, in_grams_per_litre, in_millilitres, in_share,
};

pub const RESIDUAL: Field = Field("antichlor-residual");
pub const VOLUME: Field = Field("antichlor-volume");
pub const PURITY: Field = Field("antichlor-purity");
pub const REAGENT: Field = Field("antichlor-reagent");
pub const VESSEL: Field = Field("antichlor-vessel");
pub const LIQUOR_PH: Field = Field("antichlor-liquor_ph");
pub const SODA_ADDED: Field = Field("antichlor-soda_added");

/// Why there is no antichlor dose.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AntichlorError {
    #[error("residual of {} g/L is below zero", in_grams_per_litre(*.given))]
    NegativeResidual { given: MassConcentration },
    #[error("volume of {} mL is not above zero", in_millilitres(*.given))]
    NoVolume { given: Volume },
    #[error("purity {} is not between 0 and 1", in_share(*.given))]
    BadPurity { given: Ratio },
    /// Too strong for peroxide as an antichlor.
    #[error(
        "chlorine of {} g/L is too strong for peroxide; at most {}",
        in_grams_per_litre(*.given),
        in_grams_per_litre(*.limit)
    )]
    TooStrongForPeroxide { given: MassConcentration, limit: MassConcentration },
    /// Oxygen from peroxide would burst a closed vessel; not known to be open counts as
    /// closed.
    #[error("peroxide needs an open vessel")]
    ClosedVessel,
    /// The reaction would make the liquor acid enough to give off chlorine.
    #[error("at pH {:.1} the dose gives {:.1} ppm of chlorine", .0.worst.ph, .0.worst.chlorine_ppm)]
    ChlorineGas(GasRefusal),
    /// No pH can be worked out along the dose, so none is given.
    #[error(transparent)]
    NoPh(EquilibriumError),
    /// pH of the liquor, or soda added, that cannot be.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
}

impl AntichlorError {
    /// The error as a message beside its field.
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
            Self::ChlorineGas(refusal) => refusal.message(),
            Self::NoPh(EquilibriumError::OutOfRange(error)) => error.message(),
            Self::NoPh(_) => new("antichlor-refusal-too_strong").beside(RESIDUAL),
            Self::OutOfRange(error) => error.message(),
        }
    }

    /// What makes the dose possible, safest first.
    pub fn remedies(&self) -> &[AntichlorRemedy] {
        match self {
            Self::ChlorineGas(refusal) => &refusal.remedies,
            _ => &[],
        }
    }
}
