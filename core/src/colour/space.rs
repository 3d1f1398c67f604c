//! sRGB, XYZ and CIELAB, for the 2° observer and D65.
//!
//! Calculated by the crate `palette`; here are the scales of this module (Y = 100 for a
//! perfect white) and the serialisable types.

use palette::LinSrgb;
use palette::convert::IntoColorUnclamped;
use palette::encoding::{FromLinear, IntoLinear, Srgb};
use palette::{GetHue, white_point::D65 as D65White};
use serde::{Deserialize, Serialize};

/// Tristimulus values; a perfect white has Y = 100.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Xyz {
    pub x: f64,
    pub y: f64,
    pub z: f64,
}

/// CIELAB, D65, 2° observer.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lab {
    pub l: f64,
    pub a: f64,
    pub b: f64,
}

/// D65, 2° observer, as the sRGB standard rounds it: IEC 61966-2-1 (1999), with
/// x = 0.3127, y = 0.3290 written out to XYZ by common software.
pub const D65: Xyz = Xyz { x: 95.047, y: 100.0, z: 108.883 };

impl Xyz {
    /// From linear sRGB (IEC 61966-2-1), where a perfect white is `[1, 1, 1]`.
    pub fn from_linear([r, g, b]: [f64; 3]) -> Self {
        let xyz: palette::Xyz<D65White, f64> = LinSrgb::new(r, g, b).into_color_unclamped();
        Self { x: 100.0 * xyz.x, y: 100.0 * xyz.y, z: 100.0 * xyz.z }
    }

    /// To linear sRGB; channels outside 0..=1 are outside the gamut of sRGB.
    pub fn to_linear(self) -> [f64; 3] {
        let rgb: LinSrgb<f64> =
            palette::Xyz::<D65White, f64>::new(self.x / 100.0, self.y / 100.0, self.z / 100.0)
                .into_color_unclamped();
        [rgb.red, rgb.green, rgb.blue]
    }
}

impl Lab {
    /// CIE 15 (2004), equations 8.3 to 8.8.
    pub fn from_xyz(xyz: Xyz) -> Self {
        let lab: palette::Lab<D65White, f64> =
            palette::Xyz::new(xyz.x / 100.0, xyz.y / 100.0, xyz.z / 100.0).into_color_unclamped();
        Self { l: lab.l, a: lab.a, b: lab.b }
    }

    /// The inverse of [`Lab::from_xyz`].
    pub fn to_xyz(self) -> Xyz {
        let xyz: palette::Xyz<D65White, f64> = self.inner().into_color_unclamped();
        Xyz { x: 100.0 * xyz.x, y: 100.0 * xyz.y, z: 100.0 * xyz.z }
    }

    /// The same colour as a `palette` type.
    pub(super) fn inner(self) -> palette::Lab<D65White, f64> {
        palette::Lab::new(self.l, self.a, self.b)
    }

    /// From linear sRGB, where a perfect white is `[1, 1, 1]`.
    pub fn from_linear(rgb: [f64; 3]) -> Self {
        Self::from_xyz(Xyz::from_linear(rgb))
    }

    /// C*ab, distance from the grey axis.
    pub fn chroma(self) -> f64 {
        let lch: palette::Lch<D65White, f64> = self.inner().into_color_unclamped();
        lch.chroma
    }

    /// hab, degrees, 0 to 360: 0 red, 90 yellow, 180 green, 270 blue.
    pub fn hue_degrees(self) -> f64 {
        self.inner().get_hue().into_positive_degrees()
    }
}

/// Relative luminance of linear sRGB, with the weights of IEC 61966-2-1 (1999).
pub fn luminance([r, g, b]: [f64; 3]) -> f64 {
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Smallest and largest value.
pub(super) fn extremes<const N: usize>(values: [f64; N]) -> (f64, f64) {
    (values.into_iter().fold(f64::MAX, f64::min), values.into_iter().fold(f64::MIN, f64::max))
}

/// sRGB transfer function: linear light from a code, 0 to 1. IEC 61966-2-1 (1999).
pub fn decode(code: f64) -> f64 {
    Srgb::into_linear(code)
}

/// Inverse sRGB transfer function: code, 0 to 1, from linear light.
pub fn encode(linear: f64) -> f64 {
    Srgb::from_linear(linear)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lab_of(r: u8, g: u8, b: u8) -> Lab {
        Lab::from_linear([r, g, b].map(|c| decode(f64::from(c) / 255.0)))
    }

    fn close(lab: Lab, l: f64, a: f64, b: f64) {
        let near = |x: f64, y: f64| (x - y).abs() <= 0.02;
        assert!(near(lab.l, l) && near(lab.a, a) && near(lab.b, b), "{lab:?} is not {l} {a} {b}");
    }

    /// Computed with colour-science 0.4.7.
    #[test]
    fn lab_of_srgb_codes() {
        close(lab_of(255, 0, 0), 53.241, 80.092, 67.203);
        close(lab_of(0, 0, 255), 32.297, 79.188, -107.860);
        close(lab_of(128, 128, 128), 53.585, 0.0, 0.0);
        close(lab_of(245, 240, 225), 94.810, -0.860, 7.838);
        close(lab_of(150, 120, 80), 52.395, 6.227, 26.348);
    }

    #[test]
    fn conversions_are_inverse() {
        for rgb in [[0.0, 0.0, 0.0], [0.001, 0.5, 0.9], [1.0, 1.0, 1.0], [0.7, 0.6, 0.4]] {
            let back = Lab::from_linear(rgb).to_xyz().to_linear();
            for (one, other) in rgb.iter().zip(back) {
                assert!((one - other).abs() < 1e-5, "{rgb:?} came back as {back:?}");
            }
            for c in rgb {
                assert!((decode(encode(c)) - c).abs() < 1e-6);
            }
        }
    }
}
