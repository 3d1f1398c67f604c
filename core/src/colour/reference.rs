//! What the white and the grey in the frame are.

use crate::quantity::{Basis, Known};
use crate::words;
use serde::{Deserialize, Serialize};

/// A reference surface: its reflectance as each channel sees it, 0 to 1, red,
/// green, blue.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Surface {
    pub reflectance: [Known<f64>; 3],
}

/// The references of one photo.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct References {
    pub white: Surface,
    /// Present if the frame holds a grey.
    pub grey: Option<Surface>,
    pub light: Light,
}

/// What light the photo was taken in, as the person says: three colour channels
/// cannot tell a lamp that renders colours badly from one that does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Light {
    /// Window or open shade.
    Daylight,
    /// A filament: tungsten, halogen.
    Bulb,
    /// A LED or a tube whose label says colour rendering (Ra, CRI) 80 or more.
    GoodLamp,
    /// A lamp that says less or nothing: old tubes, colour-changing and workshop
    /// lamps. Refused: the same pulp may look several units off.
    OtherLamp,
}

words!(Light {
    Daylight = "daylight",
    Bulb = "bulb",
    GoodLamp = "good_lamp",
    OtherLamp = "other_lamp",
});

impl Light {
    pub const ALL: [Self; 4] = [Self::Daylight, Self::Bulb, Self::GoodLamp, Self::OtherLamp];

    /// Key for the words in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Daylight => "colour-light-daylight",
            Self::Bulb => "colour-light-bulb",
            Self::GoodLamp => "colour-light-good_lamp",
            Self::OtherLamp => "colour-light-other_lamp",
        }
    }
}

impl Surface {
    /// Plain office copy paper, which nobody has measured. Reflectance 0.85 to
    /// 0.92, taken as 0.90: common practice, no source. Optical brighteners make it
    /// bluer than that by an amount that depends on the ultraviolet in the light,
    /// so the blue may reach 1.00: from memory, no source for the studio's paper.
    pub fn copy_paper() -> Self {
        let plain = Known { value: 0.90, low: 0.85, high: 0.92, basis: Basis::Assumed };
        Self { reflectance: [plain, plain, Known { high: 1.00, ..plain }] }
    }

    /// A card whose maker prints one reflectance, 0 to 1, for all colours. A
    /// hundredth either way: common practice, no source.
    pub fn card(reflectance: f64) -> Self {
        let known = Known {
            value: reflectance,
            low: (reflectance - 0.01).max(0.0),
            high: (reflectance + 0.01).min(1.0),
            basis: Basis::Label,
        };
        Self { reflectance: [known; 3] }
    }

    /// The photographer's grey card, 18 %, within a hundredth.
    pub fn grey_card() -> Self {
        Self::card(0.18)
    }

    /// A card whose own values were entered once.
    pub fn own(reflectance: [Known<f64>; 3]) -> Self {
        Self { reflectance }
    }

    /// Reflectance of each channel, best value.
    pub fn values(&self) -> [f64; 3] {
        self.reflectance.map(|known| known.value)
    }

    /// Whether a reflectance of every channel lies above 0 and not above 1.
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
    /// Copy paper in daylight and nothing else.
    pub fn copy_paper() -> Self {
        Self { white: Surface::copy_paper(), grey: None, light: Light::Daylight }
    }
}
