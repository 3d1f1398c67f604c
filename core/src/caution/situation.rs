//! What the hazard rules look at.

use crate::{
    bath::Oxidant,
    quantity::{Celsius, MassConcentration, Ph, Ratio},
};
use serde::{Deserialize, Serialize};

/// What a person is about to do; cautions show there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Act {
    ChoosingBleach,
    OpeningBottle,
    MakingLiquor,
    Heating,
    /// A bath is running, or a plan for one is on the screen.
    Bath,
    BlendingHot,
    AddingAntichlor,
    AddingAcid,
    Draining,
    /// Putting away pulp, liquor or bottles.
    Storing,
}

impl Act {
    pub const ALL: [Act; 10] = [
        Act::ChoosingBleach,
        Act::OpeningBottle,
        Act::MakingLiquor,
        Act::Heating,
        Act::Bath,
        Act::BlendingHot,
        Act::AddingAntichlor,
        Act::AddingAcid,
        Act::Draining,
        Act::Storing,
    ];
}

/// Bleach that may still be in the pulp or the liquor.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Residual {
    /// Nobody tested.
    #[default]
    Unknown,
    /// Tested and gone, or the pulp never met any.
    None,
    Hypochlorite,
    Peroxide,
}

/// What a vessel, spoon or beater is made of.
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

/// What is known. `None` is not known, and counts as the worse case where that
/// matters for people.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Situation {
    /// The bleach in hand.
    pub oxidant: Option<Oxidant>,
    pub residual: Residual,
    /// Of the bath, liquor or pulp.
    pub temperature: Option<Celsius>,
    pub ph: Option<Ph>,
    /// Active in the liquor: available chlorine or H2O2.
    pub strength: Option<MassConcentration>,
    /// Available chlorine in the bottle.
    pub bottle_strength: Option<MassConcentration>,
    /// Chloride in the liquor, mol/L. Bleach brings as much as it has chlorine.
    pub chloride_molar: Option<f64>,
    /// Active on oven-dry fibre.
    pub charge: Option<Ratio>,
    /// The vessel is, or will be, closed.
    pub closed: Option<bool>,
    pub material: Option<Material>,
    /// A blender or a closed beater is used.
    pub blender: bool,
    /// The studio's next addition is sulfite or thiosulfate.
    pub sulfite: bool,
}

impl Situation {
    /// Hypochlorite is here, or may be.
    pub(super) fn may_hold_hypochlorite(&self) -> bool {
        self.oxidant == Some(Oxidant::Hypochlorite)
            || matches!(self.residual, Residual::Hypochlorite)
            || (self.residual == Residual::Unknown && self.oxidant.is_none())
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
