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
        let [citric_1, citric_2, citric_3] = constants.citric;
        let citric_12 = citric_1 * citric_2;
        let [citrate_1, citrate_2, citrate_3] = activity.citrate;
        let carbonic = constants.carbonic_1 * activity.water * activity.carbon_dioxide;
        Self {
            activity,
            water: constants.water * activity.water / activity.hydroxide,
            carbonic_1: carbonic / activity.bicarbonate,
            carbonic_12: carbonic * constants.carbonic_2 / activity.carbonate,
            hypochlorous: constants.hypochlorous / activity.hypochlorite,
            chlorine: activity.chloride / (constants.chlorine_hydrolysis * activity.water),
            peroxide: constants.peroxide / activity.perhydroxyl,
            acetic: constants.acetic / activity.acetate,
            citric: [citric_1 / citrate_1, citric_12 / citrate_2, citric_12 * citric_3 / citrate_3],
        }
    }

    /// Charge of water's own ions, `[H+] - [OH-]`, mol/kg, at hydrogen ion activity `h`.
    pub fn proton_charge(&self, h: f64) -> f64 {
        h / self.activity.hydrogen - self.water / h
    }
}
