//! Entries about the treatment after a bath: rinses, antichlor, acid, reserve, end tests.

use super::{Amount, Figure};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use strum::IntoStaticStr;
use ulid::Ulid;

/// One rinse.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Rinsed {
    pub water_l: Figure,
    /// Soaking time.
    pub minutes: Option<Figure>,
    /// Oven-dry mass over wet mass after squeezing, as a share.
    pub dryness_after: Option<Figure>,
    /// pH of the water pressed out.
    pub ph: Option<Figure>,
    /// Chlorine or peroxide strip in the water pressed out, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    /// Which of the two that strip was; earlier versions did not note it.
    pub strip_of: Option<StripOf>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// What a strip of a rinse shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StripOf {
    AvailableChlorine,
    Peroxide,
}

/// The remaining oxidant was reduced with an antichlor.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Antichlored {
    pub reagent: Antichlor,
    pub product: Option<Ulid>,
    pub grams: Figure,
    pub minutes: Option<Figure>,
    /// Strip afterwards, mg/L.
    pub strip_mg_per_l: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A reagent that reduces the remaining oxidant.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Antichlor {
    ThiosulfatePentahydrate,
    ThiosulfateAnhydrous,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    AscorbicAcid,
    Peroxide,
    Other,
}

/// The pulp was neutralised with an acid.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AcidFinished {
    pub acid: Acid,
    pub product: Option<Ulid>,
    pub amount: Amount,
    pub ph_before: Option<Figure>,
    pub ph_after: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// An acid for neutralising.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Acid {
    Citric,
    Acetic,
    Other,
}

/// An alkaline reserve was added to the pulp.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReserveAdded {
    /// Calcium carbonate added.
    pub calcium_carbonate_g: Figure,
    /// Estimated share of it that stays in the sheet.
    pub retention_share: Option<Figure>,
}

/// A test that the pulp is clean.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EndTest {
    pub test: EndTestOf,
    pub outcome: Outcome,
    /// In the test's own unit: pH, or mg/L.
    pub figure: Option<Figure>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Which end test.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum EndTestOf {
    ChlorineStrip,
    PeroxideStrip,
    StarchIodide,
    /// pH of the last rinse against the tap water's.
    LastRinsePh,
    /// No slipperiness between the fingers.
    Feel,
    Smell,
}

/// Result of an end test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(serialize_all = "snake_case")]
pub enum Outcome {
    Passed,
    Failed,
    Unclear,
}
