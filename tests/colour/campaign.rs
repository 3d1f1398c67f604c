//! Synthetic photographs of known pulps, and their measurement.

use bleachfield_core::colour::camera::lesson::from_surfaces;
use bleachfield_core::colour::camera::taught::TaughtCamera;
use bleachfield_core::colour::correction::Correction;
use bleachfield_core::colour::difference::{ColourDifference, in_one_photo};
use bleachfield_core::colour::find::{Proposal, propose};
use bleachfield_core::colour::measure::{ColourMeasurement, measure};
use bleachfield_core::colour::patch::{PatchStatistics, read};
use bleachfield_core::colour::photo::{Area, PhotoPixels};
use bleachfield_core::colour::reference::{Light, References, Surface};
use bleachfield_core::colour::reference_patches::{Marks, ReferencePatches};
use bleachfield_core::colour::space::Lab;
use bleachfield_core::colour::{ColourError, PatchRole};
use bleachfield_demo::photo::camera::{
    Camera, MEASURED_SENSORS, PLAIN_LOOK, Sensor, ToneCurve, look,
};
use bleachfield_demo::photo::noise::RandomStream;
use bleachfield_demo::photo::pulp::{Pulp, card};
use bleachfield_demo::photo::render::{GroundTruth, render};
use bleachfield_demo::photo::scene::{Card, Scene};
use bleachfield_demo::photo::spectrum::{
    Spectrum, band, black_body, daylight, published, published_lights,
};
use jpeg_decoder::Decoder;

/// A light, its kind as a person would name it, and its general colour rendering index.
#[derive(Clone, Debug)]
pub struct LightSource {
    pub name: String,
    pub kind: Light,
    pub rendering: f64,
    pub spectrum: Spectrum,
}

/// Black bodies, daylights and every light of the published tables.
pub fn light_sources() -> Vec<LightSource> {
    let warm = [2500, 2700, 2856, 3000, 3200, 3400].map(|k| LightSource {
        name: format!("black body {k} K"),
        kind: Light::Bulb,
        rendering: 100.0,
        spectrum: black_body(f64::from(k)),
    });
    let cool = [4000, 4500, 5000, 5500, 6000, 6504, 7500, 9000, 10000].map(|k| LightSource {
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
        LightSource { name: name.to_owned(), kind, rendering, spectrum: published(name).as_light() }
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

/// A photo without defects, with the usual variation of light, camera and cards.
pub fn good(light: &Spectrum, seed: u64) -> Scene {
    let random = &mut RandomStream::new(seed);
    let left = pulp(random);
    let mut scene = Scene::plain(left, seed);
    scene.width = 640;
    scene.height = 480;
    scene.light = *light;
    scene.falloff = random.between(-0.2, 0.2);
    scene.camera = camera(random);
    let white = card(random.between(0.89, 0.91), random.between(-0.02, 0.02));
    for place in [&mut scene.white, &mut scene.second_white].into_iter().flatten() {
        place.surface = white;
        place.tilt = random.between(-8.0, 8.0);
    }
    scene.grey = scene.grey.map(|grey| Card {
        surface: card(random.between(0.172, 0.188), random.between(-0.03, 0.03)),
        ..grey
    });
    scene
}

/// The same with a second pulp beside the first: the same fibre, bleached further.
pub fn pair(light: &Spectrum, seed: u64) -> Scene {
    let scene = good(light, seed);
    let random = &mut RandomStream::new(seed ^ 0xBEEF);
    let one = scene.pulps[0].pulp;
    let other = one.bleached(random.between(0.4, 0.9));
    Scene { pulps: Scene::pair(one, other, seed).pulps, ..scene }
}

/// A defect for which a photo must be refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Defect {
    Clipped,
    Dark,
    Blurred,
    Mixed,
    Coloured,
    GreyOff,
}

impl Defect {
    pub const ALL: [Self; 6] =
        [Self::Clipped, Self::Dark, Self::Blurred, Self::Mixed, Self::Coloured, Self::GreyOff];

    /// An otherwise good photo with this defect.
    pub fn scene(self, seed: u64) -> Scene {
        let random = &mut RandomStream::new(seed ^ 0x5901);
        let mut scene = good(&daylight(random.between(4500.0, 8000.0)), seed);
        match self {
            Self::Clipped => scene.camera.exposure = random.between(1.3, 2.6),
            Self::Dark => scene.camera.exposure = random.between(0.02, 0.16),
            Self::Blurred => scene.camera.blur = random.between(6.0, 18.0),
            Self::Mixed => {
                scene.light = daylight(random.between(6000.0, 9000.0));
                let lamp = black_body(random.between(2400.0, 3000.0));
                scene.other_light = Some((lamp, random.between(0.4, 0.9)));
            }
            Self::Coloured => scene.light = coloured(random),
            Self::GreyOff => {
                if let Some(grey) = scene.grey.as_mut() {
                    misplace_grey(grey, random);
                }
            }
        }
        scene
    }
}

fn coloured(random: &mut RandomStream) -> Spectrum {
    match random.bits() % 6 {
        0 => band(589.3, 3.0),
        1 => *published("HP1"),
        2 => black_body(1500.0),
        3 => band(random.between(615.0, 640.0), 12.0),
        4 => band(random.between(450.0, 475.0), 14.0).plus(&band(640.0, 12.0), 0.6),
        _ => band(random.between(515.0, 535.0), 18.0).plus(&daylight(6500.0), 0.15),
    }
    .as_light()
}

/// A grey card in deep shadow, much too light, or not grey.
fn misplace_grey(grey: &mut Card, random: &mut RandomStream) {
    match random.bits() % 3 {
        0 => grey.lit = random.between(0.25, 0.5),
        1 => grey.surface = card(random.between(0.36, 0.6), 0.0),
        _ => grey.surface = card(0.18, 0.5 * if random.share() < 0.5 { 1.0 } else { -1.0 }),
    }
}

fn pulp(random: &mut RandomStream) -> Pulp {
    let dry = Pulp {
        grey: random.between(0.002, 0.015),
        green: if random.share() < 0.3 { random.between(0.0, 0.1) } else { 0.0 },
        ..Pulp::dry(random.between(0.02_f64.ln(), 1.3_f64.ln()).exp(), random.between(80.0, 140.0))
    };
    if random.share() < 0.5 { dry.wetted() } else { dry }
}

fn camera(random: &mut RandomStream) -> Camera {
    Camera {
        sensor: [Sensor::Dslr, Sensor::Phone, Sensor::OtherPhone][random.bits() as usize % 3],
        look: PLAIN_LOOK,
        curve: curve(random),
        local: 0.0,
        exposure: random.between(0.42, 0.8),
        balance: random.between(0.75, 1.0),
        balance_error: [random.between(-0.06, 0.06), random.between(-0.06, 0.06)],
        vignette: random.between(0.0, 0.2),
        flare: random.between(0.0, 0.006),
        electrons: random.between(800.0, 8000.0),
        blur: random.between(0.5, 1.6),
        quality: random.between(70.0, 95.0) as u8,
    }
}

/// Cameras of `cameras.csv` that the core's table of unknown cameras was not made with: the
/// campaign photographs with them.
pub const HELD_OUT: [u8; 8] = [3, 9, 15, 21, 27, 33, 39, 45];

/// The camera of `cameras.csv` that is [`Sensor::Dslr`], measured in another laboratory.
#[allow(dead_code)]
const SAME_AS_DSLR: u8 = 31;

/// A camera as the core's table of unknown cameras is made with.
#[allow(dead_code)]
pub fn sampled_camera(random: &mut RandomStream) -> Camera {
    let sensor = loop {
        let n = (random.bits() % u64::from(MEASURED_SENSORS)) as u8;
        if n != SAME_AS_DSLR && !HELD_OUT.contains(&n) {
            break Sensor::Measured(n);
        }
    };
    Camera { sensor, ..any_rendering(random) }
}

/// One of the held-out cameras.
pub fn held_out_camera(random: &mut RandomStream) -> Camera {
    let sensor = Sensor::Measured(HELD_OUT[random.bits() as usize % HELD_OUT.len()]);
    Camera { sensor, ..any_rendering(random) }
}

/// A camera with the look and the local tone mapping of any maker.
fn any_rendering(random: &mut RandomStream) -> Camera {
    let mixed =
        PUBLISHED_MATRICES.map(|(mean, deviation)| mean + deviation * f64::from(random.normal()));
    // Own estimate, no source: makers make colours more vivid rather than less.
    let vividness = random.between(0.93, 1.22);
    Camera {
        look: look(vividness, mixed),
        // Own estimate: cameras leave part of a warm light's warmth, some of them most of it.
        balance: random.between(0.3, 1.0),
        // Veiling glare of a lens beside a bright window: up to 3 %, common practice, no source.
        flare: random.between(0.0, 0.03),
        local: if random.share() < 0.5 { random.between(0.0, 0.2) } else { 0.0 },
        ..camera(random)
    }
}

/// How the colour matrices that makers publish in their raw files differ from the best fit to
/// the same camera's sensitivities over a 24-patch chart: mean and standard deviation of what
/// red takes from green and blue, green from red and blue, blue from red and green. From 26 of
/// the cameras of `cameras.csv` that the crate rawloader 0.37.2 has a matrix of.
const PUBLISHED_MATRICES: [(f64, f64); 6] = [
    (0.045, 0.066),
    (-0.002, 0.021),
    (0.008, 0.030),
    (0.034, 0.020),
    (-0.009, 0.012),
    (0.047, 0.016),
];

fn curve(random: &mut RandomStream) -> ToneCurve {
    match random.bits() % 5 {
        0 => ToneCurve::Plain,
        1 => ToneCurve::Video,
        2 => ToneCurve::Film {
            contrast: random.between(1.05, 1.3),
            middle: random.between(0.4, 0.9),
        },
        3 => ToneCurve::Print { strength: random.between(0.1, 0.5) },
        _ => ToneCurve::Cosine { strength: random.between(0.05, 0.4) },
    }
}

/// The reference areas that the person marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReferenceSet {
    /// Two places of a white card and a grey card.
    TwoWhitesAndGrey,
    /// One white and a grey.
    WhiteAndGrey,
    /// One white card alone.
    White,
}

/// Each pulp's reading with its true colour, or why the photo is refused.
pub type MeasurementResult = Result<Vec<(ColourMeasurement, Lab)>, ColourError>;

/// Renders the scene, marks the areas with random offsets, and measures.
pub fn measured(scene: &Scene, references: ReferenceSet, light: Light) -> MeasurementResult {
    measured_by(scene, references, light, None)
}

/// [`measured`] with a camera that was taught.
pub fn measured_by(
    scene: &Scene,
    references: ReferenceSet,
    light: Light,
    camera: Option<TaughtCamera>,
) -> MeasurementResult {
    with_photo(scene, references, light, camera, |correction, patches| {
        let pulps = patches.iter();
        pulps.map(|(patch, lab)| Ok((measure(correction, patch)?, *lab))).collect()
    })
}

/// The difference of the second pulp from the first, with the true one.
pub fn measured_difference(
    scene: &Scene,
    references: ReferenceSet,
    light: Light,
) -> Result<(ColourDifference, [Lab; 2]), ColourError> {
    with_photo(scene, references, light, None, |correction, patches| {
        let [(one, first), (other, second)] = patches else { panic!("two pulps") };
        measure(correction, one)?;
        measure(correction, other)?;
        Ok((in_one_photo(correction, one, other), [*first, *second]))
    })
}

/// What the photo of a chart teaches.
pub fn taught(scene: &Scene, light: Light) -> Result<TaughtCamera, ColourError> {
    let rendered = render(scene).expect("a JPEG of this size can be made");
    let rgba = decode(&rendered.jpeg);
    let photo = PhotoPixels::new(&rgba, scene.width, scene.height).expect("whole rows");
    // The first card is the board.
    let known: Vec<(Area, Lab)> = rendered.truth.cards[1..].to_vec();
    let lesson = from_surfaces(&photo, &known, light).map_err(|reasons| reasons[0])?;
    Ok(lesson.camera())
}

fn with_photo<T>(
    scene: &Scene,
    references: ReferenceSet,
    light: Light,
    camera: Option<TaughtCamera>,
    read_all: impl FnOnce(&Correction, &[(PatchStatistics, Lab)]) -> Result<T, ColourError>,
) -> Result<T, ColourError> {
    let rendered = render(scene).expect("a JPEG of this size can be made");
    let rgba = decode(&rendered.jpeg);
    let photo = PhotoPixels::new(&rgba, scene.width, scene.height).expect("whole rows");
    let random = &mut RandomStream::new(scene.seed ^ 0x7B3B);
    let marks = marks(&rendered.truth, references, random);
    let patches = ReferencePatches::read(&photo, &marks)?;
    let surfaces =
        References { white: Surface::card(0.90), grey: Some(Surface::grey_card()), light };
    let correction =
        Correction::with_camera(&patches, &surfaces, camera).map_err(|reasons| reasons[0])?;
    let pulps = rendered.truth.pulps.iter();
    let patches: Result<Vec<_>, ColourError> = pulps
        .map(|(area, lab)| Ok((read(&photo, jittered(*area, random), PatchRole::Pulp)?, *lab)))
        .collect();
    read_all(&correction, &patches?)
}

/// RGBA of a colour JPEG.
pub fn decode(jpeg: &[u8]) -> Vec<u8> {
    let rgb = Decoder::new(jpeg).decode().expect("a rendered JPEG can be decoded");
    rgb.chunks_exact(3).flat_map(|p| [p[0], p[1], p[2], 255]).collect()
}

fn marks(truth: &GroundTruth, references: ReferenceSet, random: &mut RandomStream) -> Marks {
    let mut mark = |area: Option<Area>| area.map(|area| jittered(area, random));
    Marks {
        white: mark(truth.white),
        second_white: mark(truth.second_white)
            .filter(|_| references == ReferenceSet::TwoWhitesAndGrey),
        grey: mark(truth.grey).filter(|_| references != ReferenceSet::White),
    }
}

/// A random rectangle of 60 to 100 % of the sides within the given one.
fn jittered(area: Area, random: &mut RandomStream) -> Area {
    let part = random.between(0.6, 1.0);
    let side = |full: u32| ((f64::from(full) * part) as u32).max(42).min(full);
    let (width, height) = (side(area.width), side(area.height));
    let mut slide = |room: u32| (f64::from(room) * random.share()) as u32;
    Area {
        x: area.x + slide(area.width - width),
        y: area.y + slide(area.height - height),
        width,
        height,
    }
}

/// Whether the proposed areas lie on white, second white, grey, pulp. `None` where nothing
/// was proposed.
pub fn proposals_hit(scene: &Scene) -> [Option<bool>; 4] {
    let rendered = render(scene).expect("a JPEG of this size can be made");
    let rgba = decode(&rendered.jpeg);
    let photo = PhotoPixels::new(&rgba, scene.width, scene.height).expect("whole rows");
    let (proposals, truth) = (propose(&photo), rendered.truth);
    let on = |proposal: Option<Proposal>, places: &[Option<Area>]| {
        proposal.map(|p| places.iter().flatten().any(|place| contains(place, p.area.centre())))
    };
    let whites = [truth.white, truth.second_white];
    [
        on(proposals.white, &whites),
        on(proposals.second_white, &whites),
        on(proposals.grey, &[truth.grey]),
        on(proposals.pulp, &[truth.pulps.first().map(|(area, _)| *area)]),
    ]
}

fn contains(area: &Area, [x, y]: [f64; 2]) -> bool {
    let within =
        |v: f64, from: u32, size: u32| (f64::from(from)..f64::from(from + size)).contains(&v);
    within(x, area.x, area.width) && within(y, area.y, area.height)
}
