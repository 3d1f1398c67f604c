//! Renders a scene as a JPEG with its ground truth.

use super::linear_image::LinearImage;
use super::noise::{RandomStream, value_noise};
use super::pulp::slate;
use super::scene::{Card, Disc, Scene};
use super::spectrum::Spectrum;
use bleachfield_core::colour::photo::Area;
use bleachfield_core::colour::space::Lab;
use jpeg_encoder::{ColorType, Encoder, EncodingError, SamplingFactor};

/// A photograph and its ground truth.
#[derive(Clone, Debug)]
pub struct Rendered {
    pub jpeg: Vec<u8>,
    pub truth: GroundTruth,
}

/// Areas in pixels, well inside the edges of what they show; and the colours of pulps and
/// further cards under D65 for the 2° observer.
#[derive(Clone, Debug, PartialEq)]
pub struct GroundTruth {
    pub white: Option<Area>,
    pub second_white: Option<Area>,
    pub grey: Option<Area>,
    pub pulps: Vec<(Area, Lab)>,
    pub cards: Vec<(Area, Lab)>,
}

/// Renders a scene. The same scene gives the same bytes.
///
/// # Errors
/// If the frame is empty or larger than a JPEG may be, 65 535 pixels on a side.
pub fn render(scene: &Scene) -> Result<Rendered, EncodingError> {
    let (pixels, truth) = render_pixels(scene);
    let mut jpeg = Vec::new();
    let mut encoder = Encoder::new(&mut jpeg, scene.camera.quality);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_optimized_huffman_tables(true);
    encoder.encode(&pixels, scene.width as u16, scene.height as u16, ColorType::Rgb)?;
    Ok(Rendered { jpeg, truth })
}

/// As [`render`], before JPEG: RGB bytes.
pub fn render_pixels(scene: &Scene) -> (Vec<u8>, GroundTruth) {
    let mut frame = SurfaceMap::new(scene);
    for (i, disc) in scene.pulps.iter().enumerate() {
        frame.disc(disc, scene.seed.wrapping_add(101 * i as u64 + 7));
    }
    let marked = [&scene.white, &scene.second_white, &scene.grey].into_iter().flatten();
    for card in scene.cards.iter().chain(marked) {
        frame.card(card);
    }
    let image = frame.expose(scene);
    (image.develop(&scene.camera, scene.seed), truth(scene))
}

/// For each pixel: its surface, and a factor on the reflectance.
struct SurfaceMap {
    width: usize,
    height: usize,
    scale: f64,
    surface: Vec<u16>,
    factor: Vec<f32>,
    /// Specular reflection of a wet surface, as a share of the light.
    specular: Vec<f32>,
    surfaces: Vec<Spectrum>,
}

impl SurfaceMap {
    fn new(scene: &Scene) -> Self {
        let (width, height) = (scene.width as usize, scene.height as usize);
        let scale = f64::from(scene.width);
        let bench = |i: usize| {
            let (x, y) = ((i % width) as f64 / scale, (i / width) as f64 / scale);
            let veins = value_noise(scene.seed, 9.0 * x + 2.0 * y, 40.0 * y);
            let dust = value_noise(scene.seed + 1, 260.0 * x, 260.0 * y);
            (1.0 + 0.10 * veins + 0.08 * dust) as f32
        };
        Self {
            width,
            height,
            scale,
            surface: vec![0; width * height],
            factor: (0..width * height).map(bench).collect(),
            specular: vec![0.0; width * height],
            surfaces: vec![slate()],
        }
    }

    fn add(&mut self, surface: Spectrum) -> u16 {
        self.surfaces.push(surface);
        (self.surfaces.len() - 1) as u16
    }

    fn card(&mut self, card: &Card) {
        let id = self.add(card.surface);
        let (sin, cos) = card.tilt.to_radians().sin_cos();
        let reach = 0.75 * (card.width + card.height) + 0.02;
        let inside = |x: f64, y: f64, grown: f64| {
            let (dx, dy) = (x - card.x, y - card.y);
            let (across, down) = (dx * cos + dy * sin, dy * cos - dx * sin);
            across.abs() <= card.width / 2.0 + grown && down.abs() <= card.height / 2.0 + grown
        };
        self.each_near(card.x, card.y, reach, |frame, i, x, y| {
            if inside(x, y, 0.0) {
                frame.surface[i] = id;
                frame.factor[i] = card.lit as f32;
            } else if inside(x - 0.004, y - 0.005, 0.0) {
                frame.factor[i] *= 0.6;
            }
        });
    }

    fn disc(&mut self, disc: &Disc, seed: u64) {
        let id = self.add(disc.pulp.reflectance());
        let mut knot = disc.pulp;
        knot.k_over_s_457 = knot.k_over_s_457 * 4.0 + 0.6;
        let shive = self.add(knot.reflectance());
        let edge = |x: f64, y: f64| {
            let (dx, dy) = (x - disc.x, y - disc.y);
            let angle = dy.atan2(dx);
            let ragged = 0.035
                * value_noise(seed, 5.0 + 2.0 * angle.cos(), 5.0 + 2.0 * angle.sin())
                + 0.012 * value_noise(seed + 1, 9.0 * angle.cos(), 9.0 * angle.sin());
            dx.hypot(dy) - disc.radius * (1.0 + ragged)
        };
        self.each_near(disc.x, disc.y, disc.radius * 1.15, |frame, i, x, y| {
            let off = edge(x, y);
            if off > 0.0 {
                if edge(x - 0.006, y - 0.007) < 0.0 {
                    frame.factor[i] *= 0.65;
                }
                return;
            }
            frame.surface[i] = id;
            let lumps = value_noise(seed + 2, 16.0 * x, 16.0 * y)
                + 0.6 * value_noise(seed + 3, 45.0 * x, 45.0 * y);
            let rim = (1.0 + off / 0.012).clamp(0.0, 1.0);
            frame.factor[i] = (1.0 + 0.5 * disc.texture * lumps - 0.12 * rim) as f32;
            let wave = value_noise(seed + 4, 24.0 * x, 30.0 * y) * 0.5 + 0.5;
            let shine = (wave - (1.0 - disc.sheen)) / 0.06;
            if disc.sheen > 0.0 && shine > 0.0 {
                frame.specular[i] = 0.35 * shine.min(1.0) as f32;
            }
        });
        self.fibres(disc, id, seed);
        self.shives(disc, id, shive, seed);
    }

    /// Single fibres, lighter or darker than the pulp.
    fn fibres(&mut self, disc: &Disc, id: u16, seed: u64) {
        let mut random = RandomStream::new(seed ^ 0xF1B);
        let count = (14_000.0 * (disc.radius / 0.2).powi(2)) as u32;
        for n in 0..count {
            let shade =
                (if n % 2 == 0 { 1.0 } else { -1.0 }) * disc.texture * random.between(0.3, 1.0);
            let length = random.between(0.01, 0.05);
            self.stroke(disc, &mut random, length, |frame, i| {
                if frame.surface[i] == id {
                    frame.factor[i] = (frame.factor[i] * (1.0 + shade as f32)).clamp(0.5, 1.5);
                }
            });
        }
    }

    fn shives(&mut self, disc: &Disc, id: u16, shive: u16, seed: u64) {
        let mut random = RandomStream::new(seed ^ 0x5417E);
        for _ in 0..disc.shives {
            let length = random.between(0.006, 0.022);
            self.stroke(disc, &mut random, length, |frame, i| {
                for at in [i, i + 1, i + frame.width] {
                    if frame.surface.get(at) == Some(&id) {
                        frame.surface[at] = shive;
                    }
                }
            });
        }
    }

    /// A slightly curved line at a random place in the disc.
    fn stroke(
        &mut self,
        disc: &Disc,
        random: &mut RandomStream,
        length: f64,
        mut paint: impl FnMut(&mut Self, usize),
    ) {
        let (angle, out) =
            (random.between(0.0, std::f64::consts::TAU), disc.radius * random.share().sqrt());
        let (mut x, mut y) = (disc.x + out * angle.cos(), disc.y + out * angle.sin());
        let mut heading = random.between(0.0, std::f64::consts::TAU);
        let bend = random.between(-14.0, 14.0);
        let step = 1.0 / self.scale;
        for _ in 0..(length / step) as u32 {
            x += step * heading.cos();
            y += step * heading.sin();
            heading += bend * step;
            let (column, row) = ((x * self.scale) as i64, (y * self.scale) as i64);
            if column >= 0
                && row >= 0
                && (column as usize) < self.width
                && (row as usize) < self.height
            {
                paint(self, row as usize * self.width + column as usize);
            }
        }
    }

    fn each_near(
        &mut self,
        x: f64,
        y: f64,
        reach: f64,
        mut f: impl FnMut(&mut Self, usize, f64, f64),
    ) {
        let bound = |v: f64, most: usize| ((v * self.scale).max(0.0) as usize).min(most);
        let (left, right) = (bound(x - reach, self.width), bound(x + reach, self.width));
        let (top, bottom) = (bound(y - reach, self.height), bound(y + reach, self.height));
        for row in top..bottom {
            for column in left..right {
                let (px, py) = (column as f64 / self.scale, row as f64 / self.scale);
                f(self, row * self.width + column, px, py);
            }
        }
    }

    /// The camera's linear image under the scene's light.
    fn expose(&self, scene: &Scene) -> LinearImage {
        let (other, share) = scene.other_light.unwrap_or((scene.light, 0.0));
        // White balance follows the light at the centre.
        let middle = scene.light.plus(&scene.light, -0.5 * share).plus(&other, 0.5 * share);
        let response = scene.camera.response(&middle);
        let seen = |light: &Spectrum| -> Vec<[f32; 3]> {
            self.surfaces.iter().map(|s| response(&light.times(s)).map(|v| v as f32)).collect()
        };
        let (main, side) = (seen(&scene.light), seen(&other));
        let (main_white, side_white) = (response(&scene.light), response(&other));
        let mut image = LinearImage::new(self.width, self.height);
        for (i, pixel) in image.light.iter_mut().enumerate() {
            let across = (i % self.width) as f32 / self.width as f32;
            let part = share as f32 * across;
            let strength = 1.0 + scene.falloff as f32 * (0.5 - across);
            let (id, factor, specular) =
                (usize::from(self.surface[i]), self.factor[i], self.specular[i]);
            for c in 0..3 {
                let surface = main[id][c] * (1.0 - part) + side[id][c] * part;
                let white = main_white[c] as f32 * (1.0 - part) + side_white[c] as f32 * part;
                pixel[c] = strength * (surface * factor + specular * white);
            }
        }
        image.blur(scene.camera.blur);
        image.vignette(scene.camera.vignette);
        image.map_tones_locally(scene.camera.local);
        image
    }
}

fn truth(scene: &Scene) -> GroundTruth {
    let scale = f64::from(scene.width);
    let square = |x: f64, y: f64, half_width: f64, half_height: f64| Area {
        x: ((x - half_width) * scale).max(0.0) as u32,
        y: ((y - half_height) * scale).max(0.0) as u32,
        width: (2.0 * half_width * scale) as u32,
        height: (2.0 * half_height * scale) as u32,
    };
    let card =
        |card: &Option<Card>| card.map(|c| square(c.x, c.y, 0.42 * c.width, 0.42 * c.height));
    GroundTruth {
        white: card(&scene.white),
        second_white: card(&scene.second_white),
        grey: card(&scene.grey),
        cards: scene
            .cards
            .iter()
            .map(|c| (square(c.x, c.y, 0.35 * c.width, 0.35 * c.height), c.surface.lab()))
            .collect(),
        pulps: scene
            .pulps
            .iter()
            .map(|d| (square(d.x, d.y, 0.6 * d.radius, 0.6 * d.radius), d.pulp.reflectance().lab()))
            .collect(),
    }
}
