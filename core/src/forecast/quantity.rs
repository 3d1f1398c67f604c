//! What is forecast.

use super::bath_inputs::BathInputs;
use crate::bath::kinetics::{BathPoint, Parameter, ParameterValues, polymerization_after};
use crate::colour::kubelka_munk::{k_over_s, reflectance};
use crate::colour::space::{Lab, Xyz};
use serde::{Deserialize, Serialize};

/// A quantity of a bath over time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ForecastQuantity {
    /// CIE L* of the pulp once dry.
    DryLightness,
    /// CIE L* of the wet pulp; no number without a known drying shift.
    WetLightness,
    /// Oxidant in the liquor, mol/L.
    OxidantLeft,
    Ph,
    Celsius,
    /// Scissions for each glucose unit.
    Scissions,
    /// Chain length lost, as a share of that at the start.
    ChainLoss,
}

impl ForecastQuantity {
    pub const ALL: [Self; 7] = [
        Self::DryLightness,
        Self::WetLightness,
        Self::OxidantLeft,
        Self::Ph,
        Self::Celsius,
        Self::Scissions,
        Self::ChainLoss,
    ];
}

/// What of a sample does not change over time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SampleConstants {
    /// K/S of the dry pulp at the start.
    pub dry_k_over_s: f64,
    /// Dried over wet K/S.
    pub drying: Option<f64>,
    pub polymerization: f64,
}

impl SampleConstants {
    pub(crate) fn new(inputs: &BathInputs, values: &ParameterValues, dries: bool) -> Self {
        Self {
            dry_k_over_s: k_over_s_of_lightness(inputs.lightness),
            drying: dries.then_some(inputs.drying),
            polymerization: values.get(Parameter::StartPolymerization),
        }
    }

    /// The quantity at a point of the sample's course.
    pub(crate) fn value(&self, of: ForecastQuantity, at: &BathPoint) -> f64 {
        match of {
            ForecastQuantity::DryLightness => lightness(self.dry_k_over_s * at.colour),
            ForecastQuantity::WetLightness => self
                .drying
                .map_or(f64::NAN, |drying| lightness(self.dry_k_over_s * at.colour / drying)),
            ForecastQuantity::OxidantLeft => at.oxidant,
            ForecastQuantity::Ph => at.ph,
            ForecastQuantity::Celsius => at.celsius,
            ForecastQuantity::Scissions => at.scissions,
            ForecastQuantity::ChainLoss => {
                1.0 - polymerization_after(self.polymerization, at.scissions) / self.polymerization
            }
        }
    }
}

/// L* of an opaque pad by its K/S, with its reflectance taken as the luminance Y.
pub fn lightness(k_over_s: f64) -> f64 {
    let y = 100.0 * reflectance(k_over_s).unwrap_or(0.0);
    Lab::from_xyz(Xyz { x: 0.950_47 * y, y, z: 1.088_83 * y }).l
}

/// K/S of an opaque pad by its L*, 0 < L* <= 100.
pub fn k_over_s_of_lightness(l: f64) -> f64 {
    let y = Lab { l, a: 0.0, b: 0.0 }.to_xyz().y;
    k_over_s((y / 100.0).clamp(1e-4, 0.999)).unwrap_or(0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lightness_and_k_over_s_are_inverse() {
        for l in [20.0, 50.0, 70.0, 85.0, 95.0] {
            assert!((lightness(k_over_s_of_lightness(l)) - l).abs() < 1e-6);
        }
        // R 0.50 and its K/S of 0.25; L* by CIE 15.
        assert!((lightness(0.25) - 76.069).abs() < 0.01);
    }
}
