//! A colour as a screen shows it.

use super::space::{Lab, encode};
use serde::{Deserialize, Serialize};

/// An sRGB triple for a screen, and whether it is the colour itself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Chip {
    pub rgb: [u8; 3],
    /// The colour lies outside what sRGB can show, and the chip is only its
    /// nearest corner, channel by channel.
    pub outside_gamut: bool,
}

impl Chip {
    pub fn new(lab: Lab) -> Self {
        let linear = lab.to_xyz().to_linear();
        // Half a code of room, so that pure white is not called unshowable.
        let outside_gamut = linear.iter().any(|&c| {
            let code = encode(c) * 255.0;
            !(-0.5..=255.5).contains(&code)
        });
        let rgb = linear.map(|c| (encode(c.clamp(0.0, 1.0)) * 255.0).round() as u8);
        Self { rgb, outside_gamut }
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
    fn codes_survive() {
        for rgb in [[0, 0, 0], [255, 255, 255], [245, 240, 225], [150, 120, 80]] {
            let lab = Lab::from_linear(rgb.map(|c| decode(f64::from(c) / 255.0)));
            assert_eq!(Chip::new(lab), Chip { rgb, outside_gamut: false });
        }
    }

    #[test]
    fn unshowable_is_said() {
        let chip = Chip::new(Lab { l: 60.0, a: -120.0, b: 10.0 });
        assert!(chip.outside_gamut);
        assert_eq!(chip.rgb[0], 0);
    }
}
