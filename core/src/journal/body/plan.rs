//! The record of a bath plan: its inputs and results as they were when it was made.
//! The planning itself is in `crate::bath`.

use super::{Active, Amount, Figure, Oxidant, ProductUsed, Schedule};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};
use std::collections::BTreeMap;

/// A bath plan with its inputs and its results, each with range and basis.
#[skip_serializing_none]
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PlanRecord {
    pub oxidant: Oxidant,
    pub product: ProductUsed,
    pub aim: Aim,

    // The pulp.
    pub wet_mass_g: Figure,
    /// Oven-dry mass over wet mass, as a share.
    pub dryness: Figure,
    pub dry_fibre_g: Figure,

    // Conditions of the bath.
    pub celsius: f64,
    pub minutes: f64,
    pub schedule: Schedule,

    // Results.
    pub product_amount: Amount,
    /// Soda ash to weigh for a peroxide bath.
    pub soda_ash_g: Option<Figure>,
    pub water_to_add_ml: Figure,
    /// All water in the bath, including the water in the pulp.
    pub liquor_ml: Figure,
    /// Oven-dry fibre over the mass of the whole slurry, as a share.
    pub consistency: Figure,
    /// Active substance on oven-dry fibre, as a share; expressed as `counted_as`.
    pub charge: Figure,
    /// Active substance in the liquor, g/L; expressed as `counted_as`.
    pub liquor_strength_g_per_l: Figure,
    pub counted_as: Active,
    /// Predicted pH.
    pub ph: Option<Figure>,
    /// One for each pot or blender load; empty if one load holds everything.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub loads: Vec<Load>,
    /// The input that dominates the range of a result: field key of the
    /// result to field key of the input.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "BTreeMap::is_empty")]
    pub dominant: BTreeMap<String, String>,
    /// Keys of the cautions that were shown with the plan.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub cautions: Vec<String>,
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// The aim of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Aim {
    /// Active substance in the liquor, g/L.
    LiquorStrength { g_per_l: f64, counted_as: Active },
    /// Active substance on oven-dry fibre, as a share.
    Charge { share: f64, counted_as: Active },
}

/// One pot or blender load of a plan.
#[skip_serializing_none]
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Load {
    pub wet_pulp_g: f64,
    pub product_amount: Amount,
    pub soda_ash_g: Option<f64>,
    pub water_to_add_ml: f64,
}
