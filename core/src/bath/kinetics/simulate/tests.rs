#![allow(clippy::unwrap_used)]

use super::super::law::second_order_left;
use super::super::parameter::Parameter;
use super::*;
use crate::bath::heat::{
    BathCover, CoolingBath, HeatVessel, RoomAir, VesselMaterial, VesselShape, heat_capacity,
};
use crate::chemistry::decay::rate_constant;
use crate::chemistry::substance::moles_per_litre;
use crate::property;
use crate::quantity::{grams, millilitres};

const SODA: f64 = 0.008;
const KEPT_WARM: LossFactors<f64> = LossFactors::ONE;

fn model() -> BathModel {
    BathModel::new(ConstantsTable::new(), CoolingTable::none())
}

/// Bleach, soda that the pulp carried over, and lye for a pH at 25 °C.
fn chlorine_mix(molar: f64, ph: f64, celsius: f64) -> Mix {
    let mix = Mix::new(25.0)
        .unwrap()
        .with_bleach(moles_per_litre(molar))
        .with_baking_soda(moles_per_litre(SODA));
    let base = mix.hidden_base(ph).unwrap();
    mix.with_strong_acid(-base).brought_to(celsius).unwrap()
}

/// 2 % available chlorine on fibre at 5 %: 15 mmol/L.
fn chlorine_bath(ph: f64, celsius: f64) -> BathStart {
    BathStart {
        oxidant: Oxidant::Hypochlorite,
        mix: chlorine_mix(0.015, ph, celsius),
        undissolved: 0.0,
        powder_base: 0.0,
        fibre: 0.05 / 0.95,
        celsius,
    }
}

/// 3 % H2O2 on fibre at 5 %, as percarbonate that dissolves: 46 mmol/L.
fn powder_bath(celsius: f64) -> BathStart {
    let mix = Mix::new(celsius).unwrap().with_baking_soda(moles_per_litre(0.002));
    BathStart {
        oxidant: Oxidant::Percarbonate,
        mix,
        undissolved: 0.046 / 1.5,
        powder_base: 0.0,
        fibre: 0.05 / 0.95,
        celsius,
    }
}

fn typical(oxidant: Oxidant) -> ParameterValues {
    ParameterValues::typical(oxidant)
}

fn course(start: &BathStart, minutes: &[f64]) -> Vec<BathPoint> {
    model().simulate(start, &typical(start.oxidant), KEPT_WARM, &[], minutes).unwrap()
}

/// A point of the parameters' ranges for each row.
fn points() -> impl proptest::strategy::Strategy<Value = Vec<f64>> {
    proptest::collection::vec(0.0..1.0_f64, 20)
}

const HOURS: [f64; 9] = [0.0, 5.0, 15.0, 30.0, 60.0, 90.0, 120.0, 180.0, 240.0];

#[test]
fn a_bath_only_goes_one_way() {
    let baths = [chlorine_bath(10.5, 38.0), powder_bath(50.0)];
    for start in baths {
        property::check_cases(60, points(), 60, |points| {
            let values = ParameterValues::drawn(start.oxidant, |row| points[row]);
            let points = model().simulate(&start, &values, KEPT_WARM, &[], &HOURS).unwrap();
            for pair in points.windows(2) {
                let (before, after) = (&pair[0], &pair[1]);
                // Powder that dissolves raises the oxidant at first.
                if before.minutes > 0.0 && start.undissolved == 0.0 {
                    proptest::prop_assert!(after.oxidant <= before.oxidant * 1.001);
                }
                proptest::prop_assert!(after.colour <= before.colour + 1e-6);
                proptest::prop_assert!(after.scissions >= before.scissions - 1e-9);
                proptest::prop_assert!((0.0..14.0).contains(&after.ph));
            }
            let floor = values.get(Parameter::ColourFloor);
            proptest::prop_assert!(points.iter().all(|at| at.colour >= floor - 1e-3));
            Ok(true)
        });
    }
}

/// The tolerances cost nothing that a band shows.
#[test]
fn a_hundredth_of_the_tolerance_changes_nothing() {
    let fine = Tolerance { relative: 1e-7, absolute: 1e-10 };
    for start in [chlorine_bath(10.5, 38.0), chlorine_bath(9.0, 55.0), powder_bath(50.0)] {
        property::check_cases(30, points(), 30, |points| {
            let values = ParameterValues::drawn(start.oxidant, |row| points[row]);
            let run = |tolerance| {
                let model = BathModel { tolerance, ..model() };
                model.simulate(&start, &values, KEPT_WARM, &[], &HOURS).unwrap()
            };
            for (used, exact) in run(TOLERANCE).iter().zip(run(fine)) {
                let start = 0.05;
                proptest::prop_assert!((used.oxidant - exact.oxidant).abs() < 0.002 * start);
                proptest::prop_assert!((used.colour - exact.colour).abs() < 0.002);
                proptest::prop_assert!((used.ph - exact.ph).abs() < 0.01);
                let damage = (used.scissions - exact.scissions).abs();
                proptest::prop_assert!(damage < 0.01 * exact.scissions + 1e-8);
            }
            Ok(true)
        });
    }
}

#[test]
fn without_fibre_and_metals_the_oxidant_decays_by_the_published_law() {
    let start =
        BathStart { fibre: 0.0, mix: chlorine_mix(1.0, 12.9, 50.0), ..chlorine_bath(12.0, 50.0) };
    let values = typical(Oxidant::Hypochlorite).with(Parameter::MetalLoss, 0.0);
    let minutes = [0.0, 1440.0, 10_080.0];
    let points = model().simulate(&start, &values, KEPT_WARM, &[], &minutes).unwrap();
    let strength = start.mix.solve().unwrap().ionic_strength();
    // mol/kg and mol/L differ by the density of water alone.
    let kilograms = start.mix.constants().kilograms_per_litre;
    for at in &points[1..] {
        let k = rate_constant(50.0, strength);
        let start = points[0].oxidant / kilograms;
        let left = second_order_left(k, start, 60.0 * at.minutes);
        let found = at.oxidant / points[0].oxidant;
        assert!((found / left - 1.0).abs() < 0.01, "{found} is not {left}");
    }
}

/// Rows 1.33 and 1.41 of the reference: nothing at pH 9.5 and above, serious below 8.5.
#[test]
fn own_decay_is_negligible_above_ph_9_5_and_serious_below_8_5() {
    let lost = |ph: f64| {
        let start = BathStart {
            fibre: 0.0,
            mix: chlorine_mix(0.06, ph, 50.0),
            ..chlorine_bath(10.0, 50.0)
        };
        let values = typical(Oxidant::Hypochlorite).with(Parameter::MetalLoss, 0.0);
        let at = model().simulate(&start, &values, KEPT_WARM, &[], &[0.0, 90.0]).unwrap();
        1.0 - at[1].oxidant / at[0].oxidant
    };
    assert!(lost(12.0) < 0.002 && lost(10.0) < 0.002 && lost(9.8) < 0.005);
    assert!(lost(8.0) > 0.03, "{}", lost(8.0));
}

/// Conservation handbook, rows 2.1 and 1.2: peroxide, then hypochlorite at pH 9, 4.5, 7.
#[test]
fn damage_ranks_as_published_over_all_parameters() {
    property::check_cases(60, points(), 60, |points| {
        // Buffered, so that the bath stays where it is; the same oxidant in all.
        let damage = |ph: f64| {
            let mix = Mix::new(25.0)
                .unwrap()
                .with_bleach(moles_per_litre(0.01))
                .with_soda_ash(moles_per_litre(0.2));
            let base = mix.hidden_base(ph).unwrap();
            let start = BathStart {
                fibre: 0.0,
                mix: mix.with_strong_acid(-base),
                ..chlorine_bath(10.0, 25.0)
            };
            let values = ParameterValues::drawn(Oxidant::Hypochlorite, |row| points[row])
                .with(Parameter::MetalLoss, 0.0)
                .with(Parameter::DecayFactor, 1e-6);
            model().simulate(&start, &values, KEPT_WARM, &[], &[10.0]).unwrap()[0].scissions
        };
        let peroxide = {
            let values = ParameterValues::drawn(Oxidant::Peroxide, |row| points[row]);
            let mix = Mix::new(25.0)
                .unwrap()
                .with_peroxide(moles_per_litre(0.01))
                .with_soda_ash(moles_per_litre(0.01));
            let start = BathStart {
                oxidant: Oxidant::Peroxide,
                mix,
                undissolved: 0.0,
                powder_base: 0.0,
                fibre: 0.05,
                celsius: 25.0,
            };
            model().simulate(&start, &values, KEPT_WARM, &[], &[10.0]).unwrap()[0].scissions
        };
        let (alkaline, mild, acid, neutral) = (damage(10.5), damage(9.0), damage(4.5), damage(7.0));
        proptest::prop_assert!(peroxide < mild && alkaline < mild, "{peroxide} {alkaline} {mild}");
        proptest::prop_assert!(mild < acid && acid < neutral, "{mild} {acid} {neutral}");
        Ok(true)
    });
}

/// Row 1.2: unbuffered, the pH falls from 10 towards 3.4.
#[test]
fn an_unbuffered_bath_turns_acid_as_far_as_published_and_no_further() {
    let mix = Mix::new(30.0).unwrap().with_bleach(moles_per_litre(0.03));
    let start = BathStart { mix, ..chlorine_bath(10.0, 30.0) };
    let points = course(&start, &[0.0, 60.0, 240.0, 1440.0, 6000.0]);
    assert!(points[0].ph > 9.5, "{points:?}");
    assert!(points[4].ph < 6.0 && points[4].ph > 3.0, "{points:?}");
}

/// Row 1.23: a fast phase, then a slow one; selectivity falls as the stage goes on.
#[test]
fn bleaching_slows_down_and_its_selectivity_falls() {
    for start in [chlorine_bath(10.5, 38.0), powder_bath(50.0)] {
        let at = course(&start, &[0.0, 10.0, 30.0, 60.0, 120.0, 240.0]);
        let gain = |from: usize, to: usize| at[from].colour - at[to].colour;
        let cost = |from: usize, to: usize| at[to].scissions - at[from].scissions;
        let (early, late) = (gain(1, 2) / 20.0, gain(4, 5) / 120.0);
        assert!(early > 4.0 * late, "{early} {late}");
        assert!(gain(1, 2) / cost(1, 2) > 2.0 * gain(3, 4) / cost(3, 4));
        assert!(gain(3, 4) / cost(3, 4) > gain(4, 5) / cost(4, 5));
    }
}

/// Row 4.2: consumption against loss of colour does not depend on the temperature.
#[test]
fn colour_against_consumption_is_the_same_at_another_temperature() {
    let curve = |celsius: f64| {
        let minutes: Vec<f64> = (0..400).map(f64::from).collect();
        course(&chlorine_bath(10.8, celsius), &minutes)
    };
    let (cool, warm) = (curve(30.0), curve(42.0));
    for at in [20, 60, 120, 240] {
        let same = warm.iter().find(|point| point.oxidant <= cool[at].oxidant).unwrap();
        assert!((same.colour - cool[at].colour).abs() < 0.03, "{:?} {same:?}", cool[at]);
    }
}

/// Rows 1.24 and 1.26, from handbooks: at 35-45 °C in 1 to 3 h, with 0.3 to 0.6 kg of NaOH for
/// each kg of available chlorine, from about pH 11 to 9-9.5, never below 9.
#[test]
fn the_usual_lye_holds_the_ph_of_a_usual_stage() {
    // The range of the lye and the range of the acid formed belong together.
    for (share, yields, lowest) in [(0.3, 0.45, 9.0), (0.45, 0.7, 8.5), (0.6, 1.0, 8.5)] {
        let lye = 0.015 * share * 70.906 / 39.997;
        let mix = Mix::new(40.0)
            .unwrap()
            .with_bleach(moles_per_litre(0.015))
            .with_lye(moles_per_litre(lye));
        let start = BathStart { mix, ..chlorine_bath(11.0, 40.0) };
        let values = typical(Oxidant::Hypochlorite).with(Parameter::AcidYield, yields);
        let at = model().simulate(&start, &values, KEPT_WARM, &[], &[0.0, 60.0, 180.0]).unwrap();
        assert!((11.0..12.2).contains(&at[0].ph), "{at:?}");
        assert!((lowest..11.9).contains(&at[2].ph), "{at:?}");
        assert!((0.02..0.7).contains(&(at[2].oxidant / at[0].oxidant)), "{at:?}");
    }
}

#[test]
fn warmth_speeds_up_all_and_acidity_the_damage() {
    let after = |ph, celsius| course(&chlorine_bath(ph, celsius), &[60.0])[0];
    let (cool, warm, low) = (after(10.5, 30.0), after(10.5, 45.0), after(8.8, 30.0));
    assert!(warm.oxidant < cool.oxidant && warm.colour < cool.colour);
    assert!(warm.scissions > 2.0 * cool.scissions);
    assert!(low.scissions > 2.0 * cool.scissions);
}

#[test]
fn powder_dissolves_and_brings_its_soda() {
    let start = powder_bath(50.0);
    let at = course(&start, &[0.0, 2.0, 10.0, 30.0, 240.0]);
    assert!(at[0].oxidant < 1e-9 && at[1].oxidant > 0.01, "{at:?}");
    assert!(at[2].oxidant > 0.03 && at[2].oxidant < 0.046, "{at:?}");
    assert!((9.8..10.8).contains(&at[3].ph) && at[4].ph < at[3].ph, "{at:?}");
    // The same from a bath that begins dissolved, once all has dissolved.
    let whole = start.mix.with_percarbonate(moles_per_litre(start.undissolved));
    let dissolved = BathStart { mix: whole, undissolved: 0.0, ..start };
    let other = course(&dissolved, &[240.0])[0];
    assert!((other.ph - at[4].ph).abs() < 0.05);
}

#[test]
fn water_thins_and_an_addition_adds() {
    let start = chlorine_bath(10.5, 38.0);
    let values = typical(Oxidant::Hypochlorite);
    let water = Mix::new(38.0).unwrap();
    let run = |event: BathEvent| {
        model().simulate(&start, &values, KEPT_WARM, &[event], &[29.999, 30.0]).unwrap()
    };
    let thinned = run(BathEvent { minutes: 30.0, share: 0.8, added: water, reaches: Some(38.0) });
    assert!((thinned[1].oxidant / thinned[0].oxidant - 0.8).abs() < 1e-3);
    assert!((thinned[1].colour - thinned[0].colour).abs() < 1e-4);
    let more = water.with_bleach(moles_per_litre(0.005)).with_soda_ash(moles_per_litre(0.005));
    let dosed = run(BathEvent { minutes: 30.0, share: 1.0, added: more, reaches: Some(38.0) });
    assert!((dosed[1].oxidant - dosed[0].oxidant - 0.005).abs() < 1e-5, "{dosed:?}");
    assert!(dosed[1].ph > dosed[0].ph + 0.2);
    let warmed = run(BathEvent {
        minutes: 30.0,
        share: 1.0,
        added: Mix::new(45.0).unwrap(),
        reaches: Some(45.0),
    });
    assert!((warmed[1].celsius - 45.0).abs() < 1e-9 && (warmed[0].celsius - 38.0).abs() < 1e-6);
    let other = water.with_peroxide(moles_per_litre(0.01));
    let event = BathEvent { minutes: 30.0, share: 1.0, added: other, reaches: None };
    assert!(model().simulate(&start, &values, KEPT_WARM, &[event], &[60.0]).is_err());
}

#[test]
fn the_bath_cools_as_its_vessel_does() {
    let cooling = CoolingBath {
        capacity: heat_capacity(grams(1000.0), grams(19_000.0)),
        vessel: HeatVessel::preset(
            millilitres(20_000.0),
            VesselShape::Bucket,
            VesselMaterial::Plastic,
            BathCover::Open,
        ),
        air: RoomAir::still(18.0),
        factors: LossFactors::assumed(BathCover::Open),
    };
    let model = BathModel::new(ConstantsTable::new(), CoolingTable::new(&cooling));
    let start = chlorine_bath(10.5, 45.0);
    let values = typical(Oxidant::Hypochlorite);
    let at = model.simulate(&start, &values, KEPT_WARM, &[], &[60.0, 240.0]).unwrap();
    for point in at {
        let start = crate::quantity::Celsius::new(45.0).unwrap();
        let exact = cooling.after(start, point.minutes / 60.0).value;
        assert!((point.celsius - exact).abs() < 0.02, "{point:?} {exact}");
    }
}

/// Every pH on the way is the full solver's for what is in the bath then.
#[test]
fn ph_on_the_way_is_that_of_the_full_solver() {
    let start = chlorine_bath(10.5, 38.0);
    let values = typical(Oxidant::Hypochlorite).with(Parameter::AcidYield, 0.6);
    let at = model().simulate(&start, &values, KEPT_WARM, &[], &HOURS).unwrap();
    for point in &at {
        let spent = at[0].oxidant - point.oxidant;
        // Acid by the bath's own account: from the oxidant spent, less its waste.
        let exact = |yields: f64| {
            Mix::new(38.0)
                .unwrap()
                .with_bleach(moles_per_litre(point.oxidant))
                .with_salt(moles_per_litre(spent))
                .with_baking_soda(moles_per_litre(SODA))
                .with_acetic_acid(moles_per_litre(yields * spent))
        };
        let lye = start.mix.hidden_base(at[0].ph).unwrap();
        assert!(lye.value.abs() < 1e-6, "the start explains its own pH");
        let fresh = Mix::new(38.0)
            .unwrap()
            .with_bleach(moles_per_litre(at[0].oxidant))
            .with_baking_soda(moles_per_litre(SODA))
            .hidden_base(at[0].ph)
            .unwrap();
        let with = |yields| exact(yields).with_strong_acid(-fresh).solve().unwrap().ph();
        let (most_acid, least_acid) = (with(0.61), with(0.55));
        let range = most_acid - 0.01..=least_acid + 0.01;
        assert!(range.contains(&point.ph), "{point:?} is not in {range:?}");
    }
}

/// Soda in the powder's filler counts as it dissolves, whatever was dissolved at the start.
#[test]
fn what_the_powder_brings_besides_comes_with_it() {
    let start = BathStart { powder_base: -0.3, ..powder_bath(50.0) };
    let at = course(&start, &[0.0, 60.0]);
    assert!(at[0].ph > 7.5, "{at:?}");
    assert!(at[1].ph < course(&powder_bath(50.0), &[60.0])[0].ph - 0.1, "{at:?}");
}
