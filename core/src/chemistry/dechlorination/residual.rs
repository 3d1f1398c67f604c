//! The oxidant left in a liquor: how it is known, and its mass.

use super::error::AntichlorError;
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, Ratio, Volume, grams, in_grams_per_litre,
    in_millilitres, in_share,
};

/// Error of a chlorine strip, as a part of its reading: about one step (own estimate, no
/// source).
pub const STRIP_OFF: f64 = 0.5;

/// How the residual oxidant is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ResidualEvidence {
    /// A strip, ±[`STRIP_OFF`] of its reading.
    Strip(MassConcentration),
    Titration(Estimate<MassConcentration>),
    /// Predicted by the wash model.
    WashModel(Estimate<MassConcentration>),
}

/// Error of a titration in a kitchen, as a part of its result (own estimate, no source).
const TITRATION_OFF: f64 = 0.05;

/// Error of the wash model, as a part of its result (own estimate, no source).
const WASH_MODEL_OFF: f64 = 0.5;

impl ResidualEvidence {
    /// A strength titrated in a kitchen, without a range of its own.
    pub fn titrated(found: MassConcentration) -> Self {
        Self::Titration(Estimate::within(found, TITRATION_OFF, Basis::Measured))
    }

    /// A strength by the wash model, without a range of its own.
    pub fn from_wash_model(found: MassConcentration) -> Self {
        Self::WashModel(Estimate::within(found, WASH_MODEL_OFF, Basis::Computed))
    }

    /// Strength with its range.
    pub fn strength(self) -> Estimate<MassConcentration> {
        match self {
            Self::Strip(read) => Estimate::within(read, STRIP_OFF, Basis::Strip),
            Self::Titration(known) | Self::WashModel(known) => known,
        }
    }

    /// [`Self::strength`], with all inputs of a dose checked.
    pub(super) fn checked_strength(
        self,
        volume: Estimate<Volume>,
        purity: Ratio,
    ) -> Result<Estimate<MassConcentration>, AntichlorError> {
        let strength = self.strength();
        for given in [strength.value, strength.low, strength.high] {
            let grams = in_grams_per_litre(given);
            if !(grams.is_finite() && grams >= 0.0) {
                return Err(AntichlorError::NegativeResidual { given });
            }
        }
        for given in [volume.value, volume.low, volume.high] {
            let volume = in_millilitres(given);
            if !(volume.is_finite() && volume > 0.0) {
                return Err(AntichlorError::NoVolume { given });
            }
        }
        let share = in_share(purity);
        if !(share > 0.0 && share <= 1.0) {
            return Err(AntichlorError::BadPurity { given: purity });
        }
        Ok(strength)
    }
}

/// Mass of solute in a volume of this strength.
pub(super) fn mass_in(
    strength: Estimate<MassConcentration>,
    volume: Estimate<Volume>,
) -> Estimate<Mass> {
    let of = |strength, volume| grams(in_grams_per_litre(strength) * in_millilitres(volume) / 1e3);
    Estimate {
        value: of(strength.value, volume.value),
        low: of(strength.low, volume.low),
        high: of(strength.high, volume.high),
        basis: strength.basis.max(volume.basis),
    }
}
