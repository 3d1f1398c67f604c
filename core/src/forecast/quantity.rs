//! What is forecast.

use super::bath_inputs::BathInputs;
use crate::bath::kinetics::{BathPoint, Parameter, ParameterValues, polymerization_after};
use crate::colour::kubelka_munk::{k_over_s, reflectance};
use crate::colour::space::{Lab, Xyz};
use crate::colour::whiteness::yellowness;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// A quantity of a bath over time.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum ForecastQuantity {
    /// CIE L* of the pulp once dry.
    DryLightness,
    /// CIE L* of the wet pulp; no number without a known drying shift.
    WetLightness,
    /// Yellowness index by ASTM E313 of the pulp once dry.
    DryYellowness,
    /// Oxidant in the liquor, mol/L.
    OxidantLeft,
    /// In the bath, at its temperature.
    Ph,
    /// pH of a sample cooled to 25 °C, as a strip shows it.
    CooledPh,
    Celsius,
    /// Scissions for each glucose unit.
    Scissions,
    /// Chain length lost, as a share of that at the start.
    ChainLoss,
}

impl ForecastQuantity {
    pub const ALL: [Self; 9] = [
        Self::DryLightness,
        Self::WetLightness,
        Self::DryYellowness,
        Self::OxidantLeft,
        Self::Ph,
        Self::CooledPh,
        Self::Celsius,
        Self::Scissions,
        Self::ChainLoss,
    ];
}

/// What of a sample does not change over time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct SampleConstants {
    /// K/S of the dry pulp at the start, for X, Y and Z over those of white.
    pub dry_k_over_s: [f64; 3],
    /// Dried over wet K/S.
    pub drying: Option<f64>,
    pub polymerization: f64,
    /// K/S that no time of this stage removes, over that at the start.
    pub floor: f64,
}

impl SampleConstants {
    pub(crate) fn new(inputs: &BathInputs, values: &ParameterValues, dries: bool) -> Self {
        let [a, b] = inputs.hue;
        Self {
            dry_k_over_s: k_over_s_of(Lab { l: inputs.lightness, a, b }),
            drying: dries.then_some(inputs.drying),
            polymerization: values.get(Parameter::StartPolymerization),
            floor: values.get(Parameter::ColourFloor),
        }
    }

    /// L* of the dry pulp that this stage approaches and never passes.
    pub fn lightest(&self) -> f64 {
        lightness(self.dry_k_over_s[1] * self.floor)
    }

    /// The quantity at a point of the sample's course.
    pub(crate) fn value(&self, of: ForecastQuantity, at: &BathPoint) -> f64 {
        let dry = self.dry_k_over_s[1];
        match of {
            ForecastQuantity::DryLightness => lightness(dry * at.colour),
            ForecastQuantity::WetLightness => {
                self.drying.map_or(f64::NAN, |drying| lightness(dry * at.colour / drying))
            }
            ForecastQuantity::DryYellowness => {
                yellowness(xyz(self.dry_k_over_s.map(|k| k * at.colour))).unwrap_or(f64::NAN)
            }
            ForecastQuantity::OxidantLeft => at.oxidant,
            ForecastQuantity::Ph => at.ph,
            ForecastQuantity::CooledPh => at.cooled_ph,
            ForecastQuantity::Celsius => at.celsius,
            ForecastQuantity::Scissions => at.scissions,
            ForecastQuantity::ChainLoss => {
                1.0 - polymerization_after(self.polymerization, at.scissions) / self.polymerization
            }
        }
    }
}

/// X, Y, Z of the white that CIELAB refers to: D65, 2° observer.
const WHITE: [f64; 3] = [95.047, 100.0, 108.883];

/// The colour of an opaque pad by its K/S for X, Y and Z, each a share of white's. One matter
/// that colours, whose absorption falls alike at all wavelengths (own simplification: what
/// remains of lignin is a little yellower than the whole).
fn xyz(k_over_s: [f64; 3]) -> Xyz {
    let [x, y, z] = k_over_s.map(|k| reflectance(k).unwrap_or(0.0));
    Xyz { x: WHITE[0] * x, y: WHITE[1] * y, z: WHITE[2] * z }
}

/// The inverse: K/S for X, Y and Z of a colour, each within what an opaque pad can have.
pub(super) fn k_over_s_of(lab: Lab) -> [f64; 3] {
    let Xyz { x, y, z } = lab.to_xyz();
    let shares = [x / WHITE[0], y / WHITE[1], z / WHITE[2]];
    shares.map(|share| k_over_s(share.clamp(1e-4, 0.999)).unwrap_or(0.0))
}

/// L* of an opaque pad by its K/S, with its reflectance taken as the luminance Y.
pub fn lightness(k_over_s: f64) -> f64 {
    Lab::from_xyz(xyz([k_over_s; 3])).l
}

/// K/S of an opaque pad by its L*, 0 < L* <= 100.
pub fn k_over_s_of_lightness(l: f64) -> f64 {
    k_over_s_of(Lab { l, a: 0.0, b: 0.0 })[1]
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

    #[test]
    fn a_colour_is_its_three_k_over_s_and_pales_to_white() {
        let straw = Lab { l: 68.0, a: 5.0, b: 20.0 };
        let k = k_over_s_of(straw);
        let back = Lab::from_xyz(xyz(k));
        for (found, given) in [(back.l, straw.l), (back.a, straw.a), (back.b, straw.b)] {
            assert!((found - given).abs() < 0.02, "{back:?}");
        }
        let yellow = |colour: f64| yellowness(xyz(k.map(|k| k * colour))).unwrap_or(f64::NAN);
        assert!(yellow(1.0) > yellow(0.4) + 5.0 && yellow(0.4) > yellow(0.05));
        assert!(yellow(1e-9).abs() < 0.5);
    }
}
