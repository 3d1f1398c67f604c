//! The plain facts that the hazard rules look at.

use crate::{
    chemistry::{Oxidant, Residual},
    quantity::{Celsius, Interval, MassConcentration, Ph, Ratio},
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
    /// A bath is started or running, or its plan is on screen.
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

/// The bleach in use.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum BleachInUse {
    /// May be any.
    #[default]
    Unknown,
    None,
    Known(Oxidant),
}

impl From<Oxidant> for BleachInUse {
    fn from(oxidant: Oxidant) -> Self {
        Self::Known(oxidant)
    }
}

impl BleachInUse {
    /// Every oxidant that it may be.
    pub(super) fn possible(self) -> impl Iterator<Item = Oxidant> {
        use Oxidant::{Hypochlorite, Percarbonate, Peroxide};
        [Hypochlorite, Percarbonate, Peroxide].into_iter().filter(move |one| match self {
            Self::Unknown => true,
            Self::None => false,
            Self::Known(oxidant) => oxidant == *one,
        })
    }

    pub(super) fn may_be(self, oxidant: Oxidant) -> bool {
        self.possible().any(|one| one == oxidant)
    }
}

/// What is known, each fact with its whole range. `None` is unknown, and counts as the worst
/// value that the fact may have.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Situation {
    pub oxidant: BleachInUse,
    /// What an earlier bath left in the pulp or liquor.
    pub residual: Residual,
    /// Of the bath, liquor or pulp.
    pub temperature: Option<Interval<Celsius>>,
    pub ph: Option<Interval<Ph>>,
    /// Active in the liquor: available chlorine or H2O2.
    pub strength: Option<Interval<MassConcentration>>,
    /// Available chlorine in the bottle.
    pub bottle_strength: Option<Interval<MassConcentration>>,
    /// Active on oven-dry fibre.
    pub charge: Option<Interval<Ratio>>,
    /// Planned length of the bath.
    pub minutes: Option<Interval<f64>>,
    /// Whether the vessel is, or will be, closed.
    pub closed: Option<bool>,
    pub material: Option<Material>,
    /// Rust on the pulp, on a tool or in the water.
    pub rust: Option<bool>,
    /// A blender or a closed beater is used.
    pub blender: bool,
    /// The next addition is sulfite or thiosulfate.
    pub sulfite: bool,
}

impl Situation {
    /// No bleach in use, and none left in the pulp.
    pub fn without_bleach() -> Self {
        Self { oxidant: BleachInUse::None, residual: Residual::None, ..Self::default() }
    }

    pub(super) fn may_use_hypochlorite(&self) -> bool {
        self.oxidant.may_be(Oxidant::Hypochlorite)
    }

    pub(super) fn may_use_percarbonate(&self) -> bool {
        self.oxidant.may_be(Oxidant::Percarbonate)
    }

    pub(super) fn may_use_peroxide(&self) -> bool {
        self.oxidant.possible().any(Oxidant::is_peroxide)
    }

    pub(super) fn may_hold_hypochlorite(&self) -> bool {
        self.may_use_hypochlorite() || self.hypochlorite_may_be_left()
    }

    pub(super) fn may_hold_peroxide(&self) -> bool {
        self.may_use_peroxide() || self.peroxide_may_be_left()
    }

    pub(super) fn may_hold_oxidant(&self) -> bool {
        self.may_hold_hypochlorite() || self.may_hold_peroxide()
    }

    /// One in use, the other left from an earlier bath.
    pub(super) fn may_hold_both(&self) -> bool {
        (self.may_use_hypochlorite() && self.peroxide_may_be_left())
            || (self.may_use_peroxide() && self.hypochlorite_may_be_left())
    }

    pub(super) fn hypochlorite_may_be_left(&self) -> bool {
        matches!(self.residual, Residual::Unknown | Residual::Hypochlorite)
    }

    fn peroxide_may_be_left(&self) -> bool {
        matches!(self.residual, Residual::Unknown | Residual::Peroxide)
    }
}
