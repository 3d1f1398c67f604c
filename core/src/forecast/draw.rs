//! Quasi-random draws: point `index` of an Owen-scrambled Sobol sequence, by a seed.
//!
//! Any part of the sequence can be drawn alone, so that a forecast can go on later, and its
//! first hundred draws are already spread over all ranges.

use super::proposal::Proposal;
use crate::quantity::Estimate;
use sobol_burley::sample;

/// Dimensions that the crate has.
const DIMENSIONS: u32 = 256;

/// One draw of all inputs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Draw<'a> {
    pub index: u32,
    pub seed: u32,
    pub from: &'a Proposal,
}

impl Draw<'_> {
    /// A number from 0 to below 1 for a dimension, as likely as its proposal says.
    pub fn point(&self, dimension: usize) -> f64 {
        let dimension = u32::try_from(dimension).unwrap_or(0) % DIMENSIONS;
        self.from.place(dimension as usize, f64::from(sample(self.index, dimension, self.seed)))
    }

    /// A value of an estimate: as likely below its value as above, anywhere on either side with
    /// equal probability.
    pub fn estimate(&self, dimension: usize, estimate: Estimate<f64>) -> f64 {
        let Estimate { value, low, high, .. } = estimate;
        let point = self.point(dimension);
        if point < 0.5 {
            low + (value - low) * 2.0 * point
        } else {
            value + (high - value) * (2.0 * point - 1.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Basis;

    #[test]
    fn the_first_hundred_draws_fill_every_dimension_evenly() {
        for dimension in 0..40 {
            let mut tenths = [0_u32; 10];
            for index in 0..100 {
                let point = Draw { index, seed: 7, from: &Proposal::even() }.point(dimension);
                tenths[(10.0 * point) as usize] += 1;
            }
            assert!(tenths.iter().all(|count| (5..=15).contains(count)), "{dimension} {tenths:?}");
        }
    }

    #[test]
    fn equal_seeds_draw_alike_and_others_differ() {
        let at = |seed| Draw { index: 12, seed, from: &Proposal::even() }.point(3);
        assert_eq!(at(1).to_bits(), at(1).to_bits());
        assert!((at(1) - at(2)).abs() > 1e-6);
    }

    #[test]
    fn half_of_the_draws_are_on_either_side_of_the_value() {
        let even = Proposal::even();
        let estimate = Estimate { value: 2.0, low: 1.0, high: 10.0, basis: Basis::Assumed };
        let below = (0..200)
            .filter(|&index| Draw { index, seed: 3, from: &even }.estimate(0, estimate) < 2.0)
            .count();
        assert!((95..=105).contains(&below), "{below}");
        let all = (0..200).map(|index| Draw { index, seed: 3, from: &even }.estimate(0, estimate));
        assert!(all.into_iter().all(|value| (1.0..=10.0).contains(&value)));
    }
}
