//! Downsampling of a photo in linear light.

use crate::colour::photo::PhotoPixels;
use crate::colour::space::decode;

/// Long side of the downsampled photo, pixels, at most.
const SIDE: u32 = 160;

/// Samples per side of a block: enough to reduce noise to a quarter.
const SAMPLES: u32 = 4;

/// A photo averaged down, in linear light.
pub(super) struct DownsampledPhoto {
    pub width: usize,
    pub height: usize,
    /// Pixels of the photo per pixel here.
    pub factor: f64,
    pub light: Vec<[f32; 3]>,
}

impl DownsampledPhoto {
    pub fn of(photo: &PhotoPixels) -> Self {
        let factor = photo.long_side().div_ceil(SIDE).max(1);
        let (width, height) = (photo.width() / factor, photo.height() / factor);
        let linear: Vec<f32> = (0..256).map(|c| decode(f64::from(c) / 255.0) as f32).collect();
        let samples = factor.min(SAMPLES);
        let step = factor / samples;
        let begin = (factor - 1 - (samples - 1) * step) / 2;
        let part = 1.0 / (samples * samples) as f32;
        let mut light = Vec::with_capacity((width * height) as usize);
        for y in (0..height).map(|y| y * factor + begin) {
            for x in (0..width).map(|x| x * factor + begin) {
                let mut sum = [0.0_f32; 3];
                for y in (0..samples).map(|dy| y + dy * step) {
                    for x in (0..samples).map(|dx| x + dx * step) {
                        let rgb = photo.rgb(x, y);
                        (0..3).for_each(|c| sum[c] += linear[usize::from(rgb[c])]);
                    }
                }
                light.push(sum.map(|v| v * part));
            }
        }
        Self { width: width as usize, height: height as usize, factor: f64::from(factor), light }
    }
}
