//! The scene in front of the camera.

use super::camera::Camera;
use super::pulp::{self, Pulp};
use super::spectrum::{self, Spectrum, daylight};

/// A bench from above with pulp and cards on it.
///
/// Positions and sizes are shares of the frame's width from the top left, so that a scene
/// can be rendered at any size of the same aspect ratio.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    pub width: u32,
    pub height: u32,
    /// Seed of the fibres, the shives and the noise.
    pub seed: u64,
    pub pulps: Vec<Disc>,
    pub white: Option<Card>,
    pub second_white: Option<Card>,
    pub grey: Option<Card>,
    /// Further surfaces: patches of a chart, a strip and its scale.
    pub cards: Vec<Card>,
    pub light: Spectrum,
    /// A second light from the right, and its share of the light at the right edge, 0 to 1.
    pub other_light: Option<(Spectrum, f64)>,
    /// Relative decrease of the light from the left to the right edge, 0 to 1.
    pub falloff: f64,
    pub camera: Camera,
}

/// A pat of pulp.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    pub pulp: Pulp,
    pub x: f64,
    pub y: f64,
    pub radius: f64,
    /// Contrast of single fibres, as a share of reflectance.
    pub texture: f64,
    /// Undercooked slivers.
    pub shives: u32,
    /// Share of the surface with specular reflection.
    pub sheen: f64,
}

/// A flat card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    pub surface: Spectrum,
    pub x: f64,
    pub y: f64,
    pub width: f64,
    pub height: f64,
    /// Degrees clockwise.
    pub tilt: f64,
    /// Share of the light that reaches it; below 1 in a shadow.
    pub lit: f64,
}

impl Scene {
    /// One pat of pulp between two white cards, a grey card above it, window daylight: the
    /// arrangement that Help describes.
    pub fn plain(pulp: Pulp, seed: u64) -> Self {
        Self {
            width: 1200,
            height: 900,
            seed,
            pulps: vec![Disc::at(pulp, 0.50, 0.43, 0.20)],
            white: Some(Card::white(0.14, 0.36, -2.0)),
            second_white: Some(Card::white(0.86, 0.38, 1.5)),
            grey: Some(Card::grey(0.20, 0.62, 1.0)),
            cards: Vec::new(),
            light: daylight(6500.0),
            other_light: None,
            falloff: 0.06,
            camera: Camera::phone(),
        }
    }

    /// A 24-patch chart that fills the frame, tilted a little.
    pub fn chart(tilt: f64, seed: u64) -> Self {
        let (sin, cos) = tilt.to_radians().sin_cos();
        let place = |n: usize| {
            let (x, y) = (0.14 * (n % 6) as f64 - 0.35, 0.14 * (n / 6) as f64 - 0.21);
            (0.5 + x * cos - y * sin, 0.375 + x * sin + y * cos)
        };
        let patch = |(n, surface): (usize, Spectrum)| {
            let (x, y) = place(n);
            Card { surface, x, y, width: 0.115, height: 0.115, tilt, lit: 1.0 }
        };
        let (middle_x, middle_y) = (0.5, 0.375);
        let board = Card {
            surface: pulp::card(0.04, 0.0),
            x: middle_x,
            y: middle_y,
            width: 0.88,
            height: 0.60,
            tilt,
            lit: 1.0,
        };
        let patches = spectrum::chart().into_iter().enumerate().map(patch);
        Self {
            pulps: Vec::new(),
            white: None,
            second_white: None,
            grey: None,
            cards: std::iter::once(board).chain(patches).collect(),
            ..Self::plain(Pulp::dry(1.0, 100.0), seed)
        }
    }

    /// Two pats of pulp in one frame.
    pub fn pair(left: Pulp, right: Pulp, seed: u64) -> Self {
        let discs = vec![Disc::at(left, 0.37, 0.42, 0.115), Disc::at(right, 0.62, 0.44, 0.115)];
        Self { pulps: discs, ..Self::plain(left, seed) }
    }
}

impl Disc {
    pub fn at(pulp: Pulp, x: f64, y: f64, radius: f64) -> Self {
        let wet = pulp.wet > 1.0;
        let sheen = if wet { 0.05 } else { 0.0 };
        Self { pulp, x, y, radius, texture: 0.05, shives: 10, sheen }
    }
}

impl Card {
    /// A matt white card of 90 %.
    pub fn white(x: f64, y: f64, tilt: f64) -> Self {
        Self::of(pulp::card(0.90, 0.010), x, y, tilt)
    }

    /// A grey card of 18 %.
    pub fn grey(x: f64, y: f64, tilt: f64) -> Self {
        Self::of(pulp::card(0.18, -0.015), x, y, tilt)
    }

    pub fn of(surface: Spectrum, x: f64, y: f64, tilt: f64) -> Self {
        Self { surface, x, y, width: 0.15, height: 0.15, tilt, lit: 1.0 }
    }
}
