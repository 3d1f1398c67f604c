//! Entries about stored pulp: storing a lot, drawing from it, blending lots, making sheets.

pub use crate::pulp::storage::StoredForm;

use super::Figure;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use ulid::Ulid;

/// Pulp was stored as a new lot. Written about the batch that it came from.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stored {
    /// Id of the new lot.
    pub lot: Ulid,
    pub wet_mass_g: Figure,
    /// Oven-dry mass over wet mass, as a share.
    pub dryness: Figure,
    pub form: StoredForm,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub place: String,
    pub keep_by: Option<Date>,
    /// Why it was stored although it was not proven clean, in the person's words.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub untested_why: String,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Pulp was taken from a lot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotDrawn {
    /// Oven-dry mass taken.
    pub dry_g: Figure,
    /// The purpose, in the person's words.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub purpose: String,
}

/// A new lot was made of parts of others: a blend of several, or a split of
/// one. Written about the new lot.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotBlended {
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub parts: Vec<LotPart>,
    pub form: StoredForm,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub place: String,
    pub keep_by: Option<Date>,
}

/// The contribution of one lot to another.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotPart {
    pub lot: Ulid,
    /// Oven-dry mass taken from it.
    pub dry_g: Figure,
}

/// Sheets were made, from a lot or straight from a batch.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheets {
    pub count: u32,
    /// "A4", or the name of the mould.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub format: String,
    pub width_mm: Option<f64>,
    pub height_mm: Option<f64>,
    pub grammage_g_per_m2: Option<Figure>,
    /// Oven-dry mass of the pulp used.
    pub dry_g: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}
