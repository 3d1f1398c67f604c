//! The plan of one bath, in one pass: check, solve, predict the pH, schedule.
//!
//! Hazard rules look at a finished plan in `caution`; records of plans are made
//! in `derive`.

mod balance;
mod carry_over;
mod check;
mod error;
mod feasibility;
mod loads;
mod ph;
mod ph_model;
mod remedy;
mod request;
mod schedule;
mod solve;
#[cfg(test)]
mod tests;

pub use carry_over::{
    ACID_PULP_PH, CARRIED_ACID_FACTOR, CARRY_OVER_PH, ExpressedWater, ResidualAlkali,
};
pub use error::PlanError;
pub use feasibility::percarbonate_limit;
pub use loads::{Loads, VesselLoad};
pub use ph::{PhHelp, PredictedPh};
pub use ph_model::{
    BOTTLE_LYE, CARRIED_ACID, CARRIED_ALKALI, FILLER, PH_MODEL, POWDER_FILLER, SODA_ASH,
    SODA_WEIGHED,
};
pub use remedy::Remedy;
pub use request::{
    AIM_CHARGE, AIM_CONSISTENCY, AIM_STRENGTH, AIM_VOLUME, BathAim, BathSize, BathVessel, Bleach,
    BleachAmount, CAPACITY, MINUTES, ON_HAND, PlanRequest, VesselKind,
};
pub use schedule::{
    CueTask, Guide, HYPOCHLORITE_HOTTEST, RecommendedRange, SuggestedCue, SuggestedSchedule, guide,
    reheat_below,
};

use crate::{
    chemistry::EquilibriumError,
    message::{Message, Value},
    pulp::{ConsistencyReadings, DRYNESS, WET_MASS},
    quantity::{
        ComputedEstimate, Mass, MassConcentration, Ratio, Volume, grams, grams_per_litre,
        millilitres, share,
    },
};
use check::CheckedRequest;
use solve::SolvedBath;

/// Plans a bath.
///
/// # Errors
/// [`RefusedPlan`]: the reason, and remedies that were found feasible.
pub fn plan(request: &PlanRequest) -> Result<Plan, RefusedPlan> {
    let refused = |error| RefusedPlan { error, remedies: remedy::remedies(request, &error) };
    feasibility::check_peroxide(request).map_err(refused)?;
    let checked = CheckedRequest::new(request).map_err(PlanError::from)?;
    feasibility::check_feasible(&checked).map_err(refused)?;
    let bath = solve::solve(&checked).ok_or(PlanError::NotFinite)?;
    let ph = ph::predict(&checked, &bath);
    Ok(Plan::new(&checked, &bath, ph))
}

/// A planned bath. Amounts to measure have the range that would meet the aim
/// exactly; results have the range that follows once the amounts are measured
/// as given.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    pub oven_dry: ComputedEstimate<Mass>,
    /// Water in the wet pulp.
    pub pulp_water: ComputedEstimate<Mass>,
    /// Bleach to measure out.
    pub dose: Dose,
    /// Soda ash to weigh: for peroxide, which brings no alkali of its own.
    pub soda_ash: Option<ComputedEstimate<Mass>>,
    /// Water to add.
    pub water: ComputedEstimate<Mass>,
    /// The same at the bath's temperature.
    pub water_volume: ComputedEstimate<Volume>,
    /// Available chlorine or H2O2.
    pub active: ComputedEstimate<Mass>,
    /// Active per oven-dry fibre.
    pub charge: ComputedEstimate<Ratio>,
    /// Active per volume of all the liquor.
    pub strength: ComputedEstimate<MassConcentration>,
    /// Oven-dry fibre per total mass.
    pub consistency: ComputedEstimate<Ratio>,
    /// The consistency by the definitions in use.
    pub readings: ConsistencyReadings,
    /// The predicted pH, or why there is no prediction.
    pub ph: Result<PredictedPh, EquilibriumError>,
    pub total_mass: ComputedEstimate<Mass>,
    pub total_volume: ComputedEstimate<Volume>,
    /// One load if no vessel was given.
    pub loads: Loads,
    pub schedule: SuggestedSchedule,
    pub guide: Guide,
    /// Ranges that reach into the impossible, and incompatibilities to note.
    pub remarks: Vec<Message>,
}

/// The bleach to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Dose {
    Bottle(ComputedEstimate<Volume>),
    Powder(ComputedEstimate<Mass>),
}

/// A refused request: no number is shown, but the reason and what would help.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{error}")]
pub struct RefusedPlan {
    pub error: PlanError,
    /// Feasible changes, the smallest first.
    pub remedies: Vec<Remedy>,
}

impl From<PlanError> for RefusedPlan {
    fn from(error: PlanError) -> Self {
        Self { error, remedies: Vec::new() }
    }
}

impl RefusedPlan {
    /// The message for a person, beside the field that would have to change.
    pub fn message(&self) -> Message {
        self.error.message()
    }
}

impl Plan {
    fn new(
        checked: &CheckedRequest,
        bath: &SolvedBath,
        ph: Result<PredictedPh, EquilibriumError>,
    ) -> Self {
        let request = checked.request;
        let water = ComputedEstimate { low: bath.water.low.max(0.0), ..bath.water };
        let water_volume = water.map(|g| millilitres(g / checked.water_density));
        let total_volume = bath.total_volume.map(millilitres);
        let all = VesselLoad {
            pulp: request.pulp.wet.value,
            dose: checked.bleach_amount(bath.dose.value),
            soda_ash: bath.soda_ash.map(|mass| grams(mass.value)),
            water: water_volume.value,
            volume: total_volume.value,
        };
        Self {
            oven_dry: bath.oven_dry.map(grams),
            pulp_water: bath.pulp_water.map(grams),
            dose: match request.bleach {
                Bleach::Hypochlorite(_) | Bleach::Peroxide(_) => {
                    Dose::Bottle(bath.dose.map(millilitres))
                }
                Bleach::Percarbonate(_) => Dose::Powder(bath.dose.map(grams)),
            },
            soda_ash: bath.soda_ash.map(|mass| mass.map(grams)),
            water: water.map(grams),
            water_volume,
            active: bath.active.map(grams),
            charge: bath.charge.map(share),
            strength: bath.strength.map(grams_per_litre),
            consistency: bath.consistency.map(share),
            readings: bath.readings,
            total_mass: bath.total_mass.map(grams),
            total_volume,
            loads: Loads::split(all, request.vessel.as_ref()),
            schedule: SuggestedSchedule::new(request),
            guide: guide(request.bleach.oxidant()),
            remarks: remarks(request, &bath.water, ph.as_ref().ok()),
            ph,
        }
    }
}

/// `water` is the range before negative values are cut off.
fn remarks(
    request: &PlanRequest,
    water: &ComputedEstimate<f64>,
    ph: Option<&PredictedPh>,
) -> Vec<Message> {
    let mut remarks = Vec::new();
    if water.low < 0.0 {
        let by_pulp = matches!(water.dominant, Some(WET_MASS | DRYNESS));
        let key = if by_pulp { "remark-may_be_too_wet" } else { "remark-may_be_too_weak" };
        remarks.push(Message::new(key).with("short", Value::Mass(grams(-water.low))));
    }
    remarks.extend(feasibility::incompatibilities(request).iter().map(|clash| clash.message()));
    remarks.extend(ph.into_iter().flat_map(PredictedPh::remarks));
    remarks
}
