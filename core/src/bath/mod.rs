//! The bath: strength of a bleach, dilution, charge, the plan, heat; in [`kinetics`], what
//! happens in it.
//!
//! Hazard rules are in `caution`, records in `journal`, pH equilibria in
//! `chemistry`; none but the last is used here.

mod charge;
mod dilution;
mod error;
mod heat;
pub mod kinetics;
mod measure_out;
mod peroxide_bottle;
mod plan;
mod preset;
mod strength;
mod warm_water;

pub use crate::chemistry::Oxidant;
pub use charge::*;
pub use dilution::*;
pub use error::BathError;
pub use heat::*;
pub use measure_out::*;
pub use peroxide_bottle::*;
pub use plan::*;
pub use preset::*;
pub use strength::*;
pub use warm_water::*;
