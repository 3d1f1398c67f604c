//! Whether a checked request has a plan, at the inputs' values.

use super::{
    balance::{self, ActiveTarget},
    check::CheckedRequest,
    error::PlanError,
    request::{Bleach, BleachAmount, PlanRequest},
};
use crate::{
    chemistry::{
        Oxidant, Residual,
        compatibility::{Clash, ClashSeverity, clashes},
        is_too_uncertain,
        percarbonate::{self, PURE_PEROXIDE},
    },
    quantity::{
        Celsius, MassConcentration, grams, grams_per_litre, in_grams, in_millilitres, share,
    },
};

/// # Errors
/// The first reason why there is no plan.
pub(super) fn check_feasible(checked: &CheckedRequest) -> Result<(), PlanError> {
    check_compatible(checked.request)?;
    check_acid(checked.request)?;
    check_strength_known(checked)?;
    check_room(checked)?;
    let amounts = checked.amounts(checked.nominal());
    if checked.is_powder() {
        let limit = percarbonate_limit(checked.request.temperature);
        let [strength, _] = checked.nominal_bleach();
        let percarbonate = amounts.dose * strength / PURE_PEROXIDE;
        let given = grams_per_litre(percarbonate / amounts.liquor * 1000.0);
        if given > limit {
            return Err(PlanError::WillNotDissolve { given, limit });
        }
    }
    let short = match (checked.request.on_hand, checked.is_powder()) {
        (Some(BleachAmount::Bottle(have)), false) => in_millilitres(have) < amounts.dose,
        (Some(BleachAmount::Powder(have)), true) => in_grams(have) < amounts.dose,
        _ => false,
    };
    if short {
        return Err(PlanError::NotEnough { need: checked.bleach_amount(amounts.dose) });
    }
    Ok(())
}

/// Solubility of sodium percarbonate ([`percarbonate::solubility`]); temperatures
/// outside its validity are clamped to 5 to 80 °C.
pub fn percarbonate_limit(at: Celsius) -> MassConcentration {
    percarbonate::solubility(at.get().clamp(5.0, 80.0)).unwrap_or(grams_per_litre(0.0))
}

/// Incompatible pairs among the bleach and the other ingredients, worst first.
pub(super) fn incompatibilities(request: &PlanRequest) -> Vec<Clash> {
    if request.other_ingredients.is_empty() {
        return Vec::new();
    }
    let mut present = vec![request.bleach.ingredient()];
    present.extend(&request.other_ingredients);
    clashes(&present)
}

fn check_compatible(request: &PlanRequest) -> Result<(), PlanError> {
    let new = request.bleach.oxidant();
    let old = match request.residual {
        Residual::Hypochlorite => Some(Oxidant::Hypochlorite),
        Residual::Peroxide => Some(Oxidant::Peroxide),
        Residual::None | Residual::Unknown => None,
    };
    if let Some(old) = old.filter(|old| !new.may_meet(*old)) {
        return Err(PlanError::WouldMix { old, new });
    }
    let refused = |clash: &Clash| clash.severity == ClashSeverity::Refused;
    match incompatibilities(request).into_iter().find(refused) {
        Some(clash) => Err(PlanError::Clash(clash)),
        None => Ok(()),
    }
}

/// Peroxide above the limit is not for a bath, however little of it.
pub(super) fn check_peroxide(request: &PlanRequest) -> Result<(), PlanError> {
    match &request.bleach {
        Bleach::Peroxide(bottle) if bottle.is_too_strong() => {
            Err(PlanError::PeroxideTooStrong { given: share(bottle.strongest() / 100.0) })
        }
        _ => Ok(()),
    }
}

/// Acid in the pulp makes chlorine of hypochlorite.
fn check_acid(request: &PlanRequest) -> Result<(), PlanError> {
    match (&request.bleach, &request.expressed_water) {
        (Bleach::Hypochlorite(_), Some(water)) if water.may_be_acid() => {
            Err(PlanError::AcidPulp { ph: water.ph.low })
        }
        _ => Ok(()),
    }
}

/// No dose is worked out from a strength that may be a third or three times of another.
fn check_strength_known(checked: &CheckedRequest) -> Result<(), PlanError> {
    let [_, _, strength, density] = checked.inputs;
    if !is_too_uncertain(&strength.estimate()) {
        return Ok(());
    }
    let active = |strength: f64| checked.strength_and_density(strength, density.value)[0];
    let (low, high) = (active(strength.low), active(strength.high));
    let litre = |per_ml: f64| grams_per_litre(per_ml * 1000.0);
    Err(match checked.request.bleach {
        Bleach::Hypochlorite(_) => {
            PlanError::BottleTooUncertain { low: litre(low), high: litre(high) }
        }
        Bleach::Percarbonate(_) => {
            PlanError::PowderTooUncertain { low: share(low), high: share(high) }
        }
        Bleach::Peroxide(_) => {
            PlanError::PeroxideTooUncertain { low: litre(low), high: litre(high) }
        }
    })
}

/// The water and the bleach must fit beside the fibre and its own water.
fn check_room(checked: &CheckedRequest) -> Result<(), PlanError> {
    let [wet, dryness, _, _] = checked.nominal();
    let [strength, _] = checked.nominal_bleach();
    if !checked.is_powder()
        && let ActiveTarget::Strength(target) = checked.target
        && target >= strength
    {
        let litre = |per_ml: f64| grams_per_litre(per_ml * 1000.0);
        return Err(PlanError::TooWeak { bottle: litre(strength), target: litre(target) });
    }
    let oven_dry = wet * dryness;
    let pulp_water = wet - oven_dry;
    let room = balance::water_capacity(oven_dry, checked.size, checked.water_density);
    if pulp_water > room {
        let (water, room) = (grams(pulp_water), grams(room.max(0.0)));
        return Err(PlanError::PulpTooWet { water, room });
    }
    let amounts = checked.amounts(checked.nominal());
    let finite = [amounts.active, amounts.dose, amounts.water].iter().all(|x| x.is_finite());
    if !finite || amounts.active < 0.0 || amounts.water < -1e-9 * wet {
        let takes = amounts.dose * amounts.dose_mass;
        return Err(PlanError::NoRoomForBleach {
            takes: (finite && takes.is_finite()).then(|| grams(takes)),
            left: grams((room - pulp_water).max(0.0)),
        });
    }
    Ok(())
}
