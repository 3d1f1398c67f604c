//! Entries about what a camera was taught. How they are used is in `crate::colour`.

use crate::colour::{reference::Light, tone::ToneCurve};
use serde::{Deserialize, Serialize};

/// A photo of surfaces of known colour taught the camera of the device that wrote this. The
/// newest for each device and light counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CameraTaught {
    pub light: Light,
    /// From corrected linear sRGB to the true one, row by row; each row sums to 1.
    pub matrix: [[f64; 3]; 3],
    pub tone: ToneCurve,
    /// Standard deviation of ln(true / corrected) of red, green and blue that is left over.
    pub rest: [f64; 3],
    /// Median CIEDE2000 of the pulp-like surfaces before the lesson, and with it.
    pub before_delta_e00: f64,
    pub after_delta_e00: f64,
    /// Name of the chart or the swatches.
    pub surface_name: String,
    /// The surfaces, the white first.
    pub surfaces: Vec<TaughtSurface>,
}

/// A surface of a lesson.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TaughtSurface {
    /// Median sRGB in the photo, 0 to 255.
    pub rgb: [f64; 3],
    /// Its true CIELAB, D65, 2° observer.
    pub lightness: f64,
    pub a: f64,
    pub b: f64,
}
