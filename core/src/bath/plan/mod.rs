//! The plan of one bath: what to measure out, and what comes of it.

mod facts;
mod load;
mod ph;
mod refusal;
mod schedule;
mod sums;
mod way;

pub use load::{CAPACITY, Load, Loads, Vessel, VesselKind};
pub use ph::{
    BOTTLE_LYE, CARRIED_ALKALI, CARRY_OVER_PH, CookedIn, ExpressedWater, POWDER_FILLER, PhHelp,
    PredictedPh,
};
pub use refusal::{Reason, Refused};
pub use schedule::{Cue, CueKind, Guide, RecommendedRange, Schedule, guide};
pub use way::Remedy;

use super::{Bottle, Cooling, Oxidant, Powder};
use crate::{
    caution::{Caution, Residual, Situation},
    chemistry::{Refusal, compatibility::Ingredient, percarbonate},
    message::{Field, Message},
    pulp::{ConsistencyReadings, WetPulp},
    quantity::{
        Celsius, ComputedEstimate, Mass, MassConcentration, Ph, Ratio, Volume, grams_per_litre,
    },
};
use facts::Facts;

/// Works a bath out.
///
/// # Errors
/// [`Refused`]: the reason, and the nearest plans that would work, each checked
/// to work before it is offered.
pub fn plan(request: &PlanRequest) -> Result<Plan, Refused> {
    let facts = Facts::of(request)?;
    if let Some(reason) = facts.obstacle(request) {
        return Err(Refused { ways: way::ways(request, &reason), reason });
    }
    facts.plan(request).ok_or_else(|| Refused { reason: Reason::NotFinite, ways: Vec::new() })
}

/// What a person wants of a bath.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanRequest {
    pub pulp: WetPulp,
    pub bleach: Bleach,
    pub aim: Aim,
    pub size: Size,
    /// What the bath is to be kept at.
    pub temperature: Celsius,
    /// What may still be in the pulp from an earlier bath.
    pub carried: Residual,
    /// The cook's alkali that it still holds; assumed where nobody says.
    pub squeezed: Option<ExpressedWater>,
    /// What else is to be in the bath or touches it.
    pub company: Vec<Ingredient>,
    /// How much of the bottle or powder there is, in mL or g, if that matters.
    pub on_hand: Option<BleachAmount>,
    /// What the bath is made up in, to split it into loads.
    pub vessel: Option<Vessel>,
    /// Planned length in minutes; the usual hour where nobody says.
    pub minutes: Option<f64>,
    /// How the vessel loses heat, to say when to reheat.
    pub cooling: Option<Cooling>,
}

/// The bleach of a bath: one bottle or one powder, never both.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Bleach {
    Hypochlorite(Bottle),
    Percarbonate(Powder),
}

impl Bleach {
    pub fn oxidant(&self) -> Oxidant {
        match self {
            Bleach::Hypochlorite(_) => Oxidant::Hypochlorite,
            Bleach::Percarbonate(_) => Oxidant::Percarbonate,
        }
    }

    /// As what it clashes with others.
    pub fn ingredient(&self) -> Ingredient {
        match self {
            Bleach::Hypochlorite(_) => Ingredient::Hypochlorite,
            Bleach::Percarbonate(_) => Ingredient::Percarbonate,
        }
    }
}

/// How strong the bath is to be. Active means available chlorine or H2O2.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Aim {
    /// Active per volume of all the liquor, the pulp's own water included.
    Strength(MassConcentration),
    /// Active per oven-dry fibre.
    Charge(Ratio),
}

/// How large the bath is to be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Size {
    /// Oven-dry fibre over all mass.
    Consistency(Ratio),
    /// Pulp and liquor together.
    TotalVolume(Volume),
}

/// What there is of the bleach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BleachAmount {
    Bottle(Volume),
    Powder(Mass),
}

/// What to measure out of the bleach.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    Bottle(ComputedEstimate<Volume>),
    Powder(ComputedEstimate<Mass>),
}

/// A bath worked out. Amounts to measure carry the range that they would need
/// to have for the aim to be met exactly; outcomes carry the range that they
/// will have once the amounts are measured as given.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// What is in the lump.
    pub oven_dry: ComputedEstimate<Mass>,
    pub pulp_water: ComputedEstimate<Mass>,
    /// To measure out.
    pub dose: Dose,
    pub water: ComputedEstimate<Mass>,
    /// The water in a jug, at the bath's temperature.
    pub water_volume: ComputedEstimate<Volume>,
    /// What comes of it: available chlorine or H2O2.
    pub active: ComputedEstimate<Mass>,
    pub charge: ComputedEstimate<Ratio>,
    /// Active over all the liquor.
    pub strength: ComputedEstimate<MassConcentration>,
    /// By the standard definition.
    pub consistency: ComputedEstimate<Ratio>,
    /// And what the same weighing is often taken for.
    pub readings: ConsistencyReadings,
    /// The pH to expect, or why none can be told.
    pub ph: Result<PredictedPh, Refusal>,
    pub total_mass: ComputedEstimate<Mass>,
    pub total_volume: ComputedEstimate<Volume>,
    /// One load where no vessel was named.
    pub loads: Loads,
    pub schedule: Schedule,
    pub guide: Guide,
    pub cautions: Vec<Caution>,
    /// What else is worth knowing: a range that reaches into the impossible.
    pub remarks: Vec<Message>,
}

pub const AIM_STRENGTH: Field = Field("aim_strength");
pub const AIM_CHARGE: Field = Field("aim_charge");
pub const AIM_CONSISTENCY: Field = Field("aim_consistency");
pub const AIM_VOLUME: Field = Field("aim_volume");
pub const MINUTES: Field = Field("minutes");
pub const ON_HAND: Field = Field("on_hand");

impl Plan {
    /// What the hazard rules need to know of this plan.
    pub fn situation(&self, request: &PlanRequest) -> Situation {
        let bottle_strength = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                bottle.liquid().ok().map(|liquid| liquid.available_chlorine.value)
            }
            Bleach::Percarbonate(_) => None,
        };
        Situation {
            oxidant: Some(request.bleach.oxidant()),
            residual: request.carried,
            temperature: Some(request.temperature),
            strength: Some(self.strength.value),
            ph: self.ph.ok().and_then(|foreseen| Ph::new(foreseen.ph.value).ok()),
            bottle_strength,
            charge: Some(self.charge.value),
            blender: request.vessel.is_some_and(|vessel| vessel.filled == VesselKind::Blender),
            ..Situation::default()
        }
    }
}

/// Most sodium percarbonate that dissolves: [`percarbonate::solubility`], with
/// colder and hotter water taken at the ends of where that holds.
pub fn percarbonate_limit(at: Celsius) -> MassConcentration {
    percarbonate::solubility(at.get().clamp(5.0, 80.0)).unwrap_or(grams_per_litre(0.0))
}

#[cfg(test)]
mod tests;
