//! A bath's colour over its time.

use super::measure::Reading;
use super::shift::Dryness;
use super::space::Lab;
use crate::quantity::Known;
use serde::{Deserialize, Serialize};

/// A reading and when it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Minutes in the bath.
    pub minutes: f64,
    pub dryness: Dryness,
    pub reading: Reading,
}

/// One point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    pub minutes: f64,
    pub dryness: Dryness,
    pub lightness: Known<f64>,
    pub yellowness: Known<f64>,
    /// CIEDE2000 to the target.
    pub to_target: Known<f64>,
}

/// The chart's points in order of time, those of one dryness together: wet readings
/// are not to be joined by a line to dried ones.
pub fn series(taken: &[Taken], target: Lab) -> Vec<Step> {
    let _ = (taken, target);
    Vec::new()
}
