//! The bath: strength, dilution, charge, plan, heat.

mod charge;
mod dilution;
mod heat;
mod plan;
mod strength;

use serde::{Deserialize, Serialize};

pub use charge::*;
pub use dilution::*;
pub use heat::*;
pub use plan::*;
pub use strength::*;

/// What does the bleaching.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Oxidant {
    /// Sodium hypochlorite: household chlorine bleach.
    Hypochlorite,
    /// Sodium percarbonate powder: hydrogen peroxide and soda ash.
    Percarbonate,
    /// Hydrogen peroxide from a bottle.
    Peroxide,
}

impl Oxidant {
    /// Whether the oxygen is a peroxide's.
    pub fn is_peroxide(self) -> bool {
        self != Oxidant::Hypochlorite
    }

    /// Whether the two may be in one vessel.
    pub fn may_meet(self, other: Oxidant) -> bool {
        self.is_peroxide() == other.is_peroxide()
    }
}
