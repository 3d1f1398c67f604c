//! Display of photos under one light, for comparison.

use super::correction::Correction;
use super::space::encode;
use super::tone::ToneCurve;
use serde::{Deserialize, Serialize};

/// Lookup tables from a photo's codes to codes under a common white: one per channel. Photos
/// mapped this way show one surface in one colour.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DisplayLut {
    pub tables: [Vec<u8>; 3],
}

impl DisplayLut {
    /// Tables for the photo of `correction`, for the light at its first white.
    pub fn new(correction: &Correction) -> Self {
        let light = correction.light(&correction.tone, correction.patches.white.area.centre());
        Self::under(&correction.tone, light)
    }

    /// Tables for the light at a patch of known codes and corrected colour (linear sRGB).
    /// `None` if the colour is black in a channel.
    pub fn of_patch(tone: &ToneCurve, codes: [f64; 3], linear: [f64; 3]) -> Option<Self> {
        let light = [0, 1, 2].map(|c| tone.decode(codes[c]).max(1e-4) / linear[c]);
        light.iter().all(|l| l.is_finite() && *l > 0.0).then(|| Self::under(tone, light))
    }

    fn under(tone: &ToneCurve, light: [f64; 3]) -> Self {
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

    /// One channel's table (0 red, 1 green, 2 blue) at `points` evenly spaced codes, each 0
    /// to 1, as `tableValues` of an SVG filter. At least two points.
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
    fn white_maps_to_its_reflectance() {
        for codes in [[220.0, 210.0, 190.0], [180.0, 185.0, 200.0]] {
            let correction = correction(codes);
            let lut = DisplayLut::new(&correction);
            for (table, code) in lut.tables.iter().zip(codes) {
                assert!(table[code as usize].abs_diff((encode(0.90) * 255.0) as u8) <= 1);
                assert!(table.windows(2).all(|w| w[0] <= w[1]));
            }
            assert_eq!(lut.sampled(0, 17).len(), 17);
        }
    }

    #[test]
    fn patch_maps_to_its_own_colour() {
        let linear = [0.6, 0.55, 0.4];
        let lut = DisplayLut::of_patch(&ToneCurve::PLAIN, [190.0, 170.0, 120.0], linear).unwrap();
        for (c, code) in [190, 170, 120].into_iter().enumerate() {
            let wanted = (encode(linear[c]) * 255.0).round() as u8;
            assert!(lut.tables[c][code].abs_diff(wanted) <= 1);
        }
        assert!(DisplayLut::of_patch(&ToneCurve::PLAIN, [190.0; 3], [0.0; 3]).is_none());
    }
}
