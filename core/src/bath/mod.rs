//! The bath: strength, dilution, charge, plan, heat.

mod charge;
mod dilution;
mod heat;
mod plan;
mod strength;

pub use charge::*;
pub use dilution::*;
pub use heat::*;
pub use plan::*;
pub use strength::*;

pub use crate::chemistry::Oxidant;
