//! Normal distributions of many variables, in the form of information (precision, and precision
//! times mean), which may also say nothing of some direction.

use numeris::{DynMatrix, DynVector};
use serde::{Deserialize, Serialize};

/// A likelihood `exp(-½ zᵀHz + hᵀz + c)`: what some data say of `z`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Information {
    /// H, row by row; symmetric, positive or zero in every direction.
    pub precision: Vec<Vec<f64>>,
    /// h.
    pub vector: Vec<f64>,
    /// c.
    pub constant: f64,
}

/// Mean and covariance.
#[derive(Clone, Debug)]
pub(super) struct Moments {
    pub mean: Vec<f64>,
    pub covariance: DynMatrix<f64>,
}

impl Information {
    /// No data.
    pub fn none(size: usize) -> Self {
        Self { precision: vec![vec![0.0; size]; size], vector: vec![0.0; size], constant: 0.0 }
    }

    /// One number read with a standard deviation.
    pub fn of_reading(value: f64, deviation: f64) -> Self {
        let precision = deviation.powi(-2);
        Self {
            precision: vec![vec![precision]],
            vector: vec![precision * value],
            constant: -0.5 * precision * value * value,
        }
    }

    pub fn size(&self) -> usize {
        self.vector.len()
    }

    /// Both together.
    pub(super) fn add(&mut self, other: &Self) {
        for (row, more) in self.precision.iter_mut().zip(&other.precision) {
            for (entry, more) in row.iter_mut().zip(more) {
                *entry += more;
            }
        }
        for (entry, more) in self.vector.iter_mut().zip(&other.vector) {
            *entry += more;
        }
        self.constant += other.constant;
    }

    pub(super) fn matrix(&self) -> DynMatrix<f64> {
        DynMatrix::from_fn(self.size(), self.size(), |row, column| self.precision[row][column])
    }

    /// What the same data say of a centre from which `z` is off by a covariance of `spread`
    /// (its diagonal): `z` integrated out. As it is where that has no number.
    pub(super) fn of_centre(&self, spread: &[f64]) -> Self {
        // (H + E⁻¹)⁻¹ = E^½ (I + E^½ H E^½)⁻¹ E^½, which a spread of 0 does not break.
        let size = self.size();
        let root: Vec<f64> = spread.iter().map(|s| s.max(0.0).sqrt()).collect();
        let inner = DynMatrix::from_fn(size, size, |row, column| {
            root[row] * self.precision[row][column] * root[column]
                + f64::from(u8::from(row == column))
        });
        let Ok(inner) = inner.cholesky() else { return self.clone() };
        let inverse = inner.inverse();
        let inner_covariance = DynMatrix::from_fn(size, size, |row, column| {
            root[row] * inverse[(row, column)] * root[column]
        });
        let precision = self.matrix();
        let lost = &(&precision * &inner_covariance) * &precision;
        let within = times(&inner_covariance, &self.vector);
        let lost_vector = times(&precision, &within);
        let gain: f64 = self.vector.iter().zip(&within).map(|(h, w)| h * w).sum();
        Self {
            precision: rows(&(&precision - &lost)),
            vector: self.vector.iter().zip(lost_vector).map(|(h, lost)| h - lost).collect(),
            constant: self.constant + 0.5 * gain - 0.5 * inner.ln_det(),
        }
    }

    /// Mean and covariance with a normal prior, and the logarithm of the evidence.
    pub(super) fn posterior(&self, prior: &Moments) -> Option<(Moments, f64)> {
        let size = self.size();
        let prior_precision = prior.covariance.cholesky().ok()?;
        let log_prior = prior_precision.ln_det();
        let prior_precision = prior_precision.inverse();
        let prior_vector = times(&prior_precision, &prior.mean);
        let precision = &self.matrix() + &prior_precision;
        let factor = precision.cholesky().ok()?;
        let covariance = factor.inverse();
        let vector: Vec<f64> = self.vector.iter().zip(&prior_vector).map(|(a, b)| a + b).collect();
        let mean = times(&covariance, &vector);
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let evidence = self.constant + 0.5 * dot(&vector, &mean)
            - 0.5 * dot(&prior_vector, &prior.mean)
            - 0.5 * (factor.ln_det() + log_prior);
        let symmetric = DynMatrix::from_fn(size, size, |row, column| {
            0.5 * (covariance[(row, column)] + covariance[(column, row)])
        });
        Some((Moments { mean, covariance: symmetric }, evidence))
    }
}

impl Moments {
    pub(super) fn independent(mean: Vec<f64>, variances: &[f64]) -> Self {
        Self { mean, covariance: DynMatrix::from_diag(&DynVector::from_slice(variances)) }
    }

    /// With independent variances added.
    pub(super) fn spread_by(mut self, variances: &[f64]) -> Self {
        for (row, variance) in variances.iter().enumerate() {
            self.covariance[(row, row)] += variance;
        }
        self
    }

    /// Mean and covariance of a mixture.
    pub(super) fn mixed(parts: &[(f64, Self)]) -> Option<Self> {
        let total: f64 = parts.iter().map(|(weight, _)| weight).sum();
        let size = parts.first()?.1.mean.len();
        let mut mean = vec![0.0; size];
        for (weight, part) in parts {
            for (sum, value) in mean.iter_mut().zip(&part.mean) {
                *sum += weight / total * value;
            }
        }
        let covariance = DynMatrix::from_fn(size, size, |row, column| {
            parts.iter().fold(0.0, |sum, (weight, part)| {
                let off = (part.mean[row] - mean[row]) * (part.mean[column] - mean[column]);
                sum + weight / total * (part.covariance[(row, column)] + off)
            })
        });
        Some(Self { mean, covariance })
    }

    /// A lower triangular factor of the covariance, row by row.
    pub(super) fn factor(&self) -> Option<Vec<Vec<f64>>> {
        let factor = self.covariance.cholesky().ok()?;
        let factor = factor.l();
        let size = self.mean.len();
        Some((0..size).map(|row| (0..=row).map(|c| factor[(row, c)]).collect()).collect())
    }
}

pub(super) fn times(matrix: &DynMatrix<f64>, vector: &[f64]) -> Vec<f64> {
    (0..matrix.nrows())
        .map(|row| vector.iter().enumerate().map(|(c, v)| matrix[(row, c)] * v).sum())
        .collect()
}

pub(super) fn rows(matrix: &DynMatrix<f64>) -> Vec<Vec<f64>> {
    (0..matrix.nrows()).map(|row| (0..matrix.ncols()).map(|c| matrix[(row, c)]).collect()).collect()
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn one_reading_and_a_prior_are_the_precision_weighted_mean() {
        let reading = Information::of_reading(3.0, 2.0);
        let prior = Moments::independent(vec![1.0], &[1.0]);
        let (posterior, evidence) = reading.posterior(&prior).unwrap();
        assert!((posterior.mean[0] - (3.0 / 4.0 + 1.0) / 1.25).abs() < 1e-12);
        assert!((posterior.covariance[(0, 0)] - 0.8).abs() < 1e-12);
        // N(3; 1, 4 + 1), but for the factor of the reading alone.
        let expected = -0.5 * (4.0_f64 / 5.0) - 0.5 * (5.0_f64 / 4.0).ln();
        assert!((evidence - expected).abs() < 1e-12, "{evidence} {expected}");
    }

    #[test]
    fn of_the_centre_a_reading_says_less_and_nothing_stays_nothing() {
        let centre = Information::of_reading(3.0, 2.0).of_centre(&[5.0]);
        assert!((centre.precision[0][0] - 1.0 / 9.0).abs() < 1e-12);
        assert!((centre.vector[0] / centre.precision[0][0] - 3.0).abs() < 1e-12);
        assert_eq!(Information::none(2).of_centre(&[1.0, 0.0]), Information::none(2));
        let same = Information::of_reading(3.0, 2.0);
        assert!((same.of_centre(&[0.0]).precision[0][0] - 0.25).abs() < 1e-15);
    }

    #[test]
    fn a_mixture_has_the_variance_between_its_parts() {
        let part = |mean: f64| (1.0, Moments::independent(vec![mean], &[0.5]));
        let mixed = Moments::mixed(&[part(0.0), part(2.0)]).unwrap();
        assert!((mixed.mean[0] - 1.0).abs() < 1e-12);
        assert!((mixed.covariance[(0, 0)] - 1.5).abs() < 1e-12);
        assert!(Moments::mixed(&[]).is_none());
    }
}
