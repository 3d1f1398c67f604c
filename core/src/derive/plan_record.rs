//! The record of a plan: the inputs and results of a bath as the journal stores them, and the
//! situation that they are for the cautions.
//! Not here: the plan itself, which is `bath`, and the cues that follow from its schedule.

use std::collections::BTreeMap;

use crate::{
    bath::{self, BleachAmount, Dose, Plan, PlanRequest},
    caution::{Act, CautionId, Residual, Situation, cautions},
    journal::{Active, Aim, Amount, Load, Oxidant, PlanRecord, ProductUsed, Schedule},
    quantity::{
        Basis, ComputedEstimate, Estimate, Interval, grams_per_litre, in_grams, in_grams_per_litre,
        in_millilitres, in_share, share,
    },
};

/// The record of a plan, with `product` as the bleach it was made for.
pub fn plan_record(request: &PlanRequest, plan: &Plan, product: ProductUsed) -> PlanRecord {
    let counted_as = match request.bleach.oxidant() {
        bath::Oxidant::Hypochlorite => Active::AvailableChlorine,
        bath::Oxidant::Percarbonate | bath::Oxidant::Peroxide => Active::HydrogenPeroxide,
    };
    PlanRecord {
        oxidant: request.bleach.oxidant().into(),
        product,
        aim: match request.aim {
            bath::BathAim::Strength(c) => {
                Aim::LiquorStrength { g_per_l: in_grams_per_litre(c), counted_as }
            }
            bath::BathAim::Charge(c) => Aim::Charge { share: in_share(c), counted_as },
        },
        wet_mass_g: request.pulp.wet.map(in_grams),
        dryness: request.pulp.dryness.map(in_share),
        dry_fibre_g: plan.oven_dry.map(in_grams).estimate(),
        celsius: request.temperature.get(),
        minutes: plan.schedule.minutes,
        schedule: (&plan.schedule).into(),
        product_amount: match &plan.dose {
            Dose::Bottle(volume) => Amount::VolumeMl(volume.map(in_millilitres).estimate()),
            Dose::Powder(mass) => Amount::MassG(mass.map(in_grams).estimate()),
        },
        soda_ash_g: plan.soda_ash.map(|mass| mass.map(in_grams).estimate()),
        water_to_add_ml: plan.water_volume.map(in_millilitres).estimate(),
        liquor_ml: liquor_ml(plan).estimate(),
        consistency: plan.consistency.map(in_share).estimate(),
        charge: plan.charge.map(in_share).estimate(),
        liquor_strength_g_per_l: plan.strength.map(in_grams_per_litre).estimate(),
        counted_as,
        ph: plan.ph.ok().map(|predicted| predicted.ph.estimate()),
        loads: loads(plan),
        dominant: dominant_inputs(plan),
        cautions: cautions(Act::Bath, &Situation::of_plan(request, plan))
            .iter()
            .map(|caution| caution.id.stored_name())
            .collect(),
        note: String::new(),
    }
}

/// Which input dominates the range of each result, by the names of the record.
fn dominant_inputs(plan: &Plan) -> BTreeMap<String, String> {
    let dose = match &plan.dose {
        Dose::Bottle(volume) => volume.dominant,
        Dose::Powder(mass) => mass.dominant,
    };
    [
        ("product_amount", dose),
        ("water_to_add_ml", plan.water_volume.dominant),
        ("dry_fibre_g", plan.oven_dry.dominant),
        ("consistency", plan.consistency.dominant),
        ("charge", plan.charge.dominant),
        ("liquor_strength_g_per_l", plan.strength.dominant),
        ("ph", plan.ph.ok().and_then(|predicted| predicted.ph.dominant)),
    ]
    .into_iter()
    .filter_map(|(result, input)| Some((result.to_owned(), input?.0.to_owned())))
    .collect()
}

/// All the liquor in millilitres: the volume that the strength refers to.
fn liquor_ml(plan: &Plan) -> ComputedEstimate<f64> {
    let g_per_l = in_grams_per_litre(plan.strength.value);
    if g_per_l > 0.0 {
        plan.active.map(|active| in_grams(active) / g_per_l * 1000.0)
    } else {
        plan.total_volume.map(in_millilitres)
    }
}

/// The loads, where there are several.
fn loads(plan: &Plan) -> Vec<Load> {
    if plan.loads.count < 2 {
        return Vec::new();
    }
    let exact = |value| Estimate::exact(value, Basis::Computed);
    let stored = |load: bath::VesselLoad| Load {
        wet_pulp_g: in_grams(load.pulp),
        product_amount: match load.dose {
            BleachAmount::Bottle(volume) => Amount::VolumeMl(exact(in_millilitres(volume))),
            BleachAmount::Powder(mass) => Amount::MassG(exact(in_grams(mass))),
        },
        soda_ash_g: load.soda_ash.map(in_grams),
        water_to_add_ml: in_millilitres(load.water),
    };
    plan.loads.measurable().into_iter().map(stored).collect()
}

impl Situation {
    /// The facts of a plan as it was stored, with what may be left in the pulp now. A record does
    /// not name the material of the vessel, or rust: both are unknown here.
    pub fn of_record(record: &PlanRecord, residual: Residual) -> Self {
        let bottle = record.product.strength.bottle();
        // Shown with every bath in a blender.
        let blending = [CautionId::BlendingPeroxide, CautionId::BlendingBleach];
        let shown = |id: CautionId| record.cautions.contains(&id.stored_name());
        Self {
            oxidant: bath::Oxidant::from(record.oxidant).into(),
            residual,
            temperature: Interval::celsius(bath::by_thermometer(record.celsius)),
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

impl From<bath::Oxidant> for Oxidant {
    fn from(oxidant: bath::Oxidant) -> Self {
        match oxidant {
            bath::Oxidant::Hypochlorite => Self::Hypochlorite,
            bath::Oxidant::Percarbonate => Self::Percarbonate,
            bath::Oxidant::Peroxide => Self::Peroxide,
        }
    }
}

impl From<Oxidant> for bath::Oxidant {
    fn from(oxidant: Oxidant) -> Self {
        match oxidant {
            Oxidant::Hypochlorite => Self::Hypochlorite,
            Oxidant::Percarbonate => Self::Percarbonate,
            Oxidant::Peroxide => Self::Peroxide,
        }
    }
}

impl From<&bath::SuggestedSchedule> for Schedule {
    /// The suggested cues as intervals and instants. A check is a pH reading, a strip and a
    /// photo.
    fn from(suggested: &bath::SuggestedSchedule) -> Self {
        let at = |task: bath::CueTask| {
            suggested.cues.iter().filter(move |cue| cue.task == task).map(|cue| cue.minute)
        };
        Schedule {
            stir_every_min: at(bath::CueTask::Stir).next(),
            reheat_every_min: at(bath::CueTask::Reheat).next(),
            ph_at_min: at(bath::CueTask::Check).collect(),
            strip_at_min: at(bath::CueTask::Check).collect(),
            photo_at_min: at(bath::CueTask::Check).collect(),
            stop_at_min: Some(suggested.minutes),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::{
        bath::{BathAim, BathSize, Bleach, Bottle, LabelBasis, plan},
        chemistry::Residual,
        pulp::WetPulp,
        quantity::{Celsius, grams, share, weighed},
    };

    fn request() -> PlanRequest {
        let dryness = Estimate { value: 0.2, low: 0.15, high: 0.25, basis: Basis::Assumed };
        let pulp = WetPulp::new(weighed(grams(1000.0)), dryness.map(share)).unwrap();
        let bleach = Bleach::Hypochlorite(Bottle::labelled(6.0, LabelBasis::NaoclByMass));
        let (aim, size) = (BathAim::Charge(share(0.02)), BathSize::Consistency(share(0.05)));
        let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(38.0).unwrap());
        PlanRequest { residual: Residual::None, minutes: Some(60.0), ..request }
    }

    #[test]
    fn a_record_has_the_numbers_of_the_plan_with_their_basis() {
        let request = request();
        let plan = plan(&request).unwrap();
        let record = plan_record(&request, &plan, ProductUsed::typed(&request.bleach));
        let Amount::VolumeMl(dose) = record.product_amount else { panic!("a bottle is poured") };
        // 4.00 g of available chlorine at 61.7 g/L.
        assert!((dose.value - 64.8).abs() < 0.5, "{}", dose.value);
        assert!((record.dry_fibre_g.value - 200.0).abs() < 1e-9);
        assert_eq!(record.dry_fibre_g.basis, Basis::Assumed);
        assert_eq!(record.dominant["dry_fibre_g"], "dryness");
        let active = record.liquor_ml.value / 1000.0 * record.liquor_strength_g_per_l.value;
        assert!((active - 4.0).abs() < 1e-6);
        assert_eq!(record.schedule.stop_at_min, Some(60.0));
        assert_eq!(record.schedule.stir_every_min, Some(10.0));
    }
}
