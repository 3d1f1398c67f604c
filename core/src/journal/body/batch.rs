//! Entries about a batch as a whole: start, cook, weighing, sign-off, abandonment.
//! Baths, observations and the treatment after a bath have files of their own.

pub use crate::pulp::DryingMethod;

use super::Figure;
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use strum::IntoStaticStr;

/// A batch begins: fibre, and how it was cooked.
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BatchStarted {
    pub name: String,
    /// The fibre's name as typed.
    pub fibre: String,
    /// The key in the core's fibre table, if the fibre was chosen from it.
    pub fibre_key: Option<String>,
    pub cook: Option<Cook>,
    /// Oven-dry mass of the raw plant, from which the yield is computed.
    pub raw_dry_g: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A batch or shelf product gets another name.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Renamed {
    pub name: String,
}

/// Tags were put on a batch, or taken off. The newest entry for each tag counts.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Tagged {
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub add: Vec<String>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub remove: Vec<String>,
}

/// How the fibre was cooked. Every member is optional: pulp may come from
/// elsewhere.
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Cook {
    pub alkali: Option<Alkali>,
    /// Mass of the alkali as weighed.
    pub alkali_g: Option<Figure>,
    /// Alkali on oven-dry fibre, as a share (0.15 is 15 %).
    pub charge_share: Option<Figure>,
    pub liquor_l: Option<Figure>,
    pub celsius: Option<Figure>,
    pub hours: Option<Figure>,
    /// pH of the water pressed out after rinsing: the alkali carried over.
    pub ph_after_rinse: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The alkali of a cook.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Alkali {
    /// Anhydrous sodium carbonate.
    SodaAsh,
    /// Sodium carbonate decahydrate.
    WashingSoda,
    /// Sodium hydroxide.
    Lye,
    WoodAsh,
    Lime,
    /// Cooked in plain water, or not at all.
    None,
    /// Named in the cook's note.
    Other,
}

/// Wet pulp was weighed; its dryness was measured or assumed.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Weighed {
    pub wet_mass_g: Figure,
    /// Oven-dry mass over wet mass, as a share (0.2 is 20 %).
    pub dryness: Figure,
    pub how: DrynessFrom,
    /// The sample that was dried, if one was.
    pub sample: Option<DrySample>,
}

/// Source of a dryness.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum DrynessFrom {
    /// A sample of this pulp was weighed wet and dried.
    DriedSample,
    /// This studio's own figure for its usual squeeze.
    OwnFigure,
    /// Not measured.
    Assumed,
}

/// A small sample weighed wet, then dried and weighed again.
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DrySample {
    pub wet_g: Figure,
    pub dry_g: Figure,
    /// How it was dried; `None` if nobody said, and in entries of earlier versions.
    pub drying: Option<DryingMethod>,
}

/// The batch was signed off: clean, or with a reason for a missing test.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct SignedOff {
    /// Every end test that applies was made and passed.
    pub complete: bool,
    /// Why it was signed off although a test failed or is missing.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub reason: String,
}

/// The batch was abandoned: spilt, spoilt, thrown out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Abandoned {
    pub why: String,
}
