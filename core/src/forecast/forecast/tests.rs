#![allow(clippy::unwrap_used)]

use super::super::band::quantiles;
use super::super::request::{DISSOLVING_MINUTES, usual_minutes};
use super::*;
use crate::bath::LossFactors;
use crate::bath::kinetics::{NormalCoordinates, ParameterDistribution};
use crate::bath::{
    BathCover, CoolingBath, HeatVessel, RoomAir, VesselMaterial, VesselShape, heat_capacity,
};
use crate::chemistry::equilibrium::Mix;
use crate::chemistry::substance::moles_per_litre;
use crate::quantity::{Basis, Estimate, grams, millilitres};
use ForecastQuantity::*;

fn known(value: f64, part: f64) -> Estimate<f64> {
    Estimate::within(value, part, Basis::Assumed)
}

fn off(value: f64, off: f64) -> Estimate<f64> {
    Estimate::plus_minus(value, off, Basis::Assumed)
}

fn bucket() -> CoolingBath {
    CoolingBath {
        capacity: heat_capacity(grams(500.0), grams(9500.0)),
        vessel: HeatVessel::preset(
            millilitres(10_000.0),
            VesselShape::Bucket,
            VesselMaterial::Plastic,
            BathCover::Lid,
        ),
        air: RoomAir::still(20.0),
        factors: LossFactors::assumed(BathCover::Lid),
    }
}

/// 2 % available chlorine on fibre at 5 %, 38 °C, pH 10.5 at that temperature.
fn chlorine() -> ForecastRequest {
    let mix = Mix::new(38.0).unwrap().with_baking_soda(moles_per_litre(0.006));
    ForecastRequest {
        oxidant: Oxidant::Hypochlorite,
        mix,
        strength: known(0.0148, 0.15),
        undissolved: 0.0,
        ph: off(10.5, 0.3),
        celsius: off(38.0, 2.0),
        consistency: known(0.05, 0.15),
        lightness: off(68.0, 2.0),
        hue: [off(5.0, 1.5), off(20.0, 3.0)],
        drying: Some(known(0.5, 0.2)),
        cooling: Some(bucket()),
        events: Vec::new(),
        parameters: ParameterDistribution::literature(Oxidant::Hypochlorite),
        minutes: usual_minutes(240.0),
    }
}

/// 3 % H2O2 as percarbonate on fibre at 5 %, 50 °C.
fn percarbonate() -> ForecastRequest {
    let mix = Mix::new(50.0).unwrap().with_baking_soda(moles_per_litre(0.003));
    let mut minutes = usual_minutes(240.0);
    minutes.splice(1..1, DISSOLVING_MINUTES);
    ForecastRequest {
        oxidant: Oxidant::Percarbonate,
        minutes,
        parameters: ParameterDistribution::literature(Oxidant::Percarbonate),
        mix,
        strength: known(0.0464, 0.15),
        undissolved: 1.0,
        ph: off(10.2, 0.2),
        celsius: off(50.0, 2.0),
        ..chlorine()
    }
}

fn forecast(request: ForecastRequest, count: u32) -> Forecast {
    let mut forecast = Forecast::new(request, 20).unwrap();
    forecast.extend(count);
    forecast
}

fn reading(minutes: f64, of: ForecastQuantity, value: Estimate<f64>) -> ForecastReading {
    ForecastReading { minutes, of, value }
}

fn last(forecast: &Forecast, of: ForecastQuantity) -> Band {
    *forecast.bands(of).last().unwrap()
}

#[test]
fn every_draw_of_an_ordinary_bath_is_simulated_and_banded() {
    for request in [chlorine(), percarbonate()] {
        let times = request.minutes.len();
        let forecast = forecast(request, 200);
        let support = forecast.support();
        assert!(support.can_tell() && support.refused == 0 && support.samples == 200);
        for of in ForecastQuantity::ALL {
            let bands = forecast.bands(of);
            assert_eq!(bands.len(), times);
            for band in bands {
                let ends = [band.low_80, band.low_50, band.median, band.high_50, band.high_80];
                assert!(ends.windows(2).all(|pair| pair[0] <= pair[1]), "{of:?} {band:?}");
            }
        }
    }
}

#[test]
fn parts_make_the_same_forecast_as_the_whole_and_a_seed_the_same_again() {
    let mut parts = Forecast::new(chlorine(), 20).unwrap();
    for count in [10, 25, 65] {
        parts.extend(count);
    }
    let whole = forecast(chlorine(), 100);
    assert_eq!(parts.bands(DryLightness), whole.bands(DryLightness));
    let mut other = Forecast::new(chlorine(), 21).unwrap();
    other.extend(100);
    assert_ne!(other.bands(DryLightness), whole.bands(DryLightness));
}

/// The quantiles settle: the first 100 are near those of many.
#[test]
fn a_hundred_samples_are_near_a_thousand() {
    let (few, many) = (forecast(chlorine(), 100), forecast(chlorine(), 1000));
    for of in [DryLightness, Ph, Celsius] {
        for (few, many) in few.bands(of).iter().zip(many.bands(of)) {
            let width = many.width().max(0.1);
            assert!((few.median - many.median).abs() < 0.2 * width, "{of:?} {few:?} {many:?}");
            assert!((few.width() / width - 1.0).abs() < 0.35, "{of:?} {few:?} {many:?}");
        }
    }
}

#[test]
fn bands_are_wide_where_nothing_was_measured() {
    let forecast = forecast(chlorine(), 300);
    assert!(last(&forecast, DryLightness).width() > 4.0);
    assert!(last(&forecast, Ph).width() > 1.0);
}

/// Readings of a sample's own course bring the band to it, and narrow it.
#[test]
fn readings_narrow_the_band_around_the_truth() {
    let truth = {
        let mut hidden = Forecast::new(chlorine(), 99).unwrap();
        hidden.extend(5);
        hidden
    };
    let mut forecast = forecast(chlorine(), 600);
    for nth in 0..5 {
        let at = |of, minutes| truth.samples[nth].at(of, minutes);
        forecast.weigh(&[]);
        let before = last(&forecast, DryLightness);
        let readings = [
            reading(30.0, OxidantLeft, known(at(OxidantLeft, 30.0), 0.3)),
            reading(30.0, Ph, off(at(Ph, 30.0), 0.3)),
            reading(60.0, WetLightness, off(at(WetLightness, 60.0), 1.5)),
        ];
        forecast.weigh(&readings);
        let support = forecast.extend_until_told(300, 6000);
        assert!(support.can_tell(), "{nth}: {support:?}");
        let after = last(&forecast, DryLightness);
        assert!(after.width() < before.width(), "{nth}: {before:?} {after:?}");
        let end = at(DryLightness, 240.0);
        let margin = after.width();
        assert!(after.low_80 - margin < end && end < after.high_80 + margin, "{nth} {after:?}");
        forecast.weigh(&[]);
        let again = last(&forecast, DryLightness);
        assert!((again.median - before.median).abs() < 0.5, "readings can be taken back");
    }
}

/// Draws that are crowded where readings agree give the bands of even draws, sooner.
#[test]
fn fitted_draws_give_the_bands_of_even_ones_with_fewer_samples() {
    let readings = [
        reading(30.0, OxidantLeft, known(0.006, 0.3)),
        reading(30.0, CooledPh, off(10.2, 0.3)),
        reading(45.0, WetLightness, off(63.0, 1.5)),
    ];
    let mut even = forecast(chlorine(), 500);
    even.weigh(&readings);
    even.extend(7500);
    let mut fitted = forecast(chlorine(), 500);
    fitted.weigh(&readings);
    for _ in 0..4 {
        fitted.refit();
        fitted.extend(250);
    }
    let (many, few) = (even.support(), fitted.support());
    let share = |support: ForecastSupport| support.effective / support.samples as f64;
    assert!(many.can_tell() && few.can_tell());
    assert!(share(few) > 2.0 * share(many), "{many:?} {few:?}");
    for of in [DryLightness, OxidantLeft, CooledPh, ChainLoss] {
        let (one, other) = (last(&even, of), last(&fitted, of));
        let width = one.width().max(1e-4);
        assert!((one.median - other.median).abs() < 0.35 * width, "{of:?} {one:?} {other:?}");
        assert!((other.width() / width - 1.0).abs() < 0.5, "{of:?} {one:?} {other:?}");
    }
}

/// The 80 % band holds about 80 % of courses drawn alike, with and without readings.
#[test]
fn bands_hold_the_share_they_name() {
    let mut hidden = Forecast::new(chlorine(), 1234).unwrap();
    hidden.extend(60);
    let mut forecast = forecast(chlorine(), 1200);
    let mut held = [0_u32; 2];
    let mut told = 0_u32;
    for truth in &hidden.samples {
        let at = |of, minutes| truth.at(of, minutes);
        for (with, readings) in [
            vec![],
            vec![
                reading(30.0, Ph, off(at(Ph, 30.0), 0.4)),
                reading(40.0, OxidantLeft, known(at(OxidantLeft, 40.0), 0.5)),
            ],
        ]
        .into_iter()
        .enumerate()
        {
            forecast.weigh(&readings);
            if forecast.support().can_tell() {
                told += 1;
                let band = last(&forecast, DryLightness);
                held[with] +=
                    u32::from((band.low_80..=band.high_80).contains(&at(DryLightness, 240.0)));
            }
        }
    }
    assert!(told >= 115, "{told} of 120 could tell");
    // 80 % of 60 is 48, with a standard deviation of 3.1; exact readings can only hold more.
    assert!((40..=56).contains(&held[0]), "{held:?}");
    assert!((41..=60).contains(&held[1]), "{held:?}");
}

#[test]
fn contradicting_readings_cannot_tell() {
    let mut forecast = forecast(chlorine(), 100);
    let readings = [
        reading(10.0, OxidantLeft, known(1e-5, 0.1)),
        reading(12.0, OxidantLeft, known(0.03, 0.1)),
        reading(14.0, Ph, off(4.0, 0.1)),
        reading(16.0, Ph, off(12.5, 0.1)),
        reading(18.0, Celsius, off(70.0, 0.5)),
        reading(20.0, DryLightness, off(99.0, 0.2)),
        reading(22.0, DryLightness, off(20.0, 0.2)),
    ];
    forecast.weigh(&readings);
    assert!(!forecast.support().can_tell(), "{:?}", forecast.support());
    assert!(forecast.bands(DryLightness).is_empty());
    assert!(Forecast::new(chlorine(), 1).unwrap().bands(Ph).is_empty(), "no samples, no band");
}

#[test]
fn a_wet_colour_without_a_pair_is_not_forecast() {
    let forecast = forecast(ForecastRequest { drying: None, ..chlorine() }, 60);
    assert!(forecast.bands(WetLightness).is_empty());
    assert!(!forecast.bands(DryLightness).is_empty());
}

#[test]
fn requests_outside_the_model_are_refused() {
    let refused = |request: ForecastRequest| Forecast::new(request, 1).is_err();
    assert!(refused(ForecastRequest { ph: off(2.0, 0.5), ..chlorine() }));
    assert!(refused(ForecastRequest { celsius: off(90.0, 1.0), ..chlorine() }));
    assert!(refused(ForecastRequest { strength: known(0.9, 0.1), ..chlorine() }));
    assert!(refused(ForecastRequest { minutes: vec![0.0, 30.0, 20.0], ..chlorine() }));
    assert!(refused(ForecastRequest { minutes: Vec::new(), ..chlorine() }));
    assert!(refused(ForecastRequest { lightness: off(f64::NAN, 1.0), ..chlorine() }));
    let other = ParameterDistribution::literature(Oxidant::Percarbonate);
    assert!(refused(ForecastRequest { parameters: other, ..chlorine() }));
    let rows = dimensions(Oxidant::Hypochlorite) - INPUTS;
    let factor = (1..=rows).map(|row| vec![0.0; row]).collect();
    let endless = NormalCoordinates { mean: vec![f64::NAN; rows], factor };
    let parameters = ParameterDistribution::learnt(Oxidant::Hypochlorite, endless);
    assert!(refused(ForecastRequest { parameters, ..chlorine() }));
}

/// The pH leaps with the first grains that dissolve: no straight line to the second minute.
#[test]
fn a_strip_in_the_first_minute_of_a_dissolving_powder_contradicts_nothing() {
    let mut forecast = forecast(percarbonate(), 500);
    for minutes in [0.1, 0.2, 0.4, 0.7, 1.4] {
        let median = median_ph(&forecast, minutes);
        let request = ForecastRequest { minutes: vec![0.0, minutes, 240.0], ..percarbonate() };
        let exact = median_ph(&self::forecast(request, 500), minutes);
        assert!((median - exact).abs() < 0.15, "at {minutes}: {median} is not {exact}");
    }
    forecast.weigh(&[reading(0.4, CooledPh, off(10.0, 0.5))]);
    let support = forecast.support();
    assert!(support.can_tell() && support.contradicted == 0, "{support:?}");
}

fn median_ph(forecast: &Forecast, minutes: f64) -> f64 {
    let (values, weights): (Vec<f64>, Vec<f64>) =
        forecast.values(CooledPh, minutes).into_iter().unzip();
    quantiles(&values, &weights, [0.5]).unwrap()[0]
}

#[test]
fn usual_times_rise_to_the_end() {
    for until in [5.0, 45.0, 60.0, 240.0, 1440.0] {
        let minutes = usual_minutes(until);
        assert!(minutes.windows(2).all(|pair| pair[0] < pair[1]));
        assert_eq!(minutes.last(), Some(&until));
        assert!(minutes.len() <= 40);
    }
}
