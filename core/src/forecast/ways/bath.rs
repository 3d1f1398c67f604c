//! One bath of a way: planned, free of dangers, and ready to be simulated.

use super::WayRequest;
use crate::bath::kinetics::ParameterDistribution;
use crate::bath::{BathAim, BathSize, Bleach, Plan, PlanRequest, by_thermometer, plan};
use crate::caution::{Act, Severity, Situation, cautions};
use crate::chemistry::alkali::BICARBONATE;
use crate::chemistry::equilibrium::Mix;
use crate::chemistry::substance::{CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, moles_per_litre};
use crate::chemistry::{Oxidant, Residual};
use crate::forecast::ForecastRequest;
use crate::quantity::{
    Basis, Celsius, Estimate, grams_per_litre, in_grams, in_grams_per_litre, in_millilitres,
    in_share, share,
};

/// A bath as it is tried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathOfWay {
    /// Its bleach, by the place in [`WayRequest::bleaches`].
    pub bleach: usize,
    pub oxidant: Oxidant,
    /// Active per oven-dry fibre.
    pub charge: f64,
    pub celsius: f64,
    /// Oven-dry fibre per total mass.
    pub consistency: f64,
}

/// A bath that the planner accepts and that raises no danger.
#[derive(Clone, Debug)]
pub struct PlannedBath {
    pub bath: BathOfWay,
    pub plan: Plan,
    /// As simulated; its lightness is that of the pulp before the first bath.
    pub(super) forecast: ForecastRequest,
}

/// Why a bath is not tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NotTried {
    Refused,
    Danger,
}

/// A bath is meant to be kept at its temperature; by hand it is colder more than warmer, °C (own
/// estimates).
const COLDER: f64 = 6.0;
const WARMER: f64 = 3.0;

impl PlannedBath {
    /// `after` is the residual that the pulp has when it goes in; `minutes` the longest that it
    /// may take.
    pub(super) fn new(
        request: &WayRequest,
        bath: BathOfWay,
        after: Residual,
        minutes: &[f64],
    ) -> Result<Self, NotTried> {
        let bleach = request.bleaches.get(bath.bleach).ok_or(NotTried::Refused)?;
        let mut planned = plan_request(request, *bleach, bath).ok_or(NotTried::Refused)?;
        planned.residual = after;
        planned.minutes = minutes.last().copied();
        let plan = plan(&planned).map_err(|_| NotTried::Refused)?;
        if has_danger(&Situation::of_plan(&planned, &plan)) {
            return Err(NotTried::Danger);
        }
        let forecast = forecast_request(request, bath, &plan, minutes).ok_or(NotTried::Refused)?;
        Ok(Self { bath, plan, forecast })
    }

    /// The request of the plan, for a bath of `minutes`.
    pub fn request(&self, request: &WayRequest, minutes: f64) -> Option<PlanRequest> {
        let bleach = request.bleaches.get(self.bath.bleach)?;
        let planned = plan_request(request, *bleach, self.bath)?;
        Some(PlanRequest { minutes: Some(minutes), ..planned })
    }
}

fn plan_request(request: &WayRequest, bleach: Bleach, bath: BathOfWay) -> Option<PlanRequest> {
    let planned = PlanRequest::new(
        request.pulp,
        bleach,
        BathAim::Charge(share(bath.charge)),
        BathSize::Consistency(share(bath.consistency)),
        Celsius::new(bath.celsius).ok()?,
    );
    let expressed_water = request.expressed_water;
    Some(PlanRequest { residual: request.residual, expressed_water, ..planned })
}

/// Whether the figures of this very bath make a danger.
fn has_danger(situation: &Situation) -> bool {
    [Act::Bath, Act::MakingLiquor, Act::Heating].into_iter().any(|act| {
        cautions(act, situation)
            .iter()
            .any(|caution| caution.severity == Severity::Danger && caution.id.is_of_this_bath())
    })
}

fn forecast_request(
    request: &WayRequest,
    bath: BathOfWay,
    plan: &Plan,
    minutes: &[f64],
) -> Option<ForecastRequest> {
    let oxidant = bath.oxidant;
    let grams_per_mole =
        if oxidant.is_peroxide() { HYDROGEN_PEROXIDE } else { CHLORINE }.grams_per_mole;
    let litres = (in_millilitres(plan.total_volume.value) / 1000.0).max(1e-3);
    let soda = plan.soda_ash.map_or(0.0, |mass| in_grams(mass.value) / litres);
    let mix = Mix::new(bath.celsius.clamp(5.0, 80.0))
        .ok()?
        .with_baking_soda(moles_per_litre(BICARBONATE.value))
        .with_soda_ash(SODIUM_CARBONATE.molar(grams_per_litre(soda)));
    let thermometer = by_thermometer(bath.celsius);
    let celsius = Estimate {
        low: thermometer.low.min(bath.celsius - COLDER),
        high: thermometer.high.max(bath.celsius + WARMER),
        ..thermometer
    };
    let forecast = ForecastRequest {
        oxidant,
        mix,
        strength: plan.strength.map(|g| in_grams_per_litre(g) / grams_per_mole).estimate(),
        undissolved: if oxidant == Oxidant::Percarbonate { 1.0 } else { 0.0 },
        ph: plan.ph.as_ref().ok()?.ph.estimate(),
        celsius,
        consistency: plan.consistency.map(in_share).estimate(),
        lightness: request.lightness,
        // The odds are of lightness alone.
        hue: [Estimate::exact(0.0, Basis::Assumed); 2],
        drying: None,
        cooling: None,
        events: Vec::new(),
        parameters: ParameterDistribution::literature(oxidant),
        minutes: minutes.to_vec(),
    };
    forecast.check().ok()?;
    Some(forecast)
}
