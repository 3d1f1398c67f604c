//! Bicarbonate of tap water.

use crate::message::Field;
use crate::quantity::{Basis, Estimate};

pub const WATER_BICARBONATE: Field = Field("water_bicarbonate");

/// Bicarbonate of tap water, mol/L: soft and hard water have 0 to 5 mmol/L (from memory).
pub const BICARBONATE: Estimate<f64> =
    Estimate { value: 0.002, low: 0.0, high: 0.005, basis: Basis::Assumed };
