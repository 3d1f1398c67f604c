//! Amounts and composition of a bath with their ranges.

use super::{balance, check::CheckedRequest, request::Bleach};
use crate::{
    bath::peroxide_bottle::soda_ash_per_peroxide,
    pulp::{ConsistencyReadings, readings},
    quantity::{ComputedEstimate, grams, propagate_uncertainty},
};

/// Amounts to measure out, and the bath that comes of their nominal values.
/// In g, mL and shares.
pub(super) struct SolvedBath {
    /// mL or g. The range is what would meet the aim exactly; likewise `water`.
    pub(super) dose: ComputedEstimate<f64>,
    /// `low` is negative where the inputs' ranges leave no room for water.
    pub(super) water: ComputedEstimate<f64>,
    /// g to weigh for a peroxide bath.
    pub(super) soda_ash: Option<ComputedEstimate<f64>>,
    pub(super) oven_dry: ComputedEstimate<f64>,
    pub(super) pulp_water: ComputedEstimate<f64>,
    pub(super) active: ComputedEstimate<f64>,
    pub(super) charge: ComputedEstimate<f64>,
    /// g/L
    pub(super) strength: ComputedEstimate<f64>,
    pub(super) consistency: ComputedEstimate<f64>,
    pub(super) total_mass: ComputedEstimate<f64>,
    pub(super) total_volume: ComputedEstimate<f64>,
    pub(super) readings: ConsistencyReadings,
}

/// `None` if a result is not finite at an end of the inputs' ranges.
pub(super) fn solve(checked: &CheckedRequest) -> Option<SolvedBath> {
    let [dose, water] = propagate_uncertainty(&checked.inputs, |x| {
        let amounts = checked.amounts(*x);
        [amounts.dose, amounts.water]
    })?;
    let measured = (dose.value, water.value);
    let composition = |&[wet, dryness, strength, density]: &[f64; 4]| {
        let bleach = checked.bleach(strength, density);
        let bath = balance::composition(wet, dryness, bleach, measured, checked.water_density);
        [
            bath.oven_dry,
            bath.pulp_water,
            bath.active,
            bath.charge,
            bath.strength * 1000.0,
            bath.consistency,
            bath.total_mass,
            bath.total_volume,
        ]
    };
    let [oven_dry, pulp_water, active, charge, strength, consistency, total_mass, total_volume] =
        propagate_uncertainty(&checked.inputs, composition)?;
    let dose_mass = checked.amounts(checked.nominal()).dose_mass * dose.value;
    let weighs_soda = matches!(checked.request.bleach, Bleach::Peroxide(_));
    let soda_ash = weighs_soda.then(|| active.map(|active| active * soda_ash_per_peroxide()));
    let pulp = &checked.request.pulp;
    let liquor = grams((water.value + dose_mass).max(1e-6));
    Some(SolvedBath {
        dose,
        water,
        soda_ash,
        oven_dry,
        pulp_water,
        active,
        charge,
        strength,
        consistency,
        total_mass,
        total_volume,
        readings: readings(pulp.wet.value, pulp.dryness.value, liquor).ok()?,
    })
}
