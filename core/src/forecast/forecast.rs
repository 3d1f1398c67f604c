//! The samples of a forecast, their weights, and the bands that follow.

use super::band::{Band, effective_samples, quantiles_in_order};
use super::bath_inputs::{
    BathInputs, INPUTS, check_contents, input_ranges, request_model, simulate_request,
};
use super::draw::Draw;
use super::proposal::Proposal;
use super::quantity::ForecastQuantity;
use super::reading::ForecastReading;
use super::request::{ForecastError, ForecastRequest};
use crate::bath::kinetics::{BathModel, BathPoint, priors};
use crate::chemistry::Oxidant;
use crate::quantity::Estimate;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

/// Fewest effective samples that a band may rest on. Below, readings and model contradict each
/// other, or more samples are needed (own choice: a 10 % quantile of 20 samples rests on two).
pub const FEWEST_EFFECTIVE: f64 = 20.0;

/// A forecast under way: samples are added in parts, readings weigh them.
#[derive(Clone, Debug)]
pub struct Forecast {
    request: ForecastRequest,
    minutes: Rc<[f64]>,
    model: BathModel,
    seed: u32,
    drawn: u32,
    refused: u32,
    samples: Vec<Sample>,
    readings: Vec<ForecastReading>,
    /// Logarithms of the likelihoods of the samples.
    likelihoods: Vec<f64>,
    /// Where the draws are from, each with the number of its draws; the last is drawn from.
    proposals: Vec<(Proposal, u32)>,
    /// The samples in rising order of a quantity at a time, as far as they were asked for: a
    /// reading changes weights and no order.
    orders: RefCell<BTreeMap<(usize, usize), Vec<u32>>>,
}

/// What follows from one draw of all inputs and parameters.
#[derive(Clone, Debug)]
struct Sample {
    minutes: Rc<[f64]>,
    /// Of every quantity, in the order of [`ForecastQuantity::ALL`], at each time.
    values: Vec<[f64; QUANTITIES]>,
    /// L* that no time of this stage passes.
    lightest: f64,
    /// Its place in the unit cube, and the density of each proposal there.
    place: Box<[f32]>,
    densities: Vec<f64>,
}

const QUANTITIES: usize = ForecastQuantity::ALL.len();

/// What a forecast rests on.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ForecastSupport {
    pub samples: usize,
    /// `(Σw)²/Σw²` of their weights.
    pub effective: f64,
    /// Draws that could not be simulated.
    pub refused: u32,
    /// Readings, and those of them that hardly any sample agrees with, whatever their weight.
    pub readings: usize,
    pub contradicted: usize,
}

impl ForecastSupport {
    /// Whether the bands may be shown: enough effective samples, at most a tenth of the draws
    /// refused, and at most a quarter of the readings contradicted.
    pub fn can_tell(&self) -> bool {
        let drawn = self.samples as f64 + f64::from(self.refused);
        self.effective >= FEWEST_EFFECTIVE
            && f64::from(self.refused) <= 0.1 * drawn
            && 4 * self.contradicted <= self.readings
    }

    /// Whether more samples would make the bands smoother, or tell at all.
    pub fn wants_more(&self) -> bool {
        self.effective < ENOUGH_EFFECTIVE
    }
}

/// Effective samples from which more change little.
const ENOUGH_EFFECTIVE: f64 = 60.0;
/// A reading is contradicted where less than this part of the weight lies within
/// [`ForecastReading::agrees`].
const AGREES: f64 = 0.05;
/// Fewest effective samples that a proposal is fitted to, and most proposals.
const FEWEST_TO_FIT: f64 = 4.0;
const MOST_PROPOSALS: usize = 12;

impl Forecast {
    /// A forecast without samples yet.
    ///
    /// # Errors
    /// [`ForecastRequest::check`], or a bath beyond the equilibrium solver at its values.
    pub fn new(request: ForecastRequest, seed: u32) -> Result<Self, ForecastError> {
        request.check()?;
        let model = request_model(&request);
        check_contents(&request)?;
        Ok(Self {
            minutes: request.minutes.as_slice().into(),
            request,
            model,
            seed,
            drawn: 0,
            refused: 0,
            samples: Vec::new(),
            readings: Vec::new(),
            likelihoods: Vec::new(),
            proposals: vec![(Proposal::even(), 0)],
            orders: RefCell::default(),
        })
    }

    pub fn request(&self) -> &ForecastRequest {
        &self.request
    }

    /// Draws so far, also those that could not be simulated.
    pub fn drawn(&self) -> u32 {
        self.drawn
    }

    /// Simulates `count` further samples; the same samples come of any division into parts.
    pub fn extend(&mut self, count: u32) {
        for index in self.drawn..self.drawn.saturating_add(count) {
            let Some((from, _)) = self.proposals.last() else { break };
            match self.sample(Draw { index, seed: self.seed, from }) {
                Some(sample) => {
                    self.likelihoods.push(self.likelihood(&sample));
                    self.samples.push(sample);
                }
                None => self.refused += 1,
            }
        }
        if let Some((_, drawn)) = self.proposals.last_mut() {
            *drawn += count;
        }
        self.drawn = self.drawn.saturating_add(count);
        self.orders.get_mut().clear();
    }

    /// Draws from now on more where the samples agree with the readings. Without readings, or
    /// with hardly a sample to go by, nothing changes.
    pub fn refit(&mut self) {
        let weights = self.scaled_weights();
        let effective = effective_samples(&weights);
        let tells = !self.readings.is_empty() && effective >= FEWEST_TO_FIT;
        if !tells || self.proposals.len() >= MOST_PROPOSALS {
            return;
        }
        let points: Vec<(&[f32], f64)> =
            self.samples.iter().zip(weights).map(|(sample, w)| (&*sample.place, w)).collect();
        let fitted = Proposal::fitted(&points, effective);
        for sample in &mut self.samples {
            sample.densities.push(fitted.density(&sample.place));
        }
        self.proposals.push((fitted, 0));
    }

    /// Adds samples in parts, each drawn where those before agree with the readings, until the
    /// bands may be shown or there are `most`. Readings that agree with few samples need more of
    /// them; readings that contradict the model are not helped by any number.
    pub fn extend_until_told(&mut self, part: u32, most: u32) -> ForecastSupport {
        while !self.support().can_tell() && self.drawn < most {
            self.refit();
            self.extend(part.clamp(1, most - self.drawn));
        }
        self.support()
    }

    /// Whether it is weighed by a reading of such a quantity.
    pub fn has_reading(&self, of: impl Fn(ForecastQuantity) -> bool) -> bool {
        self.readings.iter().any(|reading| of(reading.of))
    }

    /// The last reading of a quantity since a time, if nothing was done to the bath after it.
    pub fn last_reading(&self, of: ForecastQuantity, since: f64) -> Option<Estimate<f64>> {
        let since = self.request.events.iter().map(|event| event.minutes).fold(since, f64::max);
        let lately = self.readings.iter().filter(|one| one.of == of && one.minutes >= since);
        let last = lately.max_by(|a, b| a.minutes.total_cmp(&b.minutes));
        last.map(|reading| reading.value)
    }

    /// Replaces the readings and weighs all samples by them.
    pub fn weigh(&mut self, readings: &[ForecastReading]) {
        self.readings = readings.to_vec();
        self.likelihoods = self.samples.iter().map(|sample| self.likelihood(sample)).collect();
    }

    pub fn support(&self) -> ForecastSupport {
        ForecastSupport {
            samples: self.samples.len(),
            effective: effective_samples(&self.scaled_weights()),
            refused: self.refused,
            readings: self.readings.len(),
            contradicted: self.contradicted(),
        }
    }

    /// Number of readings that hardly any of the weight agrees with.
    fn contradicted(&self) -> usize {
        let weights = self.scaled_weights();
        let total: f64 = weights.iter().sum();
        let agreeing = |reading: &&ForecastReading| {
            let pairs = self.samples.iter().zip(&weights);
            let agree =
                pairs.filter(|(sample, _)| reading.agrees(sample.at(reading.of, reading.minutes)));
            agree.map(|(_, weight)| weight).sum::<f64>() < AGREES * total
        };
        self.readings.iter().filter(agreeing).count()
    }

    /// The bands of a quantity at every time of the request. Empty if the forecast
    /// [cannot tell](ForecastSupport::can_tell), or the quantity is not known.
    pub fn bands(&self, of: ForecastQuantity) -> Vec<Band> {
        let [bands] = self.all_bands([of]);
        bands
    }

    /// [`Self::bands`] of several quantities.
    pub fn all_bands<const N: usize>(&self, of: [ForecastQuantity; N]) -> [Vec<Band>; N] {
        if !self.support().can_tell() {
            return std::array::from_fn(|_| Vec::new());
        }
        let weights = self.scaled_weights();
        of.map(|of| {
            let band = |(nth, &minutes): (usize, &f64)| {
                let [low_80, low_50, median, high_50, high_80] =
                    self.quantiles_at(of, nth, &weights, [0.10, 0.25, 0.50, 0.75, 0.90])?;
                Some(Band { minutes, low_80, low_50, median, high_50, high_80 })
            };
            self.request.minutes.iter().enumerate().filter_map(band).collect()
        })
    }

    /// Weighted quantiles of a quantity at one of the request's times. `None` if it is not known.
    fn quantiles_at<const N: usize>(
        &self,
        of: ForecastQuantity,
        nth: usize,
        weights: &[f64],
        at: [f64; N],
    ) -> Option<[f64; N]> {
        let value = |sample: &Sample| sample.values[nth][of as usize];
        let mut orders = self.orders.borrow_mut();
        let order = orders.entry((of as usize, nth)).or_insert_with(|| {
            let mut order: Vec<u32> = (0..self.samples.len() as u32).collect();
            let at = |place: &u32| value(&self.samples[*place as usize]);
            order.sort_by(|one, other| at(one).total_cmp(&at(other)));
            order
        });
        // What is not a number is last.
        if order.last().is_none_or(|last| value(&self.samples[*last as usize]).is_nan()) {
            return None;
        }
        let pairs = order.iter().map(|&place| {
            let place = place as usize;
            (value(&self.samples[place]), weights[place])
        });
        quantiles_in_order(pairs, at)
    }

    /// The quantity of each sample at a time, with the sample's weight; weights sum to 1.
    pub(super) fn values(&self, of: ForecastQuantity, minutes: f64) -> Vec<(f64, f64)> {
        let weights = self.scaled_weights();
        let total: f64 = weights.iter().sum();
        self.samples
            .iter()
            .zip(weights)
            .map(|(sample, weight)| (sample.at(of, minutes), weight / total))
            .collect()
    }

    /// [`Self::values`] by the ranges alone, as if nothing had been read.
    pub(super) fn values_without_readings(
        &self,
        of: ForecastQuantity,
        minutes: f64,
    ) -> Vec<(f64, f64)> {
        let weight = |sample: &Sample| self.density(sample).recip();
        let total: f64 = self.samples.iter().map(weight).sum();
        self.samples.iter().map(|s| (s.at(of, minutes), weight(s) / total)).collect()
    }

    /// L* of the dry pulp that no time of this stage passes, of each sample, with its weight.
    pub(super) fn lightest(&self) -> Vec<(f64, f64)> {
        let weights = self.scaled_weights();
        let total: f64 = weights.iter().sum();
        let pairs = self.samples.iter().zip(weights);
        pairs.map(|(sample, weight)| (sample.lightest, weight / total)).collect()
    }

    /// Of each sample the first time from `from` on at which `reached` holds for the quantity,
    /// and infinity if it never does; with the sample's weight.
    pub(super) fn first_times(
        &self,
        of: ForecastQuantity,
        from: f64,
        reached: impl Fn(f64) -> bool,
        limit: f64,
    ) -> Vec<(f64, f64)> {
        let weights = self.scaled_weights();
        let total: f64 = weights.iter().sum();
        let time = |sample: &Sample| sample.first_time(of, from, &reached, limit);
        self.samples.iter().zip(weights).map(|(s, weight)| (time(s), weight / total)).collect()
    }

    /// Weights with the largest at 1: likelihood over the density of all draws.
    fn scaled_weights(&self) -> Vec<f64> {
        let pairs = self.samples.iter().zip(&self.likelihoods);
        let logs: Vec<f64> = pairs.map(|(sample, log)| log - self.density(sample).ln()).collect();
        let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        logs.into_iter().map(|log| (log - most).exp()).collect()
    }

    /// The density of all draws so far at a sample's place.
    fn density(&self, sample: &Sample) -> f64 {
        let drawn = f64::from(self.drawn.max(1));
        let of = self.proposals.iter().zip(&sample.densities);
        of.map(|((_, count), density)| f64::from(*count) / drawn * density).sum()
    }

    /// The logarithm of a sample's likelihood.
    fn likelihood(&self, sample: &Sample) -> f64 {
        self.readings
            .iter()
            .map(|reading| reading.log_likelihood(sample.at(reading.of, reading.minutes)))
            .sum()
    }

    fn sample(&self, draw: Draw<'_>) -> Option<Sample> {
        let request = &self.request;
        let ranges = input_ranges(request);
        let inputs = BathInputs::from_fn(|input| draw.estimate(input, ranges[input]));
        let values = request.parameters.drawn(|row| draw.point(INPUTS + row));
        let (constants, course) =
            simulate_request(request, &self.model, &inputs, &values, &request.minutes)?;
        let values = |point: &BathPoint| ForecastQuantity::ALL.map(|of| constants.value(of, point));
        let place: Box<[f32]> =
            (0..dimensions(request.oxidant)).map(|nth| draw.point(nth) as f32).collect();
        Some(Sample {
            minutes: Rc::clone(&self.minutes),
            values: course.iter().map(values).collect(),
            lightest: constants.lightest(),
            densities: self.proposals.iter().map(|(of, _)| of.density(&place)).collect(),
            place,
        })
    }
}

impl Sample {
    /// A quantity at a time, linear between the times of the request.
    fn at(&self, of: ForecastQuantity, minutes: f64) -> f64 {
        let value = |nth: usize| self.values[nth][of as usize];
        let next = self.minutes.partition_point(|time| *time < minutes);
        if next == 0 {
            return value(0);
        }
        if next == self.minutes.len() {
            return value(next - 1);
        }
        let (from, to) = (self.minutes[next - 1], self.minutes[next]);
        value(next - 1) + (value(next) - value(next - 1)) * (minutes - from) / (to - from)
    }

    fn first_time(
        &self,
        of: ForecastQuantity,
        from: f64,
        reached: &impl Fn(f64) -> bool,
        limit: f64,
    ) -> f64 {
        let mut before = (from, self.at(of, from));
        if reached(before.1) {
            return from;
        }
        let later = self.minutes.iter().zip(&self.values).filter(|(time, _)| **time > from);
        for (&time, values) in later {
            let value = values[of as usize];
            if reached(value) {
                let share = ((limit - before.1) / (value - before.1)).clamp(0.0, 1.0);
                return before.0 + share * (time - before.0);
            }
            before = (time, value);
        }
        f64::INFINITY
    }
}

/// Number of inputs and parameters that a forecast draws.
pub fn dimensions(oxidant: Oxidant) -> usize {
    INPUTS + priors(oxidant).len()
}

#[cfg(test)]
mod tests;
