//! What the pots show: lightness by each factor, fitted with its uncertainty.

use numeris::DynMatrix;
use numeris::stats::{ContinuousDistribution, StudentT};

/// One pot that was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PotResponse {
    /// The level of each varied factor: charge, time and the like, in their own units; 0 and 1
    /// for two bleaches.
    pub levels: [f64; 4],
    /// CIE L*.
    pub lightness: f64,
    /// Half of its range, which holds 95 %.
    pub half: f64,
}

/// A lightness on a fitted line, with its 80 % range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ResponsePoint {
    pub level: f64,
    pub lightness: f64,
    pub low: f64,
    pub high: f64,
}

/// A straight line for each varied factor, by least squares.
#[derive(Clone, Debug)]
pub struct Response {
    /// Columns of the factors that vary, after the constant.
    factors: Vec<usize>,
    /// Means of the levels; half of their span.
    centre: [f64; 4],
    span: [f64; 4],
    coefficients: Vec<f64>,
    covariance: DynMatrix<f64>,
    /// Student's t of 90 %, for the degrees of freedom that are left.
    quantile: f64,
}

impl Response {
    /// The fit; `None` with fewer than two pots more than there are lines to draw, or if the
    /// levels do not tell the factors apart.
    ///
    /// The scatter is that of the pots around the lines, and never less than the error of the
    /// readings.
    pub fn fit(pots: &[PotResponse]) -> Option<Self> {
        let range = |nth: usize| {
            let levels = pots.iter().map(|pot| pot.levels[nth]);
            let low = levels.clone().fold(f64::INFINITY, f64::min);
            (low, levels.fold(f64::NEG_INFINITY, f64::max))
        };
        let ranges: [(f64, f64); 4] = std::array::from_fn(range);
        let factors: Vec<usize> = (0..4).filter(|&nth| ranges[nth].1 > ranges[nth].0).collect();
        let unknown = 1 + factors.len();
        let freedom = pots.len().checked_sub(unknown).filter(|freedom| *freedom >= 1)?;
        let centre = ranges.map(|(low, high)| f64::midpoint(low, high));
        let span = ranges.map(|(low, high)| (0.5 * (high - low)).max(1e-12));
        let row = |levels: &[f64; 4]| row(&factors, centre, span, levels);
        let design: Vec<f64> = pots.iter().flat_map(|pot| row(&pot.levels)).collect();
        let design = DynMatrix::from_rows(pots.len(), unknown, &design);
        let normal = design.transpose() * design.clone();
        let factor = normal.cholesky().ok()?;
        // A pivot of rounding errors: one column is a sum of others.
        let pivot = |nth: usize| factor.l()[(nth, nth)].powi(2) / normal[(nth, nth)];
        if (0..unknown).any(|nth| pivot(nth) < 1e-9) {
            return None;
        }
        let inverse = factor.inverse();
        let read = DynMatrix::from_fn(pots.len(), 1, |nth, _| pots[nth].lightness);
        let solved = inverse.clone() * (design.transpose() * read);
        let coefficients: Vec<f64> = (0..unknown).map(|nth| solved[(nth, 0)]).collect();
        let off = |pot: &PotResponse| {
            let fitted: f64 = row(&pot.levels).iter().zip(&coefficients).map(|(x, b)| x * b).sum();
            pot.lightness - fitted
        };
        let scatter = pots.iter().map(|pot| off(pot).powi(2)).sum::<f64>() / freedom as f64;
        let error =
            pots.iter().map(|pot| (pot.half / 1.96).powi(2)).sum::<f64>() / pots.len() as f64;
        let variance = scatter.max(error);
        let covariance =
            DynMatrix::from_fn(unknown, unknown, |row, column| variance * inverse[(row, column)]);
        let quantile = StudentT::new(freedom as f64).ok()?.quantile(0.9);
        Some(Self { factors, centre, span, coefficients, covariance, quantile })
    }

    /// Whether a factor varies.
    pub fn varies(&self, factor: usize) -> bool {
        self.factors.contains(&factor)
    }

    /// The lightness that the lines give, with the 80 % range of the line there (not of one more
    /// pot).
    pub fn at(&self, levels: &[f64; 4]) -> (f64, f64, f64) {
        let row = row(&self.factors, self.centre, self.span, levels);
        let value: f64 = row.iter().zip(&self.coefficients).map(|(x, b)| x * b).sum();
        let mut variance = 0.0;
        for (i, x) in row.iter().enumerate() {
            for (j, y) in row.iter().enumerate() {
                variance += x * self.covariance[(i, j)] * y;
            }
        }
        let half = self.quantile * variance.max(0.0).sqrt();
        (value, value - half, value + half)
    }

    /// The line of one factor at `steps` levels over its range, the others in the middle of
    /// theirs. Never beyond what was tried.
    pub fn line(&self, factor: usize, steps: usize) -> Vec<ResponsePoint> {
        let steps = steps.max(2);
        (0..steps)
            .map(|nth| {
                let part = 2.0 * nth as f64 / (steps - 1) as f64 - 1.0;
                let mut levels = self.centre;
                levels[factor] += part * self.span[factor];
                let (lightness, low, high) = self.at(&levels);
                ResponsePoint { level: levels[factor], lightness, low, high }
            })
            .collect()
    }

    /// What a factor does from its least to its largest level, with the 80 % range.
    pub fn effect(&self, factor: usize) -> Option<(f64, f64, f64)> {
        let place = 1 + self.factors.iter().position(|one| *one == factor)?;
        let value = 2.0 * self.coefficients[place];
        let half = 2.0 * self.quantile * self.covariance[(place, place)].max(0.0).sqrt();
        Some((value, value - half, value + half))
    }
}

/// 1, and the varied levels from -1 to 1.
fn row(factors: &[usize], centre: [f64; 4], span: [f64; 4], levels: &[f64; 4]) -> Vec<f64> {
    let scaled = factors.iter().map(|&nth| (levels[nth] - centre[nth]) / span[nth]);
    std::iter::once(1.0).chain(scaled).collect()
}

/// The pot to scale up: of those that reach the target, by the whole of their range, the
/// mildest; where none does, the lightest. `severity` gives how hard a pot was treated. `None`
/// without a pot.
pub fn best_pot(
    pots: &[PotResponse],
    target: Option<f64>,
    severity: impl Fn(usize) -> f64,
) -> Option<usize> {
    let reaches =
        |nth: &usize| target.is_some_and(|target| pots[*nth].lightness - pots[*nth].half >= target);
    let mildest =
        (0..pots.len()).filter(reaches).min_by(|a, b| severity(*a).total_cmp(&severity(*b)));
    mildest.or_else(|| {
        (0..pots.len()).max_by(|a, b| pots[*a].lightness.total_cmp(&pots[*b].lightness))
    })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn pot(charge: f64, minutes: f64, lightness: f64) -> PotResponse {
        PotResponse { levels: [0.0, charge, 38.0, minutes], lightness, half: 0.5 }
    }

    /// L* = 70 + 3 charge + 0.05 minutes, with the errors given.
    fn table(errors: [f64; 6]) -> Vec<PotResponse> {
        let cells = [(1.0, 30.0), (1.0, 60.0), (2.0, 30.0), (2.0, 60.0), (3.0, 30.0), (3.0, 60.0)];
        cells
            .into_iter()
            .zip(errors)
            .map(|((c, m), error)| pot(c, m, 70.0 + 3.0 * c + 0.05 * m + error))
            .collect()
    }

    #[test]
    fn a_plane_is_found_and_its_band_is_that_of_the_readings() {
        let fit = Response::fit(&table([0.0; 6])).unwrap();
        let (value, low, high) = fit.at(&[0.0, 2.0, 38.0, 45.0]);
        assert!((value - 78.25).abs() < 1e-9);
        // Six readings of 0.255 standard deviation, 3 degrees of freedom: t = 1.638.
        assert!((high - value - 1.638 * 0.5 / 1.96 / 6f64.sqrt()).abs() < 1e-3, "{high}");
        assert!((high - value - (value - low)).abs() < 1e-9);
        let (effect, ..) = fit.effect(1).unwrap();
        assert!((effect - 6.0).abs() < 1e-9);
        assert!(fit.effect(2).is_none() && !fit.varies(2) && fit.varies(3));
    }

    /// x 1 to 5, y 2, 4, 5, 4, 5: slope 0.6, intercept 2.2, residual variance 0.8.
    #[test]
    fn a_line_worked_by_hand() {
        let pots: Vec<PotResponse> = [2.0, 4.0, 5.0, 4.0, 5.0]
            .into_iter()
            .enumerate()
            .map(|(nth, y)| PotResponse {
                levels: [0.0, 1.0 + nth as f64, 0.0, 0.0],
                lightness: y,
                half: 0.0,
            })
            .collect();
        let fit = Response::fit(&pots).unwrap();
        let (at_1, low, high) = fit.at(&[0.0, 1.0, 0.0, 0.0]);
        assert!((at_1 - 2.8).abs() < 1e-9);
        // t(0.9, 3) = 1.637744; standard error at x = 1: sqrt(0.8 (1/5 + 4/10)).
        assert!((high - low - 2.0 * 1.637_744 * (0.8_f64 * 0.6).sqrt()).abs() < 1e-5);
    }

    #[test]
    fn scatter_widens_the_band_and_too_few_pots_have_none() {
        let quiet = Response::fit(&table([0.0; 6])).unwrap().at(&[0.0, 2.0, 38.0, 45.0]);
        let noisy = Response::fit(&table([3.0, -3.0, -3.0, 3.0, 3.0, -3.0])).unwrap();
        let noisy = noisy.at(&[0.0, 2.0, 38.0, 45.0]);
        assert!(noisy.2 - noisy.1 > 3.0 * (quiet.2 - quiet.1));
        assert!(Response::fit(&table([0.0; 6])[..3]).is_none());
        assert!(Response::fit(&[]).is_none());
    }

    #[test]
    fn levels_that_move_together_cannot_be_told_apart() {
        let together: Vec<PotResponse> =
            (0..6).map(|n| pot(f64::from(n), 30.0 * f64::from(n), 70.0)).collect();
        assert!(Response::fit(&together).is_none());
    }

    #[test]
    fn the_mildest_that_surely_reaches_the_target_is_best() {
        let pots = table([0.0; 6]);
        let severity = |nth: usize| pots[nth].levels[1] * pots[nth].levels[3];
        // 77.5 and above by the whole range: pots 2 (at 77.5 - 0.5 no), 3, 4 and 5.
        assert_eq!(best_pot(&pots, Some(77.2), severity), Some(4));
        assert_eq!(best_pot(&pots, Some(99.0), severity), Some(5));
        assert_eq!(best_pot(&pots, None, severity), Some(5));
        assert_eq!(best_pot(&[], None, |_| 0.0), None);
    }
}
