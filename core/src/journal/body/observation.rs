//! Entries about what was measured or photographed: readings, photos, colours, targets.
//! How a colour is measured is in `crate::colour`; here are its recorded results.

use super::{Figure, PhotoId};
use crate::colour::{reference::Light, reversion::Ageing, target::PaperWhite};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use std::collections::BTreeMap;
use strum::IntoStaticStr;
use ulid::Ulid;

/// A reading of a strip, meter or thermometer.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// The bath it was taken in; `None` for rinse water, tap water or stored pulp.
    pub bath: Option<Ulid>,
    pub what: ReadingOf,
    /// In the unit of `what`; `None` if it was read in words only.
    pub figure: Option<Figure>,
    /// What the person saw, in their words.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub text: String,
}

/// The quantity of a [`Reading`], which gives its unit.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum ReadingOf {
    Ph,
    /// Strip for available (free or total) chlorine, mg/L.
    AvailableChlorineMgPerL,
    /// Strip for peroxide, mg/L.
    PeroxideMgPerL,
    /// Bath temperature, °C.
    Celsius,
    /// Starch–iodide paper: 0 no colour, 1 blue or brown.
    StarchIodide,
    /// Total hardness of the water, mg/L as CaCO3.
    HardnessMgPerL,
    /// pH of the tap water, against which a last rinse is judged.
    TapPh,
    /// Named in `text`.
    Other,
}

/// A photo of the pulp. Its bytes are stored apart, under its id.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Photo {
    pub photo: PhotoId,
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: String,
    /// Size as stored, before the orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    pub bytes: u64,
    /// EXIF orientation 1 to 8; the stored bytes keep it too.
    pub orientation: u8,
    pub pulp: PulpState,
    pub bath: Option<Ulid>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub caption: String,
}

/// How wet the pulp was when it was looked at: wet pulp looks darker.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    Hash,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum PulpState {
    #[default]
    Wet,
    Pressed,
    Dried,
}

/// A colour measured from a photo. CIELAB, D65, 2° observer.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourReading {
    pub photo: Option<PhotoId>,
    pub bath: Option<Ulid>,
    pub pulp: PulpState,
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
    pub yellowness: Option<Figure>,
    pub blue_index: Option<Figure>,
    /// The white reference: "copy paper", or the name of a card.
    pub reference: String,
    pub patches: Vec<Patch>,
    /// Further measures by name, with the unit in the name.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "BTreeMap::is_empty")]
    pub measures: BTreeMap<String, Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub remarks: Vec<String>,
    /// How the swatch was aged before this reading, if it was.
    pub ageing: Option<Ageing>,
    /// The entry with the earlier reading of the same swatch: wet before it dried, or
    /// fresh before it aged.
    pub earlier: Option<Ulid>,
    /// The light of the photo, as the person named it.
    pub light: Option<Light>,
    /// The entry that taught the camera of the photo, if its lesson was used.
    pub camera: Option<Ulid>,
}

/// The colour that a batch is bleached towards; the newest counts. CIELAB, D65, 2° observer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColourTarget {
    pub lightness: Figure,
    pub a: Figure,
    pub b: Figure,
    pub from: TargetFrom,
    /// The person's name for it; empty for a named step.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub name: String,
}

/// Source of a colour target.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum TargetFrom {
    /// A colour reading anywhere in the book, by its entry.
    Swatch(Ulid),
    /// A photo of a real paper, measured.
    Photo(PhotoId),
    /// One of the core's paper whites.
    Step(PaperWhite),
}

/// A patch marked on a photo. Coordinates are shares (0 to 1) of the photo's width and
/// height after its orientation is applied.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Patch {
    /// `white`, `grey`, `pulp`, or another place of the colour module.
    pub role: String,
    pub centre_x: f64,
    pub centre_y: f64,
    pub radius: f64,
    /// Median sRGB of the patch, 0 to 255.
    pub rgb: [f64; 3],
    /// Median absolute deviation of each channel, 0 to 255.
    pub spread: [f64; 3],
    pub clipped_share: f64,
}
