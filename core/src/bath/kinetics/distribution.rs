//! What parameters are drawn from: the literature's ranges, or what was learnt of them together.

use super::parameter::{Parameter, ParameterValues, Prior, priors};
use crate::chemistry::Oxidant;
use numeris::stats::{ContinuousDistribution, Normal};
use serde::{Deserialize, Serialize};

/// A joint distribution of the parameters of an oxidant's bath.
///
/// Each parameter has a normal coordinate: its value is the quantile of its literature range
/// ([`Prior::quantile`]) at the normal probability of the coordinate. All coordinates
/// independent and standard normal is the literature itself; a value never leaves its range.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ParameterDistribution {
    oxidant: Oxidant,
    /// `None`: the literature.
    learnt: Option<NormalCoordinates>,
}

/// Mean of the coordinates, and a lower triangular factor of their covariance, a row for each
/// row of [`priors`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct NormalCoordinates {
    pub mean: Vec<f64>,
    pub factor: Vec<Vec<f64>>,
}

impl NormalCoordinates {
    fn fits(&self, rows: usize) -> bool {
        let triangular = |(row, part): (usize, &Vec<f64>)| part.len() == row + 1;
        self.mean.len() == rows
            && self.factor.len() == rows
            && self.factor.iter().enumerate().all(triangular)
    }
}

impl ParameterDistribution {
    /// The literature's ranges.
    pub fn literature(oxidant: Oxidant) -> Self {
        Self { oxidant, learnt: None }
    }

    /// One that was learnt; the literature's if it has not a row for each of [`priors`].
    pub fn learnt(oxidant: Oxidant, coordinates: NormalCoordinates) -> Self {
        let fits = coordinates.fits(priors(oxidant).len());
        Self { oxidant, learnt: fits.then_some(coordinates) }
    }

    /// Whether it has a number for every parameter of an oxidant.
    pub fn is_for(&self, oxidant: Oxidant) -> bool {
        let rows = priors(oxidant).len();
        let numbers = |learnt: &NormalCoordinates| {
            let values = learnt.factor.iter().flatten().chain(&learnt.mean);
            learnt.fits(rows) && values.copied().all(f64::is_finite)
        };
        self.oxidant == oxidant && self.learnt.as_ref().is_none_or(numbers)
    }

    pub fn oxidant(&self) -> Oxidant {
        self.oxidant
    }

    /// A draw by points 0 to 1, each asked for by its row.
    pub fn drawn(&self, point: impl Fn(usize) -> f64) -> ParameterValues {
        let Some(NormalCoordinates { mean, factor }) = &self.learnt else {
            return ParameterValues::drawn(self.oxidant, point);
        };
        let standard: Vec<f64> = (0..mean.len()).map(|row| normal_quantile(point(row))).collect();
        ParameterValues::drawn(self.oxidant, |row| {
            let off: f64 = factor[row].iter().zip(&standard).map(|(f, x)| f * x).sum();
            normal_probability(mean[row] + off)
        })
    }

    /// Mean and standard deviation of a coordinate; `None` for a parameter without a row.
    pub fn coordinate(&self, of: Parameter) -> Option<(f64, f64)> {
        let row = priors(self.oxidant).iter().position(|prior| prior.parameter == of)?;
        Some(self.learnt.as_ref().map_or((0.0, 1.0), |NormalCoordinates { mean, factor }| {
            (mean[row], factor[row].iter().map(|f| f * f).sum::<f64>().sqrt())
        }))
    }

    /// Ends and median of the range of a parameter in its unit: all of the literature's, 95 % of
    /// one that was learnt. `None` for a parameter without a row.
    pub fn range(&self, of: Parameter) -> Option<[f64; 3]> {
        const TWO_SIDED_95: f64 = 1.959_964;
        let prior: &Prior = priors(self.oxidant).iter().find(|prior| prior.parameter == of)?;
        if self.learnt.is_none() {
            return Some([prior.low, prior.value, prior.high]);
        }
        let (mean, deviation) = self.coordinate(of)?;
        let at = |z: f64| prior.quantile(normal_probability(z));
        let half = TWO_SIDED_95 * deviation;
        Some([at(mean - half), at(mean), at(mean + half)])
    }
}

/// Probability below `z` of a standard normal variable.
pub fn normal_probability(z: f64) -> f64 {
    standard().map_or(0.5, |normal| normal.cdf(z))
}

/// Inverse of [`normal_probability`], within ±8.
pub fn normal_quantile(probability: f64) -> f64 {
    const LEAST: f64 = 6.3e-16;
    standard().map_or(0.0, |normal| normal.quantile(probability.clamp(LEAST, 1.0 - LEAST)))
}

fn standard() -> Option<Normal<f64>> {
    Normal::new(0.0, 1.0).ok()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const OXIDANT: Oxidant = Oxidant::Hypochlorite;

    fn standard_coordinates() -> NormalCoordinates {
        let rows = priors(OXIDANT).len();
        let unit = |row: usize| (0..=row).map(|c| f64::from(u8::from(c == row))).collect();
        NormalCoordinates { mean: vec![0.0; rows], factor: (0..rows).map(unit).collect() }
    }

    #[test]
    fn normal_quantiles_are_those_of_tables() {
        for (p, z) in [(0.5, 0.0), (0.9, 1.281_551_565_5), (0.975, 1.959_963_984_5)] {
            assert!((normal_quantile(p) - z).abs() < 1e-8);
            assert!((normal_probability(z) - p).abs() < 1e-10);
        }
        assert!(normal_quantile(0.0).is_finite() && normal_quantile(1.0).is_finite());
    }

    #[test]
    fn standard_coordinates_are_the_literature() {
        let literature = ParameterDistribution::literature(OXIDANT);
        let learnt = ParameterDistribution::learnt(OXIDANT, standard_coordinates());
        let point = |row: usize| (0.13 + 0.29 * row as f64).fract();
        let (one, other) = (literature.drawn(point), learnt.drawn(point));
        for prior in priors(OXIDANT) {
            let of = prior.parameter;
            assert!((one.get(of) / other.get(of) - 1.0).abs() < 1e-9, "{of:?}");
            let [low, value, high] = learnt.range(of).unwrap();
            assert!(prior.low <= low && low < value && value < high && high <= prior.high);
            assert!((value / prior.value - 1.0).abs() < 1e-9);
        }
        assert_eq!(literature.range(Parameter::DissolvingTime), None);
    }

    #[test]
    fn a_narrow_distribution_stays_within_the_range_and_near_its_mean() {
        let mut coordinates = standard_coordinates();
        coordinates.mean[0] = 3.0;
        coordinates.factor[0] = vec![0.1];
        let learnt = ParameterDistribution::learnt(OXIDANT, coordinates);
        let prior = priors(OXIDANT)[0];
        let [low, value, high] = learnt.range(prior.parameter).unwrap();
        assert!(low > prior.value && high <= prior.high && value > 0.95 * prior.high);
        let at = |point: f64| learnt.drawn(|_| point).get(prior.parameter);
        assert!(at(0.01) < at(0.99) && at(0.99) <= prior.high);
    }

    #[test]
    fn a_distribution_of_other_rows_is_the_literature() {
        let odd = NormalCoordinates { mean: vec![0.0], factor: vec![vec![1.0]] };
        let made = ParameterDistribution::learnt(OXIDANT, odd);
        assert_eq!(made, ParameterDistribution::literature(OXIDANT));
    }
}
