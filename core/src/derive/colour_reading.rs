//! The record of a colour measurement, and its figures read back for display and comparison.
//! Not here: how a colour is measured, which is `colour`.

use crate::colour::PatchRole;
use crate::colour::compare::DisplayLut;
use crate::colour::correction::Correction;
use crate::colour::measure::ColourMeasurement;
use crate::colour::patch::PatchStatistics;
use crate::colour::shift::Dryness;
use crate::colour::space::Lab;
use crate::colour::tone::ToneCurve;
use crate::journal::{ColourReading, ColourTarget, Figure, Patch, PulpState};
use crate::quantity::{Basis, Estimate};

/// Names of further measures in a [`ColourReading`]. K/S and chroma have no unit,
/// hue is in degrees; the tone curve is that of [`ToneCurve`].
const CIE_WHITENESS: &str = "cie_whiteness";
const CHROMA: &str = "chroma";
const HUE: &str = "hue_degrees";
const K_OVER_S: &str = "blue_k_over_s";
const CONTRAST: &str = "tone_contrast";
const SHOULDER: &str = "tone_shoulder";

impl ColourReading {
    /// The record of a measurement: figures, patches and the tone curve, so that its photo
    /// can be shown with its correction again.
    pub fn of(
        reading: &ColourMeasurement,
        correction: &Correction,
        pulp: &PatchStatistics,
    ) -> Self {
        let patches = &correction.patches;
        let marked = [
            (PatchRole::White, Some(&patches.white)),
            (PatchRole::SecondWhite, patches.second_white.as_ref()),
            (PatchRole::Grey, patches.grey.as_ref()),
            (PatchRole::Pulp, Some(pulp)),
        ];
        let size = (patches.width, patches.height);
        let exact = |value| Estimate::exact(value, Basis::Computed);
        Self {
            photo: None,
            bath: None,
            pulp: PulpState::Wet,
            lightness: reading.lightness,
            a: reading.a,
            b: reading.b,
            yellowness: Some(reading.yellowness),
            // In percent, as the trade states reflectance.
            blue_index: Some(reading.blue.map(|share| share * 100.0)),
            reference: String::new(),
            patches: marked
                .into_iter()
                .filter_map(|(p, patch)| Some(stored(p, patch?, size)))
                .collect(),
            measures: reading
                .cie_whiteness
                .map(|whiteness| (CIE_WHITENESS, whiteness))
                .into_iter()
                .chain([
                    (CHROMA, reading.chroma),
                    (HUE, reading.hue),
                    (K_OVER_S, reading.blue_k_over_s),
                    (CONTRAST, exact(correction.tone.contrast)),
                    (SHOULDER, exact(correction.tone.shoulder)),
                ])
                .map(|(name, figure)| (name.to_owned(), figure))
                .collect(),
            remarks: Vec::new(),
            ageing: None,
            earlier: None,
        }
    }

    /// L*, a*, b*, D65/2°.
    pub fn lab(&self) -> Lab {
        Lab { l: self.lightness.value, a: self.a.value, b: self.b.value }
    }

    /// C*ab.
    pub fn chroma(&self) -> Option<Figure> {
        self.measure(CHROMA)
    }

    /// Hue angle in degrees.
    pub fn hue(&self) -> Option<Figure> {
        self.measure(HUE)
    }

    /// K/S of the blue index, by Kubelka and Munk.
    pub fn k_over_s(&self) -> Option<Figure> {
        self.measure(K_OVER_S)
    }

    /// CIE whiteness, where its formula is valid.
    pub fn cie_whiteness(&self) -> Option<Figure> {
        self.measure(CIE_WHITENESS)
    }

    /// Maps the photo's sRGB codes to those of the corrected photo; `None` if the record has
    /// no patch of the pulp.
    pub fn mapping(&self) -> Option<DisplayLut> {
        let pulp = self.patches.iter().find(|patch| patch.role == "pulp")?;
        let tone = match (self.measure(CONTRAST), self.measure(SHOULDER)) {
            (Some(contrast), Some(shoulder)) => {
                ToneCurve { contrast: contrast.value, shoulder: shoulder.value }
            }
            _ => ToneCurve::PLAIN,
        };
        DisplayLut::of_patch(&tone, pulp.rgb, self.lab().to_xyz().to_linear())
    }

    fn measure(&self, name: &str) -> Option<Figure> {
        self.measures.get(name).copied()
    }
}

impl ColourTarget {
    /// L*, a*, b*, D65/2°.
    pub fn lab(&self) -> Lab {
        Lab { l: self.lightness.value, a: self.a.value, b: self.b.value }
    }
}

impl From<PulpState> for Dryness {
    fn from(state: PulpState) -> Self {
        match state {
            PulpState::Wet => Self::Wet,
            PulpState::Pressed => Self::Pressed,
            PulpState::Dried => Self::Dried,
        }
    }
}

/// A patch in shares of the photo; its spread as median absolute deviation
/// (1.4826 of them are a standard deviation).
fn stored(place: PatchRole, patch: &PatchStatistics, (width, height): (u32, u32)) -> Patch {
    let [x, y] = patch.area.centre();
    let side = patch.area.width.min(patch.area.height);
    Patch {
        role: <&str>::from(place).into(),
        centre_x: x / f64::from(width),
        centre_y: y / f64::from(height),
        radius: f64::from(side) / 2.0 / f64::from(width),
        rgb: patch.median,
        spread: patch.spread.map(|deviation| deviation / 1.4826),
        clipped_share: (patch.clipped_high + patch.clipped_low).min(1.0),
    }
}
