//! Plans, refused plans, and the balances that every plan keeps.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::{
    bath::{
        BOTTLE_STRENGTH, Bottle, Cooling, LabelBasis, PeroxideBasis, PeroxideBottle, Powder,
        PowderBasis,
    },
    chemistry::Residual,
    property,
    pulp::{CELLULOSE_DENSITY, DRYNESS, DrynessSource, WetPulp},
    quantity::{
        Basis, Celsius, Estimate, grams, grams_per_millilitre, in_grams, in_grams_per_litre,
        in_grams_per_millilitre, in_millilitres, in_share, millilitres, share,
    },
};
use proptest::prelude::*;

fn pulp(wet: f64, dryness: f64) -> WetPulp {
    let wet = Estimate::within(grams(wet), 0.005, Basis::Measured);
    WetPulp { wet, dryness: Estimate::within(share(dryness), 0.05, Basis::OwnRecord) }
}

fn request(pulp: WetPulp, bleach: Bleach, aim: BathAim, size: BathSize) -> PlanRequest {
    let at = Celsius::new(40.0).unwrap();
    PlanRequest { residual: Residual::None, ..PlanRequest::new(pulp, bleach, aim, size, at) }
}

fn six_percent() -> Bleach {
    let density = Estimate::exact(grams_per_millilitre(1.08), Basis::Measured);
    let bottle = Bottle::labelled(6.0, LabelBasis::NaoclByMass);
    Bleach::Hypochlorite(Bottle { density: Some(density), ..bottle })
}

/// 4.5 % NaOCl by mass, down to `low` of that.
fn vague(low: f64) -> Bleach {
    let figure = Estimate { value: 4.5, low: 4.5 * low, high: 4.5 * 1.3, basis: Basis::Assumed };
    Bleach::Hypochlorite(Bottle { figure, basis: LabelBasis::NaoclByMass, density: None })
}

fn powder(peroxide: f64) -> Bleach {
    Bleach::Percarbonate(Powder::labelled(share(peroxide), PowderBasis::Peroxide))
}

fn charge(x: f64) -> BathAim {
    BathAim::Charge(share(x))
}

fn consistency(x: f64) -> BathSize {
    BathSize::Consistency(share(x))
}

fn strength(x: f64) -> BathAim {
    BathAim::Strength(grams_per_litre(x))
}

/// 1 kg of pulp at 20 % dryness with 2 % available chlorine at 5 % consistency.
fn usual() -> PlanRequest {
    request(pulp(1000.0, 0.2), six_percent(), charge(0.02), consistency(0.05))
}

fn poured(plan: &Plan) -> f64 {
    match &plan.dose {
        Dose::Bottle(volume) => in_millilitres(volume.value),
        Dose::Powder(mass) => in_grams(mass.value),
    }
}

fn near(a: f64, b: f64, tolerance: f64) {
    assert!((a - b).abs() <= tolerance, "{a} is not {b}");
}

#[test]
fn a_hypochlorite_bath_by_charge() {
    let made = plan(&usual()).unwrap();
    near(poured(&made), 64.8, 0.2);
    near(in_grams(made.active.value), 4.0, 1e-9);
    near(in_share(made.consistency.value), 0.05, 1e-9);
    // 200 g at 5 % is 4000 g: less 1000 g of wet pulp and the bottle's mass.
    near(in_grams(made.water.value), 3000.0 - 1.08 * poured(&made), 1e-6);
    near(in_grams(made.pulp_water.value), 800.0, 1e-6);
    assert!(!made.charge.assumed);
    assert!(made.charge.low < made.charge.value && made.charge.value < made.charge.high);
}

#[test]
fn a_percarbonate_bath_by_charge() {
    let made = plan(&PlanRequest { bleach: powder(0.28), ..usual() }).unwrap();
    near(poured(&made), 14.29, 0.05);
}

#[test]
fn a_bath_by_strength_and_volume() {
    let size = BathSize::TotalVolume(millilitres(5000.0));
    let made = plan(&request(pulp(1000.0, 0.2), six_percent(), strength(2.0), size)).unwrap();
    near(in_grams_per_litre(made.strength.value), 2.0, 1e-9);
    near(in_millilitres(made.total_volume.value), 5000.0, 1e-6);
    let liquor = 5000.0 - 200.0 / CELLULOSE_DENSITY;
    near(in_grams(made.active.value), 2.0 * liquor / 1000.0, 1e-9);
}

#[test]
fn an_assumed_dryness_dominates_and_marks_the_plan() {
    let dryness = DrynessSource::Assumed.estimate().unwrap();
    let pulp = WetPulp { dryness, ..pulp(1000.0, 0.2) };
    let made = plan(&PlanRequest { pulp, ..usual() }).unwrap();
    assert_eq!(made.charge.dominant, Some(DRYNESS));
    assert!(made.charge.assumed && made.oven_dry.assumed);
    // 15 to 25 % dry is a third more and a fifth less charge than meant.
    near(in_share(made.charge.high), 0.02 / 0.75, 0.002);
    let Dose::Bottle(volume) = made.dose else { panic!() };
    assert!(volume.assumed, "the dose depends on it as well");
}

#[test]
fn a_bottle_of_assumed_strength_dominates_the_charge() {
    let bleach = vague(0.6);
    let made = plan(&PlanRequest { bleach, ..usual() }).unwrap();
    assert_eq!(made.charge.dominant, Some(BOTTLE_STRENGTH));
    assert!(made.charge.assumed);
}

#[test]
fn peroxide_that_is_too_strong_or_unknown_is_refused() {
    let of = |bottle| request(pulp(1000.0, 0.2), bottle, charge(0.02), consistency(0.05));
    let by_mass = |percent| PeroxideBottle::labelled(percent, PeroxideBasis::ByMass);
    let strong = plan(&of(Bleach::Peroxide(by_mass(35.0)))).unwrap_err();
    assert!(matches!(strong.error, PlanError::PeroxideTooStrong { .. }), "{strong:?}");
    assert_eq!(strong.remedies, [Remedy::WeakerPeroxide]);
    let unknown = plan(&of(Bleach::Peroxide(PeroxideBottle::unknown()))).unwrap_err();
    assert!(matches!(unknown.error, PlanError::PeroxideTooUncertain { .. }), "{unknown:?}");
    let planned = plan(&of(Bleach::Peroxide(by_mass(3.0)))).unwrap();
    let Dose::Bottle(volume) = planned.dose else { panic!("a bottle is poured") };
    // 4 g of H2O2 at 30.3 g/L.
    assert!((in_millilitres(volume.value) - 132.1).abs() < 0.5, "{volume:?}");
}

#[test]
fn the_soda_ash_of_the_loads_adds_up() {
    let bottle = Bleach::Peroxide(PeroxideBottle::labelled(3.0, PeroxideBasis::ByMass));
    let vessel = BathVessel { capacity: millilitres(2000.0), kind: VesselKind::Pot };
    let request = request(pulp(1000.0, 0.2), bottle, charge(0.02), consistency(0.05));
    let plan = plan(&PlanRequest { vessel: Some(vessel), ..request }).unwrap();
    let loads = plan.loads.measurable();
    assert!(loads.len() > 1);
    let sum: f64 = loads.iter().filter_map(|load| load.soda_ash).map(in_grams).sum();
    assert!((sum - in_grams(plan.soda_ash.unwrap().value)).abs() < 0.1, "{sum}");
}

#[test]
fn pulp_that_is_too_wet_is_refused_with_feasible_remedies() {
    let request = request(pulp(1000.0, 0.1), six_percent(), charge(0.02), consistency(0.12));
    let refused = plan(&request).unwrap_err();
    let PlanError::PulpTooWet { water, room } = refused.error else { panic!("{refused:?}") };
    near(in_grams(water), 900.0, 1e-6);
    near(in_grams(room), 100.0 / 0.12 - 100.0, 1e-6);
    let dryness = refused.remedies.iter().find_map(|remedy| match remedy {
        Remedy::Press(dryness) => Some(in_share(*dryness)),
        _ => None,
    });
    let dryness = dryness.unwrap();
    assert!(dryness > 0.12 && dryness < 0.14, "{dryness}");
    assert!(refused.remedies.iter().any(|remedy| matches!(remedy, Remedy::Consistency(_))));
    for remedy in &refused.remedies {
        assert!(plan(&remedy.apply(&request)).is_ok(), "{remedy:?}");
    }
}

#[test]
fn a_bottle_weaker_than_the_liquor_is_refused() {
    let size = BathSize::TotalVolume(millilitres(5000.0));
    let weak = Bleach::Hypochlorite(Bottle::labelled(1.0, LabelBasis::ChlorineByVolume));
    let request = request(pulp(500.0, 0.2), weak, strength(12.0), size);
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.error, PlanError::TooWeak { .. }));
    assert!(refused.remedies.iter().any(|remedy| matches!(remedy, Remedy::StrongerBottle(_))));
    assert!(refused.remedies.iter().any(|remedy| matches!(remedy, Remedy::Strength(_))));
}

#[test]
fn powder_above_its_solubility_is_refused_with_remedies() {
    let cold = Celsius::new(5.0).unwrap();
    // 100 g at 30 % in 233 g of water takes 28 g of percarbonate: 118 g/L.
    let request = PlanRequest {
        temperature: cold,
        ..request(pulp(250.0, 0.4), powder(0.325), charge(0.09), consistency(0.30))
    };
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.error, PlanError::WillNotDissolve { .. }), "{refused:?}");
    assert!(refused.remedies.iter().any(|remedy| matches!(remedy, Remedy::Warm(_))), "{refused:?}");
    assert!(refused.remedies.iter().any(|remedy| matches!(remedy, Remedy::Consistency(_))));
}

#[test]
fn a_strength_of_more_than_threefold_range_gives_no_dose() {
    // A bottle opened two years ago, and bleach without a label.
    let old = Estimate { value: 10.0, low: 1.3, high: 50.0, basis: Basis::Computed };
    let old = Bleach::Hypochlorite(Bottle::titrated(old.map(grams_per_litre)));
    for bleach in [old, Bleach::Hypochlorite(Bottle::unknown())] {
        let request = PlanRequest { bleach, ..usual() };
        let refused = plan(&request).unwrap_err();
        let PlanError::BottleTooUncertain { low, high } = refused.error else {
            panic!("{refused:?}")
        };
        assert!(high > low * 3.0);
        assert_eq!(refused.message().field, Some(BOTTLE_STRENGTH));
        let measure = Remedy::MeasureStrength(crate::chemistry::Oxidant::Hypochlorite);
        assert_eq!(refused.remedies, [measure, Remedy::NewBleach]);
        assert!(plan(&measure.apply(&request)).is_ok());
    }
    let figure = Estimate { value: 0.3, low: 0.15, high: 0.95, basis: Basis::Assumed };
    let vague = Powder { figure: figure.map(share), basis: PowderBasis::Percarbonate };
    let request = PlanRequest { bleach: Bleach::Percarbonate(vague), ..usual() };
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.error, PlanError::PowderTooUncertain { .. }), "{refused:?}");
    assert!(plan(&refused.remedies[0].apply(&request)).is_ok());
}

#[test]
fn no_window_ends_above_its_danger() {
    let hottest = guide(crate::chemistry::Oxidant::Hypochlorite).temperature.practice.1;
    assert!(hottest <= HYPOCHLORITE_HOTTEST);
}

#[test]
fn too_little_bleach_in_stock_is_refused_with_what_there_is() {
    let request = PlanRequest { on_hand: Some(BleachAmount::Bottle(millilitres(40.0))), ..usual() };
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.error, PlanError::NotEnough { .. }));
    let Some(Remedy::LessBleach { dose: BleachAmount::Bottle(volume), charge }) =
        refused.remedies.first()
    else {
        panic!("{refused:?}")
    };
    assert!(in_millilitres(*volume) <= 40.0 && in_millilitres(*volume) > 35.0);
    assert!(in_share(*charge) < 0.02);
}

#[test]
fn hypochlorite_and_peroxide_never_meet() {
    for (bleach, residual) in
        [(six_percent(), Residual::Peroxide), (powder(0.28), Residual::Hypochlorite)]
    {
        let request = PlanRequest { bleach, residual, ..usual() };
        let refused = plan(&request).unwrap_err();
        assert!(matches!(refused.error, PlanError::WouldMix { .. }));
        assert_eq!(refused.remedies, vec![Remedy::WashFirst]);
    }
}

#[test]
fn values_out_of_range_are_refused_by_name() {
    let good = usual();
    let nan = f64::NAN;
    for (bad, field) in [
        (PlanRequest { aim: charge(nan), ..good.clone() }, AIM_CHARGE),
        (PlanRequest { aim: strength(-1.0), ..good.clone() }, AIM_STRENGTH),
        (PlanRequest { size: consistency(0.0), ..good.clone() }, AIM_CONSISTENCY),
        (
            PlanRequest { size: BathSize::TotalVolume(millilitres(f64::INFINITY)), ..good.clone() },
            AIM_VOLUME,
        ),
        (PlanRequest { minutes: Some(nan), ..good.clone() }, MINUTES),
        (PlanRequest { pulp: pulp(nan, 0.2), ..good.clone() }, crate::pulp::WET_MASS),
        (PlanRequest { pulp: pulp(100.0, 0.0), ..good.clone() }, DRYNESS),
    ] {
        let refused = plan(&bad).unwrap_err();
        let PlanError::OutOfRange(error) = refused.error else { panic!("{refused:?}") };
        assert_eq!(error.subject, field);
    }
}

#[test]
fn cues_end_with_the_stop_and_reheat_when_it_has_cooled() {
    let celsius = |value| Celsius::new(value).unwrap();
    let cooling = Cooling::assumed(celsius(15.0));
    let good = PlanRequest { bleach: powder(0.28), ..usual() };
    let long = PlanRequest { minutes: Some(240.0), cooling: Some(cooling), ..good.clone() };
    let schedule = plan(&PlanRequest { temperature: celsius(50.0), ..long }).unwrap().schedule;
    assert!(schedule.cues.is_sorted_by(|a, b| a.minute <= b.minute));
    assert_eq!(
        schedule.cues.last().map(|cue| (cue.task, cue.minute)),
        Some((CueTask::Stop, 240.0))
    );
    let reheat = schedule.cues.iter().find(|cue| cue.task == CueTask::Reheat).unwrap();
    // 50 to 45 °C in a 15 °C room: 6.9 h of ln(35 / 30).
    near(reheat.minute, 6.9 * 60.0 * (35.0f64 / 30.0).ln(), 1e-6);
    let short = plan(&good).unwrap().schedule;
    assert_eq!(short.minutes, 60.0);
    assert!(short.cues.iter().any(|cue| cue.task == CueTask::Check));
    assert!(short.cues.iter().all(|cue| cue.task != CueTask::Reheat));
}

#[test]
fn a_blender_is_half_filled_at_most() {
    let vessel = BathVessel { capacity: millilitres(2000.0), kind: VesselKind::Blender };
    let request = PlanRequest { vessel: Some(vessel), ..usual() };
    let made = plan(&request).unwrap();
    assert_eq!(made.loads.count, 4);
    assert!(in_millilitres(made.loads.each.volume) <= 1000.0);
}

#[test]
fn a_range_without_room_for_water_has_a_remark() {
    let dryness = DrynessSource::Assumed.estimate().unwrap();
    let pulp = WetPulp { dryness, ..pulp(1000.0, 0.2) };
    let made = plan(&request(pulp, six_percent(), charge(0.02), consistency(0.18))).unwrap();
    assert!(made.remarks.iter().any(|remark| remark.key == "remark-may_be_too_wet"));
    assert!(in_grams(made.water.low) >= 0.0);
}

#[test]
fn a_bottle_that_may_be_too_weak_has_its_own_remark() {
    let bottle = vague(0.45);
    let size = BathSize::TotalVolume(millilitres(5000.0));
    let made = plan(&request(pulp(500.0, 0.3), bottle, strength(38.0), size)).unwrap();
    let keys: Vec<&str> = made.remarks.iter().map(|remark| remark.key).collect();
    assert_eq!(keys, ["remark-may_be_too_weak", "remark-pulp_not_tested"]);
}

fn any_bleach() -> impl Strategy<Value = Bleach> {
    let bottle = (0usize..5, 0.5f64..12.0).prop_map(|(i, figure)| {
        let basis = LabelBasis::ALL[i];
        let scale = if basis == LabelBasis::ChlorineGramsPerLitre { 10.0 } else { 1.0 };
        Bleach::Hypochlorite(Bottle::labelled(figure * scale, basis))
    });
    let peroxide = (3.0f64..12.0, 0usize..2).prop_map(|(percent, i)| {
        Bleach::Peroxide(PeroxideBottle::labelled(percent, PeroxideBasis::ALL[i]))
    });
    prop_oneof![bottle, (0.02f64..0.325).prop_map(powder), peroxide]
}

prop_compose! {
    fn any_request()(
        wet in 1.0f64..20_000.0,
        dryness in 0.02f64..0.6,
        bleach in any_bleach(),
        by_charge in any::<bool>(),
        aim in 0.001f64..0.2,
        by_consistency in any::<bool>(),
        size in 0.005f64..0.35,
        celsius in 5.0f64..80.0,
        capacity in prop::option::of(200.0f64..30_000.0),
    ) -> PlanRequest {
        let aim = if by_charge { charge(aim) } else { strength(aim * 100.0) };
        let oven_dry = wet * dryness;
        let size = if by_consistency {
            consistency(size)
        } else {
            BathSize::TotalVolume(millilitres((oven_dry / size).max(1.0)))
        };
        let vessel = capacity
            .map(|ml| BathVessel { capacity: millilitres(ml), kind: VesselKind::Pot });
        let temperature = Celsius::new(celsius).unwrap();
        let plain = request(pulp(wet, dryness), bleach, aim, size);
        PlanRequest { temperature, vessel, ..plain }
    }
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-9)
}

/// Checks every generated request that has a plan; at least half must have one.
fn for_plans(check: impl Fn(&PlanRequest, &Plan) -> Result<(), TestCaseError>) {
    property::check(any_request(), 128, |request| match plan(&request) {
        Ok(made) => check(&request, &made).map(|()| true),
        Err(_) => Ok(false),
    });
}

#[test]
fn the_mass_balance_closes_and_the_aim_is_met() {
    for_plans(|request, made| {
        let (mass, strength) = match &request.bleach {
            Bleach::Hypochlorite(bottle) => {
                let liquid = bottle.liquid().unwrap();
                let chlorine = in_grams_per_litre(liquid.available_chlorine.value) / 1000.0;
                (poured(made) * in_grams_per_millilitre(liquid.density.value), chlorine)
            }
            Bleach::Percarbonate(powder) => {
                (poured(made), in_share(powder.peroxide().unwrap().value))
            }
            Bleach::Peroxide(bottle) => {
                let [strength, density] = bottle.composition(bottle.figure.value, 0.0);
                let soda = in_grams(made.soda_ash.unwrap().value);
                (poured(made) * density + soda, strength)
            }
        };
        let (dry, wet) = (in_grams(made.oven_dry.value), in_grams(made.pulp_water.value));
        prop_assert!(close(dry + wet, in_grams(request.pulp.wet.value)));
        let all = dry + wet + in_grams(made.water.value) + mass;
        prop_assert!(close(all, in_grams(made.total_mass.value)));
        prop_assert!(close(in_grams(made.active.value), poured(made) * strength));
        prop_assert!(close(in_share(made.consistency.value), dry / all));
        let (charge, strength) = (in_share(made.charge.value), made.strength.value);
        match request.aim {
            BathAim::Charge(aim) => prop_assert!(close(charge, in_share(aim))),
            BathAim::Strength(aim) => {
                prop_assert!(close(in_grams_per_litre(strength), in_grams_per_litre(aim)));
            }
        }
        let volume = in_millilitres(made.total_volume.value);
        match request.size {
            BathSize::Consistency(aim) => {
                prop_assert!(close(in_share(made.consistency.value), in_share(aim)));
            }
            BathSize::TotalVolume(aim) => prop_assert!(close(volume, in_millilitres(aim))),
        }
        Ok(())
    });
}

#[test]
fn the_loads_add_up_to_the_plan() {
    for_plans(|request, made| {
        let n = f64::from(made.loads.count);
        prop_assert!(close(in_grams(made.loads.each.pulp) * n, in_grams(request.pulp.wet.value)));
        let water = in_millilitres(made.loads.each.water) * n;
        let planned = in_millilitres(made.water_volume.value);
        prop_assert!((water - planned).abs() < 1e-6 * (1.0 + water));
        let dose = match made.loads.each.dose {
            BleachAmount::Bottle(volume) => in_millilitres(volume),
            BleachAmount::Powder(mass) => in_grams(mass),
        };
        prop_assert!(close(dose * n, poured(made)));
        if let Some(vessel) = request.vessel {
            let each = in_millilitres(made.loads.each.volume);
            prop_assert!(each <= in_millilitres(vessel.working()) * 1.000_01);
        }
        let rounded = made.loads.measurable();
        prop_assert_eq!(rounded.len(), made.loads.count.min(100) as usize);
        Ok(())
    });
}

#[test]
fn every_result_is_finite_and_within_its_range() {
    for_plans(|_, made| {
        for result in [
            made.water.map(in_grams),
            made.active.map(in_grams),
            made.charge.map(in_share),
            made.strength.map(in_grams_per_litre),
            made.consistency.map(in_share),
            made.total_volume.map(in_millilitres),
        ] {
            prop_assert!(result.value.is_finite() && result.high.is_finite());
            prop_assert!(result.low <= result.value && result.value <= result.high);
            prop_assert!(result.low >= 0.0, "{result:?}");
        }
        Ok(())
    });
}

#[test]
fn every_remedy_is_feasible() {
    property::check(any_request(), 10, |request| {
        let remedies = plan(&request).err().map_or(Vec::new(), |refused| refused.remedies);
        for remedy in &remedies {
            prop_assert!(plan(&remedy.apply(&request)).is_ok(), "{remedy:?}");
        }
        Ok(!remedies.is_empty())
    });
}

#[test]
fn what_is_measured_out_is_inside_the_range_of_the_need() {
    for_plans(|_, made| {
        for loads in [1, made.loads.count] {
            let out = made.measured_out(loads);
            let n = f64::from(loads);
            let (poured, need) = match (out.dose.amount(), &made.dose) {
                (BleachAmount::Bottle(volume), Dose::Bottle(need)) => {
                    (in_millilitres(volume), need.map(in_millilitres))
                }
                (BleachAmount::Powder(mass), Dose::Powder(need)) => {
                    (in_grams(mass), need.map(in_grams))
                }
                other => panic!("{other:?}"),
            };
            let within = |value: f64, low: f64, high: f64| {
                low / n * (1.0 - 1e-6) <= value && value <= high / n * (1.0 + 1e-6)
            };
            prop_assert!(within(poured, need.low, need.high), "{poured} of {need:?} in {loads}");
            prop_assert!(poured > 0.0);
            let water = in_millilitres(out.water + out.dose.water());
            let need = made.water_volume.map(in_millilitres);
            let slack = in_millilitres(out.dose.water()) + 1e-6;
            prop_assert!(water >= need.low / n * (1.0 - 1e-6) - 1e-6, "{water} of {need:?}");
            prop_assert!(water <= need.high / n * (1.0 + 1e-6) + slack, "{water} of {need:?}");
            if let Some(need) = made.soda_ash.map(|mass| mass.map(in_grams)) {
                let soda = out.soda_ash.map_or(0.0, in_grams);
                prop_assert!(within(soda, need.low, need.high), "{soda} of {need:?}");
            }
        }
        Ok(())
    });
}

#[test]
fn a_bath_is_reheated_after_a_fall_that_a_thermometer_shows() {
    let below = |bleach: Bleach, at: f64| {
        let request = PlanRequest {
            temperature: Celsius::new(at).unwrap(),
            ..request(pulp(1000.0, 0.2), bleach, charge(0.02), consistency(0.05))
        };
        plan(&request).unwrap().schedule.reheat_below.get()
    };
    let powder = Bleach::Percarbonate(Powder::labelled(share(0.95), PowderBasis::Percarbonate));
    // Warm enough for the literature down to 40 °C; a bath that begins colder falls by 3 °C.
    assert_eq!(below(powder, 50.0), 45.0);
    assert_eq!(below(powder, 43.0), 40.0);
    assert_eq!(below(powder, 38.0), 35.0);
    assert_eq!(below(six_percent(), 38.0), 33.0);
}
