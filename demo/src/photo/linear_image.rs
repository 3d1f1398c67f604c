//! A linear image, and the effects of lens and sensor on it.

use super::camera::Camera;
use super::noise::RandomStream;
use bleachfield_core::colour::space::encode;

/// Linear RGB, rows from the top.
pub struct LinearImage {
    pub width: usize,
    pub height: usize,
    pub light: Vec<[f32; 3]>,
}

impl LinearImage {
    pub fn new(width: usize, height: usize) -> Self {
        Self { width, height, light: vec![[0.0; 3]; width * height] }
    }

    /// A Gaussian blur; approximated by three box blurs from 2 pixels on.
    pub fn blur(&mut self, sigma: f64) {
        if sigma < 0.3 {
            return;
        }
        if sigma < 2.0 {
            let kernel = gaussian(sigma);
            self.each_line(|from, to| convolve(from, to, &kernel));
            return;
        }
        let radius = ((sigma * sigma * 4.0 + 1.0).sqrt() / 2.0 - 0.5).round().max(1.0) as usize;
        for _ in 0..3 {
            self.each_line(|from, to| box_blur(from, to, radius));
        }
    }

    /// Applies `filter` to every row, then to every column.
    fn each_line(&mut self, filter: impl Fn(&[[f32; 3]], &mut [[f32; 3]])) {
        let mut row = vec![[0.0; 3]; self.width];
        for line in self.light.chunks_exact_mut(self.width) {
            filter(line, &mut row);
            line.copy_from_slice(&row);
        }
        let (mut from, mut to) = (vec![[0.0; 3]; self.height], vec![[0.0; 3]; self.height]);
        for x in 0..self.width {
            for (y, pixel) in from.iter_mut().enumerate() {
                *pixel = self.light[y * self.width + x];
            }
            filter(&from, &mut to);
            for (y, pixel) in to.iter().enumerate() {
                self.light[y * self.width + x] = *pixel;
            }
        }
    }

    /// Darkens towards the corners by up to `depth`.
    pub fn vignette(&mut self, depth: f64) {
        let (cx, cy) = (self.width as f32 / 2.0, self.height as f32 / 2.0);
        let corner = cx * cx + cy * cy;
        for (i, pixel) in self.light.iter_mut().enumerate() {
            let (x, y) = ((i % self.width) as f32 - cx, (i / self.width) as f32 - cy);
            let left = 1.0 - depth as f32 * (x * x + y * y) / corner;
            pixel.iter_mut().for_each(|v| *v *= left);
        }
    }

    /// Divides the light by the mean light around each pixel to the power `strength`, as phones
    /// do to show shadows and highlights in one picture. The mean light of the image stays.
    pub fn map_tones_locally(&mut self, strength: f64) {
        if strength <= 0.0 {
            return;
        }
        let mut around = Self { width: self.width, height: self.height, light: self.light.clone() };
        around.blur(0.08 * self.width as f64);
        let level = |[r, g, b]: [f32; 3]| (0.2126 * r + 0.7152 * g + 0.0722 * b).max(1e-3);
        let mean = around.light.iter().map(|p| f64::from(level(*p))).sum::<f64>()
            / around.light.len() as f64;
        for (pixel, around) in self.light.iter_mut().zip(&around.light) {
            let gain = (level(*around) / mean as f32).powf(-strength as f32);
            pixel.iter_mut().for_each(|v| *v *= gain);
        }
    }

    /// Adds sensor noise, applies the tone curve and encodes as sRGB bytes.
    pub fn develop(&self, camera: &Camera, seed: u64) -> Vec<u8> {
        let mut random = RandomStream::new(seed ^ 0x5EED);
        let well = camera.electrons as f32;
        let read = 3.0_f32;
        let codes = ToneCurveTable::new(camera);
        let mut rgb = Vec::with_capacity(self.light.len() * 3);
        for pixel in &self.light {
            for &light in pixel {
                let exposed = (light + camera.flare as f32) * camera.exposure as f32;
                let deviation = (exposed.max(0.0) * well + read * read).sqrt() / well;
                rgb.push(codes.of(exposed + deviation * random.normal()));
            }
        }
        rgb
    }
}

/// Tone curve and sRGB encoding as a lookup table.
struct ToneCurveTable(Vec<u8>);

impl ToneCurveTable {
    const STEPS: usize = 8192;

    fn new(camera: &Camera) -> Self {
        let code = |i: usize| {
            // Finer steps near black, where the encoding is steep.
            let part = i as f64 / Self::STEPS as f64;
            (encode(camera.curve.apply(part * part)) * 255.0).round().clamp(0.0, 255.0) as u8
        };
        Self((0..=Self::STEPS).map(code).collect())
    }

    fn of(&self, light: f32) -> u8 {
        let at = light.clamp(0.0, 1.0).sqrt() * Self::STEPS as f32;
        self.0[at.round() as usize]
    }
}

fn gaussian(sigma: f64) -> Vec<f32> {
    let reach = (3.0 * sigma).ceil() as i32;
    let bell = |i: i32| (-0.5 * (f64::from(i) / sigma).powi(2)).exp();
    let sum: f64 = (-reach..=reach).map(bell).sum();
    (-reach..=reach).map(|i| (bell(i) / sum) as f32).collect()
}

fn convolve(from: &[[f32; 3]], to: &mut [[f32; 3]], kernel: &[f32]) {
    let (reach, last) = (kernel.len() / 2, from.len() - 1);
    for (x, out) in to.iter_mut().enumerate() {
        *out = [0.0; 3];
        for (k, weight) in kernel.iter().enumerate() {
            let at = (x + k).saturating_sub(reach).min(last);
            for c in 0..3 {
                out[c] += weight * from[at][c];
            }
        }
    }
}

fn box_blur(from: &[[f32; 3]], to: &mut [[f32; 3]], radius: usize) {
    let last = from.len() - 1;
    let part = 1.0 / (2 * radius + 1) as f32;
    let mut sum = [0.0_f32; 3];
    for k in 0..=2 * radius {
        let at = k.saturating_sub(radius).min(last);
        (0..3).for_each(|c| sum[c] += from[at][c]);
    }
    for (x, out) in to.iter_mut().enumerate() {
        *out = sum.map(|s| s * part);
        let (gone, come) = (x.saturating_sub(radius), (x + radius + 1).min(last));
        (0..3).for_each(|c| sum[c] += from[come][c] - from[gone][c]);
    }
}
