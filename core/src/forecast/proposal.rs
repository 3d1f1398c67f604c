//! Where samples are drawn from. At first evenly over all ranges; once readings have weighed the
//! samples, more where they agree. Each sample's weight is divided by the density with which all
//! draws so far would have drawn it (the balance heuristic of multiple importance sampling, Veach
//! & Guibas 1995), so that the bands stay those of the ranges and the readings alone.

/// Bins of each dimension.
const BINS: usize = 8;
/// Part of the draws of a dimension that stays even: no value is given up.
const EVEN: f64 = 0.25;
/// Chi-squared over 7 degrees of freedom at 1 %: below, a dimension is drawn evenly, since the
/// samples say nothing of it (table, from memory).
const TELLING: f64 = 18.5;

/// A density over the unit cube, each dimension on its own.
#[derive(Clone, Debug)]
pub(super) struct Proposal {
    /// Probabilities of the bins of each dimension that is not even, by its number.
    dimensions: Vec<(usize, [f64; BINS])>,
}

impl Proposal {
    /// Even over all.
    pub fn even() -> Self {
        Self { dimensions: Vec::new() }
    }

    /// Fitted to weighted points; `effective` is their effective number.
    pub fn fitted(points: &[(&[f32], f64)], effective: f64) -> Self {
        let count = points.first().map_or(0, |(place, _)| place.len());
        let total: f64 = points.iter().map(|(_, weight)| weight).sum();
        let fit = |dimension: usize| {
            let mut shares = [0.0; BINS];
            for (place, weight) in points {
                shares[bin(f64::from(place[dimension]))] += weight / total;
            }
            let even = 1.0 / BINS as f64;
            let off: f64 = shares.iter().map(|share| (share - even).powi(2) / even).sum();
            (effective * off > TELLING).then(|| (dimension, smoothed(&shares)))
        };
        Self { dimensions: (0..count).filter_map(fit).collect() }
    }

    /// The place in a dimension for an even number 0 to 1.
    pub fn place(&self, dimension: usize, even: f64) -> f64 {
        let Some((_, shares)) = self.dimensions.iter().find(|(known, _)| *known == dimension)
        else {
            return even;
        };
        let mut below = 0.0;
        for (nth, share) in shares.iter().enumerate() {
            if even < below + share || nth == BINS - 1 {
                let within = ((even - below) / share).clamp(0.0, 1.0 - 1e-9);
                return (nth as f64 + within) / BINS as f64;
            }
            below += share;
        }
        even
    }

    /// The density at a place; 1 everywhere if even.
    pub fn density(&self, place: &[f32]) -> f64 {
        let of = |(dimension, shares): &(usize, [f64; BINS])| {
            shares[bin(f64::from(place[*dimension]))] * BINS as f64
        };
        self.dimensions.iter().map(of).product()
    }
}

fn bin(place: f64) -> usize {
    ((place * BINS as f64) as usize).min(BINS - 1)
}

/// Each bin with a quarter of either neighbour, and a part that is even.
fn smoothed(shares: &[f64; BINS]) -> [f64; BINS] {
    std::array::from_fn(|nth| {
        let before = shares[nth.saturating_sub(1)];
        let after = shares[(nth + 1).min(BINS - 1)];
        let near = 0.25 * before + 0.5 * shares[nth] + 0.25 * after;
        EVEN / BINS as f64 + (1.0 - EVEN) * near
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Points that crowd at the low end of the first of two dimensions.
    fn fitted() -> Proposal {
        let places: Vec<[f32; 2]> =
            (0..400).map(|n| [0.25 * (n % 20) as f32 / 20.0, (n / 20) as f32 / 20.0]).collect();
        let points: Vec<(&[f32], f64)> = places.iter().map(|place| (&place[..], 1.0)).collect();
        Proposal::fitted(&points, 400.0)
    }

    #[test]
    fn draws_follow_the_points_and_what_they_say_nothing_of_stays_even() {
        let fitted = fitted();
        let places: Vec<f64> = (0..1000).map(|n| fitted.place(0, f64::from(n) / 1000.0)).collect();
        assert!(places.windows(2).all(|pair| pair[0] <= pair[1]));
        let low = places.iter().filter(|place| **place < 0.25).count();
        assert!(low > 600 && low < 900, "{low}");
        assert_eq!(fitted.place(1, 0.37), 0.37);
        assert_eq!(Proposal::even().place(0, 0.37), 0.37);
    }

    #[test]
    fn the_density_integrates_to_one_and_is_never_nothing() {
        let fitted = fitted();
        let at = |n: i32| fitted.density(&[(n as f32 + 0.5) / 800.0, 0.5]);
        let mean = (0..800).map(at).sum::<f64>() / 800.0;
        assert!((mean - 1.0).abs() < 1e-9, "{mean}");
        assert!((0..800).all(|n| at(n) >= EVEN));
        assert_eq!(Proposal::even().density(&[0.2, 0.9]), 1.0);
    }

    #[test]
    fn few_points_change_nothing() {
        let places = [[0.1_f32], [0.3], [0.15], [0.6]];
        let points: Vec<(&[f32], f64)> = places.iter().map(|place| (&place[..], 1.0)).collect();
        assert_eq!(Proposal::fitted(&points, 4.0).density(&[0.1]), 1.0);
    }
}
