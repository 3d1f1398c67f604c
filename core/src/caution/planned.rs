//! The situation of a planned bath: the one place where cautions know of plans.

use super::{Material, Situation};
use crate::{
    bath::{Bleach, Plan, PlanRequest, VesselKind, by_thermometer},
    chemistry::compatibility::Ingredient,
    quantity::Interval,
};

impl Situation {
    /// The facts of a planned bath, each with its whole range.
    pub fn of_plan(request: &PlanRequest, plan: &Plan) -> Self {
        let bottle_strength = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                bottle.liquid().ok().map(|liquid| liquid.available_chlorine.into())
            }
            Bleach::Percarbonate(_) | Bleach::Peroxide(_) => None,
        };
        let touches = |ingredient| request.other_ingredients.contains(&ingredient);
        Self {
            oxidant: request.bleach.oxidant().into(),
            residual: request.residual,
            temperature: Interval::celsius(by_thermometer(request.temperature.get())),
            strength: Some(plan.strength.into()),
            ph: plan.ph.as_ref().ok().and_then(|predicted| Interval::ph(predicted.ph)),
            bottle_strength,
            charge: Some(plan.charge.into()),
            minutes: Some(Interval::exact(plan.schedule.minutes)),
            material: touches(Ingredient::StainlessSteel).then_some(Material::Stainless),
            rust: touches(Ingredient::Rust).then_some(true),
            blender: request.vessel.is_some_and(|vessel| vessel.kind == VesselKind::Blender),
            ..Self::default()
        }
    }
}
