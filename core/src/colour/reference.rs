//! Reference surfaces in the frame: white and grey; and the light.

use crate::quantity::{Basis, Estimate};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// A reference surface: reflectance of red, green and blue, 0 to 1.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Surface {
    pub reflectance: [Estimate<f64>; 3],
}

/// The references of one photo.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct References {
    pub white: Surface,
    /// Where the frame contains a grey.
    pub grey: Option<Surface>,
    pub light: Light,
}

/// Light of the photo, stated by the person: three channels cannot detect poor colour
/// rendering.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-light-", serialize_all = "snake_case")]
pub enum Light {
    /// Window or open shade.
    Daylight,
    /// A filament: tungsten, halogen.
    Bulb,
    /// LED or tube of stated colour rendering (Ra, CRI) 80 or more.
    GoodLamp,
    /// Lamp of lower or unknown colour rendering: old tubes, colour-changing and workshop
    /// lamps. Refused: errors of several units.
    OtherLamp,
}

impl Light {
    pub const ALL: [Self; 4] = [Self::Daylight, Self::Bulb, Self::GoodLamp, Self::OtherLamp];

    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

impl Surface {
    /// Plain office copy paper, not measured. Reflectance 0.85 to 0.92, taken as 0.90:
    /// common practice, no source. Optical brighteners raise the blue by an amount that
    /// depends on the ultraviolet in the light, up to 1.00: from memory, no source for
    /// the studio's paper.
    pub fn copy_paper() -> Self {
        let plain = Estimate { value: 0.90, low: 0.85, high: 0.92, basis: Basis::Assumed };
        Self { reflectance: [plain, plain, Estimate { high: 1.00, ..plain }] }
    }

    /// A card with one printed reflectance, 0 to 1, for all channels. ± 0.01: common
    /// practice, no source.
    pub fn card(reflectance: f64) -> Self {
        let known = Estimate {
            value: reflectance,
            low: (reflectance - 0.01).max(0.0),
            high: (reflectance + 0.01).min(1.0),
            basis: Basis::Label,
        };
        Self { reflectance: [known; 3] }
    }

    /// A photographic grey card, 18 %, ± 0.01.
    pub fn grey_card() -> Self {
        Self::card(0.18)
    }

    /// A card with measured values.
    pub fn own(reflectance: [Estimate<f64>; 3]) -> Self {
        Self { reflectance }
    }

    /// Reflectance of each channel.
    pub fn values(&self) -> [f64; 3] {
        self.reflectance.map(|known| known.value)
    }

    /// Whether the reflectance of every channel is above 0 and at most 1.
    pub fn is_possible(&self) -> bool {
        self.reflectance.iter().all(|known| {
            known.low > 0.0
                && known.high <= 1.0
                && known.low <= known.value
                && known.value <= known.high
        })
    }
}

impl References {
    /// Copy paper in daylight, without a grey.
    pub fn copy_paper() -> Self {
        Self { white: Surface::copy_paper(), grey: None, light: Light::Daylight }
    }
}
