//! Removal of the last oxidant: antichlor doses for chlorine, and removal of peroxide.
//! Washing is in [`pulp`](crate::pulp), end tests in its sign-off.
//!
//! The products of the reaction vary: thiosulfate alone needs from 0.875 to 7.0 g of the
//! pentahydrate per gram of chlorine. So every dose has a range, and a strip decides.
//! Some give acid: the pH is worked out along the dose, and a dose on the way to which
//! chlorine gas forms is refused.

mod course;
mod dose;
mod error;
mod peroxide;
mod reaction;
mod reagent;
mod refusal;
mod residual;

pub use course::{CoursePoint, PhCourse, PhShift, UNMEASURED_PH};
pub use dose::{
    AntichlorDose, AntichlorRequest, VesselClosure, antichlor_dose, thiosulfate_overdosed,
};
pub use error::{AntichlorError, LIQUOR_PH, PURITY, REAGENT, RESIDUAL, SODA_ADDED, VESSEL, VOLUME};
pub use peroxide::{PeroxidePlan, PeroxideRemoval, peroxide_removal};
pub use reagent::{AntichlorReagent, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, THIOSULFATE_TOP};
pub use refusal::{AntichlorRemedy, GasRefusal};
pub use residual::{ResidualEvidence, STRIP_OFF};
