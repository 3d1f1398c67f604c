#![allow(clippy::unwrap_used)]

use super::*;
use crate::bath::kinetics::{Parameter, ParameterValues};
use crate::chemistry::equilibrium::Mix;
use crate::chemistry::substance::moles_per_litre;
use crate::forecast::ForecastQuantity;
use crate::forecast::bath_inputs::{BathInputs, input_ranges, request_model, simulate_request};
use crate::learning::ParameterOrigin;
use crate::quantity::{Basis, Estimate};
use ForecastQuantity::{DryLightness, OxidantLeft, Ph, WetLightness};

const ALL: [ForecastQuantity; 3] = [WetLightness, OxidantLeft, Ph];

fn request(nth: usize) -> ForecastRequest {
    let known = |value: f64, part: f64| Estimate::within(value, part, Basis::Measured);
    let off = |value: f64, off: f64| Estimate::plus_minus(value, off, Basis::Measured);
    ForecastRequest {
        oxidant: Oxidant::Hypochlorite,
        mix: Mix::new(38.0).unwrap().with_baking_soda(moles_per_litre(0.006)),
        strength: known(0.012 + 0.001 * (nth % 5) as f64, 0.08),
        undissolved: 0.0,
        ph: off(10.4, 0.2),
        celsius: off(37.0 + (nth % 3) as f64, 1.0),
        consistency: known(0.05, 0.06),
        lightness: off(66.0, 1.0),
        hue: [off(3.0, 0.5), off(18.0, 1.0)],
        drying: Some(known(0.5, 0.05)),
        cooling: None,
        events: Vec::new(),
        parameters: ParameterDistribution::literature(Oxidant::Hypochlorite),
        minutes: vec![0.0, 30.0, 60.0, 90.0, 120.0],
    }
}

/// A pulp that spends little, and bleaches fast to a low floor.
fn hidden() -> ParameterValues {
    ParameterValues::typical(Oxidant::Hypochlorite)
        .with(Parameter::FastConsumers, 0.09)
        .with(Parameter::SlowConsumers, 0.2)
        .with(Parameter::ColourRate, 0.2)
        .with(Parameter::ColourFloor, 0.06)
}

/// A bath of the hidden pulp, its readings exact but said to be within their usual errors.
fn bath(nth: usize, of: &[ForecastQuantity]) -> LearningBatch {
    let request = request(nth);
    let ranges = input_ranges(&request);
    let inputs = BathInputs::from_fn(|input| ranges[input].value);
    let minutes = [20.0, 45.0, 80.0, 120.0];
    let model = request_model(&request);
    let (constants, course) =
        simulate_request(&request, &model, &inputs, &hidden(), &minutes).unwrap();
    let reading = |at: &crate::bath::kinetics::BathPoint, of: ForecastQuantity| {
        let value = constants.value(of, at);
        let half = if of == OxidantLeft { 0.4 * value } else { 0.5 };
        let value = Estimate::plus_minus(value, half, Basis::Measured);
        ForecastReading { minutes: at.minutes, of, value }
    };
    let readings = course.iter().flat_map(|at| of.iter().map(move |&of| reading(at, of))).collect();
    LearningBatch {
        id: format!("bath {nth}"),
        fibre: "reed".into(),
        request,
        readings,
        minutes: 120.0,
    }
}

fn learnt(batches: &[LearningBatch]) -> Learning {
    let mut learning = Learning::new(1);
    assert!(learning.run(batches, || true).is_done());
    learning
}

fn outcome(learning: &Learning, fibre: &str) -> LearntParameters {
    let facts = BathFacts::of(fibre, &request(0), 60.0);
    learning.outcome(&LearningQuery { facts: &facts, without: None })
}

fn row(outcome: &LearntParameters, of: Parameter) -> crate::learning::ParameterSupport {
    *outcome.support.iter().find(|row| row.parameter == of).unwrap()
}

#[test]
fn without_batches_all_is_literature() {
    let nothing = outcome(&Learning::new(1), "reed");
    assert_eq!(nothing.distribution, ParameterDistribution::literature(Oxidant::Hypochlorite));
    assert!(nothing.support.iter().all(|row| {
        row.origin == ParameterOrigin::Literature && row.readings == 0 && row.deviation == 1.0
    }));
    assert_eq!((nothing.batches, nothing.readings, nothing.nearest), (0, 0, None));
}

#[test]
fn each_batch_narrows_what_its_readings_see_and_comes_nearer() {
    let batches: Vec<_> = (0..6).map(|nth| bath(nth, &ALL)).collect();
    let (one, six) = (learnt(&batches[..1]), learnt(&batches));
    let (one, six) = (outcome(&one, "reed"), outcome(&six, "reed"));
    for of in [Parameter::ColourRate, Parameter::ColourFloor, Parameter::FastConsumers] {
        let (before, after) = (row(&one, of), row(&six, of));
        assert!(
            after.deviation < before.deviation && before.deviation < 1.0,
            "{before:?} {after:?}"
        );
        assert_eq!(after.origin, ParameterOrigin::Own);
        let truth = hidden().get(of);
        let [low, _, high] = after.range;
        assert!(low < truth && truth < high, "{truth} {after:?}");
        assert!(after.readings > before.readings);
    }
    assert!(row(&six, Parameter::ColourRate).deviation < 0.6, "{six:?}");
    assert_eq!((six.batches, six.readings), (6, 72));
}

#[test]
fn what_no_reading_sees_stays_wide() {
    let batches: Vec<_> = (0..6).map(|nth| bath(nth, &[Ph])).collect();
    let found = outcome(&learnt(&batches), "reed");
    for of in [Parameter::ColourRate, Parameter::ColourFloor, Parameter::ScissionRate] {
        let row = row(&found, of);
        assert!(row.deviation > 0.95 && row.origin == ParameterOrigin::Literature, "{row:?}");
    }
    let all: Vec<_> = (0..6).map(|nth| bath(nth, &ALL)).collect();
    let found = outcome(&learnt(&all), "reed");
    let scission = row(&found, Parameter::ScissionRate);
    assert!(
        scission.deviation > 0.95 && scission.origin == ParameterOrigin::Literature,
        "{scission:?}"
    );
    assert_eq!(row(&found, Parameter::ScissionRate).readings, 0);
}

#[test]
fn another_fibre_learns_something_of_it() {
    let batches: Vec<_> = (0..6).map(|nth| bath(nth, &ALL)).collect();
    let learning = learnt(&batches);
    let (own, other) = (outcome(&learning, "reed"), outcome(&learning, "hemp"));
    let rate = |found: &LearntParameters| row(found, Parameter::ColourRate).deviation;
    assert!(rate(&own) < rate(&other) && rate(&other) < 1.0);
    assert_eq!((other.batches, other.batches_of_other_fibres), (0, 6));
    assert!(other.nearest.is_some() && other.beyond.is_empty());
}

#[test]
fn learning_stops_when_told_and_goes_on_where_it_was() {
    let batches: Vec<_> = (0..4).map(|nth| bath(nth, &ALL)).collect();
    let mut left = 2;
    let mut parts = Learning::new(1);
    let progress = parts.run(&batches, || {
        left -= 1;
        left >= 0
    });
    assert_eq!(progress, LearningProgress { learnt: 2, of: 4 });
    let kept = serde_json::to_string(&parts).unwrap();
    let mut resumed: Learning = serde_json::from_str(&kept).unwrap();
    assert_eq!(resumed.retain(&batches), progress);
    resumed.run(&batches, || true);
    assert_eq!(resumed, learnt(&batches));
    assert!(kept.len() < 20_000, "{} bytes for two baths", kept.len());
}

#[test]
fn a_changed_bath_and_all_after_it_are_learnt_anew() {
    let mut batches: Vec<_> = (0..4).map(|nth| bath(nth, &ALL)).collect();
    let mut learning = learnt(&batches);
    assert!(learning.retain(&batches).is_done());
    batches[2].readings.pop();
    assert_eq!(learning.retain(&batches), LearningProgress { learnt: 2, of: 4 });
    assert_eq!(learning.retain(&[]), LearningProgress { learnt: 0, of: 0 });
}

#[test]
fn a_bath_is_left_out_of_its_own_forecast() {
    let batches: Vec<_> = (0..3).map(|nth| bath(nth, &ALL)).collect();
    let all = learnt(&batches);
    let facts = batches[2].facts();
    let without = all.outcome(&LearningQuery { facts: &facts, without: Some("bath 2") });
    assert_eq!(
        without,
        learnt(&batches[..2]).outcome(&LearningQuery { facts: &facts, without: None })
    );
    assert_eq!(without.batches, 2);
}

/// Readings of nonsense widen nothing to infinity and stop nothing.
#[test]
fn a_bath_without_sense_is_passed_over() {
    let mut odd = bath(0, &ALL);
    odd.request.ph = Estimate::exact(1.0, Basis::Measured);
    let mut silent = bath(1, &ALL);
    silent.readings.clear();
    let found = outcome(&learnt(&[odd, silent]), "reed");
    assert_eq!(found.distribution, ParameterDistribution::literature(Oxidant::Hypochlorite));
    assert_eq!(found.batches, 0);
    let mut wrong = bath(2, &[DryLightness]);
    wrong.readings[1].value = Estimate::plus_minus(12.0, 0.5, Basis::Measured);
    let right: Vec<_> = (0..4).map(|nth| bath(nth, &ALL)).collect();
    let mut mixed = right.clone();
    mixed.push(wrong);
    let rate = |batches: &[LearningBatch]| {
        outcome(&learnt(batches), "reed").distribution.coordinate(Parameter::ColourRate).unwrap()
    };
    let ((right, deviation), (mixed, _)) = (rate(&right), rate(&mixed));
    assert!((right - mixed).abs() < 2.0 * deviation, "{right} {mixed} {deviation}");
}

#[test]
fn bands_are_corrected_once_there_are_scores() {
    let batches: Vec<_> = (0..3).map(|nth| bath(nth, &ALL)).collect();
    let found = outcome(&learnt(&batches), "reed");
    let (factor, scores) = found.correction.factor(Ph).unwrap();
    assert!(scores == 12 && factor > 0.0 && factor < 3.0, "{factor}");
    assert_eq!(found.correction.factor(DryLightness), None);
}
