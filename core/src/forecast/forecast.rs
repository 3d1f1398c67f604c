//! The samples of a forecast, their weights, and the bands that follow.

use super::band::{Band, effective_samples, quantiles};
use super::bath_inputs::{
    BathInputs, INPUTS, check_contents, input_ranges, request_model, simulate_request,
};
use super::draw::Draw;
use super::quantity::{ForecastQuantity, SampleConstants};
use super::reading::ForecastReading;
use super::request::{ForecastError, ForecastRequest};
use crate::bath::kinetics::{BathModel, BathPoint, ParameterDistribution, priors};
use crate::chemistry::Oxidant;

/// Fewest effective samples that a band may rest on. Below, readings and model contradict each
/// other, or more samples are needed (own choice: a 10 % quantile of 20 samples rests on two).
pub const FEWEST_EFFECTIVE: f64 = 20.0;

/// A forecast under way: samples are added in parts, readings weigh them.
#[derive(Clone, Debug)]
pub struct Forecast {
    request: ForecastRequest,
    parameters: ParameterDistribution,
    model: BathModel,
    seed: u32,
    drawn: u32,
    refused: u32,
    samples: Vec<Sample>,
    readings: Vec<ForecastReading>,
    weights: Vec<f64>,
}

/// One draw of all inputs and parameters, and the course that follows.
#[derive(Clone, Debug)]
struct Sample {
    constants: SampleConstants,
    course: Vec<BathPoint>,
}

/// What a forecast rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ForecastSupport {
    pub samples: usize,
    /// `(Σw)²/Σw²` of their weights.
    pub effective: f64,
    /// Draws that could not be simulated.
    pub refused: u32,
}

impl ForecastSupport {
    /// Whether the bands may be shown: enough effective samples, and at most a tenth of the
    /// draws refused.
    pub fn can_tell(&self) -> bool {
        let drawn = self.samples as f64 + f64::from(self.refused);
        self.effective >= FEWEST_EFFECTIVE && f64::from(self.refused) <= 0.1 * drawn
    }
}

impl Forecast {
    /// A forecast without samples yet, from the literature's ranges.
    ///
    /// # Errors
    /// [`ForecastRequest::check`], or a bath beyond the equilibrium solver at its values.
    pub fn new(request: ForecastRequest, seed: u32) -> Result<Self, ForecastError> {
        let parameters = ParameterDistribution::literature(request.oxidant);
        Self::with_parameters(request, parameters, seed)
    }

    /// As [`Self::new`], with parameters from another distribution, such as one that was learnt.
    ///
    /// # Errors
    /// As [`Self::new`].
    pub fn with_parameters(
        request: ForecastRequest,
        parameters: ParameterDistribution,
        seed: u32,
    ) -> Result<Self, ForecastError> {
        request.check()?;
        let model = request_model(&request);
        check_contents(&request)?;
        Ok(Self {
            request,
            parameters,
            model,
            seed,
            drawn: 0,
            refused: 0,
            samples: Vec::new(),
            readings: Vec::new(),
            weights: Vec::new(),
        })
    }

    pub fn request(&self) -> &ForecastRequest {
        &self.request
    }

    /// Simulates `count` further samples; the same samples come of any division into parts.
    pub fn extend(&mut self, count: u32) {
        for index in self.drawn..self.drawn.saturating_add(count) {
            match self.sample(Draw { index, seed: self.seed }) {
                Some(sample) => {
                    self.weights.push(self.weight(&sample));
                    self.samples.push(sample);
                }
                None => self.refused += 1,
            }
        }
        self.drawn = self.drawn.saturating_add(count);
    }

    /// Adds samples in parts until the bands may be shown or there are `most`. Readings that
    /// agree with few samples need more of them; readings that contradict the model are not
    /// helped by any number.
    pub fn extend_until_told(&mut self, part: u32, most: u32) -> ForecastSupport {
        while !self.support().can_tell() && self.drawn < most {
            self.extend(part.clamp(1, most - self.drawn));
        }
        self.support()
    }

    /// Replaces the readings and weighs all samples by them.
    pub fn weigh(&mut self, readings: &[ForecastReading]) {
        self.readings = readings.to_vec();
        self.weights = self.samples.iter().map(|sample| self.weight(sample)).collect();
    }

    pub fn support(&self) -> ForecastSupport {
        ForecastSupport {
            samples: self.samples.len(),
            effective: effective_samples(&self.scaled_weights()),
            refused: self.refused,
        }
    }

    /// The bands of a quantity at every time of the request. Empty if the forecast
    /// [cannot tell](ForecastSupport::can_tell), or the quantity is not known.
    pub fn bands(&self, of: ForecastQuantity) -> Vec<Band> {
        if !self.support().can_tell() {
            return Vec::new();
        }
        let weights = self.scaled_weights();
        let band = |(nth, &minutes): (usize, &f64)| {
            let values: Vec<f64> = self
                .samples
                .iter()
                .map(|sample| sample.constants.value(of, &sample.course[nth]))
                .collect();
            if values.iter().any(|value| value.is_nan()) {
                return None;
            }
            let [low_80, low_50, median, high_50, high_80] =
                quantiles(&values, &weights, [0.10, 0.25, 0.50, 0.75, 0.90])?;
            Some(Band { minutes, low_80, low_50, median, high_50, high_80 })
        };
        self.request.minutes.iter().enumerate().filter_map(band).collect()
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

    /// Weights with the largest at 1.
    fn scaled_weights(&self) -> Vec<f64> {
        let most = self.weights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        self.weights.iter().map(|log| (log - most).exp()).collect()
    }

    /// The logarithm of a sample's weight.
    fn weight(&self, sample: &Sample) -> f64 {
        self.readings
            .iter()
            .map(|reading| reading.log_likelihood(sample.at(reading.of, reading.minutes)))
            .sum()
    }

    fn sample(&self, draw: Draw) -> Option<Sample> {
        let ranges = input_ranges(&self.request);
        let inputs = BathInputs::from_fn(|input| draw.estimate(input, ranges[input]));
        let values = self.parameters.drawn(|row| draw.point(INPUTS + row));
        let minutes = &self.request.minutes;
        let (constants, course) =
            simulate_request(&self.request, &self.model, &inputs, &values, minutes)?;
        Some(Sample { constants, course })
    }
}

impl Sample {
    /// A quantity at a time, linear between the times of the request.
    fn at(&self, of: ForecastQuantity, minutes: f64) -> f64 {
        let value = |nth: usize| self.constants.value(of, &self.course[nth]);
        let next = self.course.partition_point(|point| point.minutes < minutes);
        if next == 0 {
            return value(0);
        }
        if next == self.course.len() {
            return value(next - 1);
        }
        let (from, to) = (self.course[next - 1].minutes, self.course[next].minutes);
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
        for point in self.course.iter().filter(|point| point.minutes > from) {
            let value = self.constants.value(of, point);
            if reached(value) {
                let share = ((limit - before.1) / (value - before.1)).clamp(0.0, 1.0);
                return before.0 + share * (point.minutes - before.0);
            }
            before = (point.minutes, value);
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
