//! Checks that a photo is a measurement, and their limits.

use super::error::ColourError;
use super::patch::PatchStatistics;
use super::reference::{Light, References};
use super::reference_patches::ReferencePatches;
use super::role::PatchRole;
use super::space::{Lab, decode, extremes};

/// All reasons to refuse the references, most severe first; [`of_grey`] checks the corrected
/// grey.
pub(super) fn of_references(
    patches: &ReferencePatches,
    references: &References,
) -> Vec<ColourError> {
    let mut refused = Vec::new();
    if !references.white.is_possible() {
        refused.push(ColourError::ImpossibleReference { place: PatchRole::White });
    }
    if references.grey.is_some_and(|grey| !grey.is_possible()) {
        refused.push(ColourError::ImpossibleReference { place: PatchRole::Grey });
    }
    if references.light == Light::OtherLamp {
        refused.push(ColourError::PoorLamp);
    }
    let whites = [
        (PatchRole::White, Some(&patches.white)),
        (PatchRole::SecondWhite, patches.second_white.as_ref()),
    ];
    for (role, patch) in whites {
        refused.extend(patch.and_then(|patch| of_white(role, patch)));
    }
    let marked = whites.into_iter().chain([(PatchRole::Grey, patches.grey.as_ref())]);
    for (role, patch) in marked {
        refused.extend(patch.and_then(|patch| of_patch(role, patch, limit::UNEVEN_REFERENCE)));
    }
    if let Some(edge) = patches.edge.filter(|&edge| edge > limit::EDGE) {
        refused.push(ColourError::Blurred { edge, most: limit::EDGE });
    }
    if refused.is_empty() {
        refused.extend(of_light(patches, references));
    }
    refused
}

/// Reason to refuse a patch.
pub(super) fn of_patch(
    role: PatchRole,
    patch: &PatchStatistics,
    uneven: f64,
) -> Option<ColourError> {
    let share = patch.clipped_high.max(patch.clipped_low);
    if share > limit::CLIPPED {
        return Some(ColourError::Clipped { place: role, share });
    }
    (patch.unevenness > uneven).then_some(ColourError::UnevenPatch {
        place: role,
        difference: patch.unevenness,
        most: uneven,
    })
}

pub(super) fn of_white(role: PatchRole, patch: &PatchStatistics) -> Option<ColourError> {
    let code = patch.median.into_iter().fold(0.0, f64::max);
    if code > limit::WHITE_MOST {
        return Some(ColourError::TooBright { code, most: limit::WHITE_MOST });
    }
    // A second white may be in weaker light; only the first must be bright.
    (role == PatchRole::White && code < limit::WHITE_LEAST)
        .then_some(ColourError::TooDark { code, least: limit::WHITE_LEAST })
}

/// Reasons to refuse the light, from the whites.
fn of_light(patches: &ReferencePatches, references: &References) -> Vec<ColourError> {
    let mut refused = Vec::new();
    let own = references.white.values();
    let light = |patch: &PatchStatistics| {
        [0, 1, 2].map(|c| decode(patch.median[c] / 255.0).max(1e-4) / own[c])
    };
    let first = light(&patches.white);
    let ratio = channel_ratio(first);
    if ratio > limit::COLOURED_LIGHT {
        refused.push(ColourError::ColouredLight { ratio, most: limit::COLOURED_LIGHT });
    }
    if let Some(second) = &patches.second_white {
        let second = light(second);
        let steps = [0, 1, 2].map(|c| second[c] / first[c]);
        let bright = (steps[0] * steps[1] * steps[2]).cbrt();
        let difference = bright.max(1.0 / bright) - 1.0;
        if difference > limit::UNEVEN_LIGHT {
            refused.push(ColourError::UnevenLight { difference, most: limit::UNEVEN_LIGHT });
        }
        let mixed = channel_ratio(steps) - 1.0;
        if mixed > limit::MIXED_LIGHT {
            refused.push(ColourError::MixedLight { difference: mixed, most: limit::MIXED_LIGHT });
        }
    }
    refused
}

/// Reason to refuse the corrected grey.
pub(super) fn of_grey(found: Lab, wanted: Lab) -> Option<ColourError> {
    let lightness = found.l - wanted.l;
    let chroma = (found.a - wanted.a).hypot(found.b - wanted.b);
    (lightness.abs() > limit::GREY_LIGHTNESS || chroma > limit::GREY_CHROMA)
        .then_some(ColourError::GreyOff { lightness, chroma })
}

/// Largest channel over smallest.
fn channel_ratio(values: [f64; 3]) -> f64 {
    let (least, most) = extremes(values);
    most / least
}

/// Limits of a photo that is a measurement.
///
/// Common practice, no source; adjusted so that good and spoiled synthetic photographs of
/// `tests/colour` are separated.
pub mod limit {
    /// Share of clipped pixels of any patch.
    pub const CLIPPED: f64 = 0.01;
    /// Brightest channel of the white, codes. Above, cameras compress the scale.
    pub const WHITE_MOST: f64 = 250.0;
    /// Brightest channel of the white, codes. Below, noise and quantisation increase.
    pub const WHITE_LEAST: f64 = 150.0;
    /// Edge width, share of the long side of the photo.
    pub const EDGE: f64 = 0.010;
    /// Difference between quarters of a reference patch, share of its light.
    pub const UNEVEN_REFERENCE: f64 = 0.12;
    /// Difference between quarters of a pulp patch, share of its light.
    pub const UNEVEN_PULP: f64 = 0.30;
    /// Difference in brightness between two whites, share; below, the light is interpolated.
    pub const UNEVEN_LIGHT: f64 = 0.35;
    /// Difference between two whites per channel, at equal brightness.
    pub const MIXED_LIGHT: f64 = 0.05;
    /// Error of the corrected grey, L*.
    pub const GREY_LIGHTNESS: f64 = 3.0;
    /// Error of the corrected grey, C*ab.
    pub const GREY_CHROMA: f64 = 3.0;
    /// Strongest channel of the white over its weakest, linear light.
    pub const COLOURED_LIGHT: f64 = 2.2;
}
