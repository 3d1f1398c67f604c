//! Pulp put by: lots, what is drawn from them, and sheets.

use super::Figure;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use ulid::Ulid;

/// Pulp was put by, and became a lot. Written about the batch it came from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stored {
    /// The new lot's own id.
    pub lot: Ulid,
    pub wet_mass_g: Figure,
    /// Oven-dry over wet, as a share.
    pub dryness: Figure,
    pub form: StoredForm,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    pub keep_by: Option<Date>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// How pulp is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StoredForm {
    WetCold,
    Frozen,
    Dried,
}

/// Some of a lot was taken out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotDrawn {
    /// Oven-dry mass taken.
    pub dry_g: Figure,
    /// What for, in the person's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub purpose: String,
}

/// A new lot was made of parts of others: a blend of several, or a split of
/// one. Written about the new lot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotBlended {
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub parts: Vec<LotPart>,
    pub form: StoredForm,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub place: String,
    pub keep_by: Option<Date>,
}

/// What one lot gave to another.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LotPart {
    pub lot: Ulid,
    /// Oven-dry mass given.
    pub dry_g: Figure,
}

/// Sheets were made, from a lot or straight from a batch.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Sheets {
    pub count: u32,
    /// "A4", or the mould's own name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub format: String,
    pub width_mm: Option<f64>,
    pub height_mm: Option<f64>,
    pub grammage_g_per_m2: Option<Figure>,
    /// Oven-dry pulp that went into them.
    pub dry_g: Option<Figure>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
