//! How sharp a photo is.

use super::patch::Photo;

/// Width of the photo's sharp edges (10 % to 90 % of the step), as a share of its
/// long side: about 0.002 to 0.004 in a sharp photo. `None` if it holds no strong
/// edge.
///
/// The photo is first averaged down to a long side of about 512 pixels, which takes
/// the noise away; a quarter of its strong edges are as sharp as this or sharper, so
/// that edges met at a slant, or of round things, do not count against it.
pub fn edge_width(photo: &Photo) -> Option<f64> {
    let small = Small::of(photo);
    let mut widths = Vec::new();
    for y in (0..small.height).step_by(2) {
        let row: Vec<f32> = (0..small.width).map(|x| small.at(x, y)).collect();
        steps(&row, &mut widths);
    }
    for x in (0..small.width).step_by(2) {
        let column: Vec<f32> = (0..small.height).map(|y| small.at(x, y)).collect();
        steps(&column, &mut widths);
    }
    if widths.len() < FEWEST {
        return None;
    }
    let quarter = widths.len() / 4;
    let (_, width, _) = widths.select_nth_unstable_by(quarter, f32::total_cmp);
    Some(f64::from(*width) / f64::from(small.width.max(small.height)))
}

/// Fewer strong edges than this are no evidence.
const FEWEST: usize = 30;

/// A step of at least so many codes counts as a strong edge.
const STRONG: f32 = 45.0;

/// The green channel, averaged down.
struct Small {
    width: u32,
    height: u32,
    green: Vec<f32>,
}

impl Small {
    fn of(photo: &Photo) -> Self {
        let factor = photo.long_side().div_ceil(512).max(1);
        let (width, height) = (photo.width() / factor, photo.height() / factor);
        // Sixteen samples of a block are as good as all.
        let step = (factor / 4).max(1);
        let mut green = Vec::with_capacity((width * height) as usize);
        for y in 0..height {
            for x in 0..width {
                let (mut sum, mut count) = (0_u32, 0_u32);
                for dy in (0..factor).step_by(step as usize) {
                    for dx in (0..factor).step_by(step as usize) {
                        sum += u32::from(photo.rgb(x * factor + dx, y * factor + dy)[1]);
                        count += 1;
                    }
                }
                green.push(sum as f32 / count as f32);
            }
        }
        Self { width, height, green }
    }

    fn at(&self, x: u32, y: u32) -> f32 {
        self.green[(y * self.width + x) as usize]
    }
}

/// Adds the widths of the strong steps along a line.
fn steps(line: &[f32], widths: &mut Vec<f32>) {
    let mut start = 0;
    while start + 1 < line.len() {
        let rising = line[start + 1] > line[start];
        let mut end = start + 1;
        while end + 1 < line.len() && (line[end + 1] > line[end]) == rising {
            end += 1;
        }
        let height = (line[end] - line[start]).abs();
        if height >= STRONG {
            let at = |part: f32| crossing(&line[start..=end], part);
            widths.push(at(0.9) - at(0.1));
        }
        start = end;
    }
}

/// Where a monotonic run has gone `part` of its way, in pixels from its start.
fn crossing(run: &[f32], part: f32) -> f32 {
    let (first, last) = (run[0], run[run.len() - 1]);
    let gone = |v: f32| (v - first) / (last - first);
    for (i, pair) in run.windows(2).enumerate() {
        let (from, to) = (gone(pair[0]), gone(pair[1]));
        if to >= part {
            return i as f32 + (part - from) / (to - from).max(1e-6);
        }
    }
    (run.len() - 1) as f32
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    /// Stripes whose edges are ramps of so many pixels.
    fn stripes(ramp: f32) -> Vec<u8> {
        let mut rgba = Vec::new();
        for _ in 0..240 {
            for x in 0..320 {
                let at = (x % 80) as f32;
                let part = ((at - 20.0) / ramp + 0.5).clamp(0.0, 1.0)
                    - ((at - 60.0) / ramp + 0.5).clamp(0.0, 1.0);
                let code = (40.0 + 180.0 * part) as u8;
                rgba.extend([code, code, code, 255]);
            }
        }
        rgba
    }

    #[test]
    fn a_ramp_has_its_width() {
        for ramp in [6.0, 12.0, 20.0] {
            let rgba = stripes(ramp);
            let found = edge_width(&Photo::new(&rgba, 320, 240).unwrap()).unwrap();
            assert!((found * 320.0 - 0.8 * ramp as f64).abs() < 1.0, "{} of {ramp}", found * 320.0);
        }
    }

    #[test]
    fn a_plain_field_says_nothing() {
        let rgba = vec![128; 320 * 240 * 4];
        assert_eq!(edge_width(&Photo::new(&rgba, 320, 240).unwrap()), None);
    }
}
