//! Activity coefficients by the Davies equation.

use super::constants::Constants;
use super::error::EquilibriumError;

/// Ionic strength to which Davies' equation is held to be good, mol/kg.
pub const DAVIES_GOOD_TO: f64 = 0.5;

/// Highest ionic strength that coefficients are calculated for, mol/kg.
pub(super) const MAX_IONIC_STRENGTH: f64 = 1.0;

/// The error for an ionic strength, mol/kg, above [`MAX_IONIC_STRENGTH`].
pub(super) fn too_concentrated(ionic_strength: f64) -> EquilibriumError {
    EquilibriumError::TooConcentrated { ionic_strength, highest: MAX_IONIC_STRENGTH }
}

/// Activity coefficients of ions by charge number, and the activity of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ActivityCoefficients {
    pub one: f64,
    pub two: f64,
    pub three: f64,
    pub water: f64,
}

impl ActivityCoefficients {
    /// Davies (1962): `log γ = -A z² (√I/(1+√I) - 0.3 I)`, good to I = 0.5 mol/kg; uncharged
    /// species count as ideal. Water by Raoult's law in the form `a = 1 - 0.017 Σm`, Garrels
    /// & Christ (1965) (from memory).
    ///
    /// `ionic_strength` and `solutes` (Σm) in mol/kg. Above [`MAX_IONIC_STRENGTH`] the
    /// coefficients are those of that ionic strength.
    pub fn davies(constants: &Constants, ionic_strength: f64, solutes: f64) -> Self {
        let ionic_strength = ionic_strength.min(MAX_IONIC_STRENGTH);
        let root = ionic_strength.sqrt();
        let log_one = -constants.debye_slope * (root / (1.0 + root) - 0.3 * ionic_strength);
        let one = (log_one * std::f64::consts::LN_10).exp();
        let squared = one * one;
        let two = squared * squared;
        let three = two * two * one;
        Self { one, two, three, water: (1.0 - 0.017 * solutes).max(0.5) }
    }
}

impl Constants {
    /// Davies activity coefficient of an ion. `ionic_strength` in mol/kg, limited to 1.
    pub fn activity_coefficient(&self, ionic_strength: f64, charge: u8) -> f64 {
        let activity = ActivityCoefficients::davies(self, ionic_strength.max(0.0), 0.0);
        activity.one.powi(i32::from(charge) * i32::from(charge))
    }

    /// [`Self::chlorine_hydrolysis`] in concentrations instead of activities, (mol/kg)².
    pub fn chlorine_hydrolysis_at(&self, ionic_strength: f64) -> f64 {
        let one = self.activity_coefficient(ionic_strength, 1);
        self.chlorine_hydrolysis / (one * one)
    }
}
