#![allow(clippy::unwrap_used)]

use proptest::prelude::*;

use super::*;
use crate::quantity::{grams_per_litre, in_grams_per_litre, in_millilitres, millilitres, share};

fn known(value: f64) -> Estimate<MassConcentration> {
    Estimate::exact(grams_per_litre(value), Basis::Measured)
}

/// 200 g of fibre squeezed to 20 %: 800 g of water held.
fn wash(target: f64, efficiency: Efficiency) -> Wash {
    Wash {
        lump: Lump {
            wet_mass: Estimate::exact(grams(1000.0), Basis::Measured),
            dryness: Estimate::exact(share(0.2), Basis::Measured),
        },
        liquor: Liquor { oxidant: Some(known(2.0)), ..Liquor::default() },
        targets: Targets { oxidant: Some(grams_per_litre(target)), ..Targets::default() },
        tap: Tap::default(),
        efficiency,
        pace: Pace::default(),
    }
}

fn litres(value: f64) -> crate::quantity::Volume {
    millilitres(value * 1000.0)
}

#[test]
fn a_plan_reaches_its_target_and_one_rinse_less_does_not() {
    let plan = wash(0.002, Efficiency::ideal()).rinses_of(litres(5.0)).unwrap();
    assert_eq!((plan.rinses, plan.slowest), (4, Some(Solute::Oxidant)));
    let at = |n: usize| in_grams_per_litre(plan.steps[n].left.oxidant.unwrap().value);
    assert!(at(3) <= 0.002 && at(2) > 0.002);
}

#[test]
fn a_squeeze_drier_than_hands_reach_is_refused_beside_its_field() {
    let mut job = wash(0.002, Efficiency::assumed());
    job.lump.dryness = Estimate::exact(share(0.46), Basis::Measured);
    let refusal = job.rinses_of(litres(5.0)).unwrap_err();
    assert_eq!(refusal, WashRefusal::SqueezeTooDry { given: share(0.46) });
    assert_eq!(refusal.message().field, Some(DRYNESS));
    job.lump.dryness = Estimate::exact(share(0.45), Basis::Measured);
    assert!(job.rinses_of(litres(5.0)).is_ok());
}

#[test]
fn water_less_than_nothing_is_refused() {
    for given in [-1.0, 0.0, f64::NAN, f64::INFINITY] {
        let refused = wash(0.002, Efficiency::assumed()).rinses_of(litres(given));
        assert!(matches!(refused, Err(WashRefusal::NoWater { .. })), "{given}");
    }
}

#[test]
fn the_tap_is_the_floor() {
    let mut job = wash(0.001, Efficiency::ideal());
    job.tap.oxidant = Some(grams_per_litre(0.001));
    assert!(matches!(job.rinses_of(litres(5.0)), Err(WashRefusal::BelowTap { .. })));
    let left = job.after(20, litres(5.0)).unwrap().oxidant.unwrap();
    assert!((in_grams_per_litre(left.value) - 0.001).abs() < 1e-9);
}

#[test]
fn a_bucket_too_small_to_stir_in_is_refused() {
    let refused = wash(0.002, Efficiency::assumed()).least_water(litres(2.0));
    assert!(matches!(refused, Err(WashRefusal::BucketTooSmall { .. })));
}

#[test]
fn a_target_for_an_unknown_strength_is_asked_about() {
    let mut job = wash(0.002, Efficiency::assumed());
    job.targets.alkali = Some(grams_per_litre(0.1));
    assert_eq!(
        job.rinses_of(litres(5.0)),
        Err(WashRefusal::StrengthUnknown { solute: Solute::Alkali })
    );
}

#[test]
fn readings_give_the_exponent_back() {
    let mut pairs = Vec::new();
    let mut strength: f64 = 1.0;
    for water in [3.0, 5.0, 4.0, 6.0] {
        let next = strength * (0.8_f64 / (0.8 + water)).powf(0.7);
        pairs.push(ReadingPair {
            before: grams_per_litre(strength),
            after: grams_per_litre(next),
            tap: grams_per_litre(0.0),
            held: litres(0.8),
            water: litres(water),
        });
        strength = next;
    }
    let learnt = efficiency::learn(&pairs).unwrap().unwrap();
    assert!((learnt.exponent.value - 0.7).abs() < 1e-9);
    assert_eq!((learnt.pairs, learnt.exponent.basis), (4, Basis::OwnRecord));
    // A pair that rose says nothing.
    pairs[0].after = grams_per_litre(2.0);
    assert_eq!(efficiency::learn(&pairs).unwrap().unwrap().pairs, 3);
    assert_eq!(efficiency::learn(&[]).unwrap(), None);
}

#[test]
fn alkali_and_ph_go_both_ways() {
    for alkali in [Alkali::SodaAsh, Alkali::Lye] {
        for ph in [8.5, 9.5, 10.5, 11.0] {
            let strength = alkali.strength(ph, 20.0).unwrap();
            assert!((alkali.ph(strength, 20.0).unwrap() - ph).abs() < 1e-6, "{alkali:?} {ph}");
        }
        assert_eq!(alkali.strength(6.8, 20.0).unwrap(), grams_per_litre(0.0));
        assert!(alkali.strength(15.0, 20.0).is_err());
    }
}

proptest! {
    #[test]
    fn the_same_water_in_more_rinses_is_never_worse(
        dryness in 0.05..0.45_f64,
        total in 0.5..60.0_f64,
        exponent in 0.3..1.0_f64,
    ) {
        let lump = Lump {
            wet_mass: Estimate::exact(grams(1000.0), Basis::Measured),
            dryness: Estimate::exact(share(dryness), Basis::Measured),
        };
        let efficiency =
            Efficiency { exponent: Estimate::exact(exponent, Basis::Measured), pairs: 0 };
        let rows = compare(&lump, litres(total), 10, efficiency).unwrap();
        prop_assert!(rows.windows(2).all(|pair| pair[1].left.value < pair[0].left.value));
    }

    #[test]
    fn what_went_in_is_in_the_pulp_or_in_the_filtrate(
        dryness in 0.05..0.45_f64,
        each in 0.5..20.0_f64,
        rinses in 1..12_u32,
        tap in 0.0..0.5_f64,
    ) {
        let mut job = wash(1.0, Efficiency::ideal());
        job.lump.dryness = Estimate::exact(share(dryness), Basis::Measured);
        job.tap.oxidant = Some(grams_per_litre(tap));
        let held = in_grams(job.lump.held().value) / 1000.0;
        // The filtrate of a perfect rinse is what is left in the pulp, W litres of it.
        let at = |n| in_grams_per_litre(job.after(n, litres(each)).unwrap().oxidant.unwrap().value);
        let poured: f64 = (1..=rinses).map(|n| each * at(n)).sum();
        let entered = held * 2.0 + f64::from(rinses) * each * tap;
        prop_assert!((poured + held * at(rinses) - entered).abs() < 1e-9 * entered);
    }

    #[test]
    fn each_plan_is_best_at_what_it_is_for(
        target in 0.001..1.0_f64,
        bucket in 6.0..40.0_f64,
        exponent in 0.5..1.0_f64,
    ) {
        let efficiency =
            Efficiency { exponent: Estimate::exact(exponent, Basis::Measured), pairs: 3 };
        let job = wash(target, efficiency);
        let (thrifty, quick) =
            (job.least_water(litres(bucket)).unwrap(), job.least_time(litres(bucket)).unwrap());
        prop_assert!(in_millilitres(thrifty.water) <= in_millilitres(quick.water) + 1e-6);
        prop_assert!(quick.minutes <= thrifty.minutes + 1e-9);
        for plan in [&thrifty, &quick] {
            let last = plan.steps.last().unwrap().left.oxidant.unwrap();
            prop_assert!(in_grams_per_litre(last.value) <= target * (1.0 + 1e-9));
            prop_assert!(last.low <= last.value && last.value <= last.high);
            prop_assert!(plan.fewest <= plan.rinses);
            prop_assert!(in_millilitres(plan.each) + 800.0 <= bucket * 1000.0 + 1e-3);
        }
    }
}
