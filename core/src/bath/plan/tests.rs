//! Plans that come out, plans that cannot, and the laws they keep.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::{
    bath::{BOTTLE_STRENGTH, LabelBasis, PowderBasis},
    caution::CautionId,
    pulp::{CELLULOSE_DENSITY, DRYNESS, DrynessFrom},
    quantity::{
        Basis, Known, grams, grams_per_millilitre, in_grams, in_grams_per_litre, in_millilitres,
        in_share, millilitres, share,
    },
};
use proptest::prelude::*;

fn pulp(wet: f64, dryness: f64) -> WetPulp {
    let wet = Known::within(grams(wet), 0.005, Basis::Measured);
    WetPulp { wet, dryness: Known::within(share(dryness), 0.05, Basis::OwnRecord) }
}

fn request(pulp: WetPulp, bleach: Bleach, aim: Aim, size: Size) -> Request {
    Request {
        pulp,
        bleach,
        aim,
        size,
        temperature: Celsius::new(40.0).unwrap(),
        carried: Residual::None,
        squeezed: None,
        company: Vec::new(),
        on_hand: None,
        vessel: None,
        minutes: None,
        cooling: None,
    }
}

fn six_percent() -> Bleach {
    let density = Known::exact(grams_per_millilitre(1.08), Basis::Measured);
    let bottle = Bottle::labelled(6.0, LabelBasis::NaoclByMass);
    Bleach::Hypochlorite(Bottle { density: Some(density), ..bottle })
}

fn powder(peroxide: f64) -> Bleach {
    Bleach::Percarbonate(Powder::labelled(share(peroxide), PowderBasis::Peroxide))
}

fn charge(x: f64) -> Aim {
    Aim::Charge(share(x))
}

fn consistency(x: f64) -> Size {
    Size::Consistency(share(x))
}

fn strength(x: f64) -> Aim {
    Aim::Strength(grams_per_litre(x))
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
    let made = plan(&request(pulp(1000.0, 0.2), six_percent(), charge(0.02), consistency(0.05)));
    let made = made.unwrap();
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
    let made = plan(&request(pulp(1000.0, 0.2), powder(0.28), charge(0.02), consistency(0.05)));
    near(poured(&made.unwrap()), 14.29, 0.05);
}

#[test]
fn a_bath_by_strength_and_volume() {
    let size = Size::TotalVolume(millilitres(5000.0));
    let made = plan(&request(pulp(1000.0, 0.2), six_percent(), strength(2.0), size)).unwrap();
    near(in_grams_per_litre(made.strength.value), 2.0, 1e-9);
    near(in_millilitres(made.total_volume.value), 5000.0, 1e-6);
    let liquor = 5000.0 - 200.0 / CELLULOSE_DENSITY;
    near(in_grams(made.active.value), 2.0 * liquor / 1000.0, 1e-9);
}

#[test]
fn an_assumed_dryness_dominates_and_marks_the_plan() {
    let dryness = DrynessFrom::Assumed.known().unwrap();
    let pulp = WetPulp { dryness, ..pulp(1000.0, 0.2) };
    let made = plan(&request(pulp, six_percent(), charge(0.02), consistency(0.05))).unwrap();
    assert_eq!(made.charge.dominant, Some(DRYNESS));
    assert!(made.charge.assumed && made.oven_dry.assumed);
    // 15 to 25 % dry is a third more and a fifth less charge than meant.
    near(in_share(made.charge.high), 0.02 / 0.75, 0.002);
    let Dose::Bottle(volume) = made.dose else { panic!() };
    assert!(volume.assumed, "how much to pour rests on it as well");
}

#[test]
fn an_unlabelled_bottle_dominates_in_its_turn() {
    let bleach = Bleach::Hypochlorite(Bottle::unknown());
    let made = plan(&request(pulp(1000.0, 0.2), bleach, charge(0.02), consistency(0.05))).unwrap();
    assert_eq!(made.charge.dominant, Some(BOTTLE_STRENGTH));
    assert!(made.charge.assumed);
}

#[test]
fn pulp_that_is_too_wet_is_refused_with_ways_that_work() {
    let request = request(pulp(1000.0, 0.1), six_percent(), charge(0.02), consistency(0.12));
    let refused = plan(&request).unwrap_err();
    let Reason::PulpTooWet { water, room } = refused.reason else { panic!("{refused:?}") };
    near(in_grams(water), 900.0, 1e-6);
    near(in_grams(room), 100.0 / 0.12 - 100.0, 1e-6);
    let squeeze = refused.ways.iter().find_map(|way| match way {
        Way::Squeeze(dryness) => Some(in_share(*dryness)),
        _ => None,
    });
    let squeeze = squeeze.unwrap();
    assert!(squeeze > 0.12 && squeeze < 0.14, "{squeeze}");
    assert!(refused.ways.iter().any(|way| matches!(way, Way::Consistency(_))));
    for way in &refused.ways {
        assert!(plan(&way.apply(&request)).is_ok(), "{way:?}");
    }
}

#[test]
fn a_bottle_weaker_than_the_liquor_is_refused() {
    let size = Size::TotalVolume(millilitres(5000.0));
    let weak = Bleach::Hypochlorite(Bottle::labelled(1.0, LabelBasis::ChlorineByVolume));
    let request = request(pulp(500.0, 0.2), weak, strength(12.0), size);
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.reason, Reason::TooWeak { .. }));
    assert!(refused.ways.iter().any(|way| matches!(way, Way::StrongerBottle(_))));
    assert!(refused.ways.iter().any(|way| matches!(way, Way::Strength(_))));
}

#[test]
fn powder_that_will_not_dissolve_is_refused_and_warmth_or_water_helps() {
    let cold = Celsius::new(5.0).unwrap();
    // 100 g at 30 % in 233 g of water takes 28 g of percarbonate: 118 g/L.
    let request = Request {
        temperature: cold,
        ..request(pulp(250.0, 0.4), powder(0.325), charge(0.09), consistency(0.30))
    };
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.reason, Reason::WillNotDissolve { .. }), "{refused:?}");
    assert!(refused.ways.iter().any(|way| matches!(way, Way::Warm(_))), "{refused:?}");
    assert!(refused.ways.iter().any(|way| matches!(way, Way::Consistency(_))));
}

#[test]
fn too_little_on_hand_offers_what_there_is() {
    let request = Request {
        on_hand: Some(OnHand::Bottle(millilitres(40.0))),
        ..request(pulp(1000.0, 0.2), six_percent(), charge(0.02), consistency(0.05))
    };
    let refused = plan(&request).unwrap_err();
    assert!(matches!(refused.reason, Reason::NotEnough { .. }));
    let Some(Way::Use { dose: OnHand::Bottle(volume), charge }) = refused.ways.first() else {
        panic!("{refused:?}")
    };
    assert!(in_millilitres(*volume) <= 40.0 && in_millilitres(*volume) > 35.0);
    assert!(in_share(*charge) < 0.02);
}

#[test]
fn hypochlorite_and_peroxide_never_meet() {
    for (bleach, carried) in
        [(six_percent(), Residual::Peroxide), (powder(0.28), Residual::Hypochlorite)]
    {
        let request = Request {
            carried,
            ..request(pulp(1000.0, 0.2), bleach, charge(0.02), consistency(0.05))
        };
        let refused = plan(&request).unwrap_err();
        assert!(matches!(refused.reason, Reason::WouldMix { .. }));
        assert_eq!(refused.ways, vec![Way::WashFirst]);
    }
}

#[test]
fn nonsense_is_refused_by_name() {
    let good = request(pulp(1000.0, 0.2), six_percent(), charge(0.02), consistency(0.05));
    let nan = f64::NAN;
    for (bad, field) in [
        (Request { aim: charge(nan), ..good.clone() }, AIM_CHARGE),
        (Request { aim: strength(-1.0), ..good.clone() }, AIM_STRENGTH),
        (Request { size: consistency(0.0), ..good.clone() }, AIM_CONSISTENCY),
        (
            Request { size: Size::TotalVolume(millilitres(f64::INFINITY)), ..good.clone() },
            AIM_VOLUME,
        ),
        (Request { minutes: Some(nan), ..good.clone() }, MINUTES),
        (Request { pulp: pulp(nan, 0.2), ..good.clone() }, crate::pulp::WET_MASS),
        (Request { pulp: pulp(100.0, 0.0), ..good.clone() }, DRYNESS),
    ] {
        let refused = plan(&bad).unwrap_err();
        let Reason::OutOfRange(error) = refused.reason else { panic!("{refused:?}") };
        assert_eq!(error.subject, field);
    }
}

#[test]
fn an_extreme_charge_and_a_hot_bath_are_flagged() {
    let request = Request {
        temperature: Celsius::new(65.0).unwrap(),
        ..request(pulp(1000.0, 0.2), six_percent(), charge(0.15), consistency(0.05))
    };
    let ids: Vec<CautionId> =
        plan(&request).unwrap().cautions.iter().map(|caution| caution.id).collect();
    assert!(ids.contains(&CautionId::HighCharge) && ids.contains(&CautionId::HypochloriteHot));
    assert_eq!(ids.last(), Some(&CautionId::LabelFirst));
}

#[test]
fn cues_end_with_the_stop_and_reheat_when_it_has_cooled() {
    let celsius = |value| Celsius::new(value).unwrap();
    let cooling = Cooling::assumed(celsius(15.0));
    let good = request(pulp(1000.0, 0.2), powder(0.28), charge(0.02), consistency(0.05));
    let long = Request { minutes: Some(240.0), cooling: Some(cooling), ..good.clone() };
    let schedule = plan(&Request { temperature: celsius(50.0), ..long }).unwrap().schedule;
    assert!(schedule.cues.is_sorted_by(|a, b| a.minute <= b.minute));
    assert_eq!(
        schedule.cues.last().map(|cue| (cue.kind, cue.minute)),
        Some((CueKind::Stop, 240.0))
    );
    let reheat = schedule.cues.iter().find(|cue| cue.kind == CueKind::Reheat).unwrap();
    // 50 to 45 °C in a 15 °C room: 6.9 h of ln(35 / 30).
    near(reheat.minute, 6.9 * 60.0 * (35.0f64 / 30.0).ln(), 1e-6);
    let short = plan(&good).unwrap().schedule;
    assert_eq!(short.minutes, 60.0);
    assert!(short.cues.iter().any(|cue| cue.kind == CueKind::Check));
    assert!(short.cues.iter().all(|cue| cue.kind != CueKind::Reheat));
}

#[test]
fn a_blender_is_only_half_filled() {
    let vessel = Vessel { capacity: millilitres(2000.0), filled: Filled::Blender };
    let request = Request {
        vessel: Some(vessel),
        ..request(pulp(1000.0, 0.2), six_percent(), charge(0.02), consistency(0.05))
    };
    let made = plan(&request).unwrap();
    assert_eq!(made.loads.count, 4);
    assert!(in_millilitres(made.loads.each.volume) <= 1000.0);
    assert!(made.cautions.iter().any(|caution| caution.id == CautionId::BlendingBleach));
}

#[test]
fn a_range_that_reaches_into_the_impossible_is_remarked_on() {
    let dryness = DrynessFrom::Assumed.known().unwrap();
    let pulp = WetPulp { dryness, ..pulp(1000.0, 0.2) };
    let made = plan(&request(pulp, six_percent(), charge(0.02), consistency(0.18))).unwrap();
    assert!(made.remarks.iter().any(|remark| remark.key == "remark-may_be_too_wet"));
    assert!(in_grams(made.water.low) >= 0.0);
}

#[test]
fn a_bottle_that_may_be_too_weak_is_blamed_and_not_the_pulp() {
    let bottle = Bleach::Hypochlorite(Bottle::unknown());
    let size = Size::TotalVolume(millilitres(5000.0));
    let made = plan(&request(pulp(500.0, 0.3), bottle, strength(38.0), size)).unwrap();
    let keys: Vec<&str> = made.remarks.iter().map(|remark| remark.key).collect();
    assert_eq!(keys, ["remark-may_be_too_weak"]);
}

fn any_bleach() -> impl Strategy<Value = Bleach> {
    let bottle = (0usize..5, 0.5f64..12.0).prop_map(|(i, figure)| {
        let basis = LabelBasis::ALL[i];
        let scale = if basis == LabelBasis::ChlorineGramsPerLitre { 10.0 } else { 1.0 };
        Bleach::Hypochlorite(Bottle::labelled(figure * scale, basis))
    });
    prop_oneof![bottle, (0.02f64..0.325).prop_map(powder)]
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
    ) -> Request {
        let aim = if by_charge { charge(aim) } else { strength(aim * 100.0) };
        let oven_dry = wet * dryness;
        let size = if by_consistency {
            consistency(size)
        } else {
            Size::TotalVolume(millilitres((oven_dry / size).max(1.0)))
        };
        let vessel = capacity
            .map(|ml| Vessel { capacity: millilitres(ml), filled: Filled::Pot });
        let temperature = Celsius::new(celsius).unwrap();
        let plain = request(pulp(wet, dryness), bleach, aim, size);
        Request { temperature, vessel, ..plain }
    }
}

fn close(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs()).max(1e-9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(512))]

    /// Fibre, water, bleach: everything put in is in the bath, and the aim is met.
    #[test]
    fn the_balance_closes_and_the_aim_is_met(request in any_request()) {
        if let Ok(made) = plan(&request) {
            let (mass, strength) = match &request.bleach {
                Bleach::Hypochlorite(bottle) => {
                    let liquid = bottle.liquid().unwrap();
                    let density = liquid.density.value.get::<uom::si::mass_density::gram_per_cubic_centimeter>();
                    (poured(&made) * density, in_grams_per_litre(liquid.available_chlorine.value) / 1000.0)
                }
                Bleach::Percarbonate(powder) => {
                    (poured(&made), in_share(powder.peroxide().unwrap().value))
                }
            };
            let (dry, wet) = (in_grams(made.oven_dry.value), in_grams(made.pulp_water.value));
            prop_assert!(close(dry + wet, in_grams(request.pulp.wet.value)));
            let all = dry + wet + in_grams(made.water.value) + mass;
            prop_assert!(close(all, in_grams(made.total_mass.value)));
            prop_assert!(close(in_grams(made.active.value), poured(&made) * strength));
            prop_assert!(close(in_share(made.consistency.value), dry / all));
            match request.aim {
                Aim::Charge(aim) => prop_assert!(close(in_share(made.charge.value), in_share(aim))),
                Aim::Strength(aim) => prop_assert!(close(
                    in_grams_per_litre(made.strength.value),
                    in_grams_per_litre(aim)
                )),
            }
            match request.size {
                Size::Consistency(aim) => {
                    prop_assert!(close(in_share(made.consistency.value), in_share(aim)));
                }
                Size::TotalVolume(aim) => {
                    prop_assert!(close(in_millilitres(made.total_volume.value), in_millilitres(aim)));
                }
            }
        }
    }

    #[test]
    fn the_loads_together_are_the_plan(request in any_request()) {
        if let Ok(made) = plan(&request) {
            let n = f64::from(made.loads.count);
            prop_assert!(close(in_grams(made.loads.each.pulp) * n, in_grams(request.pulp.wet.value)));
            let water = in_millilitres(made.loads.each.water) * n;
            prop_assert!((water - in_millilitres(made.water_volume.value)).abs() < 1e-6 * (1.0 + water));
            let dose = match made.loads.each.dose {
                OnHand::Bottle(volume) => in_millilitres(volume),
                OnHand::Powder(mass) => in_grams(mass),
            };
            prop_assert!(close(dose * n, poured(&made)));
            if let Some(vessel) = request.vessel {
                let each = in_millilitres(made.loads.each.volume);
                prop_assert!(each <= in_millilitres(vessel.working()) * 1.000_01);
            }
            let rounded = made.loads.measurable();
            prop_assert_eq!(rounded.len(), made.loads.count.min(100) as usize);
        }
    }

    /// No answer is anything but a number inside its range, and a refusal's
    /// ways all work.
    #[test]
    fn nothing_comes_out_that_is_no_number(request in any_request()) {
        match plan(&request) {
            Ok(made) => {
                let water = made.water.map(in_grams);
                for figure in [
                    water,
                    made.active.map(in_grams),
                    made.charge.map(in_share),
                    made.strength.map(in_grams_per_litre),
                    made.consistency.map(in_share),
                    made.total_volume.map(in_millilitres),
                ] {
                    prop_assert!(figure.value.is_finite() && figure.low.is_finite());
                    prop_assert!(figure.high.is_finite());
                    prop_assert!(figure.low <= figure.value && figure.value <= figure.high);
                    prop_assert!(figure.low >= 0.0, "{:?}", figure);
                }
            }
            Err(refused) => {
                for way in &refused.ways {
                    prop_assert!(plan(&way.apply(&request)).is_ok(), "{:?} {:?}", way, refused);
                }
            }
        }
    }
}
