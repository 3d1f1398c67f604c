//! The record of a colour measurement, and its figures read back for display and comparison.
//! Not here: how a colour is measured, which is `colour`.

use crate::colour::PatchRole;
use crate::colour::camera::CameraErrors;
use crate::colour::compare::DisplayLut;
use crate::colour::correction::Correction;
use crate::colour::difference::{ColourDifference, in_one_series, unrelated};
use crate::colour::measure::ColourMeasurement;
use crate::colour::patch::PatchStatistics;
use crate::colour::shift::Dryness;
use crate::colour::space::Lab;
use crate::colour::tone::ToneCurve;
use crate::journal::{ColourReading, ColourTarget, Figure, Patch, PulpState};
use crate::quantity::{Basis, Estimate};
use ulid::Ulid;

/// Names of further measures in a [`ColourReading`]. K/S and chroma have no unit,
/// hue is in degrees; the tone curve is that of [`ToneCurve`]. `own_half_…` are half ranges
/// that this colour does not share with others of the same camera, light and kind of white;
/// `untaught_…` the figures without what the camera was taught.
const CIE_WHITENESS: &str = "cie_whiteness";
const CHROMA: &str = "chroma";
const HUE: &str = "hue_degrees";
const K_OVER_S: &str = "blue_k_over_s";
const OWN: [&str; 3] = ["own_half_lightness", "own_half_a", "own_half_b"];
const UNTAUGHT: [&str; 3] = ["untaught_lightness", "untaught_a", "untaught_b"];
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
                .chain(OWN.into_iter().zip(reading.own.map(exact)))
                .map(|(name, figure)| (name.to_owned(), figure))
                .collect(),
            remarks: Vec::new(),
            ageing: None,
            earlier: None,
            light: Some(correction.references.light),
            camera: None,
        }
    }

    /// The same by a taught camera, the entry of its lesson, with the figures of this one,
    /// which knew nothing of the camera.
    #[must_use]
    pub fn taught(self, mut by: Self, lesson: Ulid) -> Self {
        by.camera = Some(lesson);
        let untaught = [self.lightness, self.a, self.b];
        by.measures.extend(UNTAUGHT.map(str::to_owned).into_iter().zip(untaught));
        by
    }

    /// L*, a*, b* without what the camera was taught, if this is by a taught camera.
    pub fn untaught(&self) -> Option<[Figure; 3]> {
        let [l, a, b] = UNTAUGHT.map(|name| self.measure(name));
        Some([l?, a?, b?])
    }

    /// The difference of a later reading from this one. Smaller ± than between unrelated
    /// colours if both are by one camera in one kind of light: its errors cancel in part.
    pub fn difference_to(&self, other: &Self) -> ColourDifference {
        let own = |of: &Self| {
            let [l, a, b] = OWN.map(|name| of.measure(name).map(|half| half.value));
            Some([l?, a?, b?])
        };
        let light = self.light.filter(|light| other.light == Some(*light));
        let grey = |of: &Self| of.patches.iter().any(|patch| patch.role == "grey");
        let alike = grey(self) == grey(other)
            && self.camera == other.camera
            && self.reference == other.reference;
        match (light.filter(|_| alike), own(self).zip(own(other))) {
            (Some(light), Some((one, two))) => {
                let labs = [self.lab(), other.lab()];
                // What a lesson leaves over is each colour's own already.
                let errors = match self.camera {
                    Some(_) => &CameraErrors::NONE,
                    None => CameraErrors::unknown(light, grey(self)),
                };
                in_one_series(labs, [one, two], errors)
            }
            _ => unrelated([self.lightness, self.a, self.b], [other.lightness, other.a, other.b]),
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
