#![allow(clippy::unwrap_used)]

use super::super::reading::ForecastReading;
use super::super::request::{ForecastRequest, usual_minutes};
use super::super::worth::worth;
use super::*;
use crate::bath::kinetics::ParameterDistribution;
use crate::chemistry::equilibrium::Mix;
use crate::chemistry::substance::moles_per_litre;
use crate::property;
use crate::quantity::{Basis, Estimate};

fn off(value: f64, off: f64) -> Estimate<f64> {
    Estimate::plus_minus(value, off, Basis::Measured)
}

fn request(soda: f64) -> ForecastRequest {
    ForecastRequest {
        oxidant: Oxidant::Hypochlorite,
        mix: Mix::new(38.0).unwrap().with_baking_soda(moles_per_litre(soda)),
        strength: off(0.0148, 0.001),
        undissolved: 0.0,
        ph: off(10.5, 0.2),
        celsius: off(38.0, 1.0),
        consistency: off(0.05, 0.005),
        lightness: off(68.0, 1.0),
        hue: [off(5.0, 1.5), off(20.0, 3.0)],
        drying: Some(off(0.5, 0.05)),
        cooling: None,
        events: Vec::new(),
        parameters: ParameterDistribution::literature(Oxidant::Hypochlorite),
        minutes: usual_minutes(240.0),
    }
}

fn forecast(request: ForecastRequest, readings: &[ForecastReading]) -> Forecast {
    let mut forecast = Forecast::new(request, 5).unwrap();
    forecast.extend(400);
    forecast.weigh(readings);
    forecast.extend_until_told(400, 6000);
    forecast
}

fn goal() -> AdviceGoal {
    AdviceGoal {
        lightness: Some(88.0),
        most_chain_loss: 0.9,
        celsius: Interval { low: 35.0, high: 40.0 },
        charge: 0.0148,
        most_strength: 0.05,
        until: 240.0,
    }
}

fn reading(minutes: f64, of: ForecastQuantity, value: Estimate<f64>) -> ForecastReading {
    ForecastReading { minutes, of, value }
}

#[test]
fn damage_past_what_was_allowed_stops_a_bath_before_all_else() {
    let forecast = forecast(request(0.03), &[]);
    let allowed = AdviceGoal { most_chain_loss: 0.02, lightness: Some(60.0), ..goal() };
    let told = advise(&forecast, 120.0, &allowed);
    assert_eq!(told.advice, Advice::Stop { reason: StopReason::DamageAllowed });
    assert!(told.chance_of_damage >= 0.1);
}

/// Not being able to tell is no reason to go on: the ranges alone tell of harm.
#[test]
fn damage_stops_a_bath_also_where_the_readings_contradict_the_model() {
    let mut odd = Forecast::new(request(0.03), 5).unwrap();
    odd.extend(200);
    odd.weigh(&[
        reading(30.0, ForecastQuantity::DryLightness, off(30.0, 0.5)),
        reading(40.0, ForecastQuantity::Ph, off(5.0, 0.1)),
    ]);
    assert!(!odd.support().can_tell());
    let strict = AdviceGoal { most_chain_loss: 0.02, ..goal() };
    let stop = Advice::Stop { reason: StopReason::DamageAllowed };
    assert_eq!(advise(&odd, 120.0, &strict).advice, stop);
    assert_eq!(advise(&odd, 5.0, &goal()).advice, Advice::CannotTell);
}

/// A person needs time to act: the bath is not only stopped once the risk is there.
#[test]
fn damage_is_looked_at_some_minutes_ahead() {
    let forecast = forecast(request(0.03), &[]);
    let goal = AdviceGoal { most_chain_loss: 0.3, lightness: Some(97.0), ..goal() };
    let stop = Advice::Stop { reason: StopReason::DamageAllowed };
    let first = (0..48).map(|nth| 5.0 * f64::from(nth));
    let first = first.into_iter().find(|now| advise(&forecast, *now, &goal).advice == stop);
    let told = advise(&forecast, first.unwrap(), &goal);
    assert!(told.chance_of_damage < DAMAGE_RISK, "{told:?}");
}

#[test]
fn a_colour_that_is_reached_stops_the_bath() {
    let told = advise(
        &forecast(request(0.03), &[]),
        30.0,
        &AdviceGoal { lightness: Some(66.0), ..goal() },
    );
    assert_eq!(told.advice, Advice::Stop { reason: StopReason::ColourReached });
}

#[test]
fn a_spent_bath_is_stopped_or_dosed_with_half_at_most() {
    let gone = [reading(60.0, ForecastQuantity::OxidantLeft, off(1e-4, 5e-5))];
    let forecast = forecast(request(0.06), &gone);
    let told = advise(&forecast, 60.0, &goal());
    let Advice::Redose { oxidant } = told.advice else { panic!("{told:?}") };
    assert!(oxidant <= 0.5 * goal().charge + 1e-12);
    let weak = AdviceGoal { most_strength: 0.001, ..goal() };
    let told = advise(&forecast, 60.0, &weak);
    assert_eq!(told.advice, Advice::Stop { reason: StopReason::OxidantGone });
}

#[test]
fn a_falling_ph_asks_for_soda_before_it_is_too_low() {
    let held = [reading(20.0, ForecastQuantity::Ph, off(9.3, 0.2))];
    let told = advise(&forecast(request(0.004), &held), 20.0, &goal());
    let Advice::AddSoda { before } = told.advice else { panic!("{told:?}") };
    assert!(before.low > 20.0 && before.low <= before.middle);
    // Nobody has read it: first of all a reading.
    let told = advise(&forecast(request(0.015), &[]), 20.0, &goal());
    assert!(matches!(told.advice, Advice::ReadPh { .. }), "{told:?}");
    let sour = [reading(60.0, ForecastQuantity::Ph, off(7.5, 0.3))];
    let told = advise(&forecast(request(0.004), &sour), 60.0, &goal());
    assert_eq!(told.advice, Advice::Stop { reason: StopReason::PhTooLow });
}

#[test]
fn a_cold_thermometer_is_believed_though_no_vessel_cools_so_fast() {
    let celsius = |minutes, value| reading(minutes, ForecastQuantity::Celsius, off(value, 1.0));
    let ph = reading(20.0, ForecastQuantity::CooledPh, off(10.5, 0.1));
    // The forecast is looked at from the whole minute before.
    let readings = [celsius(12.0, 38.0), ph, celsius(20.4, 31.0)];
    let told = advise(&forecast(request(0.03), &readings), 20.0, &goal());
    assert_eq!(told.advice, Advice::Reheat { to: 40.0 });
    assert_eq!(told.celsius, Some(31.0));
}

/// Soda was added and not written down: the pH rises, which no sample does.
#[test]
fn a_strip_without_oxidant_is_believed_though_the_ph_is_not() {
    let ph = |minutes, value| reading(minutes, ForecastQuantity::CooledPh, off(value, 0.1));
    let strip =
        |minutes, value| reading(minutes, ForecastQuantity::OxidantLeft, off(value, 0.25 * value));
    let readings = [ph(20.0, 9.1), strip(12.0, 0.01), ph(40.4, 10.2), strip(40.4, 0.000_03)];
    let told = advise(&forecast(request(0.03), &readings), 40.0, &goal());
    assert_eq!(told.advice, Advice::Stop { reason: StopReason::OxidantGone });
}

#[test]
fn a_cold_bath_is_to_be_warmed_within_its_range() {
    let cold = ForecastRequest { celsius: off(25.0, 1.0), ..request(0.03) };
    let told = advise(&forecast(cold, &[]), 15.0, &goal());
    assert_eq!(told.advice, Advice::Reheat { to: 40.0 });
}

#[test]
fn a_bath_under_way_goes_on_until_a_time_within_its_end() {
    let readings = [
        reading(15.0, ForecastQuantity::OxidantLeft, off(0.012, 0.002)),
        reading(15.0, ForecastQuantity::Ph, off(10.3, 0.2)),
        reading(15.0, ForecastQuantity::DryLightness, off(72.0, 1.0)),
    ];
    let forecast = forecast(request(0.05), &readings);
    let told = advise(&forecast, 15.0, &AdviceGoal { lightness: Some(74.0), ..goal() });
    let Advice::GoOn { until, .. } = told.advice else { panic!("{told:?}") };
    assert!(until.low >= 15.0 && until.low <= until.middle && until.high <= 240.0);
    assert!(told.chance_of_colour > Some(0.5));
}

#[test]
fn without_enough_samples_nothing_can_be_told() {
    let mut few = Forecast::new(request(0.03), 5).unwrap();
    few.extend(10);
    let told = advise(&few, 30.0, &goal());
    assert_eq!((told.advice, told.celsius), (Advice::CannotTell, None));
}

/// Never more than half the charge, never warmer than the range, whatever is asked.
#[test]
fn advice_keeps_its_limits() {
    let forecast = forecast(request(0.02), &[]);
    let cases = (0.0..240.0_f64, 60.0..98.0_f64, 0.01..0.9_f64, 20.0..45.0_f64, 0.01..0.05_f64);
    property::check(cases, 200, |(now, lightness, chain, low, charge)| {
        let celsius = Interval { low, high: low + 5.0 };
        let lightness = Some(lightness);
        let goal = AdviceGoal { lightness, most_chain_loss: chain, celsius, charge, ..goal() };
        let told = advise(&forecast, now, &goal);
        match told.advice {
            Advice::Redose { oxidant } => {
                proptest::prop_assert!(oxidant > 0.0 && oxidant <= 0.5 * charge);
            }
            Advice::Reheat { to } => proptest::prop_assert!(to <= celsius.high),
            Advice::GoOn { until, .. } => {
                proptest::prop_assert!(until.low >= now && until.high <= goal.until);
                proptest::prop_assert!(told.chance_of_damage < DAMAGE_RISK);
            }
            Advice::AddSoda { before } | Advice::ReadPh { before } => {
                proptest::prop_assert!(before.low >= now)
            }
            Advice::Stop { .. } | Advice::ChangeWay | Advice::CannotTell => {}
        }
        Ok(true)
    });
}

/// The linear worth against what a reading of each kind really leaves of the variance.
#[test]
fn the_telling_reading_narrows_most() {
    let mut forecast = forecast(request(0.01), &[]);
    forecast.extend(1600);
    let (now, until) = (40.0, 240.0);
    let variance = |forecast: &Forecast| {
        let values = forecast.values(ForecastQuantity::DryLightness, until);
        let mean: f64 = values.iter().map(|(value, weight)| value * weight).sum();
        values.iter().map(|(value, weight)| weight * (value - mean).powi(2)).sum::<f64>()
    };
    let before = variance(&forecast);
    let mut left = |kind: ReadingKind| {
        let (of, error) = kind.reads();
        let reads: Vec<f64> =
            forecast.values(of, now).iter().step_by(80).map(|(value, _)| *value).collect();
        let mut sum = 0.0;
        for value in &reads {
            let half = if of == ForecastQuantity::OxidantLeft {
                1.96 * error * value
            } else {
                1.96 * error
            };
            forecast.weigh(&[reading(now, of, off(*value, half))]);
            sum += variance(&forecast);
            forecast.weigh(&[]);
        }
        sum / reads.len() as f64 / before
    };
    let dry = left(ReadingKind::DryPhoto);
    let warm = left(ReadingKind::Thermometer);
    assert!(dry < 0.7 && warm > 0.85, "{dry} {warm}");
    let worth = |kind| worth(&forecast, kind, now, until);
    assert!((1.0 - worth(ReadingKind::DryPhoto) - dry).abs() < 0.25);
    assert!(worth(ReadingKind::Thermometer) < 0.1);
    assert!(most_telling(&forecast, now, until).is_some());
}
