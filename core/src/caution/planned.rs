//! The situation of a planned bath: the one place where cautions know of plans.

use super::{CautionId, Material, Residual, Situation};
use crate::{
    bath::{Bleach, Plan, PlanRequest, THERMOMETER_ERROR, VesselKind},
    chemistry::{Oxidant, compatibility::Ingredient},
    journal::PlanRecord,
    quantity::{Celsius, Interval, grams_per_litre, share},
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
            temperature: as_read(request.temperature.get()),
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

    /// The facts of a plan as it was stored, with what may be left in the pulp now. A record does
    /// not name the material of the vessel, or rust: both are unknown here.
    pub fn of_record(record: &PlanRecord, residual: Residual) -> Self {
        let bottle = record.product.strength.bottle();
        // Shown with every bath in a blender.
        let blending = [CautionId::BlendingPeroxide, CautionId::BlendingBleach];
        let shown = |id: CautionId| record.cautions.contains(&id.stored_name());
        Self {
            oxidant: Oxidant::from(record.oxidant).into(),
            residual,
            temperature: as_read(record.celsius),
            strength: Some(Interval::from(record.liquor_strength_g_per_l).map(grams_per_litre)),
            ph: record.ph.and_then(Interval::ph),
            bottle_strength: bottle
                .and_then(|bottle| bottle.liquid().ok())
                .map(|liquid| liquid.available_chlorine.into()),
            charge: Some(Interval::from(record.charge).map(share)),
            minutes: Some(Interval::exact(record.minutes)),
            blender: blending.into_iter().any(shown),
            ..Self::default()
        }
    }
}

/// The temperatures in °C that a bath may have whose thermometer shows this.
fn as_read(celsius: f64) -> Option<Interval<Celsius>> {
    Interval::celsius(Interval {
        low: celsius - THERMOMETER_ERROR,
        high: celsius + THERMOMETER_ERROR,
    })
}
