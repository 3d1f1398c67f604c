//! The situation of a planned bath: the one place where cautions know of plans.

use super::Situation;
use crate::{
    bath::{Bleach, Plan, PlanRequest, VesselKind},
    quantity::Ph,
};

impl Situation {
    /// The facts of a planned bath.
    pub fn of_plan(request: &PlanRequest, plan: &Plan) -> Self {
        let bottle_strength = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                bottle.liquid().ok().map(|liquid| liquid.available_chlorine.value)
            }
            Bleach::Percarbonate(_) => None,
        };
        Self {
            oxidant: Some(request.bleach.oxidant()),
            residual: request.residual,
            temperature: Some(request.temperature),
            strength: Some(plan.strength.value),
            ph: plan.ph.as_ref().ok().and_then(|predicted| Ph::new(predicted.ph.value).ok()),
            bottle_strength,
            charge: Some(plan.charge.value),
            blender: request.vessel.is_some_and(|vessel| vessel.kind == VesselKind::Blender),
            ..Self::default()
        }
    }
}
