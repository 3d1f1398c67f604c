//! Two photos side by side under one light.

use super::correction::Correction;
use super::space::encode;
use super::tone::Tone;
use serde::{Deserialize, Serialize};

/// What a screen does to a photo's codes so that its white, and with it all else,
/// looks as it would in any other photo mapped the same way: for each channel a
/// table from code to code.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mapping {
    pub tables: [Vec<u8>; 3],
}

impl Mapping {
    /// The mapping of the photo that `correction` is of, for the light at its first
    /// white. Two photos so mapped show one surface in one colour.
    pub fn new(correction: &Correction) -> Self {
        let light = correction.light(&correction.tone, correction.patches.white.area.centre());
        Self::under(&correction.tone, light)
    }

    /// The mapping for the light at a patch whose codes and corrected colour (linear
    /// sRGB) are known: what a journal keeps of a reading. `None` if the colour is
    /// black in a channel.
    pub fn of_patch(tone: &Tone, codes: [f64; 3], linear: [f64; 3]) -> Option<Self> {
        let light = [0, 1, 2].map(|c| tone.decode(codes[c]).max(1e-4) / linear[c]);
        light.iter().all(|l| l.is_finite() && *l > 0.0).then(|| Self::under(tone, light))
    }

    fn under(tone: &Tone, light: [f64; 3]) -> Self {
        let tables = light.map(|white| {
            (0..=255_u8)
                .map(|code| {
                    let reflectance = tone.decode(f64::from(code)) / white;
                    (encode(reflectance.clamp(0.0, 1.0)) * 255.0).round() as u8
                })
                .collect()
        });
        Self { tables }
    }

    /// One channel's table (0 red, 1 green, 2 blue) at `points` evenly spaced codes,
    /// each 0 to 1: what an SVG filter takes as `tableValues`. At least two points.
    pub fn sampled(&self, channel: usize, points: usize) -> Vec<f64> {
        let last = points.max(2) - 1;
        let table = &self.tables[channel];
        (0..=last).map(|i| f64::from(table[i * 255 / last]) / 255.0).collect()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::colour::correction::tests::correction;

    #[test]
    fn the_white_comes_out_as_its_reflectance() {
        for codes in [[220.0, 210.0, 190.0], [180.0, 185.0, 200.0]] {
            let correction = correction(codes);
            let mapping = Mapping::new(&correction);
            for (table, code) in mapping.tables.iter().zip(codes) {
                assert!(table[code as usize].abs_diff((encode(0.90) * 255.0) as u8) <= 1);
                assert!(table.windows(2).all(|w| w[0] <= w[1]));
            }
            assert_eq!(mapping.sampled(0, 17).len(), 17);
        }
    }

    #[test]
    fn a_patch_comes_out_as_its_own_colour() {
        let linear = [0.6, 0.55, 0.4];
        let mapping = Mapping::of_patch(&Tone::PLAIN, [190.0, 170.0, 120.0], linear).unwrap();
        for (c, code) in [190, 170, 120].into_iter().enumerate() {
            let wanted = (encode(linear[c]) * 255.0).round() as u8;
            assert!(mapping.tables[c][code].abs_diff(wanted) <= 1);
        }
        assert!(Mapping::of_patch(&Tone::PLAIN, [190.0; 3], [0.0; 3]).is_none());
    }
}
