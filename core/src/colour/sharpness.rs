//! Sharpness of a photo.

use super::photo::PhotoPixels;

/// Width of sharp edges (10 % to 90 % of the step), as a share of the long side: about
/// 0.002 to 0.004 in a sharp photo. `None` without strong edges.
///
/// The first quartile of the widths of strong edges, so that oblique and soft edges do not
/// count, in the photo averaged down to a long side of about 512 pixels, which removes
/// noise.
pub fn edge_width(photo: &PhotoPixels) -> Option<f64> {
    let small = GreenPlane::of(photo);
    let mut widths = Vec::new();
    for y in (0..small.height).step_by(2) {
        let row: Vec<f32> = (0..small.width).map(|x| small.at(x, y)).collect();
        edge_widths(&row, &mut widths);
    }
    for x in (0..small.width).step_by(2) {
        let column: Vec<f32> = (0..small.height).map(|y| small.at(x, y)).collect();
        edge_widths(&column, &mut widths);
    }
    if widths.len() < MIN_EDGES {
        return None;
    }
    let quarter = widths.len() / 4;
    let (_, width, _) = widths.select_nth_unstable_by(quarter, f32::total_cmp);
    Some(f64::from(*width) / f64::from(small.width.max(small.height)))
}

/// Fewest strong edges that give a result.
const MIN_EDGES: usize = 30;

/// Least height of a strong edge, codes.
const MIN_HEIGHT: f32 = 45.0;

/// Green channel, downsampled.
struct GreenPlane {
    width: u32,
    height: u32,
    green: Vec<f32>,
}

impl GreenPlane {
    fn of(photo: &PhotoPixels) -> Self {
        let factor = photo.long_side().div_ceil(512).max(1);
        let (width, height) = (photo.width() / factor, photo.height() / factor);
        // 16 samples of a block are enough.
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

/// Appends the widths of the strong edges along a line.
fn edge_widths(line: &[f32], widths: &mut Vec<f32>) {
    let mut start = 0;
    while start + 1 < line.len() {
        let rising = line[start + 1] > line[start];
        let mut end = start + 1;
        while end + 1 < line.len() && (line[end + 1] > line[end]) == rising {
            end += 1;
        }
        let height = (line[end] - line[start]).abs();
        if height >= MIN_HEIGHT {
            let at = |part: f32| crossing(&line[start..=end], part);
            widths.push(at(0.9) - at(0.1));
        }
        start = end;
    }
}

/// Position in a monotonic run at `part` of its height, pixels from its start.
fn crossing(run: &[f32], part: f32) -> f32 {
    let (first, last) = (run[0], run[run.len() - 1]);
    let share = |v: f32| (v - first) / (last - first);
    for (i, pair) in run.windows(2).enumerate() {
        let (from, to) = (share(pair[0]), share(pair[1]));
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

    /// Stripes with edges of `ramp` pixels.
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
    fn width_of_ramps() {
        for ramp in [6.0, 12.0, 20.0] {
            let rgba = stripes(ramp);
            let found = edge_width(&PhotoPixels::new(&rgba, 320, 240).unwrap()).unwrap();
            assert!((found * 320.0 - 0.8 * ramp as f64).abs() < 1.0, "{} of {ramp}", found * 320.0);
        }
    }

    #[test]
    fn a_uniform_photo_has_no_edge_width() {
        let rgba = vec![128; 320 * 240 * 4];
        assert_eq!(edge_width(&PhotoPixels::new(&rgba, 320, 240).unwrap()), None);
    }
}
