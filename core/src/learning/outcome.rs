//! What a forecast takes of learning, and what it rests on.

use super::batch_fit::BatchFit;
use super::conformal::BandCorrection;
use super::history::{Extrapolation, PastBatch};
use crate::bath::kinetics::{Parameter, ParameterDistribution, priors};
use crate::chemistry::Oxidant;
use serde::{Deserialize, Serialize};

/// Parameters for one bath.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LearntParameters {
    pub distribution: ParameterDistribution,
    pub correction: BandCorrection,
    /// Baths of this fibre with readings.
    pub batches: usize,
    pub batches_of_other_fibres: usize,
    pub readings: u32,
    /// The past bath most like this one.
    pub nearest: Option<PastBatch>,
    /// How this bath goes beyond the own ones.
    pub beyond: Vec<Extrapolation>,
    /// A row for each parameter in use.
    pub support: Vec<ParameterSupport>,
}

/// Where the range of a parameter is from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ParameterOrigin {
    Literature,
    /// The literature's range, narrowed by own readings.
    Own,
}

/// A parameter in use.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ParameterSupport {
    pub parameter: Parameter,
    pub origin: ParameterOrigin,
    /// Ends and median, in its own unit.
    pub range: [f64; 3],
    /// Readings that it is seen in.
    pub readings: u32,
    /// Standard deviation of its coordinate; that of the literature is 1.
    pub deviation: f64,
}

/// Largest deviation that counts as an own parameter: a tenth narrower than the literature.
const NARROWED: f64 = 0.9;

/// A row for each parameter of an oxidant.
pub(super) fn support<'a>(
    oxidant: Oxidant,
    distribution: &ParameterDistribution,
    fits: impl Iterator<Item = &'a BatchFit> + Clone,
) -> Vec<ParameterSupport> {
    let of_row = |(row, parameter): (usize, Parameter)| {
        let seen = |fit: &BatchFit| {
            let place = fit.rows.iter().position(|of| *of == row)?;
            fit.moved.get(place).copied()
        };
        let readings = fits.clone().filter_map(seen).sum();
        let (_, deviation) = distribution.coordinate(parameter)?;
        let own = readings > 0 && deviation <= NARROWED;
        Some(ParameterSupport {
            parameter,
            origin: if own { ParameterOrigin::Own } else { ParameterOrigin::Literature },
            range: distribution.range(parameter)?,
            readings,
            deviation,
        })
    };
    let parameters = priors(oxidant).iter().map(|prior| prior.parameter);
    parameters.enumerate().filter_map(of_row).collect()
}
