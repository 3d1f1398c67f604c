//! The photographs of the demo studio: three fibres at the steps of their bleaching.

use super::camera::{Camera, Sensor, ToneCurve};
use super::pulp::Pulp;
use super::scene::Scene;
use super::spectrum::{Spectrum, black_body, daylight, published};

/// The demo studio's fibres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DemoFibre {
    CattailLeaf,
    IrisLeaf,
    HempTow,
}

impl DemoFibre {
    pub const ALL: [Self; 3] = [Self::CattailLeaf, Self::IrisLeaf, Self::HempTow];

    /// The cooked and washed fibre, unbleached, dry. Own estimates, no source.
    pub fn cooked(self) -> Pulp {
        match self {
            Self::CattailLeaf => Pulp { green: 0.05, ..Pulp::dry(1.35, 112.0) },
            Self::IrisLeaf => Pulp { green: 0.10, ..Pulp::dry(0.95, 98.0) },
            Self::HempTow => Pulp { grey: 0.012, ..Pulp::dry(0.70, 135.0) },
        }
    }
}

/// The light that the studio's photos are taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lighting {
    /// Window light, overcast.
    Overcast,
    /// Window light, clear sky, bluer.
    Clear,
    /// A warm white LED, in the evening.
    Lamp,
    /// A fluorescent tube, in the evening.
    Tube,
    /// A tungsten bulb.
    Bulb,
}

impl Lighting {
    pub const ALL: [Self; 5] = [Self::Overcast, Self::Clear, Self::Lamp, Self::Tube, Self::Bulb];

    pub fn light(self) -> Spectrum {
        match self {
            Self::Overcast => daylight(6200.0),
            Self::Clear => daylight(8500.0),
            Self::Lamp => published("LED-V1").as_light(),
            Self::Tube => published("FL8").as_light(),
            Self::Bulb => black_body(2800.0),
        }
    }
}

/// A photo of one fibre with the share `left` of its cooked colour (1 unbleached),
/// wet from the bath or dried, in a light.
pub fn photo(fibre: DemoFibre, left: f64, wet: bool, lighting: Lighting, seed: u64) -> Scene {
    let dry = fibre.cooked().bleached(left);
    let pulp = if wet { dry.wetted() } else { dry };
    let mut scene = Scene::plain(pulp, seed);
    scene.light = lighting.light();
    scene.falloff = [0.04, 0.12, 0.08, 0.05, 0.14][lighting as usize];
    // Framing and exposure vary from photo to photo.
    let jitter = |salt: u64, reach: f64| {
        reach * (super::noise::RandomStream::new(seed ^ salt).share() * 2.0 - 1.0)
    };
    scene.camera = Camera {
        exposure: 0.62 + jitter(1, 0.08),
        balance_error: [jitter(2, 0.04), jitter(3, 0.05)],
        ..studio_phone()
    };
    if let Some(disc) = scene.pulps.first_mut() {
        disc.x += jitter(4, 0.012);
        disc.y += jitter(5, 0.02);
        disc.radius *= 1.0 + jitter(6, 0.06);
        disc.shives = match fibre {
            DemoFibre::HempTow => 26,
            _ => 9,
        };
    }
    if let Some(white) = scene.white.as_mut() {
        white.tilt += jitter(7, 3.0);
    }
    scene
}

/// The studio's phone camera.
pub fn studio_phone() -> Camera {
    Camera {
        sensor: Sensor::Phone,
        curve: ToneCurve::Film { contrast: 1.15, middle: 0.5 },
        ..Camera::phone()
    }
}

/// A photo that must be refused: no card in the frame.
pub fn no_card(fibre: DemoFibre, seed: u64) -> Scene {
    let scene = photo(fibre, 0.4, true, Lighting::Overcast, seed);
    Scene { white: None, second_white: None, grey: None, ..scene }
}

/// A photo that must be refused: window from the left, warm bulb from the right.
pub fn mixed_light(fibre: DemoFibre, seed: u64) -> Scene {
    let scene = photo(fibre, 0.4, true, Lighting::Clear, seed);
    Scene { other_light: Some((Lighting::Bulb.light(), 0.8)), ..scene }
}

/// A photo that must be refused: overexposed.
pub fn overexposed(fibre: DemoFibre, seed: u64) -> Scene {
    let mut scene = photo(fibre, 0.2, false, Lighting::Clear, seed);
    scene.camera.exposure = 1.6;
    scene
}
