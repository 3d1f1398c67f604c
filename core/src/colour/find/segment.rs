//! Segmentation of a photo into connected regions of similar colour, by region growing.

use super::downsample::DownsampledPhoto;
use crate::colour::photo::Area;

/// A photo divided into regions.
pub(super) struct Segmentation {
    /// Regions of at least 1/400 of the photo.
    pub regions: Vec<ConnectedRegion>,
    /// Region of each pixel.
    labels: Vec<u16>,
    width: usize,
    height: usize,
}

/// A connected region of similar colour.
pub(super) struct ConnectedRegion {
    pub label: u16,
    pub pixels: usize,
    left: usize,
    right: usize,
    top: usize,
    bottom: usize,
    /// Mean linear light.
    pub mean: [f64; 3],
    /// Standard deviation of green over its mean.
    pub spread: f64,
    /// Touches the edge of the photo.
    pub at_edge: bool,
}

impl Segmentation {
    /// Grows regions: a pixel joins its neighbour if both differ by less than a step and the
    /// pixel is near the running mean of the region.
    pub fn of(photo: &DownsampledPhoto) -> Self {
        let count = photo.width * photo.height;
        let mut labels = vec![0_u16; count];
        let mut found: Vec<RegionBuilder> = Vec::new();
        let mut stack = Vec::new();
        for start in 0..count {
            if labels[start] != 0 || found.len() >= usize::from(u16::MAX) - 1 {
                continue;
            }
            let label = found.len() as u16 + 1;
            let mut region = RegionBuilder::new(photo, start);
            labels[start] = label;
            stack.push(start);
            while let Some(at) = stack.pop() {
                region.add(photo, at);
                let mean = region.mean();
                for next in neighbours(at, photo.width, count) {
                    if labels[next] == 0 && similar(mean, photo.light[at], photo.light[next]) {
                        labels[next] = label;
                        stack.push(next);
                    }
                }
            }
            found.push(region);
        }
        let enough = count / 400;
        let regions = found
            .into_iter()
            .enumerate()
            .filter(|(_, region)| region.pixels >= enough)
            .map(|(i, region)| region.build(i as u16 + 1, photo))
            .collect();
        Self { regions, labels, width: photo.width, height: photo.height }
    }

    /// Share of the photo, 0 to 1.
    pub fn share(&self, region: &ConnectedRegion) -> f64 {
        region.pixels as f64 / (self.width * self.height) as f64
    }

    /// A rectangle around the centre of the region: the largest with less than 3 % foreign
    /// pixels, reduced by a tenth.
    pub fn inner_area(&self, region: &ConnectedRegion) -> Area {
        let (cx, cy) = (region.left + region.right, region.top + region.bottom);
        let own = |part: f64| {
            let half = |from: usize, to: usize| part * (to - from) as f64 / 2.0;
            let (w, h) = (half(region.left, region.right), half(region.top, region.bottom));
            let range = |middle: usize, half: f64| {
                let middle = middle as f64 / 2.0;
                ((middle - half).round() as usize)..=((middle + half).round() as usize)
            };
            (range(cx, w), range(cy, h))
        };
        let mut part = 0.9;
        while part > 0.3 {
            let (xs, ys) = own(part);
            let foreign = ys
                .flat_map(|y| xs.clone().map(move |x| (x, y)))
                .filter(|&(x, y)| self.labels[y * self.width + x] != region.label)
                .count();
            let whole = region.pixels as f64 * part * part;
            if (foreign as f64) < 0.03 * whole {
                break;
            }
            part -= 0.05;
        }
        let (xs, ys) = own(part * 0.9);
        Area {
            x: *xs.start() as u32,
            y: *ys.start() as u32,
            width: (xs.end() - xs.start()) as u32,
            height: (ys.end() - ys.start()) as u32,
        }
    }
}

impl ConnectedRegion {
    /// Share of its bounding box: 1 for an upright rectangle, 0.79 for a disc.
    pub fn fill(&self) -> f64 {
        self.pixels as f64 / ((self.right - self.left + 1) * (self.bottom - self.top + 1)) as f64
    }
}

/// Neighbouring pixels on four sides.
fn neighbours(at: usize, width: usize, count: usize) -> impl Iterator<Item = usize> {
    let x = at % width;
    [
        (x > 0).then(|| at - 1),
        (x + 1 < width).then(|| at + 1),
        at.checked_sub(width),
        (at + width < count).then(|| at + width),
    ]
    .into_iter()
    .flatten()
}

/// Whether the next pixel is similar to the pixel here and to the mean of the region.
fn similar(mean: [f32; 3], here: [f32; 3], next: [f32; 3]) -> bool {
    let near = |one: [f32; 3], other: [f32; 3], part: f32| {
        (0..3).all(|c| (one[c] - other[c]).abs() <= part * (one[c].max(other[c]) + 0.01))
    };
    near(here, next, 0.09) && near(mean, next, 0.22)
}

/// Running sums of a growing region.
struct RegionBuilder {
    pixels: usize,
    sum: [f64; 3],
    squares: f64,
    bounds: [usize; 4],
}

impl RegionBuilder {
    fn new(photo: &DownsampledPhoto, start: usize) -> Self {
        let (x, y) = (start % photo.width, start / photo.width);
        Self { pixels: 0, sum: [0.0; 3], squares: 0.0, bounds: [x, x, y, y] }
    }

    fn add(&mut self, photo: &DownsampledPhoto, at: usize) {
        let (x, y) = (at % photo.width, at / photo.width);
        let [left, right, top, bottom] = self.bounds;
        self.bounds = [left.min(x), right.max(x), top.min(y), bottom.max(y)];
        let light = photo.light[at];
        (0..3).for_each(|c| self.sum[c] += f64::from(light[c]));
        self.squares += f64::from(light[1]).powi(2);
        self.pixels += 1;
    }

    fn mean(&self) -> [f32; 3] {
        self.sum.map(|s| (s / self.pixels as f64) as f32)
    }

    fn build(self, label: u16, photo: &DownsampledPhoto) -> ConnectedRegion {
        let [left, right, top, bottom] = self.bounds;
        let n = self.pixels as f64;
        let mean = self.sum.map(|s| s / n);
        let variance = (self.squares / n - mean[1] * mean[1]).max(0.0);
        ConnectedRegion {
            label,
            pixels: self.pixels,
            left,
            right,
            top,
            bottom,
            mean,
            spread: variance.sqrt() / mean[1].max(1e-4),
            at_edge: left == 0
                || top == 0
                || right + 1 == photo.width
                || bottom + 1 == photo.height,
        }
    }
}
