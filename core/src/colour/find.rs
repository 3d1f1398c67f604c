//! A suggestion of where the white, the grey and the pulp are.

use super::patch::{Area, LEAST_SIDE, Photo};
use super::space::decode;
use serde::{Deserialize, Serialize};

/// A place that might be what is looked for. Shown for a person to move or agree
/// with, never used unseen.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proposal {
    pub area: Area,
    /// 0 to 1: how rectangular, plain and well placed it is.
    pub confidence: f64,
}

/// Proposals for one photo.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Proposals {
    pub white: Option<Proposal>,
    pub second_white: Option<Proposal>,
    pub grey: Option<Proposal>,
    pub pulp: Option<Proposal>,
}

/// Looks for a bright neutral rectangle, a grey one and a region of pulp, in the photo
/// averaged down; areas are in its own pixels.
pub fn propose(photo: &Photo) -> Proposals {
    let small = Small::of(photo);
    let regions = regions(&small);
    let to_photo = |region: &Region, confidence: f64| {
        let area = region.inside(&small).scaled(small.factor);
        // A photo scaled to 512 px is about a quarter of the least worth measuring.
        (area.width * 4 >= LEAST_SIDE && area.height * 4 >= LEAST_SIDE)
            .then_some(Proposal { area, confidence: confidence.clamp(0.0, 1.0) })
    };
    let mut whites: Vec<(&Region, f64)> =
        regions.iter().filter_map(|r| Some((r, r.as_white(&regions, &small)?))).collect();
    whites.sort_by(|one, other| other.1.total_cmp(&one.1));
    let Some(&(white, sure)) = whites.first() else {
        return Proposals {
            pulp: pulp(&regions, None, &small).and_then(|(r, c)| to_photo(r, c)),
            ..Proposals::default()
        };
    };
    let second = whites.iter().skip(1).find(|(region, _)| region.is_second(white));
    let grey = best(&regions, |region| region.as_grey(white));
    let pulp = pulp(&regions, Some(white), &small);
    Proposals {
        white: to_photo(white, sure),
        second_white: second.and_then(|&(region, sure)| to_photo(region, sure)),
        grey: grey.and_then(|(region, sure)| to_photo(region, sure)),
        pulp: pulp.and_then(|(region, sure)| to_photo(region, sure)),
    }
}

/// Long side of the picture that is searched.
const SIDE: u32 = 160;

/// Each of its pixels is the mean of so many of the photo's on a side, spread over its place:
/// enough to bring noise down to a quarter.
const SAMPLES: u32 = 4;

/// The photo averaged down, in linear light.
struct Small {
    width: usize,
    height: usize,
    /// Photo pixels per pixel here.
    factor: f64,
    light: Vec<[f32; 3]>,
}

impl Small {
    fn of(photo: &Photo) -> Self {
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

/// Pixels of nearly one colour that hang together.
struct Region {
    id: u16,
    pixels: usize,
    left: usize,
    right: usize,
    top: usize,
    bottom: usize,
    mean: [f64; 3],
    /// Standard deviation of the green over its mean.
    spread: f64,
    /// Touches the photo's edge.
    at_edge: bool,
    /// Which pixels, by region, over the whole picture.
    map: std::rc::Rc<[u16]>,
}

/// Grows regions: a pixel joins its neighbour if the two differ by less than a
/// step and the pixel is still near the region's running mean.
fn regions(small: &Small) -> Vec<Region> {
    let count = small.width * small.height;
    let mut map = vec![0_u16; count];
    let mut found = Vec::new();
    let mut stack = Vec::new();
    for start in 0..count {
        if map[start] != 0 || found.len() >= usize::from(u16::MAX) - 1 {
            continue;
        }
        let id = found.len() as u16 + 1;
        let mut growing = Growing::new(small, start);
        map[start] = id;
        stack.push(start);
        while let Some(at) = stack.pop() {
            growing.add(small, at);
            let mean = growing.mean();
            for next in neighbours(at, small.width, count) {
                if map[next] == 0 && near(mean, small.light[at], small.light[next]) {
                    map[next] = id;
                    stack.push(next);
                }
            }
        }
        found.push(growing);
    }
    let map: std::rc::Rc<[u16]> = map.into();
    let enough = count / 400;
    found
        .into_iter()
        .enumerate()
        .filter(|(_, growing)| growing.pixels >= enough)
        .map(|(i, growing)| growing.finish(i as u16 + 1, small, &map))
        .collect()
}

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

/// Whether the next pixel is nearly the colour of the one here, and near the region's mean.
fn near(mean: [f32; 3], here: [f32; 3], next: [f32; 3]) -> bool {
    let near = |one: [f32; 3], other: [f32; 3], part: f32| {
        (0..3).all(|c| (one[c] - other[c]).abs() <= part * (one[c].max(other[c]) + 0.01))
    };
    near(here, next, 0.09) && near(mean, next, 0.22)
}

struct Growing {
    pixels: usize,
    sum: [f64; 3],
    squares: f64,
    bounds: [usize; 4],
}

impl Growing {
    fn new(small: &Small, start: usize) -> Self {
        let (x, y) = (start % small.width, start / small.width);
        Self { pixels: 0, sum: [0.0; 3], squares: 0.0, bounds: [x, x, y, y] }
    }

    fn add(&mut self, small: &Small, at: usize) {
        let (x, y) = (at % small.width, at / small.width);
        let [left, right, top, bottom] = self.bounds;
        self.bounds = [left.min(x), right.max(x), top.min(y), bottom.max(y)];
        let light = small.light[at];
        (0..3).for_each(|c| self.sum[c] += f64::from(light[c]));
        self.squares += f64::from(light[1]).powi(2);
        self.pixels += 1;
    }

    fn mean(&self) -> [f32; 3] {
        self.sum.map(|s| (s / self.pixels as f64) as f32)
    }

    fn finish(self, id: u16, small: &Small, map: &std::rc::Rc<[u16]>) -> Region {
        let [left, right, top, bottom] = self.bounds;
        let n = self.pixels as f64;
        let mean = self.sum.map(|s| s / n);
        let variance = (self.squares / n - mean[1] * mean[1]).max(0.0);
        Region {
            id,
            pixels: self.pixels,
            left,
            right,
            top,
            bottom,
            mean,
            spread: variance.sqrt() / mean[1].max(1e-4),
            at_edge: left == 0
                || top == 0
                || right + 1 == small.width
                || bottom + 1 == small.height,
            map: std::rc::Rc::clone(map),
        }
    }
}

impl Region {
    /// How much of its bounding box it fills: 1 for an upright rectangle, 0.79 for
    /// a disc.
    fn fill(&self) -> f64 {
        self.pixels as f64 / ((self.right - self.left + 1) * (self.bottom - self.top + 1)) as f64
    }

    fn share(&self, small: &Small) -> f64 {
        self.pixels as f64 / (small.width * small.height) as f64
    }

    /// How sure one may be that this is a white card, if it may be one.
    fn as_white(&self, all: &[Self], small: &Small) -> Option<f64> {
        let brightest = all.iter().map(|r| r.mean[1]).fold(0.0, f64::max);
        let (most, least) = ends(self.mean);
        let size = self.share(small);
        let is_card = self.mean[1] > 0.25
            && self.mean[1] > 0.55 * brightest
            && most / least.max(1e-4) < 2.2
            && self.fill() > 0.72
            && (0.003..0.35).contains(&size);
        let edge = if self.at_edge { 0.7 } else { 1.0 };
        is_card.then(|| {
            let neutral = 1.0 - 0.6 * (most / least.max(1e-4) - 1.0).min(1.0);
            let plain = 1.0 - (self.spread / 0.15).min(1.0) * 0.4;
            let straight = ((self.fill() - 0.65) / 0.25).min(1.0);
            edge * neutral * plain * straight * (self.mean[1] / brightest).sqrt()
        })
    }

    /// Whether it is the same white elsewhere.
    fn is_second(&self, white: &Self) -> bool {
        let steps = [0, 1, 2].map(|c| self.mean[c] / white.mean[c]);
        let (most, least) = ends(steps);
        most < 1.5 && least > 0.66 && most / least < 1.08
    }

    fn as_grey(&self, white: &Self) -> Option<f64> {
        let over = [0, 1, 2].map(|c| self.mean[c] / white.mean[c]);
        let (most, least) = ends(over);
        let size = self.pixels as f64 / white.pixels as f64;
        let is_grey = (0.08..0.6).contains(&over[1])
            && most / least.max(1e-4) < 1.25
            && self.fill() > 0.72
            && !self.at_edge
            && (0.15..8.0).contains(&size);
        is_grey.then(|| {
            let neutral = 1.0 - 2.0 * (most / least - 1.0);
            neutral * ((self.fill() - 0.65) / 0.25).min(1.0)
        })
    }

    /// The largest rectangle round its middle that is all its own, a little smaller
    /// still.
    fn inside(&self, small: &Small) -> Area {
        let (cx, cy) = (self.left + self.right, self.top + self.bottom);
        let own = |part: f64| {
            let half = |from: usize, to: usize| part * (to - from) as f64 / 2.0;
            let (w, h) = (half(self.left, self.right), half(self.top, self.bottom));
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
                .filter(|&(x, y)| self.map[y * small.width + x] != self.id)
                .count();
            let whole = self.pixels as f64 * part * part;
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

/// The region most like pulp: large, off the edge, neither white card nor grey,
/// and not darker than pulp gets.
fn pulp<'a>(
    regions: &'a [Region],
    white: Option<&Region>,
    small: &Small,
) -> Option<(&'a Region, f64)> {
    best(regions, |region| {
        let size = region.share(small);
        let taken = white.is_some_and(|white| {
            region.id == white.id
                || region.is_second(white) && region.fill() > 0.85
                || region.as_grey(white).is_some()
        });
        let is_pulp = !taken && !region.at_edge && size > 0.01 && region.fill() > 0.5;
        is_pulp.then(|| {
            let round = 1.0 - 2.0 * (region.fill() - 0.785).abs();
            round * (size / 0.08).sqrt().min(1.0)
        })
    })
}

fn best(regions: &[Region], score: impl Fn(&Region) -> Option<f64>) -> Option<(&Region, f64)> {
    regions
        .iter()
        .filter_map(|region| Some((region, score(region)?)))
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

/// Largest and smallest.
fn ends(v: [f64; 3]) -> (f64, f64) {
    (v.into_iter().fold(f64::MIN, f64::max), v.into_iter().fold(f64::MAX, f64::min))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const WIDTH: u32 = 320;
    const HEIGHT: u32 = 240;

    /// A dark bench with plain shapes on it.
    fn bench(shapes: &[(Area, [u8; 3], bool)]) -> Vec<u8> {
        let mut rgba = Vec::new();
        for (x, y) in (0..HEIGHT).flat_map(|y| (0..WIDTH).map(move |x| (x, y))) {
            let shape = shapes.iter().find(|(area, _, round)| {
                let [cx, cy] = area.centre();
                let (dx, dy) = (f64::from(x) - cx, f64::from(y) - cy);
                let (w, h) = (f64::from(area.width) / 2.0, f64::from(area.height) / 2.0);
                if *round { (dx / w).hypot(dy / h) <= 1.0 } else { dx.abs() <= w && dy.abs() <= h }
            });
            let [r, g, b] = shape.map_or([70, 72, 78], |(_, rgb, _)| *rgb);
            rgba.extend([r, g, b, 255]);
        }
        rgba
    }

    fn area(x: u32, y: u32, side: u32) -> Area {
        Area { x, y, width: side, height: side }
    }

    fn within(inner: &Area, outer: &Area) -> bool {
        inner.x >= outer.x
            && inner.y >= outer.y
            && inner.x + inner.width <= outer.x + outer.width
            && inner.y + inner.height <= outer.y + outer.height
    }

    #[test]
    fn finds_what_lies_there() {
        let (white, second, grey, pulp) =
            (area(20, 80, 50), area(250, 85, 50), area(40, 170, 45), area(110, 50, 120));
        let rgba = bench(&[
            (white, [225, 220, 205], false),
            (second, [215, 210, 196], false),
            (grey, [108, 106, 99], false),
            (pulp, [190, 165, 120], true),
        ]);
        let found = propose(&Photo::new(&rgba, WIDTH, HEIGHT).unwrap());
        for (proposal, truth) in [
            (found.white, white),
            (found.second_white, second),
            (found.grey, grey),
            (found.pulp, pulp),
        ] {
            let proposal = proposal.unwrap();
            assert!(within(&proposal.area, &truth), "{proposal:?} in {truth:?}");
            assert!(proposal.confidence > 0.3);
        }
    }

    #[test]
    fn an_empty_bench_gets_no_white() {
        let rgba = bench(&[]);
        let found = propose(&Photo::new(&rgba, WIDTH, HEIGHT).unwrap());
        assert_eq!(found, Proposals::default());
    }

    #[test]
    fn pulp_alone_is_no_white() {
        let rgba = bench(&[(area(110, 50, 120), [190, 160, 100], true)]);
        let found = propose(&Photo::new(&rgba, WIDTH, HEIGHT).unwrap());
        assert!(found.white.is_none() && found.pulp.is_some());
    }
}
