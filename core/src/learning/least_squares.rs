//! Nonlinear least squares by Levenberg and Marquardt, of the crate `numeris`.

use numeris::optim::{LmSettings, OptimError, least_squares_lm_dyn};
use numeris::{DynMatrix, DynVector};
use std::cell::RefCell;

/// Why nothing was fitted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LeastSquaresError {
    #[error("no residual is a number at the start")]
    Start,
    #[error("the normal equations have no solution")]
    Singular,
}

/// When a fit ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastSquaresSettings {
    pub most_iterations: usize,
    /// Relative change of the cost, and of the parameters, below which it has converged.
    pub tolerance: f64,
    /// Step of the difference quotients, in units of `scale`.
    pub step: f64,
    /// Whether they are central: twice the evaluations, and far more exact.
    pub central: bool,
}

/// The best parameters found.
#[derive(Clone, Debug, PartialEq)]
pub struct LeastSquaresFit {
    pub parameters: Vec<f64>,
    pub residuals: Vec<f64>,
    /// A row for each residual, a column for each parameter.
    pub jacobian: Vec<Vec<f64>>,
    /// Half the sum of squares.
    pub cost: f64,
}

/// Parameters that make the sum of squares of `residuals` least, from a start. `scale` is a
/// usual size of each parameter, above 0: the damping is the same for all in these units.
/// Residuals must keep their number; one that is not finite rejects a step.
///
/// # Errors
/// Residuals at the start that are not finite, or equations without a solution. Too few
/// iterations are no error: the best found is returned.
pub fn least_squares(
    residuals: impl Fn(&[f64]) -> Vec<f64>,
    start: &[f64],
    scale: &[f64],
    settings: LeastSquaresSettings,
) -> Result<LeastSquaresFit, LeastSquaresError> {
    let unscaled = |x: &DynVector<f64>| -> Vec<f64> {
        x.iter().zip(start).zip(scale).map(|((x, start), scale)| start + x * scale).collect()
    };
    let evaluate = |x: &DynVector<f64>| residuals(&unscaled(x));
    let zero = DynVector::zeros(start.len());
    let first = evaluate(&zero);
    if first.iter().any(|r| !r.is_finite()) {
        return Err(LeastSquaresError::Start);
    }
    // The crate gives no parameters when its iterations run out.
    let best = RefCell::new((cost_of(&first), zero.clone(), first));
    let residual = |x: &DynVector<f64>| {
        let found = evaluate(x);
        let cost = cost_of(&found);
        if cost < best.borrow().0 {
            *best.borrow_mut() = (cost, x.clone(), found.clone());
        }
        DynVector::from_vec(found)
    };
    let jacobian = |x: &DynVector<f64>| difference_quotients(&evaluate, x, settings);
    let tolerance = settings.tolerance;
    let limits = LmSettings {
        grad_tol: 1e-14,
        x_tol: tolerance,
        f_tol: tolerance,
        max_iter: settings.most_iterations,
        mu_init: 1e-2,
        mu_min: 1e-14,
        ..LmSettings::default()
    };
    match least_squares_lm_dyn(residual, jacobian, &zero, &limits) {
        Ok(_) | Err(OptimError::MaxIterations) => {}
        Err(_) => return Err(LeastSquaresError::Singular),
    }
    let (cost, x, residuals) = best.into_inner();
    let slopes = difference_quotients(&evaluate, &x, settings);
    let row = |row: usize| (0..start.len()).map(|c| slopes[(row, c)] / scale[c]).collect();
    let jacobian = (0..residuals.len()).map(row).collect();
    Ok(LeastSquaresFit { parameters: unscaled(&x), residuals, jacobian, cost })
}

fn cost_of(residuals: &[f64]) -> f64 {
    0.5 * residuals.iter().map(|r| r * r).sum::<f64>()
}

fn difference_quotients(
    evaluate: &impl Fn(&DynVector<f64>) -> Vec<f64>,
    x: &DynVector<f64>,
    settings: LeastSquaresSettings,
) -> DynMatrix<f64> {
    let here = evaluate(x);
    let mut slopes = DynMatrix::zeros(here.len(), x.len());
    for column in 0..x.len() {
        let step = settings.step * (1.0 + x[column].abs());
        let moved = |by: f64| {
            let mut there = x.clone();
            there[column] += by;
            evaluate(&there)
        };
        let ahead = moved(step);
        let (behind, width) =
            if settings.central { (moved(-step), 2.0 * step) } else { (here.clone(), step) };
        for (row, (ahead, behind)) in ahead.iter().zip(&behind).enumerate() {
            let slope = (ahead - behind) / width;
            slopes[(row, column)] = if slope.is_finite() { slope } else { 0.0 };
        }
    }
    slopes
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const SETTINGS: LeastSquaresSettings =
        LeastSquaresSettings { most_iterations: 50, tolerance: 1e-14, step: 1e-6, central: true };

    #[test]
    fn a_line_is_the_closed_form() {
        let (x, y) = ([0.0, 1.0, 2.0, 3.0], [1.0, 2.9, 5.2, 6.9]);
        let residuals =
            |p: &[f64]| x.iter().zip(y).map(|(x, y)| p[0] + p[1] * x - y).collect::<Vec<f64>>();
        let fit = least_squares(residuals, &[0.0, 0.0], &[1.0, 1.0], SETTINGS).unwrap();
        assert!((fit.parameters[0] - 1.0).abs() < 1e-8 && (fit.parameters[1] - 2.0).abs() < 1e-8);
        assert!((fit.jacobian[3][1] - 3.0).abs() < 1e-6);
    }

    #[test]
    fn a_start_that_is_no_number_is_refused_and_few_iterations_are_not() {
        let nothing = least_squares(|_| vec![f64::NAN], &[1.0], &[1.0], SETTINGS);
        assert_eq!(nothing, Err(LeastSquaresError::Start));
        let few = LeastSquaresSettings { most_iterations: 1, ..SETTINGS };
        let fit = least_squares(|p| vec![p[0] * p[0] - 2.0], &[3.0], &[1.0], few).unwrap();
        assert!(fit.cost < 0.5 * 49.0);
    }
}
