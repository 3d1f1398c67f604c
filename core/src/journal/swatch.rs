//! Colours in a batch's log: as measured over time, wet beside dried, fresh beside
//! aged.

use super::{Batch, Body, ColourReading, ColourTarget, Figure, Patch, PhotoId, PulpState};
use crate::colour::PatchRole;
use crate::colour::compare::DisplayLut;
use crate::colour::correction::Correction;
use crate::colour::difference::between_figures;
use crate::colour::measure::ColourMeasurement;
use crate::colour::patch::PatchStatistics;
use crate::colour::reversion::{Ageing, post_colour_number};
use crate::colour::shift::{DryingShift, Dryness};
use crate::colour::space::Lab;
use crate::colour::tone::ToneCurve;
use crate::quantity::{Basis, Known};
use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

/// Names of further measures in a [`ColourReading`]. K/S and chroma have no unit,
/// hue is in degrees; the tone is what [`ToneCurve`] says.
const CIE_WHITENESS: &str = "cie_whiteness";
const CHROMA: &str = "chroma";
const HUE: &str = "hue_degrees";
const K_OVER_S: &str = "blue_k_over_s";
const CONTRAST: &str = "tone_contrast";
const SHOULDER: &str = "tone_shoulder";

impl ColourReading {
    /// A measurement as the journal keeps it: figures, patches, and the tone curve, so
    /// that its photo can be shown under its correction again.
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
        let exact = |value| Known::exact(value, Basis::Computed);
        Self {
            photo: None,
            bath: None,
            pulp: PulpState::Wet,
            lightness: reading.lightness,
            a: reading.a,
            b: reading.b,
            yellowness: Some(reading.yellowness),
            // Of a hundred, as the trade counts reflectance.
            blue_index: Some(reading.blue.map(|share| share * 100.0)),
            reference: String::new(),
            patches: marked
                .into_iter()
                .filter_map(|(p, patch)| Some(kept(p, patch?, size)))
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
        self.measures.get(CHROMA).copied()
    }

    /// Hue angle in degrees.
    pub fn hue(&self) -> Option<Figure> {
        self.measures.get(HUE).copied()
    }

    /// K/S of the blue index, by Kubelka and Munk.
    pub fn k_over_s(&self) -> Option<Figure> {
        self.measures.get(K_OVER_S).copied()
    }

    /// CIE whiteness, where its formula holds.
    pub fn cie_whiteness(&self) -> Option<Figure> {
        self.measures.get(CIE_WHITENESS).copied()
    }

    /// What to do to the photo's codes to see it under its correction; `None` if the
    /// pulp's patch was not kept.
    pub fn mapping(&self) -> Option<DisplayLut> {
        let pulp = self.patches.iter().find(|patch| patch.role == "pulp")?;
        let measure = |name: &str| self.measures.get(name).map(|figure| figure.value);
        let tone = match (measure(CONTRAST), measure(SHOULDER)) {
            (Some(contrast), Some(shoulder)) => ToneCurve { contrast, shoulder },
            _ => ToneCurve::PLAIN,
        };
        DisplayLut::of_patch(&tone, pulp.rgb, self.lab().to_xyz().to_linear())
    }
}

/// A patch in shares of the photo; its spread as plain median deviation.
fn kept(place: PatchRole, patch: &PatchStatistics, (width, height): (u32, u32)) -> Patch {
    let [x, y] = patch.area.centre();
    let side = patch.area.width.min(patch.area.height);
    Patch {
        role: role(place).into(),
        centre_x: x / f64::from(width),
        centre_y: y / f64::from(height),
        radius: f64::from(side) / 2.0 / f64::from(width),
        rgb: patch.median,
        spread: patch.spread.map(|deviation| deviation / 1.4826),
        clipped_share: (patch.clipped_high + patch.clipped_low).min(1.0),
    }
}

/// A place as [`Patch::role`] has it.
fn role(place: PatchRole) -> &'static str {
    match place {
        PatchRole::White => "white",
        PatchRole::SecondWhite => "second_white",
        PatchRole::Grey => "grey",
        PatchRole::Pulp => "pulp",
    }
}

/// A colour reading in a batch's log.
#[derive(Clone, Debug, PartialEq)]
pub struct Swatch {
    /// Its entry.
    pub entry: Ulid,
    /// When its photo was taken; when it was read, if it names no photo that is here.
    pub at: Timestamp,
    /// Minutes in its bath, if it was taken in one.
    pub minutes: Option<f64>,
    pub reading: ColourReading,
}

impl Swatch {
    /// L*, a*, b* with their ranges.
    pub fn figures(&self) -> [Figure; 3] {
        [self.reading.lightness, self.reading.a, self.reading.b]
    }

    pub fn photo(&self) -> Option<&PhotoId> {
        self.reading.photo.as_ref()
    }
}

/// The colours read in a batch, oldest first.
pub fn swatches(batch: &Batch) -> Vec<Swatch> {
    let taken = |photo: &PhotoId| {
        batch.told().find(|told| told.body.photo() == Some(photo)).map(|told| told.at)
    };
    let swatch = |told: &super::Told| {
        let Body::ColourReading(reading) = &told.body else { return None };
        let bath = reading.bath.and_then(|id| batch.baths.iter().find(|bath| bath.id == id));
        let at = reading.photo.as_ref().and_then(taken).unwrap_or(told.at);
        Some(Swatch {
            entry: told.entry.id,
            at,
            minutes: bath.map(|bath| at.duration_since(bath.started).as_secs_f64() / 60.0),
            reading: (**reading).clone(),
        })
    };
    let mut all: Vec<Swatch> = batch.told().filter_map(swatch).collect();
    all.sort_by_key(|swatch| swatch.at);
    all
}

/// The colour that the batch is bleached towards, if one was chosen.
pub fn target(batch: &Batch) -> Option<ColourTarget> {
    batch.told().rev().find_map(|told| match &told.body {
        Body::ColourTarget(target) => Some((**target).clone()),
        _ => None,
    })
}

impl ColourTarget {
    /// L*, a*, b*, D65/2°.
    pub fn lab(&self) -> Lab {
        Lab { l: self.lightness.value, a: self.a.value, b: self.b.value }
    }
}

/// The batch's own shift from wet to dried, learnt from dried readings that name the
/// wet or pressed one of the same swatch. `None` if there is no such pair.
pub fn shift(swatches: &[Swatch]) -> Option<DryingShift> {
    let linear = |swatch: &Swatch| swatch.reading.lab().to_xyz().to_linear();
    let pairs: Vec<_> = swatches
        .iter()
        .filter(|swatch| swatch.reading.pulp == PulpState::Dried)
        .filter_map(|dried| {
            let wet = earlier(swatches, dried)?;
            (wet.reading.pulp != PulpState::Dried).then(|| (linear(wet), linear(dried)))
        })
        .collect();
    DryingShift::learn(&pairs)
}

/// The reading that this one names as the same swatch's earlier one.
fn earlier<'a>(swatches: &'a [Swatch], of: &Swatch) -> Option<&'a Swatch> {
    let id = of.reading.earlier?;
    swatches.iter().find(|swatch| swatch.entry == id)
}

/// A swatch measured again after ageing.
#[derive(Clone, Debug, PartialEq)]
pub struct Aged {
    pub fresh: Swatch,
    pub now: Swatch,
    pub ageing: Ageing,
    /// Days from the fresh reading to this one.
    pub days: f64,
    /// See [`post_colour_number`].
    pub post_colour: Option<f64>,
    /// CIEDE2000 since it was fresh.
    pub since_made: Known<f64>,
}

/// The swatches that were measured again after ageing, oldest first.
pub fn aged(swatches: &[Swatch]) -> Vec<Aged> {
    let blue = |swatch: &Swatch| swatch.reading.blue_index.map(|blue| blue.value / 100.0);
    swatches
        .iter()
        .filter_map(|now| {
            let fresh = earlier(swatches, now)?;
            Some(Aged {
                ageing: now.reading.ageing?,
                days: now.at.duration_since(fresh.at).as_hours() as f64 / 24.0,
                post_colour: blue(fresh).zip(blue(now)).and_then(|(b, a)| post_colour_number(b, a)),
                since_made: between_figures(now.figures(), fresh.figures()),
                fresh: fresh.clone(),
                now: now.clone(),
            })
        })
        .collect()
}

/// Days after its first dried reading at which a swatch is worth measuring again: a
/// week, a month, three, a year. Common practice, no source.
pub const LOOKS_DAYS: [i64; 4] = [7, 30, 90, 365];

/// When the batch's sheet should be measured again: the first of [`LOOKS_DAYS`] after
/// the first dried reading that no later dried reading has answered. `None` where
/// nothing was dried yet, or all was answered.
pub fn next_look(swatches: &[Swatch]) -> Option<Timestamp> {
    let mut dried = swatches.iter().filter(|swatch| swatch.reading.pulp == PulpState::Dried);
    let fresh = dried.next()?.at;
    let last = dried.next_back().map_or(fresh, |swatch| swatch.at);
    LOOKS_DAYS
        .iter()
        .map(|days| fresh + SignedDuration::from_hours(24 * days))
        // A day early is on time.
        .find(|due| *due - SignedDuration::from_hours(24) > last)
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

#[cfg(test)]
mod tests;
