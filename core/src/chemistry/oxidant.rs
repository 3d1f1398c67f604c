//! The oxidants that bleach, and what of them may be left in pulp or liquor.

use crate::quantity::{Basis, Estimate};
use serde::{Deserialize, Serialize};

/// The oxidant of a bath.
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
    /// Whether the active oxygen is that of a peroxide.
    pub fn is_peroxide(self) -> bool {
        self != Oxidant::Hypochlorite
    }

    /// Whether both may be in one vessel.
    pub fn may_meet(self, other: Oxidant) -> bool {
        self.is_peroxide() == other.is_peroxide()
    }

    /// Locale key of its name inside a sentence.
    pub fn word(self) -> &'static str {
        match self {
            Oxidant::Hypochlorite => "bleach_named-hypochlorite",
            Oxidant::Percarbonate => "bleach_named-percarbonate",
            Oxidant::Peroxide => "bleach_named-peroxide",
        }
    }
}

/// Error of a chlorine or peroxide strip, as a part of its reading: about one step, and the
/// steps double (own estimate, no source).
pub const STRIP_OFF: f64 = 0.5;

/// A strip's reading of the oxidant, ±[`STRIP_OFF`] of itself, in its own unit.
pub fn oxidant_strip<Q>(read: Q) -> Estimate<Q>
where
    Q: Copy + std::ops::Mul<f64, Output = Q>,
{
    Estimate::within(read, STRIP_OFF, Basis::Strip)
}

/// Oxidant that may still be in the pulp or the liquor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Residual {
    /// Not tested.
    #[default]
    Unknown,
    /// Tested and gone, or the pulp never met any.
    None,
    Hypochlorite,
    Peroxide,
}
