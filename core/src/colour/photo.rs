//! Pixels of a decoded photo. Reading files and metadata is elsewhere.

use serde::{Deserialize, Serialize};

/// Pixels of a photo: RGBA, 8 bits each, rows from the top, as a canvas gives them; sRGB codes.
#[derive(Clone, Copy, Debug)]
pub struct PhotoPixels<'a> {
    rgba: &'a [u8],
    width: u32,
    height: u32,
}

impl<'a> PhotoPixels<'a> {
    /// `None` unless `rgba` is exactly `width * height * 4` bytes and not empty.
    pub fn new(rgba: &'a [u8], width: u32, height: u32) -> Option<Self> {
        let bytes = (width as usize).checked_mul(height as usize)?.checked_mul(4)?;
        (bytes > 0 && rgba.len() == bytes).then_some(Self { rgba, width, height })
    }

    pub fn width(&self) -> u32 {
        self.width
    }

    pub fn height(&self) -> u32 {
        self.height
    }

    /// The longer side, pixels.
    pub fn long_side(&self) -> u32 {
        self.width.max(self.height)
    }

    /// Red, green, blue at a place inside the photo.
    pub(super) fn rgb(&self, x: u32, y: u32) -> [u8; 3] {
        let at = (y as usize * self.width as usize + x as usize) * 4;
        [self.rgba[at], self.rgba[at + 1], self.rgba[at + 2]]
    }
}

/// A rectangle in a photo, in pixels of that photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Area {
    pub x: u32,
    pub y: u32,
    pub width: u32,
    pub height: u32,
}

impl Area {
    /// The centre, pixels.
    pub fn centre(&self) -> [f64; 2] {
        [
            f64::from(self.x) + f64::from(self.width) / 2.0,
            f64::from(self.y) + f64::from(self.height) / 2.0,
        ]
    }

    /// Whether both share a pixel.
    pub fn overlaps(&self, other: &Self) -> bool {
        let apart = |from: u32, size: u32, other: u32, others: u32| {
            from + size <= other || other + others <= from
        };
        !apart(self.x, self.width, other.x, other.width)
            && !apart(self.y, self.height, other.y, other.height)
    }

    /// The same place in the same photo scaled by `factor`.
    pub fn scaled(&self, factor: f64) -> Self {
        let to = |v: u32| (f64::from(v) * factor).round().max(0.0) as u32;
        Self { x: to(self.x), y: to(self.y), width: to(self.width), height: to(self.height) }
    }
}
