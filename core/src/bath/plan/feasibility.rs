//! Whether a checked request has a plan, at the inputs' values.

use super::{
    balance::{self, ActiveTarget},
    check::CheckedRequest,
    error::PlanError,
    request::{BleachAmount, PlanRequest},
};
use crate::{
    chemistry::{
        Oxidant, Residual,
        compatibility::{Clash, Severity, clashes},
        percarbonate::{self, PURE_PEROXIDE},
    },
    quantity::{Celsius, MassConcentration, grams, grams_per_litre, in_grams, in_millilitres},
};

/// # Errors
/// The first reason why there is no plan.
pub(super) fn check_feasible(checked: &CheckedRequest) -> Result<(), PlanError> {
    check_compatible(checked.request)?;
    check_room(checked)?;
    let amounts = checked.amounts(checked.nominal());
    if checked.is_powder() {
        let limit = percarbonate_limit(checked.request.temperature);
        let [_, _, strength, _] = checked.nominal();
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
    let refused = |clash: &Clash| clash.severity == Severity::Refused;
    match incompatibilities(request).into_iter().find(refused) {
        Some(clash) => Err(PlanError::Clash(clash)),
        None => Ok(()),
    }
}

/// The water and the bleach must fit beside the fibre and its own water.
fn check_room(checked: &CheckedRequest) -> Result<(), PlanError> {
    let [wet, dryness, strength, _] = checked.nominal();
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
