//! Reading a rectangle of a photo, robustly.
//!
//! Medians rather than means: a shive, a drop of glare or a stray finger moves a
//! mean and leaves a median alone.

use super::quality::{Place, Rejection};
use super::space::decode;
use serde::{Deserialize, Serialize};

/// The pixels of a photo: RGBA, 8 bits each, rows from the top, as a canvas gives
/// them; sRGB codes.
#[derive(Clone, Copy, Debug)]
pub struct Photo<'a> {
    rgba: &'a [u8],
    width: u32,
    height: u32,
}

impl<'a> Photo<'a> {
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

    /// The longer side, in pixels.
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
    /// The middle, in pixels.
    pub fn centre(&self) -> [f64; 2] {
        [
            f64::from(self.x) + f64::from(self.width) / 2.0,
            f64::from(self.y) + f64::from(self.height) / 2.0,
        ]
    }

    /// Whether the two share a pixel.
    pub fn overlaps(&self, other: &Self) -> bool {
        let apart = |from: u32, size: u32, other: u32, others: u32| {
            from + size <= other || other + others <= from
        };
        !apart(self.x, self.width, other.x, other.width)
            && !apart(self.y, self.height, other.y, other.height)
    }

    /// The same place in the same photo at another size, `factor` times as large.
    pub fn scaled(&self, factor: f64) -> Self {
        let to = |v: u32| (f64::from(v) * factor).round().max(0.0) as u32;
        Self { x: to(self.x), y: to(self.y), width: to(self.width), height: to(self.height) }
    }
}

/// What a rectangle of a photo holds. Everything that a correction and a reading
/// need, so that a stored patch can be measured again without its photo.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Patch {
    pub area: Area,
    /// Median code of each channel, 0 to 255; between codes where the histogram
    /// says so.
    pub median: [f64; 3],
    /// Spread of each channel: 1.4826 times the median absolute deviation, in
    /// codes, which is the standard deviation where the noise is normal.
    pub spread: [f64; 3],
    /// Share of pixels with any channel at the top, 0 to 1.
    pub clipped_high: f64,
    /// Share of pixels with any channel at the bottom, 0 to 1.
    pub clipped_low: f64,
    /// Largest difference in linear light between the patch's quarters, as a share
    /// of the patch's own. A shadow's edge or two things in one patch shows here.
    pub unevenness: f64,
    /// Pixels looked at.
    pub pixels: u32,
}

/// Fewest pixels on a side for a median to mean something: common practice, no
/// source.
pub const LEAST_SIDE: u32 = 40;

/// JPEG leaves a clipped field a code or two off the end.
const TOP: u8 = 254;
const BOTTOM: u8 = 1;

/// Enough pixels for any median; a larger patch is looked at on a coarser grid.
const ENOUGH: u32 = 40_000;

/// Reads the statistics of `area`, which is `place`. Refused if it lies outside
/// the photo or is smaller than [`LEAST_SIDE`] on a side.
pub fn read(photo: &Photo, area: Area, place: Place) -> Result<Patch, Rejection> {
    let inside = area.x.checked_add(area.width).is_some_and(|right| right <= photo.width)
        && area.y.checked_add(area.height).is_some_and(|bottom| bottom <= photo.height);
    if !inside {
        return Err(Rejection::OutsidePhoto { place });
    }
    let side = area.width.min(area.height);
    if side < LEAST_SIDE {
        return Err(Rejection::TooSmall { place, side, least: LEAST_SIDE });
    }
    let step = stride(area);
    let mut all = Histogram::default();
    let mut quarters =
        [Histogram::default(), Histogram::default(), Histogram::default(), Histogram::default()];
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
        all.join(quarter);
    }
    let median = [0, 1, 2].map(|c| all.median(c));
    Ok(Patch {
        area,
        median,
        spread: [0, 1, 2].map(|c| 1.4826 * all.deviation(c, median[c])),
        clipped_high: f64::from(high) / f64::from(all.count),
        clipped_low: f64::from(low) / f64::from(all.count),
        unevenness: unevenness(&quarters, median[1]),
        pixels: all.count,
    })
}

fn stride(area: Area) -> usize {
    let pixels = f64::from(area.width) * f64::from(area.height);
    (pixels / f64::from(ENOUGH)).sqrt().ceil().max(1.0) as usize
}

fn unevenness(quarters: &[Histogram; 4], green: f64) -> f64 {
    let light = |code: f64| decode(code / 255.0);
    let lights = quarters.each_ref().map(|quarter| light(quarter.median(1)));
    let most = lights.iter().copied().fold(f64::MIN, f64::max);
    let least = lights.iter().copied().fold(f64::MAX, f64::min);
    (most - least) / light(green).max(1e-4)
}

struct Histogram {
    bins: [[u32; 256]; 3],
    count: u32,
}

impl Default for Histogram {
    fn default() -> Self {
        Self { bins: [[0; 256]; 3], count: 0 }
    }
}

impl Histogram {
    fn add(&mut self, rgb: [u8; 3]) {
        for (bins, code) in self.bins.iter_mut().zip(rgb) {
            bins[usize::from(code)] += 1;
        }
        self.count += 1;
    }

    fn join(&mut self, other: &Self) {
        for (mine, theirs) in self.bins.iter_mut().flatten().zip(other.bins.iter().flatten()) {
            *mine += theirs;
        }
        self.count += other.count;
    }

    /// The middle of a channel, placed within its bin by how much of the bin lies
    /// below the middle.
    fn median(&self, channel: usize) -> f64 {
        let half = f64::from(self.count) / 2.0;
        let mut below = 0.0;
        for (code, &n) in self.bins[channel].iter().enumerate() {
            let n = f64::from(n);
            if n > 0.0 && below + n >= half {
                return (code as f64 - 0.5 + (half - below) / n).clamp(0.0, 255.0);
            }
            below += n;
        }
        0.0
    }

    /// Median absolute deviation from `centre`, in codes.
    fn deviation(&self, channel: usize, centre: f64) -> f64 {
        let mut distances: Vec<(f64, u32)> = self.bins[channel]
            .iter()
            .enumerate()
            .filter(|&(_, &n)| n > 0)
            .map(|(code, &n)| ((code as f64 - centre).abs(), n))
            .collect();
        distances.sort_by(|one, other| one.0.total_cmp(&other.0));
        let half = self.count.div_ceil(2);
        let mut seen = 0;
        for (distance, n) in distances {
            seen += n;
            if seen >= half {
                return distance;
            }
        }
        0.0
    }
}
