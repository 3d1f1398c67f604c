//! The request for a plan: what a person wants of a bath. No calculation.

use super::carry_over::ExpressedWater;
use crate::{
    bath::{
        heat::Cooling,
        peroxide_bottle::PeroxideBottle,
        strength::{Bottle, Powder},
    },
    chemistry::{Oxidant, Residual, compatibility::Ingredient},
    message::{Field, Value},
    pulp::WetPulp,
    quantity::{Celsius, Mass, MassConcentration, Ratio, Volume},
};

/// What a person wants of a bath.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanRequest {
    pub pulp: WetPulp,
    pub bleach: Bleach,
    pub aim: BathAim,
    pub size: BathSize,
    /// Temperature that the bath is kept at.
    pub temperature: Celsius,
    /// Oxidant of an earlier bath that may still be in the pulp.
    pub residual: Residual,
    /// Alkali of the cook that is still in the pulp; assumed if `None`.
    pub expressed_water: Option<ExpressedWater>,
    /// What else is in the bath or touches it.
    pub other_ingredients: Vec<Ingredient>,
    /// The bleach that is in stock, if the plan must keep to it.
    pub on_hand: Option<BleachAmount>,
    /// Vessel that the bath is divided into.
    pub vessel: Option<BathVessel>,
    /// Planned length in minutes; 60 if `None`.
    pub minutes: Option<f64>,
    /// Heat loss of the vessel, for reheating cues.
    pub cooling: Option<Cooling>,
}

impl PlanRequest {
    /// A request without optional facts; `residual` is unknown.
    pub fn new(
        pulp: WetPulp,
        bleach: Bleach,
        aim: BathAim,
        size: BathSize,
        temperature: Celsius,
    ) -> Self {
        Self {
            pulp,
            bleach,
            aim,
            size,
            temperature,
            residual: Residual::Unknown,
            expressed_water: None,
            other_ingredients: Vec::new(),
            on_hand: None,
            vessel: None,
            minutes: None,
            cooling: None,
        }
    }
}

/// The bleach of a bath: one bottle or one powder. Peroxide goes with the soda ash of
/// [`soda_ash_per_peroxide`](crate::bath::soda_ash_per_peroxide).
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bleach {
    Hypochlorite(Bottle),
    Percarbonate(Powder),
    Peroxide(PeroxideBottle),
}

impl Bleach {
    pub fn oxidant(&self) -> Oxidant {
        match self {
            Bleach::Hypochlorite(_) => Oxidant::Hypochlorite,
            Bleach::Percarbonate(_) => Oxidant::Percarbonate,
            Bleach::Peroxide(_) => Oxidant::Peroxide,
        }
    }

    /// The bleach in the table of incompatible substances.
    pub fn ingredient(&self) -> Ingredient {
        match self {
            Bleach::Hypochlorite(_) => Ingredient::Hypochlorite,
            Bleach::Percarbonate(_) => Ingredient::Percarbonate,
            Bleach::Peroxide(_) => Ingredient::Peroxide,
        }
    }
}

/// Target for the active chemical: available chlorine or H2O2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BathAim {
    /// Active per volume of all the liquor, including the pulp's own water.
    Strength(MassConcentration),
    /// Active per oven-dry fibre.
    Charge(Ratio),
}

/// Target for the size of the bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BathSize {
    /// Oven-dry fibre per total mass.
    Consistency(Ratio),
    /// Volume of pulp and liquor together.
    TotalVolume(Volume),
}

/// An amount of bleach: a volume of bottle or a mass of powder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BleachAmount {
    Bottle(Volume),
    Powder(Mass),
}

impl BleachAmount {
    /// As a message value.
    pub fn value(&self) -> Value {
        match self {
            BleachAmount::Bottle(volume) => Value::Volume(*volume),
            BleachAmount::Powder(mass) => Value::Mass(*mass),
        }
    }
}

/// A vessel that a bath, or one load of it, is made up in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathVessel {
    /// Volume to the brim.
    pub capacity: Volume,
    pub kind: VesselKind,
}

/// The kind of vessel, which limits how full it is worked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VesselKind {
    /// Stirred by hand: four fifths full (common practice, no source).
    Pot,
    /// Blended: at most half full (common practice, no source).
    Blender,
}

impl BathVessel {
    /// Largest volume of one load.
    pub fn working(&self) -> Volume {
        self.capacity
            * match self.kind {
                VesselKind::Pot => 0.8,
                VesselKind::Blender => 0.5,
            }
    }
}

pub const AIM_STRENGTH: Field = Field("aim_strength");
pub const AIM_CHARGE: Field = Field("aim_charge");
pub const AIM_CONSISTENCY: Field = Field("aim_consistency");
pub const AIM_VOLUME: Field = Field("aim_volume");
pub const CAPACITY: Field = Field("capacity");
pub const MINUTES: Field = Field("minutes");
pub const ON_HAND: Field = Field("on_hand");
