//! Teaching a camera from a photo: reads the known surfaces, refuses a bad photo, and records
//! what was learnt.

use super::chart::{self, ChartEdition};
use super::taught::{FEWEST, KnownSurface, Lesson, TaughtCamera, learn};
use crate::colour::patch::{PatchStatistics, read_small};
use crate::colour::photo::{Area, PhotoPixels};
use crate::colour::quality::{self, limit};
use crate::colour::reference::Light;
use crate::colour::sharpness::edge_width;
use crate::colour::space::{Lab, decode, extremes};
use crate::colour::{ColourError, PatchRole};

/// Limit of the median CIEDE2000 that a matrix leaves over all surfaces: beyond it they are not
/// what they are taken for, or lie in mixed or uneven light. Own estimate, over the chart
/// photos of `tests/colour`.
const FIT: f64 = 6.0;
/// Limit of the change of colour between neutral surfaces, linear light.
const NEUTRALS: f64 = 0.12;

/// What a photo taught, with the surfaces it was learnt from, the white first.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoLesson {
    pub lesson: Lesson,
    pub surfaces: Vec<KnownSurface>,
}

/// Learns from a 24-patch chart. `corners`: centres of the four corner patches in pixels, in
/// order round the chart; which of them is first is found.
///
/// # Errors
/// All reasons against the photo, most severe first.
pub fn from_chart(
    photo: &PhotoPixels,
    corners: [[f64; 2]; 4],
    edition: ChartEdition,
    light: Light,
) -> Result<PhotoLesson, Vec<ColourError>> {
    let labs = edition.lab();
    let turned = (0..4).map(|turn| {
        let corners = [0, 1, 2, 3].map(|i| corners[(i + turn) % 4]);
        let places = chart::places(corners, photo)
            .ok_or_else(|| vec![ColourError::OutsidePhoto { place: PatchRole::Surface }])?;
        let known: Vec<(Area, Lab)> = places.into_iter().zip(labs).collect();
        Ok((darkest_first(photo, &known), known))
    });
    let turned: Result<Vec<_>, Vec<ColourError>> = turned.collect();
    let best = turned?.into_iter().max_by(|one, other| one.0.total_cmp(&other.0));
    let (_, known) = best.ok_or_else(|| vec![ColourError::NoReference])?;
    from_surfaces(photo, &known, light)
}

/// How well the order of lightness of the surfaces is that of the photo: their correlation.
fn darkest_first(photo: &PhotoPixels, known: &[(Area, Lab)]) -> f64 {
    let pairs: Vec<(f64, f64)> = known
        .iter()
        .filter_map(|(area, lab)| {
            let patch = read_small(photo, *area, PatchRole::Surface).ok()?;
            Some((patch.median[1] + 0.3 * (patch.median[0] - patch.median[2]), lab.l + 0.2 * lab.b))
        })
        .collect();
    let count = pairs.len().max(1) as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| pairs.iter().map(of).sum::<f64>() / count;
    let (x, y) = (mean(|p| p.0), mean(|p| p.1));
    let sum = |of: &dyn Fn(&(f64, f64)) -> f64| pairs.iter().map(of).sum::<f64>();
    let spread = (sum(&|p| (p.0 - x).powi(2)) * sum(&|p| (p.1 - y).powi(2))).sqrt();
    sum(&|p| (p.0 - x) * (p.1 - y)) / spread.max(1e-9)
}

/// Learns from surfaces of known CIELAB in one photo; the lightest neutral one is the white.
///
/// # Errors
/// All reasons against the photo, most severe first.
pub fn from_surfaces(
    photo: &PhotoPixels,
    known: &[(Area, Lab)],
    light: Light,
) -> Result<PhotoLesson, Vec<ColourError>> {
    let mut refused = Vec::new();
    if light == Light::OtherLamp {
        refused.push(ColourError::PoorLamp);
    }
    let mut patches: Vec<(PatchStatistics, Lab)> = Vec::new();
    for (area, lab) in known {
        match read_small(photo, *area, PatchRole::Surface) {
            Ok(patch) => patches.push((patch, *lab)),
            Err(error) if !refused.contains(&error) => refused.push(error),
            Err(_) => {}
        }
    }
    if !refused.is_empty() {
        return Err(refused);
    }
    let neutral = |lab: &Lab| lab.chroma() < 8.0 && lab.l > 75.0;
    let white = (0..patches.len())
        .filter(|i| neutral(&patches[*i].1))
        .max_by(|one, other| patches[*one].1.l.total_cmp(&patches[*other].1.l));
    let Some(white) = white else { return Err(vec![ColourError::NoReference]) };
    patches.swap(0, white);
    if patches.len() <= FEWEST {
        let count = patches.len() as u32;
        return Err(vec![ColourError::TooFewSurfaces { count, least: FEWEST as u32 + 1 }]);
    }
    refused.extend(reasons_against(photo, &patches));
    if !refused.is_empty() {
        return Err(refused);
    }
    let width = f64::from(photo.width().max(1));
    let surfaces: Vec<KnownSurface> = patches
        .iter()
        .map(|(patch, lab)| KnownSurface {
            codes: patch.median,
            place: patch.area.centre().map(|v| v / width),
            lab: *lab,
        })
        .collect();
    let lesson = learn(&surfaces).ok_or_else(|| vec![not_as_known(f64::INFINITY)])?;
    if lesson.fit.is_nan() || lesson.fit > FIT {
        return Err(vec![not_as_known(lesson.fit)]);
    }
    Ok(PhotoLesson { lesson, surfaces })
}

impl PhotoLesson {
    pub fn camera(&self) -> TaughtCamera {
        self.lesson.camera
    }
}

fn not_as_known(difference: f64) -> ColourError {
    ColourError::NotAsKnown { difference: difference.min(100.0), most: FIT }
}

fn reasons_against(photo: &PhotoPixels, patches: &[(PatchStatistics, Lab)]) -> Vec<ColourError> {
    let role = PatchRole::Surface;
    let mut refused = Vec::new();
    let (white, own) = &patches[0];
    refused.extend(quality::of_white(PatchRole::White, white));
    // Vivid surfaces may lie outside the gamut of sRGB: only those near pulp must be whole.
    let dull = patches.iter().filter(|(_, lab)| lab.chroma() < 30.0);
    let clipped = dull.filter_map(|(patch, lab)| {
        let whole = PatchStatistics { clipped_low: 0.0, ..*patch };
        let patch = if lab.l < 45.0 { &whole } else { patch };
        quality::of_patch(role, patch, limit::UNEVEN_PULP)
    });
    refused.extend(clipped.take(1));
    if let Some(edge) = edge_width(photo).filter(|edge| *edge > limit::EDGE) {
        refused.push(ColourError::Blurred { edge, most: limit::EDGE });
    }
    let light = |patch: &PatchStatistics, lab: &Lab| {
        let truth = lab.to_xyz().to_linear();
        [0, 1, 2].map(|c| decode(patch.median[c] / 255.0).max(1e-4) / truth[c].max(1e-4))
    };
    let first = light(white, own);
    let (least, most) = extremes(first);
    if most / least > limit::COLOURED_LIGHT {
        let ratio = most / least;
        refused.push(ColourError::ColouredLight { ratio, most: limit::COLOURED_LIGHT });
    }
    let change = patches[1..]
        .iter()
        .filter(|(_, lab)| lab.chroma() < 6.0 && lab.l > 45.0)
        .map(|(patch, lab)| {
            let here = light(patch, lab);
            let (least, most) = extremes([0, 1, 2].map(|c| here[c] / first[c]));
            most / least - 1.0
        })
        .fold(0.0, f64::max);
    if change > NEUTRALS {
        refused.push(ColourError::MixedLight { difference: change, most: NEUTRALS });
    }
    refused
}
