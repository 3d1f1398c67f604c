//! Split-conformal correction: bands made wider or narrower by how the bands of earlier baths,
//! forecast before anything was learnt from them, held their readings.

use crate::forecast::reading::{comparison_scale, model_error};
use crate::forecast::{Band, ForecastQuantity, ForecastReading};
use serde::{Deserialize, Serialize};

/// Fewest scores for a correction of the 80 % band: below, the rank does not exist.
pub const FEWEST_SCORES: usize = 4;
/// Latest scores that count: older ones are of bands from less learning (own choice).
const LATEST: usize = 40;
/// Part of the readings that a band is to hold.
const HELD: f64 = 0.8;
/// Factor before there are enough scores: the law was not tried on this pulp, and in simulated
/// studios of another law plain bands hold 62 to 70 % (`tests/kinetics`; own choice).
const UNTRIED: f64 = 1.15;
/// Normal quantile of 90 %: half the width of an 80 % band in standard deviations.
const HALF_80: f64 = 1.281_551_6;

/// Rank of the score, from 1, that `held` of new ones are not above: `⌈(n + 1) held⌉`; `None`
/// if there are too few (split conformal prediction).
pub fn conformal_rank(scores: usize, held: f64) -> Option<usize> {
    // Not above by rounding: 0.9 · 10 is 9.
    let rank = ((scores + 1) as f64 * held - 1e-9).ceil().max(1.0) as usize;
    (rank <= scores).then_some(rank)
}

/// How far a reading was from the middle of a band forecast before, over half its width.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct QuantityScore {
    pub of: ForecastQuantity,
    pub score: f64,
}

impl QuantityScore {
    /// The score of a reading by the band at its time.
    pub(super) fn of_reading(band: &Band, reading: &ForecastReading) -> Option<Self> {
        let scale = |value| comparison_scale(reading.of, value);
        // Above the median if the reading is above it.
        let (above_median, deviation) = reading.comparison(band.median)?;
        let above = -above_median;
        let half = if above > 0.0 {
            scale(band.high_80) - scale(band.median)
        } else {
            scale(band.median) - scale(band.low_80)
        };
        let noise = HALF_80 * deviation.hypot(model_error(reading.of));
        let score = above.abs() / half.hypot(noise);
        score.is_finite().then_some(Self { of: reading.of, score })
    }
}

/// Factors on the widths of bands, by quantity.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct BandCorrection {
    factors: Vec<QuantityFactor>,
}

#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
struct QuantityFactor {
    of: ForecastQuantity,
    factor: f64,
    scores: usize,
}

impl BandCorrection {
    /// From the scores of earlier readings, in order of time.
    pub fn from_scores(scores: &[QuantityScore]) -> Self {
        let factor = |of: ForecastQuantity| {
            let latest = scores.iter().rev().filter(|score| score.of == of).take(LATEST);
            let mut latest: Vec<f64> = latest.map(|score| score.score).collect();
            latest.sort_by(f64::total_cmp);
            let rank = conformal_rank(latest.len(), HELD)?;
            Some(QuantityFactor { of, factor: latest[rank - 1], scores: latest.len() })
        };
        Self { factors: ForecastQuantity::ALL.into_iter().filter_map(factor).collect() }
    }

    /// The factor of a quantity, and on how many readings it rests; `None` before there are
    /// enough.
    pub fn factor(&self, of: ForecastQuantity) -> Option<(f64, usize)> {
        self.factors.iter().find(|entry| entry.of == of).map(|entry| (entry.factor, entry.scores))
    }

    /// Whether readings of it test the law of the bath, and not only the vessel.
    fn is_read(of: ForecastQuantity) -> bool {
        use ForecastQuantity::{CooledPh, DryLightness, OxidantLeft, Ph, WetLightness};
        matches!(of, DryLightness | WetLightness | OxidantLeft | Ph | CooledPh)
    }

    /// The band with the model's own error and the factor. A quantity that no reading tests keeps
    /// its band.
    pub fn apply(&self, of: ForecastQuantity, band: &Band) -> Band {
        self.widened(of, band, 0.0)
    }

    /// The band for a reading with this standard deviation of its own (of the oxidant a share).
    pub fn apply_to_reading(&self, of: ForecastQuantity, band: &Band, deviation: f64) -> Band {
        self.widened(of, band, deviation)
    }

    fn widened(&self, of: ForecastQuantity, band: &Band, deviation: f64) -> Band {
        let is_read = BandCorrection::is_read(of);
        let factor = self.factor(of).map(|(factor, _)| factor).or(is_read.then_some(UNTRIED));
        let noise = deviation.hypot(model_error(of));
        match factor {
            Some(factor) => stretched(of, band, factor, noise),
            None if deviation == 0.0 => *band,
            None => stretched(of, band, 1.0, noise),
        }
    }
}

/// A band with independent noise added and its width multiplied.
fn stretched(of: ForecastQuantity, band: &Band, factor: f64, noise: f64) -> Band {
    /// Half the width of a 50 % band over that of an 80 % one, of normal variables.
    const HALF_50: f64 = 0.674_489_8;
    let by_ratio = of == ForecastQuantity::OxidantLeft;
    let middle = comparison_scale(of, band.median);
    let end = |value: f64, normal: f64| {
        let off = comparison_scale(of, value) - middle;
        let sign = if value < band.median { -1.0 } else { 1.0 };
        let moved = middle + sign * factor * off.hypot(normal * noise);
        let moved = if by_ratio { moved.exp() } else { moved };
        if value < band.median { moved.min(band.median) } else { moved.max(band.median) }
    };
    Band {
        minutes: band.minutes,
        low_80: end(band.low_80.min(band.median - 1e-12), HALF_80),
        low_50: end(band.low_50.min(band.median - 1e-12), HALF_50),
        median: band.median,
        high_50: end(band.high_50, HALF_50),
        high_80: end(band.high_80, HALF_80),
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use crate::quantity::{Basis, Estimate};
    use ForecastQuantity::{Celsius, ChainLoss, DryLightness, OxidantLeft, Ph};

    const BAND: Band = Band {
        minutes: 30.0,
        low_80: 70.0,
        low_50: 72.0,
        median: 75.0,
        high_50: 77.0,
        high_80: 80.0,
    };

    fn scores(count: usize) -> Vec<QuantityScore> {
        (1..=count).map(|nth| QuantityScore { of: DryLightness, score: 0.1 * nth as f64 }).collect()
    }

    #[test]
    fn four_scores_are_needed_and_the_rank_is_that_of_the_text() {
        for (held, fewest) in [(0.8, 4), (0.9, 9), (0.95, 19), (0.99, 99)] {
            assert_eq!(conformal_rank(fewest - 1, held), None, "{held}");
            assert_eq!(conformal_rank(fewest, held), Some(fewest), "{held}");
        }
        assert_eq!(conformal_rank(9, 0.8), Some(8));
        assert!(BandCorrection::from_scores(&scores(3)).factor(DryLightness).is_none());
        assert_eq!(BandCorrection::from_scores(&scores(9)).factor(DryLightness), Some((0.8, 9)));
    }

    #[test]
    fn an_untried_law_is_wider_and_scores_stretch_a_band() {
        let none = BandCorrection::default();
        let untried = none.apply(DryLightness, &BAND);
        assert!(untried.width() > UNTRIED * BAND.width() && untried.median == BAND.median);
        for never_of_the_law in [Celsius, ChainLoss] {
            assert_eq!(none.apply(never_of_the_law, &BAND), BAND);
        }
        let some = BandCorrection::from_scores(&scores(20));
        let (factor, _) = some.factor(DryLightness).unwrap();
        let band = some.apply(DryLightness, &BAND);
        assert!(band.width() > factor * BAND.width() && band.width() < 1.1 * factor * BAND.width());
        assert_eq!(some.apply(Celsius, &BAND), BAND);
        assert_eq!(some.apply(Ph, &BAND), none.apply(Ph, &BAND));
        let ends = [band.low_80, band.low_50, band.median, band.high_50, band.high_80];
        assert!(ends.windows(2).all(|pair| pair[0] <= pair[1]), "{band:?}");
    }

    #[test]
    fn a_reading_at_the_end_of_a_band_scores_below_one_for_its_noise() {
        let reading = |value: f64, off: f64| ForecastReading {
            minutes: 30.0,
            of: DryLightness,
            value: Estimate::plus_minus(value, off, Basis::Measured),
        };
        let exact = QuantityScore::of_reading(&BAND, &reading(80.0, 0.0)).unwrap().score;
        let rough = QuantityScore::of_reading(&BAND, &reading(80.0, 6.0)).unwrap().score;
        assert!(exact < 1.0 && exact > 0.95 && rough < 0.9, "{exact} {rough}");
        assert!(QuantityScore::of_reading(&BAND, &reading(75.0, 1.0)).unwrap().score < 1e-12);
    }

    #[test]
    fn oxidant_is_stretched_by_ratio() {
        let band = Band {
            low_80: 0.002,
            low_50: 0.003,
            median: 0.004,
            high_50: 0.006,
            high_80: 0.008,
            ..BAND
        };
        let score = QuantityScore { of: OxidantLeft, score: 2.0 };
        let wide = BandCorrection::from_scores(&[score; 5]).apply(OxidantLeft, &band);
        assert!(wide.low_80 > 0.0 && wide.low_80 < 0.0011 && wide.high_80 > 0.0159);
    }
}
