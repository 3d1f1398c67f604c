//! What is measured out for an advice, and what warms a bath.

use super::*;
use crate::{
    derive::{AdvisedDose, BathWarmth, SodaPoint, advised_redose, advised_soda},
    forecast::Band,
    quantity::{in_grams, in_millilitres},
};

#[test]
fn warmth_is_that_of_the_bath_s_own_readings_and_help_stays_within_the_range() {
    let mut log = Log::with_bath();
    log.at(1.0, vessel(BATH));
    let at = |log: &Log, celsius: f64| {
        BathWarmth::of(&log.book(), BATH, &log.forecast(40.0), celsius).unwrap()
    };
    let assumed = at(&log, 37.0);
    assert_eq!(assumed.pairs, 0);
    log.read(5.0, ReadingOf::Celsius, exact(38.0));
    log.read(35.0, ReadingOf::Celsius, exact(35.0));
    let own = at(&log, 35.0);
    assert_eq!(own.pairs, 1);
    let (slow, fast) = (assumed.leaves_range().unwrap(), own.leaves_range().unwrap());
    assert!(fast.value < slow.value, "{slow:?} {fast:?}");
    let cold = at(&log, 30.0);
    let hot = cold.hot_water(Celsius::new(90.0).unwrap()).unwrap().unwrap();
    assert!(hot.reaches <= cold.range.high && in_grams(hot.hot) > 100.0);
    assert!(hot.strength_factor < 1.0);
    let bath = cold.water_bath(grams(20_000.0), Celsius::new(55.0).unwrap()).unwrap();
    assert!(bath.minutes.value > 1.0 && bath.take_out_before.is_some());
}

fn band(value: f64, half: f64) -> Band {
    Band {
        minutes: 0.0,
        low_80: value - half,
        low_50: value - 0.5 * half,
        median: value,
        high_50: value + 0.5 * half,
        high_80: value + half,
    }
}

fn bottle_ml(dose: &AdvisedDose) -> f64 {
    match dose.measured.dose.amount() {
        crate::bath::BleachAmount::Bottle(volume) => in_millilitres(volume),
        crate::bath::BleachAmount::Powder(mass) => in_grams(mass),
    }
}

#[test]
fn a_redose_is_at_most_half_of_what_was_measured_out_first() {
    let log = Log::with_bath();
    let (book, forecast) = (log.book(), log.forecast(50.0));
    let Amount::VolumeMl(first) = planned().product_amount else { panic!() };
    let charge = forecast.request.strength.value;
    let half = advised_redose(&book, BATH, &forecast, 0.5 * charge, minute(50.0)).unwrap();
    assert_eq!(half.what, Additive::Hypochlorite);
    let ml = bottle_ml(&half);
    assert!(ml <= 0.5 * first.value && ml > 0.4 * first.value, "{ml} of {first:?}");
    let little = advised_redose(&book, BATH, &forecast, 0.2 * charge, minute(50.0)).unwrap();
    assert!(bottle_ml(&little) < 0.21 * first.value);
    let all = advised_redose(&book, BATH, &forecast, 5.0 * charge, minute(50.0)).unwrap();
    assert!(bottle_ml(&all) <= 0.5 * first.value, "whatever is asked");
}

/// Soda as advised, solved back: the falling pH comes to the aim, and nothing passes the window.
#[test]
fn advised_soda_lifts_the_ph_within_its_window() {
    let log = Log::with_bath();
    let (book, forecast) = (log.book(), log.forecast(20.0));
    let cases = (8.6..10.2_f64, 0.2..1.2_f64, 0.001..0.014_f64, 0.1..0.4_f64);
    property::check(cases, 150, |(now, fall, oxidant, half)| {
        let at = |ph: f64| SodaPoint { ph: band(ph, half), oxidant: band(oxidant, 0.1 * oxidant) };
        let Some(dose) = advised_soda(&book, BATH, &forecast, [at(now), at(now - fall)]) else {
            return Ok(false);
        };
        let g_per_l = bottle_ml(&dose) / forecast.liquor_ml.unwrap().value * 1000.0;
        let soda = crate::chemistry::substance::SODIUM_CARBONATE
            .molar(crate::quantity::grams_per_litre(g_per_l));
        let read = |ph: f64| {
            let mix = forecast
                .request
                .mix
                .with_bleach(moles_per_litre(oxidant))
                .brought_to(25.0)
                .unwrap();
            let base = mix.hidden_base(ph).unwrap();
            mix.with_strong_acid(-base).with_soda_ash(soda).solve().unwrap().ph()
        };
        let high = read(now + half);
        proptest::prop_assert!(high < 11.05, "{high}");
        let later = read(now - fall);
        proptest::prop_assert!(later > 9.4, "{later} by {g_per_l} g/L");
        Ok(true)
    });
}
