//! Weighted quantiles.

use serde::{Deserialize, Serialize};

/// The inner 50 and 80 % of a quantity at one time.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Band {
    pub minutes: f64,
    /// 10 %.
    pub low_80: f64,
    /// 25 %.
    pub low_50: f64,
    pub median: f64,
    /// 75 %.
    pub high_50: f64,
    /// 90 %.
    pub high_80: f64,
}

impl Band {
    /// The band at a time, linear between those of `bands`, which rise; that at the nearer end
    /// outside them. `None` without any.
    pub fn between(bands: &[Self], minutes: f64) -> Option<Self> {
        let next = bands.partition_point(|band| band.minutes < minutes);
        let (Some(before), Some(after)) =
            (next.checked_sub(1).and_then(|n| bands.get(n)), bands.get(next))
        else {
            return bands.get(next).or(bands.last()).map(|end| Self { minutes, ..*end });
        };
        let share = (minutes - before.minutes) / (after.minutes - before.minutes);
        let between = |of: fn(&Self) -> f64| of(before) + share * (of(after) - of(before));
        Some(Self {
            minutes,
            low_80: between(|band| band.low_80),
            low_50: between(|band| band.low_50),
            median: between(|band| band.median),
            high_50: between(|band| band.high_50),
            high_80: between(|band| band.high_80),
        })
    }

    /// Width of the 80 % band.
    pub fn width(&self) -> f64 {
        self.high_80 - self.low_80
    }
}

/// Weighted quantiles of `values`, which may come in any order. `None` without weight.
pub(super) fn quantiles<const N: usize>(
    values: &[f64],
    weights: &[f64],
    at: [f64; N],
) -> Option<[f64; N]> {
    let mut pairs: Vec<(f64, f64)> = values.iter().copied().zip(weights.iter().copied()).collect();
    pairs.sort_by(|one, other| one.0.total_cmp(&other.0));
    quantiles_in_order(pairs.into_iter(), at)
}

/// [`quantiles`] of values that come in rising order, each with its weight.
pub(super) fn quantiles_in_order<const N: usize>(
    pairs: impl Iterator<Item = (f64, f64)>,
    at: [f64; N],
) -> Option<[f64; N]> {
    // A value stands at the middle of its own weight; between two the quantile is linear.
    let mut places = Vec::with_capacity(pairs.size_hint().0);
    let mut total = 0.0;
    for (value, weight) in pairs.filter(|(_, weight)| *weight > 0.0) {
        places.push((total + 0.5 * weight, value));
        total += weight;
    }
    if total.is_nan() || total <= 0.0 {
        return None;
    }
    let at = at.map(|share| share * total);
    Some(at.map(|share| {
        let next = places.partition_point(|(place, _)| *place < share);
        match (next.checked_sub(1).and_then(|before| places.get(before)), places.get(next)) {
            (Some(&(p0, v0)), Some(&(p1, v1))) if p1 > p0 => {
                v0 + (v1 - v0) * (share - p0) / (p1 - p0)
            }
            (Some(&(_, value)), None) | (_, Some(&(_, value))) => value,
            (None, None) => f64::NAN,
        }
    }))
}

/// Effective number of samples, `(Σw)²/Σw²` (Kish).
pub(super) fn effective_samples(weights: &[f64]) -> f64 {
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|w| w * w).sum();
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_band_between_two_is_on_the_line_and_the_ends_go_on() {
        let band = |minutes, median| Band {
            minutes,
            low_80: median - 2.0,
            low_50: median - 1.0,
            median,
            high_50: median + 1.0,
            high_80: median + 2.0,
        };
        let bands = [band(0.0, 10.0), band(20.0, 14.0)];
        assert_eq!(Band::between(&bands, 5.0), Some(band(5.0, 11.0)));
        assert_eq!(Band::between(&bands, 20.0), Some(band(20.0, 14.0)));
        assert_eq!(Band::between(&bands, 60.0), Some(band(60.0, 14.0)));
        assert_eq!(Band::between(&[], 5.0), None);
    }

    #[test]
    fn equal_weights_give_plain_quantiles() {
        let values: Vec<f64> = (0..101).rev().map(f64::from).collect();
        let [low, median, high] = quantiles(&values, &[1.0; 101], [0.1, 0.5, 0.9]).unwrap();
        assert!((median - 50.0).abs() < 1e-9);
        assert!((low - 9.6).abs() < 0.2 && (high - 90.4).abs() < 0.2, "{low} {high}");
    }

    #[test]
    fn a_weight_counts_as_copies() {
        let [once] = quantiles(&[1.0, 2.0, 3.0], &[1.0, 1.0, 8.0], [0.5]).unwrap();
        let copies = [1.0, 2.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0, 3.0];
        let [copied] = quantiles(&copies, &[1.0; 10], [0.5]).unwrap();
        assert!((once - copied).abs() < 0.3, "{once} {copied}");
        assert_eq!(quantiles(&[1.0, 2.0], &[0.0, 0.0], [0.5]), None);
        assert_eq!(quantiles(&[], &[], [0.5]), None);
    }

    #[test]
    fn effective_samples_fall_with_uneven_weights() {
        assert!((effective_samples(&[2.0; 50]) - 50.0).abs() < 1e-9);
        assert!((effective_samples(&[1.0, 0.0, 0.0]) - 1.0).abs() < 1e-9);
        assert_eq!(effective_samples(&[0.0, 0.0]), 0.0);
    }
}
