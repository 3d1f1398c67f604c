//! The situation of a planned bath, and the cautions of a cook: the one place where cautions know
//! of plans.

use super::{Act, Caution, CautionId, Material, Situation, cautions};
use crate::{
    bath::{Bleach, Plan, PlanRequest, VesselKind, by_thermometer},
    chemistry::{alkali::Alkali, compatibility::Ingredient, water::TAP_CELSIUS},
    pulp::cook::{CookAlkali, CookPlan},
    quantity::Interval,
};

/// Error of the calculated pH of a cooking liquor (own estimate, no source).
const COOK_PH_OFF: f64 = 0.3;

/// The cautions of a cook: a hot, alkaline liquor without bleach, as strong as it is made up; its
/// pH is unknown where it cannot be calculated. What is worded for the handling of bleach is left
/// out.
pub fn cook_cautions(alkali: CookAlkali, plan: &CookPlan, celsius: f64) -> Vec<Caution> {
    let alkali = match alkali {
        CookAlkali::Lye => Alkali::Lye,
        _ => Alkali::SodaAsh,
    };
    let ph = alkali.ph(plan.strength, TAP_CELSIUS).ok();
    let ph = ph.map(|ph| Interval { low: ph - COOK_PH_OFF, high: ph + COOK_PH_OFF });
    let situation = Situation {
        temperature: Interval::celsius(by_thermometer(celsius)),
        ph: ph.and_then(Interval::ph),
        ..Situation::without_bleach()
    };
    let mut all = cautions(Act::Heating, &situation);
    for caution in cautions(Act::MakingLiquor, &situation) {
        let of_bleach = matches!(caution.id, CautionId::EyesAndHands | CautionId::NotForFood);
        if !of_bleach && all.iter().all(|known| known.id != caution.id) {
            all.push(caution);
        }
    }
    all.sort_by_key(|caution| {
        (caution.id == CautionId::LabelFirst, std::cmp::Reverse(caution.severity))
    });
    all
}

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
