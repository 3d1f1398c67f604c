//! When a photo is no measurement, why, and what to do about it.

use super::correction::ReferencePatches;
use super::patch::Patch;
use super::reference::{Light, References};
use super::space::{Lab, decode};
use crate::message::{Message, Value};
use crate::{choice, words};
use serde::{Deserialize, Serialize};

/// Which of the marked places something is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    White,
    SecondWhite,
    Grey,
    Pulp,
}

words!(Place {
    White = "white",
    SecondWhite = "second_white",
    Grey = "grey",
    Pulp = "pulp",
});

impl Place {
    /// Key for the word in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::White => "colour-place-white",
            Self::SecondWhite => "colour-place-second_white",
            Self::Grey => "colour-place-grey",
            Self::Pulp => "colour-place-pulp",
        }
    }
}

/// Why a photo or a patch is refused.
///
/// [`Rejection::message`] says what is wrong with its figures,
/// [`Rejection::instruction`] what to do, in one sentence each.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", tag = "kind")]
pub enum Rejection {
    /// No white in the frame, so there is nothing to hold the colour against.
    NoReference,
    /// A reference's own values are not reflectances.
    ImpossibleReference {
        place: Place,
    },
    OutsidePhoto {
        place: Place,
    },
    /// The mark lies partly on a reference's own.
    Overlapping {
        place: Place,
    },
    /// Shorter side in pixels, and the least allowed.
    TooSmall {
        place: Place,
        side: u32,
        least: u32,
    },
    /// Share of pixels at the end of the scale.
    Clipped {
        place: Place,
        share: f64,
    },
    /// Brightest channel of the white, and the least allowed; codes 0 to 255.
    TooDark {
        code: f64,
        least: f64,
    },
    /// Brightest channel of the white, and the most allowed; codes 0 to 255.
    TooBright {
        code: f64,
        most: f64,
    },
    /// Width of the photo's sharpest edges as a share of its long side.
    Blurred {
        edge: f64,
        most: f64,
    },
    /// Difference between quarters of one patch, as a share of its light.
    UnevenPatch {
        place: Place,
        difference: f64,
        most: f64,
    },
    /// How much brighter one white is than the other, as a share.
    UnevenLight {
        difference: f64,
        most: f64,
    },
    /// How far the colour of the light moves across the frame, as a share.
    MixedLight {
        difference: f64,
        most: f64,
    },
    /// The grey, corrected, is off by so much lightness (L*) and colour (C*ab).
    GreyOff {
        lightness: f64,
        chroma: f64,
    },
    /// Strongest channel of the white over its weakest, in linear light.
    ColouredLight {
        ratio: f64,
        most: f64,
    },
    /// A lamp that is known or suspected to render colours badly.
    PoorLamp,
}

choice!(Rejection {
    NoReference = "no_reference",
    ImpossibleReference { place } = "impossible_reference",
    OutsidePhoto { place } = "outside_photo",
    Overlapping { place } = "overlapping",
    TooSmall { place, side, least } = "too_small",
    Clipped { place, share } = "clipped",
    TooDark { code, least } = "too_dark",
    TooBright { code, most } = "too_bright",
    Blurred { edge, most } = "blurred",
    UnevenPatch { place, difference, most } = "uneven_patch",
    UnevenLight { difference, most } = "uneven_light",
    MixedLight { difference, most } = "mixed_light",
    GreyOff { lightness, chroma } = "grey_off",
    ColouredLight { ratio, most } = "coloured_light",
    PoorLamp = "poor_lamp",
});

impl Rejection {
    /// What is wrong.
    pub fn message(&self) -> Message {
        let message = Message::new(self.key());
        match *self {
            Self::NoReference | Self::PoorLamp => message,
            Self::ImpossibleReference { place }
            | Self::OutsidePhoto { place }
            | Self::Overlapping { place } => message.with("place", Value::Word(place.key())),
            Self::TooSmall { place, side, least } => message
                .with("place", Value::Word(place.key()))
                .with("side", Value::Count(side.into()))
                .with("least", Value::Count(least.into())),
            Self::Clipped { place, share } => {
                message.with("place", Value::Word(place.key())).with("share", Value::Share(share))
            }
            Self::TooDark { code, least } => {
                message.with("code", Value::Number(code)).with("least", Value::Number(least))
            }
            Self::TooBright { code, most } => {
                message.with("code", Value::Number(code)).with("most", Value::Number(most))
            }
            Self::Blurred { edge, most } => {
                message.with("edge", Value::Share(edge)).with("most", Value::Share(most))
            }
            Self::UnevenPatch { place, difference, most } => message
                .with("place", Value::Word(place.key()))
                .with("difference", Value::Share(difference))
                .with("most", Value::Share(most)),
            Self::UnevenLight { difference, most } | Self::MixedLight { difference, most } => {
                message
                    .with("difference", Value::Share(difference))
                    .with("most", Value::Share(most))
            }
            Self::GreyOff { lightness, chroma } => message
                .with("lightness", Value::Number(lightness))
                .with("chroma", Value::Number(chroma)),
            Self::ColouredLight { ratio, most } => {
                message.with("ratio", Value::Number(ratio)).with("most", Value::Number(most))
            }
        }
    }

    /// What to do about it: one sentence, no values.
    pub fn instruction(&self) -> Message {
        Message::new(match self {
            Self::NoReference => "colour-do-add_white",
            Self::ImpossibleReference { .. } => "colour-do-check_card_values",
            Self::OutsidePhoto { .. } => "colour-do-mark_again",
            Self::Overlapping { .. } => "colour-do-mark_apart",
            Self::TooSmall { .. } => "colour-do-closer",
            Self::Clipped { .. } | Self::TooBright { .. } => "colour-do-less_exposure",
            Self::TooDark { .. } => "colour-do-more_light",
            Self::Blurred { .. } => "colour-do-hold_still",
            Self::UnevenPatch { .. } => "colour-do-mark_plain_place",
            Self::UnevenLight { .. } => "colour-do-even_light",
            Self::MixedLight { .. } => "colour-do-one_light",
            Self::GreyOff { .. } => "colour-do-check_grey",
            Self::ColouredLight { .. } | Self::PoorLamp => "colour-do-daylight",
        })
    }

    fn key(&self) -> &'static str {
        match self {
            Self::NoReference => "colour-refused-no_reference",
            Self::ImpossibleReference { .. } => "colour-refused-impossible_reference",
            Self::OutsidePhoto { .. } => "colour-refused-outside_photo",
            Self::Overlapping { .. } => "colour-refused-overlapping",
            Self::TooSmall { .. } => "colour-refused-too_small",
            Self::Clipped { .. } => "colour-refused-clipped",
            Self::TooDark { .. } => "colour-refused-too_dark",
            Self::TooBright { .. } => "colour-refused-too_bright",
            Self::Blurred { .. } => "colour-refused-blurred",
            Self::UnevenPatch { .. } => "colour-refused-uneven_patch",
            Self::UnevenLight { .. } => "colour-refused-uneven_light",
            Self::MixedLight { .. } => "colour-refused-mixed_light",
            Self::GreyOff { .. } => "colour-refused-grey_off",
            Self::ColouredLight { .. } => "colour-refused-coloured_light",
            Self::PoorLamp => "colour-refused-poor_lamp",
        }
    }
}

/// Every reason to refuse the references as read, gravest first; the corrected
/// grey is looked at by [`of_grey`].
pub(super) fn of_references(patches: &ReferencePatches, references: &References) -> Vec<Rejection> {
    let mut refused = Vec::new();
    if !references.white.is_possible() {
        refused.push(Rejection::ImpossibleReference { place: Place::White });
    }
    if references.grey.is_some_and(|grey| !grey.is_possible()) {
        refused.push(Rejection::ImpossibleReference { place: Place::Grey });
    }
    if references.light == Light::OtherLamp {
        refused.push(Rejection::PoorLamp);
    }
    let whites =
        [(Place::White, Some(&patches.white)), (Place::SecondWhite, patches.second_white.as_ref())];
    for (place, patch) in whites {
        refused.extend(patch.and_then(|patch| of_white(place, patch)));
    }
    let marked = whites.into_iter().chain([(Place::Grey, patches.grey.as_ref())]);
    for (place, patch) in marked {
        refused.extend(patch.and_then(|patch| of_patch(place, patch, limit::UNEVEN_REFERENCE)));
    }
    if let Some(edge) = patches.edge.filter(|&edge| edge > limit::EDGE) {
        refused.push(Rejection::Blurred { edge, most: limit::EDGE });
    }
    if refused.is_empty() {
        refused.extend(of_light(patches, references));
    }
    refused
}

/// A reason to refuse any one patch.
pub(super) fn of_patch(place: Place, patch: &Patch, uneven: f64) -> Option<Rejection> {
    let share = patch.clipped_high.max(patch.clipped_low);
    if share > limit::CLIPPED {
        return Some(Rejection::Clipped { place, share });
    }
    (patch.unevenness > uneven).then_some(Rejection::UnevenPatch {
        place,
        difference: patch.unevenness,
        most: uneven,
    })
}

fn of_white(place: Place, patch: &Patch) -> Option<Rejection> {
    let code = patch.median.into_iter().fold(0.0, f64::max);
    if code > limit::WHITE_MOST {
        return Some(Rejection::TooBright { code, most: limit::WHITE_MOST });
    }
    // A second white may lie where the light falls off; only the first must be bright.
    (place == Place::White && code < limit::WHITE_LEAST)
        .then_some(Rejection::TooDark { code, least: limit::WHITE_LEAST })
}

/// What the whites say of the light.
fn of_light(patches: &ReferencePatches, references: &References) -> Vec<Rejection> {
    let mut refused = Vec::new();
    let own = references.white.values();
    let light =
        |patch: &Patch| [0, 1, 2].map(|c| decode(patch.median[c] / 255.0).max(1e-4) / own[c]);
    let first = light(&patches.white);
    let ratio = most(first) / least(first);
    if ratio > limit::COLOURED_LIGHT {
        refused.push(Rejection::ColouredLight { ratio, most: limit::COLOURED_LIGHT });
    }
    if let Some(second) = &patches.second_white {
        let second = light(second);
        let steps = [0, 1, 2].map(|c| second[c] / first[c]);
        let bright = (steps[0] * steps[1] * steps[2]).cbrt();
        let difference = bright.max(1.0 / bright) - 1.0;
        if difference > limit::UNEVEN_LIGHT {
            refused.push(Rejection::UnevenLight { difference, most: limit::UNEVEN_LIGHT });
        }
        let mixed = most(steps) / least(steps) - 1.0;
        if mixed > limit::MIXED_LIGHT {
            refused.push(Rejection::MixedLight { difference: mixed, most: limit::MIXED_LIGHT });
        }
    }
    refused
}

/// Whether the corrected grey is the grey that it should be.
pub(super) fn of_grey(found: Lab, wanted: Lab) -> Option<Rejection> {
    let lightness = found.l - wanted.l;
    let chroma = (found.a - wanted.a).hypot(found.b - wanted.b);
    (lightness.abs() > limit::GREY_LIGHTNESS || chroma > limit::GREY_CHROMA)
        .then_some(Rejection::GreyOff { lightness, chroma })
}

fn most(v: [f64; 3]) -> f64 {
    v.into_iter().fold(f64::MIN, f64::max)
}

fn least(v: [f64; 3]) -> f64 {
    v.into_iter().fold(f64::MAX, f64::min)
}

/// The limits that a photo must keep to be a measurement.
///
/// From the honest photo routine of common practice, no source, and then set so
/// that the synthetic photographs of `tests/colour` are told apart.
pub mod limit {
    /// Share of pixels of any patch at the end of the scale.
    pub const CLIPPED: f64 = 0.01;
    /// Brightest channel of the white, codes. Near the top a camera compresses.
    pub const WHITE_MOST: f64 = 250.0;
    /// Brightest channel of the white, codes. Below, noise and steps grow.
    pub const WHITE_LEAST: f64 = 150.0;
    /// Edge width as a share of the long side of the photo.
    pub const EDGE: f64 = 0.010;
    /// Between quarters of a reference patch, share of its light.
    pub const UNEVEN_REFERENCE: f64 = 0.12;
    /// Between quarters of a pulp patch, share of its light.
    pub const UNEVEN_PULP: f64 = 0.30;
    /// Between two whites, share; up to here the light is interpolated.
    pub const UNEVEN_LIGHT: f64 = 0.35;
    /// Between two whites, per channel, after their brightness is set equal.
    pub const MIXED_LIGHT: f64 = 0.05;
    /// Corrected grey: lightness off, L*.
    pub const GREY_LIGHTNESS: f64 = 3.0;
    /// Corrected grey: colour off, C*ab.
    pub const GREY_CHROMA: f64 = 3.0;
    /// White's strongest channel over its weakest, linear light.
    pub const COLOURED_LIGHT: f64 = 2.2;
}
