//! Integration of stiff differential equations: RODAS4 (Hairer & Wanner, a linearly implicit
//! Runge-Kutta method of order 4(3), L-stable) of the crate `numeris`.
//!
//! For autonomous systems: the method as implemented takes no derivative by time.

use numeris::ode::{AdaptiveSettings, OdeError, RODAS4, Rosenbrock};
use numeris::{Matrix, Vector};

/// Why a course could not be integrated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the course of the bath could not be integrated")]
pub struct IntegrationError;

impl From<OdeError> for IntegrationError {
    fn from(_: OdeError) -> Self {
        Self
    }
}

/// Error tolerances of a step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    pub relative: f64,
    pub absolute: f64,
}

/// A system of `N` equations `dy/dt = f(y)`.
pub trait AutonomousSystem<const N: usize> {
    fn slope(&self, y: &[f64; N]) -> [f64; N];

    /// The derivatives of the slopes by the state, a row for each slope; by differences unless
    /// written out.
    fn jacobian(&self, y: &[f64; N]) -> [[f64; N]; N] {
        /// Between rounding and curvature, for states of about 1.
        const STEP: f64 = 1e-5;
        let here = self.slope(y);
        let mut rows = [[0.0; N]; N];
        for column in 0..N {
            let step = STEP * y[column].abs().max(0.01);
            let mut moved = *y;
            moved[column] += step;
            let there = self.slope(&moved);
            for (row, (there, here)) in rows.iter_mut().zip(there.iter().zip(here)) {
                row[column] = (there - here) / step;
            }
        }
        rows
    }
}

/// One integration: the state at the end, and the step to begin the next one with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Integrated<const N: usize> {
    pub y: [f64; N],
    pub next_step: f64,
}

/// Integrates from `y` over a time `span`; `first_step` as proposed by the integration before.
///
/// # Errors
/// A state that is not finite, or more than 100 000 steps.
pub fn integrate<const N: usize>(
    system: &impl AutonomousSystem<N>,
    y: &[f64; N],
    span: f64,
    first_step: Option<f64>,
    tolerance: Tolerance,
) -> Result<Integrated<N>, IntegrationError> {
    let settings = AdaptiveSettings {
        rel_tol: tolerance.relative,
        abs_tol: tolerance.absolute,
        min_step: 1e-12 * span,
        initial_step: first_step.filter(|step| *step > 0.0 && step.is_finite()),
        ..AdaptiveSettings::default()
    };
    let slope = |_: f64, y: &Vector<f64, N>| Vector::from_array(system.slope(&array(y)));
    let jacobian = |_: f64, y: &Vector<f64, N>| Matrix::new(system.jacobian(&array(y)));
    let start = Vector::from_array(*y);
    let solution = RODAS4::integrate(0.0, span, &start, slope, jacobian, &settings)?;
    Ok(Integrated { y: array(&solution.y), next_step: solution.next_step })
}

fn array<const N: usize>(y: &Vector<f64, N>) -> [f64; N] {
    std::array::from_fn(|row| y[row])
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn solved<const N: usize>(
        system: &impl AutonomousSystem<N>,
        y: [f64; N],
        span: f64,
        relative: f64,
        absolute: f64,
    ) -> [f64; N] {
        integrate(system, &y, span, None, Tolerance { relative, absolute }).unwrap().y
    }

    fn near(found: f64, expected: f64, part: f64) {
        assert!((found / expected - 1.0).abs() < part, "{found} is not {expected}");
    }

    struct Robertson;

    impl AutonomousSystem<3> for Robertson {
        fn slope(&self, [a, b, c]: &[f64; 3]) -> [f64; 3] {
            let first = -0.04 * a + 1e4 * b * c;
            let last = 3e7 * b * b;
            [first, -first - last, last]
        }

        fn jacobian(&self, [_, b, c]: &[f64; 3]) -> [[f64; 3]; 3] {
            let (x, y, z) = (1e4 * c, 1e4 * b, 6e7 * b);
            [[-0.04, x, y], [0.04, -x - z, -y], [0.0, z, 0.0]]
        }
    }

    /// Hairer & Wanner's test set, as stated there.
    #[test]
    fn robertson_at_1e11() {
        let y = solved(&Robertson, [1.0, 0.0, 0.0], 1e11, 1e-9, 1e-16);
        near(y[0], 0.208_334_014_970_125_5e-7, 1e-4);
        near(y[1], 0.833_336_077_033_471_3e-13, 1e-4);
        near(y[2], 0.999_999_979_166_505, 1e-8);
    }

    /// SUNDIALS IDA's example, relative tolerance 1e-4, five digits as printed there.
    #[test]
    fn robertson_at_the_times_of_sundials() {
        let table = [
            (0.4, [0.985_17, 3.3864e-5, 0.014_794]),
            (4.0, [0.905_53, 2.2406e-5, 0.094_452]),
            (40.0, [0.715_79, 9.1838e-6, 0.284_20]),
            (400.0, [0.450_44, 3.2218e-6, 0.549_56]),
            (4e3, [0.183_20, 8.9444e-7, 0.816_80]),
            (4e4, [0.038_992, 1.6221e-7, 0.961_01]),
            (4e5, [4.9369e-3, 1.9842e-8, 0.995_06]),
        ];
        for (time, expected) in table {
            let y = solved(&Robertson, [1.0, 0.0, 0.0], time, 1e-8, 1e-14);
            for (found, expected) in y.into_iter().zip(expected) {
                near(found, expected, 3e-3);
            }
        }
    }

    struct VanDerPol;

    impl AutonomousSystem<2> for VanDerPol {
        fn slope(&self, [y, z]: &[f64; 2]) -> [f64; 2] {
            [*z, 1000.0 * (1.0 - y * y) * z - y]
        }

        fn jacobian(&self, [y, z]: &[f64; 2]) -> [[f64; 2]; 2] {
            [[0.0, 1.0], [-2000.0 * y * z - 1.0, 1000.0 * (1.0 - y * y)]]
        }
    }

    /// Test set, mu 1000.
    #[test]
    fn van_der_pol_at_2000() {
        let [y, z] = solved(&VanDerPol, [2.0, 0.0], 2000.0, 1e-9, 1e-9);
        near(y, 1.706_167_732_170_469, 1e-5);
        near(z, -0.892_809_701_024_812_5e-3, 1e-5);
    }

    struct Hires;

    impl AutonomousSystem<8> for Hires {
        fn slope(&self, y: &[f64; 8]) -> [f64; 8] {
            let pair = 280.0 * y[5] * y[7];
            [
                -1.71 * y[0] + 0.43 * y[1] + 8.32 * y[2] + 0.0007,
                1.71 * y[0] - 8.75 * y[1],
                -10.03 * y[2] + 0.43 * y[3] + 0.035 * y[4],
                8.32 * y[1] + 1.71 * y[2] - 1.12 * y[3],
                -1.745 * y[4] + 0.43 * (y[5] + y[6]),
                -pair + 0.69 * y[3] + 1.71 * y[4] - 0.43 * y[5] + 0.69 * y[6],
                pair - 1.81 * y[6],
                -pair + 1.81 * y[6],
            ]
        }
    }

    /// Test set, four digits, with a Jacobian by differences.
    #[test]
    fn hires_at_its_end() {
        let start = [1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0057];
        let y = solved(&Hires, start, 321.8122, 1e-8, 1e-10);
        let expected = [
            0.7371e-3, 0.1442e-3, 0.5889e-4, 0.1176e-2, 0.2386e-2, 0.6239e-2, 0.2850e-2, 0.2850e-2,
        ];
        for (found, expected) in y.into_iter().zip(expected) {
            // Half a unit of the fourth digit.
            near(found, expected, 4e-4);
        }
    }

    /// The closed form of the second-order approach to a floor.
    #[test]
    fn second_order_approach_is_its_closed_form() {
        struct SecondOrder(f64);
        impl AutonomousSystem<1> for SecondOrder {
            fn slope(&self, [x]: &[f64; 1]) -> [f64; 1] {
                [-self.0 * x * x]
            }
        }
        let (rate, start) = (0.3, 2.0);
        let half_life = 1.0 / (rate * start);
        for (time, expected) in
            [(half_life, 0.5 * start), (3.0 * half_life, 0.25 * start), (7.0 * half_life, 0.25)]
        {
            let [x] = solved(&SecondOrder(rate), [start], time, 1e-9, 1e-12);
            near(x, expected, 1e-6);
        }
    }

    #[test]
    fn a_course_that_leaves_the_numbers_is_an_error() {
        struct Explodes;
        impl AutonomousSystem<1> for Explodes {
            fn slope(&self, [x]: &[f64; 1]) -> [f64; 1] {
                [x * x * x]
            }
        }
        let tolerance = Tolerance { relative: 1e-6, absolute: 1e-9 };
        assert!(integrate(&Explodes, &[1.0], 10.0, None, tolerance).is_err());
    }
}
