//! The fit of one bath: what its readings say of the parameters, with all that is uncertain of
//! the bath itself fitted along and integrated out.
//!
//! Model error is in two halves: one of each reading, and one that all readings of a quantity in
//! one bath share, since a law that is not quite right is wrong alike all along. However many
//! readings a bath has, the shared half stays.

use super::gaussian::{Information, Moments, rows, times};
use super::history::LearningBatch;
use super::least_squares::{LeastSquaresFit, LeastSquaresSettings, least_squares};
use super::shares::can_be_read;
use crate::bath::kinetics::PriorScale;
use crate::bath::kinetics::{
    BathModel, BathPoint, ParameterValues, normal_probability, priors, quantile,
};
use crate::forecast::bath_inputs::{
    BathInputs, INPUTS, input_ranges, request_model, simulate_request,
};
use crate::forecast::quantity::SampleConstants;
use crate::forecast::reading::{READING_FREEDOM, model_error};
use crate::forecast::{ForecastQuantity, ForecastReading};
use crate::quantity::Estimate;
use numeris::DynMatrix;
use serde::{Deserialize, Serialize};
use std::cell::RefCell;

/// What one bath's readings say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct BatchFit {
    /// Rows of the table of priors that `data` is about.
    pub rows: Vec<usize>,
    pub data: Information,
    /// For each of `rows` the readings that it moves by a quarter of their deviation or more.
    pub moved: Vec<u32>,
    pub readings: u32,
}

impl BatchFit {
    /// The data among `size` rows.
    pub(super) fn among(&self, size: usize) -> Information {
        let mut all = Information::none(size);
        for (row, &to_row) in self.rows.iter().enumerate() {
            all.vector[to_row] = self.data.vector[row];
            for (column, &to_column) in self.rows.iter().enumerate() {
                all.precision[to_row][to_column] = self.data.precision[row][column];
            }
        }
        all
    }
}

/// Part of the variance of the model's error that the readings of a bath share (own choice).
const SHARED: f64 = 0.5;
/// Part of a reading's deviation that one literature deviation of a parameter must move it by to
/// count.
const MOVES: f64 = 0.25;
const SETTINGS: LeastSquaresSettings =
    LeastSquaresSettings { most_iterations: 8, tolerance: 2e-3, step: 0.1, central: false };

/// Fits a bath from what earlier ones say of it. `None` if it has no reading that the model
/// knows, or cannot be simulated.
pub(super) fn fit_batch(batch: &LearningBatch, prior: &Moments) -> Option<BatchFit> {
    let problem = BatchProblem::new(batch, prior)?;
    let start = problem.start();
    let scale = vec![1.0; start.len()];
    let fit = least_squares(|x| problem.residuals(x), &start, &scale, SETTINGS).ok()?;
    problem.linearised(&fit)
}

/// Variables, in this order: shared errors, inputs that need no simulation, other inputs (all as
/// normal coordinates), and the coordinates of the parameters. The first ones keep the course of
/// the evaluation before.
struct BatchProblem<'a> {
    batch: &'a LearningBatch,
    model: BathModel,
    minutes: Vec<f64>,
    /// With the number of its time.
    readings: Vec<(&'a ForecastReading, usize)>,
    shared: Vec<ForecastQuantity>,
    ranges: [Estimate<f64>; INPUTS],
    inputs: Vec<usize>,
    rows: Vec<usize>,
    /// Of all rows.
    prior_mean: Vec<f64>,
    /// Lower triangular factor of the covariance of `rows`.
    prior_factor: Vec<Vec<f64>>,
    last: RefCell<Option<Simulated>>,
}

struct Simulated {
    key: Vec<f64>,
    course: Vec<BathPoint>,
}

/// Numbers of the inputs that change no course: L* and drying.
const WITHOUT_COURSE: [usize; 2] = [4, 5];

impl<'a> BatchProblem<'a> {
    fn new(batch: &'a LearningBatch, prior: &Moments) -> Option<Self> {
        let request = &batch.request;
        request.check().ok()?;
        let known = |of| of != ForecastQuantity::WetLightness || request.drying.is_some();
        let usable: Vec<&ForecastReading> = batch
            .readings
            .iter()
            .filter(|reading| known(reading.of) && reading.minutes >= 0.0)
            .filter(|reading| reading.comparison(1.0).is_some_and(|(off, _)| off.is_finite()))
            .collect();
        if usable.is_empty() {
            return None;
        }
        let mut minutes: Vec<f64> = usable.iter().map(|reading| reading.minutes).collect();
        minutes.sort_by(f64::total_cmp);
        minutes.dedup();
        let place = |at: f64| minutes.iter().position(|&minutes| minutes == at);
        let readings = usable
            .into_iter()
            .map(|reading| Some((reading, place(reading.minutes)?)))
            .collect::<Option<Vec<_>>>()?;
        let mut shared: Vec<ForecastQuantity> =
            readings.iter().map(|(reading, _)| reading.of).collect();
        shared.sort_unstable();
        shared.dedup();
        let ranges = input_ranges(request);
        let fixed = |input: usize| {
            match input {
                5 => request.drying.is_none(),
                6 | 7 => request.cooling.is_none(),
                // Yellowness is not read.
                8 | 9 => true,
                _ => false,
            }
        };
        let has_range = |input: &usize| ranges[*input].high > ranges[*input].low && !fixed(*input);
        let (mut inputs, others): (Vec<usize>, Vec<usize>) =
            (0..INPUTS).filter(has_range).partition(|input| WITHOUT_COURSE.contains(input));
        inputs.extend(others);
        let table = priors(request.oxidant);
        let rows: Vec<usize> =
            (0..table.len()).filter(|row| can_be_read(table[*row].parameter)).collect();
        let covariance = DynMatrix::from_fn(rows.len(), rows.len(), |row, column| {
            prior.covariance[(rows[row], rows[column])]
        });
        let prior_factor = Moments { mean: vec![0.0; rows.len()], covariance }.factor()?;
        Some(Self {
            batch,
            model: request_model(request),
            minutes,
            readings,
            shared,
            ranges,
            inputs,
            rows,
            prior_mean: prior.mean.clone(),
            prior_factor,
            last: RefCell::new(None),
        })
    }

    fn start(&self) -> Vec<f64> {
        let mut start = vec![0.0; self.shared.len() + self.inputs.len()];
        start.extend(self.rows.iter().map(|&row| self.prior_mean[row]));
        start
    }

    /// Variables that are not parameters.
    fn nuisances(&self) -> usize {
        self.shared.len() + self.inputs.len()
    }

    /// Of the readings, then of all variables by what was known of them before.
    fn residuals(&self, x: &[f64]) -> Vec<f64> {
        let (nuisances, coordinates) = x.split_at(self.nuisances());
        let mut residuals = self
            .reading_residuals(nuisances, coordinates)
            .unwrap_or_else(|| vec![FAILED; self.readings.len()]);
        residuals.extend_from_slice(nuisances);
        // Solves L u = z - m.
        let mut before: Vec<f64> = Vec::with_capacity(self.rows.len());
        for (nth, factor) in self.prior_factor.iter().enumerate() {
            let off = coordinates[nth] - self.prior_mean[self.rows[nth]];
            let known: f64 = factor.iter().zip(&before).map(|(f, u)| f * u).sum();
            before.push((off - known) / factor[nth]);
        }
        residuals.extend(before);
        residuals
    }

    fn reading_residuals(&self, nuisances: &[f64], coordinates: &[f64]) -> Option<Vec<f64>> {
        let (shared, inputs) = nuisances.split_at(self.shared.len());
        let inputs = BathInputs::from_fn(|input| {
            let place = self.inputs.iter().position(|of| *of == input);
            let Estimate { low, value, high, .. } = self.ranges[input];
            let point = place.map_or(0.5, |place| normal_probability(inputs[place]));
            quantile(PriorScale::Linear, [low, value, high], point)
        });
        let values = ParameterValues::drawn(self.batch.request.oxidant, |row| {
            let place = self.rows.iter().position(|of| *of == row);
            normal_probability(place.map_or(self.prior_mean[row], |place| coordinates[place]))
        });
        let constants = self.simulate(&inputs, &values)?;
        let last = self.last.borrow();
        let course = &last.as_ref()?.course;
        let residual = |(reading, place): &(&ForecastReading, usize)| {
            let found = constants.value(reading.of, &course[*place]);
            let (off, deviation) = reading.comparison(found)?;
            let error = model_error(reading.of);
            let common = self.shared.iter().position(|of| *of == reading.of)?;
            let off = off + shared[common] * error * SHARED.sqrt();
            Some(robust(off / deviation.hypot(error * (1.0 - SHARED).sqrt())))
        };
        self.readings.iter().map(residual).collect()
    }

    /// Leaves the course in `last`, unless it is the one already there.
    fn simulate(&self, inputs: &BathInputs, values: &ParameterValues) -> Option<SampleConstants> {
        let request = &self.batch.request;
        let BathInputs { strength, ph, celsius, fibre, evaporation, dry_loss, .. } = *inputs;
        let mut key = vec![strength, ph, celsius, fibre, evaporation, dry_loss];
        key.extend(priors(request.oxidant).iter().map(|prior| values.get(prior.parameter)));
        if let Some(last) = &*self.last.borrow()
            && last.key == key
        {
            return Some(SampleConstants::new(inputs, values, request.drying.is_some()));
        }
        let (constants, course) =
            simulate_request(request, &self.model, inputs, values, &self.minutes)?;
        *self.last.borrow_mut() = Some(Simulated { key, course });
        Some(constants)
    }

    /// The readings as linear in the parameters around the fit, the rest integrated out.
    fn linearised(&self, fit: &LeastSquaresFit) -> Option<BatchFit> {
        let (count, nuisances, size) = (self.readings.len(), self.nuisances(), self.rows.len());
        let slope = |row: usize, column: usize| fit.jacobian[row][nuisances + column];
        // I + N Nᵀ: the readings' covariance with the nuisances integrated out.
        let noise = DynMatrix::from_fn(count, count, |row, other| {
            let same = f64::from(u8::from(row == other));
            let (row, other) = (&fit.jacobian[row], &fit.jacobian[other]);
            same + row.iter().zip(other).take(nuisances).map(|(a, b)| a * b).sum::<f64>()
        });
        let weight = noise.cholesky().ok()?.inverse();
        let slopes = DynMatrix::from_fn(count, size, slope);
        let weighted = &slopes.transpose() * &weight;
        let offsets: Vec<f64> = (0..count)
            .map(|row| {
                let linear: f64 =
                    fit.jacobian[row].iter().zip(&fit.parameters).map(|(j, x)| j * x).sum();
                linear - fit.residuals[row]
            })
            .collect();
        let precision = &weighted * &slopes;
        let moved = |column: usize| {
            let moves = |row: &usize| slope(*row, column).abs() >= MOVES;
            (0..count).filter(moves).count() as u32
        };
        Some(BatchFit {
            rows: self.rows.clone(),
            data: Information {
                precision: rows(&precision),
                vector: times(&weighted, &offsets),
                constant: 0.0,
            },
            moved: (0..size).map(moved).collect(),
            readings: count as u32,
        })
    }
}

/// A residual so large that a step to it is taken back.
const FAILED: f64 = 1e3;

/// The residual whose half square is minus the logarithm of the likelihood of a t distribution,
/// so that one wrong reading does not decide alone.
fn robust(residual: f64) -> f64 {
    let square = residual * residual / READING_FREEDOM;
    ((READING_FREEDOM + 1.0) * square.ln_1p()).sqrt().copysign(residual)
}
