//! The schedule of a bath, as it is stored with the bath and with each change of times.

use serde::{Deserialize, Serialize};
use serde_with::{DefaultOnNull, serde_as, skip_serializing_none};

/// When to do what in a bath, in minutes from its start. Nothing is cued
/// after the stop.
#[serde_as]
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Schedule {
    /// Interval between stirs.
    pub stir_every_min: Option<f64>,
    /// Interval between temperature checks.
    pub reheat_every_min: Option<f64>,
    /// Instants of pH readings.
    #[serde_as(deserialize_as = "DefaultOnNull")]
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ph_at_min: Vec<f64>,
    /// Instants of strip readings: chlorine or peroxide, by the bath's oxidant.
    #[serde_as(deserialize_as = "DefaultOnNull")]
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub strip_at_min: Vec<f64>,
    /// Instants of colour photos.
    #[serde_as(deserialize_as = "DefaultOnNull")]
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photo_at_min: Vec<f64>,
    /// Stop of the bath; `None` for a bath that runs until the person stops it.
    pub stop_at_min: Option<f64>,
}
