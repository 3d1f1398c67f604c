//! What a camera does to colours that white and grey cannot correct: the errors of an unknown
//! camera, from published ones. The table is made by `tests/colour/cameras.rs`.

pub mod chart;
pub mod lesson;
mod table;
pub mod taught;

use super::reference::Light;
use super::space::luminance;

/// Terms of the polynomial of a corrected colour that describes an error.
pub const FEATURES: usize = 7;

/// The terms for a corrected colour in linear sRGB: constant, lightness and its square, the
/// logarithms of red and blue over green, the square of the latter, and blue with lightness.
/// All but the constant are 0 at a white of 90 %.
pub fn features(linear: [f64; 3]) -> [f64; FEATURES] {
    let [r, g, b] = linear.map(|v| v.max(1e-3));
    let light = (luminance([r, g, b]) / 0.90).ln();
    let (red, blue) = ((r / g).ln(), (b / g).ln());
    [1.0, light, light * light, red, blue, blue * blue, blue * light]
}

/// Distribution of ln(true / corrected) of each channel over cameras, as independent random
/// polynomials.
pub struct CameraErrors {
    /// One standard deviation each, common to all colours of a camera and light: coefficients
    /// of red, green and blue.
    modes: &'static [[[f64; FEATURES]; 3]],
    /// Standard deviation of each channel that is a colour's own.
    pub rest: [f64; 3],
}

impl CameraErrors {
    /// No errors at all.
    pub const NONE: Self = Self { modes: &[], rest: [0.0; 3] };

    /// For cameras that nobody knows, in this kind of light, with or without a grey that
    /// determines the tone curve.
    pub fn unknown(light: Light, grey: bool) -> &'static Self {
        match (light, grey) {
            (Light::Daylight, true) => &table::DAYLIGHT_WITH_GREY,
            (Light::Daylight, false) => &table::DAYLIGHT,
            (Light::Bulb, true) => &table::BULB_WITH_GREY,
            (Light::Bulb, false) => &table::BULB,
            (Light::GoodLamp | Light::OtherLamp, true) => &table::GOOD_LAMP_WITH_GREY,
            (Light::GoodLamp | Light::OtherLamp, false) => &table::GOOD_LAMP,
        }
    }

    /// The modes at a colour: relative change of each linear channel, one standard deviation.
    pub fn at(&self, linear: [f64; 3]) -> impl Iterator<Item = [f64; 3]> {
        self.modes.iter().map(move |mode| at(mode, linear))
    }
}

/// A mode at a colour: relative change of each linear channel.
pub(super) fn at(mode: &[[f64; FEATURES]; 3], linear: [f64; 3]) -> [f64; 3] {
    let features = features(linear);
    mode.each_ref().map(|c| c.iter().zip(features).map(|(k, f)| k * f).sum())
}
