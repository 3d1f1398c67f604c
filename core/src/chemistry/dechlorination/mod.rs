//! Removal of the last oxidant: antichlor doses for chlorine, and removal of peroxide.
//! Washing is in [`pulp`](crate::pulp), end tests in its sign-off.
//!
//! The products of the reaction vary: thiosulfate alone needs from 0.875 to 7.0 g of the
//! pentahydrate per gram of chlorine. So every dose has a range, and a strip decides.

mod dose;
mod error;
mod peroxide;
mod reagent;
mod residual;

pub use dose::{AntichlorDose, VesselClosure, antichlor_dose, thiosulfate_overdosed};
pub use error::{AntichlorError, PURITY, REAGENT, RESIDUAL, VESSEL, VOLUME};
pub use peroxide::{PeroxidePlan, PeroxideRemoval, peroxide_removal};
pub use reagent::{AntichlorReagent, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, PhShift, THIOSULFATE_TOP};
pub use residual::ResidualEvidence;
