//! A colour on a screen.

use super::space::Lab;
use palette::{LinSrgb, Srgb};
use serde::{Deserialize, Serialize};

/// sRGB codes of a colour for a screen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DisplayColour {
    pub rgb: [u8; 3],
    /// The colour is outside the gamut of sRGB; each channel is clamped.
    pub outside_gamut: bool,
}

impl DisplayColour {
    pub fn new(lab: Lab) -> Self {
        let srgb: Srgb<f64> = Srgb::from_linear(LinSrgb::from(lab.to_xyz().to_linear()));
        // Tolerance of half a code: rounding does not put pure white outside.
        let outside_gamut =
            <[f64; 3]>::from(srgb).iter().any(|c| !(-0.5..=255.5).contains(&(c * 255.0)));
        Self { rgb: srgb.into_format::<u8>().into(), outside_gamut }
    }

    /// For a style attribute: `rgb(245 240 225)`.
    pub fn css(&self) -> String {
        let [r, g, b] = self.rgb;
        format!("rgb({r} {g} {b})")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::space::decode;

    #[test]
    fn codes_are_kept() {
        for rgb in [[0, 0, 0], [255, 255, 255], [245, 240, 225], [150, 120, 80]] {
            let lab = Lab::from_linear(rgb.map(|c| decode(f64::from(c) / 255.0)));
            assert_eq!(DisplayColour::new(lab), DisplayColour { rgb, outside_gamut: false });
        }
    }

    #[test]
    fn colour_outside_the_gamut_is_marked() {
        let colour = DisplayColour::new(Lab { l: 60.0, a: -120.0, b: 10.0 });
        assert!(colour.outside_gamut);
        assert_eq!(colour.rgb[0], 0);
    }
}
