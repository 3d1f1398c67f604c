//! The wash after a bath of a way.

use super::bath::PlannedBath;
use super::request::WayRequest;
use crate::chemistry::substance::{CHLORINE, HYDROGEN_PEROXIDE};
use crate::pulp::wash::{
    Alkali, Efficiency, OwnTargets, RinseTiming, STIRRABLE, SqueezedPulp, WashReadings,
};
use crate::quantity::{Basis, Estimate, grams_per_litre, in_grams, millilitres};

/// Rinse water and time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WashBetween {
    pub litres: f64,
    pub minutes: f64,
}

/// Temperature of the rinse water, °C.
const TAP_CELSIUS: f64 = 15.0;

/// Rinses until strips show no oxidant and the pH is near the tap's, each of as much water as the
/// pulp is stirred in. `left` is the oxidant at the end, mol/L. `None` where that takes too many.
pub(super) fn wash(
    request: &WayRequest,
    bath: &PlannedBath,
    left: [f64; 3],
) -> Option<WashBetween> {
    let oxidant = bath.bath.oxidant;
    let grams_per_mole =
        if oxidant.is_peroxide() { HYDROGEN_PEROXIDE } else { CHLORINE }.grams_per_mole;
    let [low, value, high] = left.map(|left| left.max(0.0) * grams_per_mole);
    let strength = Estimate { value, low, high, basis: Basis::Computed }.map(grams_per_litre);
    let readings = WashReadings {
        alkali: Alkali::SodaAsh,
        ph: bath.plan.ph.as_ref().ok().map(|ph| ph.ph_at_25.estimate()),
        oxidant: Some(strength),
        ..WashReadings::default()
    };
    let pulp = SqueezedPulp { wet_mass: request.pulp.wet, dryness: request.pulp.dryness };
    let own = OwnTargets::default();
    let timing = RinseTiming::default();
    let wash = readings.wash(pulp, own, Efficiency::assumed(), timing, TAP_CELSIUS).ok()?;
    let each = in_grams(pulp.dry_fibre().value) / STIRRABLE;
    let plan = wash.rinses_of(millilitres(each)).ok()?;
    let litres = crate::quantity::in_millilitres(plan.water) / 1000.0;
    Some(WashBetween { litres, minutes: plan.minutes })
}
