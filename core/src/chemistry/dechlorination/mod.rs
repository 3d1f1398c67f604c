//! Taking the last oxidant out: antichlor for chlorine, and the ways that
//! peroxide goes.
//!
//! Stoichiometry is exact and the bucket is not: thiosulfate alone uses from
//! 0.875 to 7.0 g of the pentahydrate for a gram of chlorine, depending on what
//! it turns into. So every dose carries a range, and none is the end of the
//! matter: a strip is.

mod dose;
mod peroxide;
mod reagent;
mod refusal;

pub use dose::{AntichlorDose, Found, Vessel, antichlor_dose, thiosulfate_overdosed};
pub use peroxide::{PeroxidePlan, PeroxideRemoval, peroxide_removal};
pub use reagent::{Antichlor, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, PhShift, THIOSULFATE_TOP};
pub use refusal::{AntichlorRefusal, PURITY, REAGENT, RESIDUAL, VESSEL, VOLUME};
