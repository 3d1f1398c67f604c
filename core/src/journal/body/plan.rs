//! A plan as it was made, kept so that later one can see what was meant.

use super::{Active, Amount, Figure, Oxidant, ProductUsed, Schedule};
use crate::{choice, record};
use std::collections::BTreeMap;

/// A bath plan with its inputs and its results, each with range and basis.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanRecord {
    pub oxidant: Oxidant,
    pub product: ProductUsed,
    pub aim: Aim,

    // The pulp it was made for.
    pub wet_mass_g: Figure,
    /// Oven-dry over wet, as a share.
    pub dryness: Figure,
    pub dry_fibre_g: Figure,

    // How the bath is to be run.
    pub celsius: f64,
    pub minutes: f64,
    pub schedule: Schedule,

    // What comes of it.
    pub product_amount: Amount,
    pub water_to_add_ml: Figure,
    /// All the water of the bath, the pulp's own included.
    pub liquor_ml: Figure,
    /// Oven-dry fibre over the mass of the whole slurry, as a share.
    pub consistency: Figure,
    /// Active on oven-dry fibre, as a share; counted as `counted_as`.
    pub charge: Figure,
    /// Active in the liquor, g/L; counted as `counted_as`.
    pub liquor_strength_g_per_l: Figure,
    pub counted_as: Active,
    /// pH foreseen.
    pub ph: Option<Figure>,
    /// One for each pot or blender load; empty when it all goes in one.
    pub loads: Vec<Load>,
    /// Which input dominates a result's range: result's name to input's name,
    /// both as field keys.
    pub dominant: BTreeMap<String, String>,
    /// Keys of the cautions that were shown with it.
    pub cautions: Vec<String>,
    pub note: String,
}

record!(PlanRecord {
    oxidant,
    product,
    aim,
    wet_mass_g,
    dryness,
    dry_fibre_g,
    celsius,
    minutes,
    schedule,
    product_amount,
    water_to_add_ml,
    liquor_ml,
    consistency,
    charge,
    liquor_strength_g_per_l,
    counted_as,
    ph,
    loads: blank,
    dominant: blank,
    cautions: blank,
    note: blank,
});

/// What a plan was made to reach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aim {
    /// So much active in the liquor, g/L.
    LiquorStrength { g_per_l: f64, counted_as: Active },
    /// So much active on oven-dry fibre, as a share.
    Charge { share: f64, counted_as: Active },
}

choice!(Aim {
    LiquorStrength { g_per_l, counted_as } = "liquor_strength",
    Charge { share, counted_as } = "charge",
});

/// One pot or blender load of a plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    pub wet_pulp_g: f64,
    pub product_amount: Amount,
    pub water_to_add_ml: f64,
}

record!(Load { wet_pulp_g, product_amount, water_to_add_ml });
