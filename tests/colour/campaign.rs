//! Many photographs of known pulps, measured as a person would, and what came out.

use bleachfield_core::colour::correction::Correction;
use bleachfield_core::colour::find::{Proposal, propose};
use bleachfield_core::colour::measure::{ColourMeasurement, measure};
use bleachfield_core::colour::patch::read;
use bleachfield_core::colour::photo::{Area, PhotoPixels};
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::reference_patches::{Marks, ReferencePatches};
use bleachfield_core::colour::space::Lab;
use bleachfield_core::colour::{ColourError, PatchRole};
use bleachfield_demo::photo::camera::{Camera, Curve, Sensor};
use bleachfield_demo::photo::pulp::{Pulp, card};
use bleachfield_demo::photo::render::{Truth, render};
use bleachfield_demo::photo::scene::{Card, Scene};
use bleachfield_demo::photo::spectrum::{
    Spectrum, band, black_body, daylight, published, published_lights,
};
use bleachfield_demo::photo::texture::Chance;
use jpeg_decoder::Decoder;

/// A light, what a person would call it, and its general colour rendering index.
#[derive(Clone, Debug)]
pub struct Lamp {
    pub name: String,
    pub kind: Light,
    pub rendering: f64,
    pub spectrum: Spectrum,
}

/// Black bodies, daylights and every light of the published tables.
pub fn lamps() -> Vec<Lamp> {
    let warm = [2500, 2700, 2856, 3000, 3200, 3400].map(|k| Lamp {
        name: format!("black body {k} K"),
        kind: Light::Bulb,
        rendering: 100.0,
        spectrum: black_body(f64::from(k)),
    });
    let cool = [4000, 4500, 5000, 5500, 6000, 6504, 7500, 9000, 10000].map(|k| Lamp {
        name: format!("daylight {k} K"),
        kind: Light::Daylight,
        rendering: 100.0,
        spectrum: daylight(f64::from(k)),
    });
    let tables = published_lights().map(|name| {
        let rendering = rendering(name);
        let kind = match name {
            _ if name.starts_with("ID") => Light::Daylight,
            _ if rendering >= 80.0 => Light::GoodLamp,
            _ => Light::OtherLamp,
        };
        Lamp { name: name.to_owned(), kind, rendering, spectrum: published(name).as_light() }
    });
    warm.into_iter().chain(cool).chain(tables).collect()
}

fn rendering(name: &str) -> f64 {
    RENDERING.iter().find(|(known, _)| *known == name).map_or(0.0, |(_, index)| *index)
}

/// General colour rendering index (CIE 13.3) of the published lights, computed from
/// the same tables with colour-science 0.4.7, rounded down.
const RENDERING: &[(&str, f64)] = &[
    ("FL1", 75.0),
    ("FL2", 64.0),
    ("FL3", 56.0),
    ("FL4", 51.0),
    ("FL5", 71.0),
    ("FL6", 59.0),
    ("FL7", 90.0),
    ("FL8", 95.0),
    ("FL9", 90.0),
    ("FL10", 80.0),
    ("FL11", 82.0),
    ("FL12", 83.0),
    ("FL3.1", 51.0),
    ("FL3.2", 70.0),
    ("FL3.3", 71.0),
    ("FL3.4", 86.0),
    ("FL3.5", 96.0),
    ("FL3.6", 96.0),
    ("FL3.7", 81.0),
    ("FL3.8", 80.0),
    ("FL3.9", 79.0),
    ("FL3.10", 88.0),
    ("FL3.11", 77.0),
    ("FL3.12", 93.0),
    ("FL3.13", 95.0),
    ("FL3.14", 94.0),
    ("FL3.15", 98.0),
    ("HP1", 8.0),
    ("HP2", 82.0),
    ("HP3", 82.0),
    ("HP4", 76.0),
    ("HP5", 89.0),
    ("LED-B1", 81.0),
    ("LED-B2", 82.0),
    ("LED-B3", 84.0),
    ("LED-B4", 76.0),
    ("LED-B5", 80.0),
    ("LED-BH1", 91.0),
    ("LED-RGB1", 57.0),
    ("LED-V1", 95.0),
    ("LED-V2", 95.0),
    ("ID65", 98.0),
    ("ID50", 98.0),
];

/// A photo that nothing is wrong with but what is wrong with every photo.
pub fn good(light: &Spectrum, seed: u64) -> Scene {
    let chance = &mut Chance::new(seed);
    let left = pulp(chance);
    let mut scene = Scene::plain(left, seed);
    scene.width = 640;
    scene.height = 480;
    scene.light = *light;
    scene.falloff = chance.between(-0.2, 0.2);
    scene.camera = camera(chance);
    let white = card(chance.between(0.89, 0.91), chance.between(-0.02, 0.02));
    for place in [&mut scene.white, &mut scene.second_white].into_iter().flatten() {
        place.surface = white;
        place.tilt = chance.between(-8.0, 8.0);
    }
    scene.grey = scene.grey.map(|grey| Card {
        surface: card(chance.between(0.172, 0.188), chance.between(-0.03, 0.03)),
        ..grey
    });
    scene
}

/// The same with a second pulp beside the first: the same fibre, bleached further.
pub fn pair(light: &Spectrum, seed: u64) -> Scene {
    let scene = good(light, seed);
    let chance = &mut Chance::new(seed ^ 0xBEEF);
    let one = scene.pulps[0].pulp;
    let other = one.bleached(chance.between(0.4, 0.9));
    Scene { pulps: Scene::pair(one, other, seed).pulps, ..scene }
}

/// A way to spoil a photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spoiled {
    Clipped,
    Dark,
    Blurred,
    Mixed,
    Coloured,
    GreyOff,
}

impl Spoiled {
    pub const ALL: [Self; 6] =
        [Self::Clipped, Self::Dark, Self::Blurred, Self::Mixed, Self::Coloured, Self::GreyOff];

    pub fn scene(self, seed: u64) -> Scene {
        let chance = &mut Chance::new(seed ^ 0x5901);
        let mut scene = good(&daylight(chance.between(4500.0, 8000.0)), seed);
        match self {
            Self::Clipped => scene.camera.exposure = chance.between(1.3, 2.6),
            Self::Dark => scene.camera.exposure = chance.between(0.02, 0.16),
            Self::Blurred => scene.camera.blur = chance.between(6.0, 18.0),
            Self::Mixed => {
                scene.light = daylight(chance.between(6000.0, 9000.0));
                let lamp = black_body(chance.between(2400.0, 3000.0));
                scene.other_light = Some((lamp, chance.between(0.4, 0.9)));
            }
            Self::Coloured => scene.light = coloured(chance),
            Self::GreyOff => {
                if let Some(grey) = scene.grey.as_mut() {
                    spoil_grey(grey, chance);
                }
            }
        }
        scene
    }
}

fn coloured(chance: &mut Chance) -> Spectrum {
    match chance.bits() % 6 {
        0 => band(589.3, 3.0),
        1 => *published("HP1"),
        2 => black_body(1500.0),
        3 => band(chance.between(615.0, 640.0), 12.0),
        4 => band(chance.between(450.0, 475.0), 14.0).plus(&band(640.0, 12.0), 0.6),
        _ => band(chance.between(515.0, 535.0), 18.0).plus(&daylight(6500.0), 0.15),
    }
    .as_light()
}

/// In deep shadow, much too light a card, or not grey at all.
fn spoil_grey(grey: &mut Card, chance: &mut Chance) {
    match chance.bits() % 3 {
        0 => grey.lit = chance.between(0.25, 0.5),
        1 => grey.surface = card(chance.between(0.36, 0.6), 0.0),
        _ => grey.surface = card(0.18, 0.5 * if chance.share() < 0.5 { 1.0 } else { -1.0 }),
    }
}

fn pulp(chance: &mut Chance) -> Pulp {
    let dry = Pulp {
        grey: chance.between(0.002, 0.015),
        green: if chance.share() < 0.3 { chance.between(0.0, 0.1) } else { 0.0 },
        ..Pulp::dry(chance.between(0.02_f64.ln(), 1.3_f64.ln()).exp(), chance.between(80.0, 140.0))
    };
    if chance.share() < 0.5 { dry.wetted() } else { dry }
}

fn camera(chance: &mut Chance) -> Camera {
    Camera {
        sensor: [Sensor::Dslr, Sensor::Phone, Sensor::OtherPhone][chance.bits() as usize % 3],
        curve: curve(chance),
        exposure: chance.between(0.42, 0.8),
        balance: chance.between(0.75, 1.0),
        balance_error: [chance.between(-0.06, 0.06), chance.between(-0.06, 0.06)],
        vignette: chance.between(0.0, 0.2),
        flare: chance.between(0.0, 0.006),
        electrons: chance.between(800.0, 8000.0),
        blur: chance.between(0.5, 1.6),
        quality: chance.between(70.0, 95.0) as u8,
    }
}

fn curve(chance: &mut Chance) -> Curve {
    match chance.bits() % 5 {
        0 => Curve::Plain,
        1 => Curve::Video,
        2 => Curve::Film { contrast: chance.between(1.05, 1.3), middle: chance.between(0.4, 0.9) },
        3 => Curve::Print { strength: chance.between(0.1, 0.5) },
        _ => Curve::Cosine { strength: chance.between(0.05, 0.4) },
    }
}

/// What the person holds against the photo.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// Two places of a white card and a grey card.
    TwoWhitesAndGrey,
    /// One white and a grey.
    WhiteAndGrey,
    /// One white card alone.
    White,
}

/// A photo as measured: each pulp's reading beside the truth.
pub type Measured = Result<Vec<(ColourMeasurement, Lab)>, ColourError>;

/// Takes the photo, marks it with an unsteady thumb, measures.
pub fn measured(scene: &Scene, held: Held, light: Light) -> Measured {
    let rendered = render(scene).expect("a JPEG of this size can be made");
    let rgba = decode(&rendered.jpeg);
    let photo = PhotoPixels::new(&rgba, scene.width, scene.height).expect("whole rows");
    let chance = &mut Chance::new(scene.seed ^ 0x7B3B);
    let marks = marks(&rendered.truth, held, chance);
    let patches = ReferencePatches::read(&photo, &marks)?;
    let references =
        References { white: Surface::card(0.90), grey: Some(Surface::grey_card()), light };
    let correction = Correction::new(&patches, &references).map_err(|reasons| reasons[0])?;
    let pulps = rendered.truth.pulps.iter();
    pulps
        .map(|(area, lab)| {
            let patch = read(&photo, jittered(*area, chance), PatchRole::Pulp)?;
            Ok((measure(&correction, &patch)?, *lab))
        })
        .collect()
}

/// RGBA of a colour JPEG.
pub fn decode(jpeg: &[u8]) -> Vec<u8> {
    let rgb = Decoder::new(jpeg).decode().expect("our own JPEG can be read");
    rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect()
}

fn marks(truth: &Truth, held: Held, chance: &mut Chance) -> Marks {
    let mut mark = |area: Option<Area>| area.map(|area| jittered(area, chance));
    Marks {
        white: mark(truth.white),
        second_white: mark(truth.second_white).filter(|_| held == Held::TwoWhitesAndGrey),
        grey: mark(truth.grey).filter(|_| held != Held::White),
    }
}

/// A smaller rectangle somewhere in the given one: nobody marks a card's corners.
fn jittered(area: Area, chance: &mut Chance) -> Area {
    let part = chance.between(0.6, 1.0);
    let side = |full: u32| ((f64::from(full) * part) as u32).max(42).min(full);
    let (width, height) = (side(area.width), side(area.height));
    let mut slide = |room: u32| (f64::from(room) * chance.share()) as u32;
    Area {
        x: area.x + slide(area.width - width),
        y: area.y + slide(area.height - height),
        width,
        height,
    }
}

/// Whether the proposals for a photo lie on what they are proposed for: white, second
/// white, grey, pulp. `None` where nothing was proposed.
pub fn found(scene: &Scene) -> [Option<bool>; 4] {
    let rendered = render(scene).expect("a JPEG of this size can be made");
    let rgba = decode(&rendered.jpeg);
    let photo = PhotoPixels::new(&rgba, scene.width, scene.height).expect("whole rows");
    let (proposals, truth) = (propose(&photo), rendered.truth);
    let on = |proposal: Option<Proposal>, places: &[Option<Area>]| {
        proposal.map(|p| places.iter().flatten().any(|place| holds(place, p.area.centre())))
    };
    let whites = [truth.white, truth.second_white];
    [
        on(proposals.white, &whites),
        on(proposals.second_white, &whites),
        on(proposals.grey, &[truth.grey]),
        on(proposals.pulp, &[truth.pulps.first().map(|(area, _)| *area)]),
    ]
}

fn holds(area: &Area, [x, y]: [f64; 2]) -> bool {
    let within =
        |v: f64, from: u32, size: u32| (f64::from(from)..f64::from(from + size)).contains(&v);
    within(x, area.x, area.width) && within(y, area.y, area.height)
}
