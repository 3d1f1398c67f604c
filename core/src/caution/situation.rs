//! The plain facts that the hazard rules look at.

use crate::{
    chemistry::{Oxidant, Residual},
    quantity::{Celsius, MassConcentration, Ph, Ratio},
};
use serde::{Deserialize, Serialize};

/// What a person is about to do; cautions are shown there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, strum::VariantArray)]
#[serde(rename_all = "snake_case")]
pub enum Act {
    ChoosingBleach,
    OpeningBottle,
    MakingLiquor,
    Heating,
    /// A bath is running, or its plan is on screen.
    Bath,
    BlendingHot,
    AddingAntichlor,
    AddingAcid,
    Draining,
    /// Storing pulp, liquor or bottles.
    Storing,
}

impl Act {
    pub const ALL: &[Act] = <Act as strum::VariantArray>::VARIANTS;
}

/// Material of a vessel, spoon or beater.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    Plastic,
    Glass,
    Enamel,
    Stainless,
    Aluminium,
    /// Copper, brass, iron, zinc, galvanised steel.
    OtherMetal,
}

/// What is known. `None` is unknown, and counts as the worse case wherever that
/// matters for people.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Situation {
    /// The bleach in use.
    pub oxidant: Option<Oxidant>,
    pub residual: Residual,
    /// Of the bath, liquor or pulp.
    pub temperature: Option<Celsius>,
    pub ph: Option<Ph>,
    /// Active in the liquor: available chlorine or H2O2.
    pub strength: Option<MassConcentration>,
    /// Available chlorine in the bottle.
    pub bottle_strength: Option<MassConcentration>,
    /// Chloride in the liquor, mol/L. Bleach has as much as it has chlorine.
    pub chloride_molar: Option<f64>,
    /// Active on oven-dry fibre.
    pub charge: Option<Ratio>,
    /// Whether the vessel is, or will be, closed.
    pub closed: Option<bool>,
    pub material: Option<Material>,
    /// A blender or a closed beater is used.
    pub blender: bool,
    /// The next addition is sulfite or thiosulfate.
    pub sulfite: bool,
}

impl Situation {
    /// Hypochlorite is, or may be, present.
    pub(super) fn may_hold_hypochlorite(&self) -> bool {
        self.holds_hypochlorite() || (self.residual == Residual::Unknown && self.oxidant.is_none())
    }

    pub(super) fn holds_hypochlorite(&self) -> bool {
        self.oxidant == Some(Oxidant::Hypochlorite) || self.residual == Residual::Hypochlorite
    }

    pub(super) fn holds_peroxide(&self) -> bool {
        self.oxidant.is_some_and(Oxidant::is_peroxide) || self.residual == Residual::Peroxide
    }

    pub(super) fn warmer_than(&self, limit: f64) -> bool {
        self.temperature.is_some_and(|t| t.get() > limit)
    }
}
