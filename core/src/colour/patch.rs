//! Robust statistics of a rectangle of a photo.
//!
//! Medians rather than means: shives, glare or a finger in the patch hardly change them.

use super::error::ColourError;
use super::histogram::Histogram;
use super::photo::{Area, PhotoPixels};
use super::role::PatchRole;
use super::space::{decode, extremes};
use serde::{Deserialize, Serialize};

/// Statistics of a rectangle of a photo: all that a correction and a measurement need, so that
/// a stored patch can be measured again without its photo.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PatchStatistics {
    pub area: Area,
    /// Median code of each channel, 0 to 255, interpolated between codes.
    pub median: [f64; 3],
    /// Spread of each channel, codes: 1.4826 times the median absolute deviation, which is the
    /// standard deviation of normal noise.
    pub spread: [f64; 3],
    /// Share of pixels with any channel at the top, 0 to 1.
    pub clipped_high: f64,
    /// Share of pixels with any channel at the bottom, 0 to 1.
    pub clipped_low: f64,
    /// Largest difference in linear light between quarters of the patch, as a share of its
    /// median. Large for a shadow's edge or two things in one patch.
    pub unevenness: f64,
    /// Number of pixels sampled.
    pub pixels: u32,
}

/// Least side of a patch, pixels: common practice, no source.
pub const LEAST_SIDE: u32 = 40;

/// Least side of one of many patches, pixels: own estimate.
pub const LEAST_SMALL_SIDE: u32 = 16;

/// Statistics of `area`, which shows `role`.
///
/// # Errors
/// Outside the photo, or smaller than [`LEAST_SIDE`] on a side.
pub fn read(
    photo: &PhotoPixels,
    area: Area,
    role: PatchRole,
) -> Result<PatchStatistics, ColourError> {
    read_from(photo, area, role, LEAST_SIDE)
}

/// [`read`] for one of many patches that are averaged over: a side of [`LEAST_SMALL_SIDE`] is
/// enough.
///
/// # Errors
/// As [`read`].
pub fn read_small(
    photo: &PhotoPixels,
    area: Area,
    role: PatchRole,
) -> Result<PatchStatistics, ColourError> {
    read_from(photo, area, role, LEAST_SMALL_SIDE)
}

fn read_from(
    photo: &PhotoPixels,
    area: Area,
    role: PatchRole,
    least: u32,
) -> Result<PatchStatistics, ColourError> {
    let inside = area.x.checked_add(area.width).is_some_and(|right| right <= photo.width())
        && area.y.checked_add(area.height).is_some_and(|bottom| bottom <= photo.height());
    if !inside {
        return Err(ColourError::OutsidePhoto { place: role });
    }
    let side = area.width.min(area.height);
    if side < least {
        return Err(ColourError::TooSmall { place: role, side, least });
    }
    let step = stride(area);
    let mut all = Histogram::default();
    let mut quarters = <[Histogram; 4]>::default();
    let (mut high, mut low) = (0_u32, 0_u32);
    for dy in (0..area.height).step_by(step) {
        for dx in (0..area.width).step_by(step) {
            let rgb = photo.rgb(area.x + dx, area.y + dy);
            let quarter =
                usize::from(dx * 2 >= area.width) + 2 * usize::from(dy * 2 >= area.height);
            quarters[quarter].add(rgb);
            high += u32::from(rgb.iter().any(|&c| c >= TOP));
            low += u32::from(rgb.iter().any(|&c| c <= BOTTOM));
        }
    }
    for quarter in &quarters {
        all.merge(quarter);
    }
    let median = [0, 1, 2].map(|c| all.median(c));
    Ok(PatchStatistics {
        area,
        median,
        spread: [0, 1, 2].map(|c| 1.4826 * all.median_deviation(c, median[c])),
        clipped_high: f64::from(high) / f64::from(all.count),
        clipped_low: f64::from(low) / f64::from(all.count),
        unevenness: unevenness(&quarters, median[1]),
        pixels: all.count,
    })
}

/// Codes that count as clipped: JPEG moves a clipped field by a code or two.
const TOP: u8 = 254;
const BOTTOM: u8 = 1;

/// Sampled pixels of a patch, at most; a larger patch is sampled on a grid.
const MAX_SAMPLES: u32 = 40_000;

fn stride(area: Area) -> usize {
    let pixels = f64::from(area.width) * f64::from(area.height);
    (pixels / f64::from(MAX_SAMPLES)).sqrt().ceil().max(1.0) as usize
}

fn unevenness(quarters: &[Histogram; 4], green: f64) -> f64 {
    let light = |code: f64| decode(code / 255.0);
    let (least, most) = extremes(quarters.each_ref().map(|quarter| light(quarter.median(1))));
    (most - least) / light(green).max(1e-4)
}
