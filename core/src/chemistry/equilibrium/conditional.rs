//! Conditional constants: thermodynamic constants combined with activity coefficients.

use super::activity::ActivityCoefficients;
use super::constants::Constants;

/// Equilibrium constants for sums in concentrations, as functions of hydrogen ion *activity*.
#[derive(Clone, Copy)]
pub(super) struct ConditionalConstants {
    pub activity: ActivityCoefficients,
    pub water: f64,
    pub carbonic_1: f64,
    /// Product of both dissociations.
    pub carbonic_12: f64,
    pub hypochlorous: f64,
    /// Inverse of the chlorine hydrolysis constant.
    pub chlorine: f64,
    pub peroxide: f64,
    pub acetic: f64,
    /// Cumulative: K1, K1 K2, K1 K2 K3.
    pub citric: [f64; 3],
}

impl ConditionalConstants {
    pub fn new(constants: &Constants, activity: ActivityCoefficients) -> Self {
        let per_one = 1.0 / activity.one;
        let per_two = 1.0 / activity.two;
        let [citric_1, citric_2, citric_3] = constants.citric;
        let citric_12 = citric_1 * citric_2;
        Self {
            activity,
            water: constants.water * activity.water * per_one,
            carbonic_1: constants.carbonic_1 * activity.water * per_one,
            carbonic_12: constants.carbonic_1 * constants.carbonic_2 * activity.water * per_two,
            hypochlorous: constants.hypochlorous * per_one,
            chlorine: activity.one / (constants.chlorine_hydrolysis * activity.water),
            peroxide: constants.peroxide * per_one,
            acetic: constants.acetic * per_one,
            citric: [
                citric_1 * per_one,
                citric_12 * per_two,
                citric_12 * citric_3 / activity.three,
            ],
        }
    }

    /// Charge of water's own ions, `[H+] - [OH-]`, mol/kg, at hydrogen ion activity `h`.
    pub fn proton_charge(&self, h: f64) -> f64 {
        h / self.activity.one - self.water / h
    }
}
