//! Why a photo or a patch is not a measurement, and what to do about it.

use super::role::PatchRole;
use crate::message::{Message, Value};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// Why a photo or a patch is refused.
///
/// [`ColourError::message`] says what is wrong, with its values;
/// [`ColourError::instruction`] what to do, in one sentence each.
#[derive(
    Clone, Copy, Debug, PartialEq, Serialize, Deserialize, thiserror::Error, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-refused-", serialize_all = "snake_case")]
pub enum ColourError {
    #[error("no white reference in the photo")]
    NoReference,
    /// The values of a reference are not reflectances.
    #[error("the reflectance of {place:?} is not between 0 and 1")]
    ImpossibleReference { place: PatchRole },
    #[error("the mark of {place:?} is outside the photo")]
    OutsidePhoto { place: PatchRole },
    /// The mark shares pixels with the mark of a reference.
    #[error("the mark of {place:?} overlaps a reference")]
    Overlapping { place: PatchRole },
    /// Shorter side and its minimum, pixels.
    #[error("the mark of {place:?} is {side} pixels wide; at least {least} are needed")]
    TooSmall { place: PatchRole, side: u32, least: u32 },
    /// Share of pixels at either end of the scale.
    #[error("{share} of the pixels of {place:?} are clipped")]
    Clipped { place: PatchRole, share: f64 },
    /// Brightest channel of the white and its minimum, codes 0 to 255.
    #[error("the white reads {code}; at least {least} is needed")]
    TooDark { code: f64, least: f64 },
    /// Brightest channel of the white and its maximum, codes 0 to 255.
    #[error("the white reads {code}; at most {most} is allowed")]
    TooBright { code: f64, most: f64 },
    /// Width of the sharpest edges as a share of the long side of the photo.
    #[error("edges are {edge} of the long side wide; at most {most} is allowed")]
    Blurred { edge: f64, most: f64 },
    /// Difference between quarters of one patch, as a share of its light.
    #[error("quarters of {place:?} differ by {difference}; at most {most} is allowed")]
    UnevenPatch { place: PatchRole, difference: f64, most: f64 },
    /// Difference in brightness between the whites, as a share.
    #[error("the whites differ in brightness by {difference}; at most {most} is allowed")]
    UnevenLight { difference: f64, most: f64 },
    /// Change in the colour of the light across the frame, as a share.
    #[error("the whites differ in colour by {difference}; at most {most} is allowed")]
    MixedLight { difference: f64, most: f64 },
    /// Error of the corrected grey in L* and C*ab.
    #[error("the corrected grey is off by {lightness} in L* and {chroma} in C*ab")]
    GreyOff { lightness: f64, chroma: f64 },
    /// Strongest channel of the white over its weakest, linear light.
    #[error("channels of the light differ by a factor of {ratio}; at most {most} is allowed")]
    ColouredLight { ratio: f64, most: f64 },
    /// Surfaces that teach a camera, and the fewest.
    #[error("{count} known surfaces; at least {least} are needed")]
    TooFewSurfaces { count: u32, least: u32 },
    /// Median CIEDE2000 between known surfaces and the best fit to them.
    #[error("known surfaces are {difference} from the best fit; at most {most} is allowed")]
    NotAsKnown { difference: f64, most: f64 },
    /// A lamp with poor or unknown colour rendering.
    #[error("the lamp renders colours poorly")]
    PoorLamp,
}

impl ColourError {
    /// What is wrong.
    pub fn message(&self) -> Message {
        let message = Message::new(self.into_str());
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
            Self::TooFewSurfaces { count, least } => message
                .with("count", Value::Count(count.into()))
                .with("least", Value::Count(least.into())),
            Self::NotAsKnown { difference, most } => message
                .with("difference", Value::Number(difference))
                .with("most", Value::Number(most)),
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
            Self::TooFewSurfaces { .. } => "colour-do-more_surfaces",
            Self::NotAsKnown { .. } => "colour-do-check_chart",
            Self::ColouredLight { .. } | Self::PoorLamp => "colour-do-daylight",
        })
    }
}
