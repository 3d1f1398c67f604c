#![allow(clippy::unwrap_used)]

use proptest::prelude::*;

use super::*;
use crate::property;
use crate::quantity::{
    Basis, Estimate, grams, grams_per_litre, in_grams, in_grams_per_litre, in_millilitres,
    millilitres, share,
};

fn exact<Q: Copy>(value: Q) -> Estimate<Q> {
    Estimate::exact(value, Basis::Measured)
}

/// 1 kg of pulp squeezed to this dryness.
fn pulp(dryness: f64) -> SqueezedPulp {
    SqueezedPulp { wet_mass: exact(grams(1000.0)), dryness: exact(share(dryness)) }
}

/// 200 g of fibre squeezed to 20 %: 800 g of water held.
fn wash(target: f64, efficiency: Efficiency) -> Wash {
    Wash {
        pulp: pulp(0.2),
        liquor: PulpLiquor { oxidant: Some(exact(grams_per_litre(2.0))), ..PulpLiquor::default() },
        targets: Targets { oxidant: Some(grams_per_litre(target)), ..Targets::default() },
        tap: TapWater::default(),
        efficiency,
        timing: RinseTiming::default(),
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
fn a_squeeze_drier_than_possible_is_refused_beside_its_field() {
    let mut job = wash(0.002, Efficiency::assumed());
    job.pulp.dryness = exact(share(0.46));
    let error = job.rinses_of(litres(5.0)).unwrap_err();
    assert_eq!(error, WashError::SqueezeTooDry { given: share(0.46) });
    assert_eq!(error.message().field, Some(DRYNESS));
    job.pulp.dryness = exact(share(0.45));
    assert!(job.rinses_of(litres(5.0)).is_ok());
}

#[test]
fn water_of_zero_or_less_is_refused() {
    for given in [-1.0, 0.0, f64::NAN, f64::INFINITY] {
        let refused = wash(0.002, Efficiency::assumed()).rinses_of(litres(given));
        assert!(matches!(refused, Err(WashError::NoWater { .. })), "{given}");
    }
}

#[test]
fn no_wash_goes_below_the_tap_water() {
    let mut job = wash(0.001, Efficiency::ideal());
    job.tap.oxidant = Some(grams_per_litre(0.001));
    assert!(matches!(job.rinses_of(litres(5.0)), Err(WashError::BelowTap { .. })));
    let left = job.after(20, litres(5.0)).unwrap().oxidant.unwrap();
    assert!((in_grams_per_litre(left.value) - 0.001).abs() < 1e-9);
}

#[test]
fn a_bucket_too_small_to_stir_in_is_refused() {
    let refused = wash(0.002, Efficiency::assumed()).least_water(litres(2.0));
    assert!(matches!(refused, Err(WashError::BucketTooSmall { .. })));
}

#[test]
fn a_target_for_an_unknown_concentration_is_refused() {
    let mut job = wash(0.002, Efficiency::assumed());
    job.targets.alkali = Some(grams_per_litre(0.1));
    assert_eq!(
        job.rinses_of(litres(5.0)),
        Err(WashError::StrengthUnknown { solute: Solute::Alkali })
    );
}

/// Two swift rinses read as an exponent near the highest that is accepted.
#[test]
fn a_wash_takes_every_efficiency_that_was_fitted() {
    for exponent in [0.2, 0.8, 1.3, 1.49] {
        let pair = |left: f64| RinsePair {
            before: grams_per_litre(1.0),
            after: grams_per_litre((0.8_f64 / 4.8).powf(left)),
            tap: grams_per_litre(0.0),
            held: litres(0.8),
            water: litres(4.0),
        };
        for pairs in [vec![pair(exponent)], vec![pair(exponent), pair(0.9), pair(1.9)]] {
            let Ok(Some(fitted)) = efficiency::fit(&pairs) else { continue };
            let planned = wash(0.001, fitted).rinses_of(litres(4.0));
            assert!(planned.is_ok(), "{fitted:?}: {planned:?}");
        }
    }
}

#[test]
fn a_fit_to_simulated_readings_gives_the_exponent() {
    let mut pairs = Vec::new();
    let mut strength: f64 = 1.0;
    for water in [3.0, 5.0, 4.0, 6.0] {
        let next = strength * (0.8_f64 / (0.8 + water)).powf(0.7);
        pairs.push(RinsePair {
            before: grams_per_litre(strength),
            after: grams_per_litre(next),
            tap: grams_per_litre(0.0),
            held: litres(0.8),
            water: litres(water),
        });
        strength = next;
    }
    let fitted = efficiency::fit(&pairs).unwrap().unwrap();
    assert!((fitted.exponent.value - 0.7).abs() < 1e-9);
    assert_eq!((fitted.pairs, fitted.exponent.basis), (4, Basis::OwnRecord));
    // A pair that rose is unusable.
    pairs[0].after = grams_per_litre(2.0);
    assert_eq!(efficiency::fit(&pairs).unwrap().unwrap().pairs, 3);
    assert_eq!(efficiency::fit(&[]).unwrap(), None);
}

#[test]
fn alkali_and_ph_convert_both_ways() {
    for alkali in [Alkali::SodaAsh, Alkali::Lye] {
        for ph in [8.5, 9.5, 10.5, 11.0] {
            let strength = alkali.strength(ph, 20.0).unwrap();
            assert!((alkali.ph(strength, 20.0).unwrap() - ph).abs() < 1e-6, "{alkali:?} {ph}");
        }
        assert_eq!(alkali.strength(6.8, 20.0).unwrap(), grams_per_litre(0.0));
        assert!(alkali.strength(15.0, 20.0).is_err());
    }
}

#[test]
fn the_same_water_in_more_rinses_is_never_worse() {
    let cases = (0.05..0.45_f64, 0.5..60.0_f64, 0.3..1.0_f64);
    property::check(cases, 250, |(dryness, total, exponent)| {
        let efficiency = Efficiency { exponent: exact(exponent), pairs: 0 };
        let rows = compare(&pulp(dryness), litres(total), 10, efficiency).unwrap();
        prop_assert!(rows.windows(2).all(|pair| pair[1].left.value < pair[0].left.value));
        Ok(true)
    });
}

#[test]
fn solute_is_conserved_between_pulp_and_filtrate() {
    let cases = (0.05..0.45_f64, 0.5..20.0_f64, 1..12_u32, 0.0..0.5_f64);
    property::check(cases, 250, |(dryness, each, rinses, tap)| {
        let mut job = wash(1.0, Efficiency::ideal());
        job.pulp.dryness = exact(share(dryness));
        job.tap.oxidant = Some(grams_per_litre(tap));
        let held = in_grams(job.pulp.held().value) / 1000.0;
        // The filtrate of a perfect rinse has the concentration of the liquor left in the
        // pulp, and the volume of the water added.
        let at = |n| in_grams_per_litre(job.after(n, litres(each)).unwrap().oxidant.unwrap().value);
        let poured: f64 = (1..=rinses).map(|n| each * at(n)).sum();
        let entered = held * 2.0 + f64::from(rinses) * each * tap;
        prop_assert!((poured + held * at(rinses) - entered).abs() < 1e-9 * entered);
        Ok(true)
    });
}

#[test]
fn each_plan_is_best_at_what_it_is_for() {
    let cases = (0.001..1.0_f64, 6.0..40.0_f64, 0.5..1.0_f64);
    property::check(cases, 250, |(target, bucket, exponent)| {
        let efficiency = Efficiency { exponent: exact(exponent), pairs: 3 };
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
        Ok(true)
    });
}
