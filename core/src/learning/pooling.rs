//! Partial pooling over three levels: a studio, its fibres, the batches of each.
//!
//! `studio ~ N(0, S)`, `fibre ~ N(studio, F)`, `batch ~ N(fibre, s B)`, all with independent
//! coordinates, and data of each batch. The scale `s` of the spread between batches has a prior
//! on a grid and is integrated out, or is taken where the evidence is largest (empirical Bayes;
//! with a flat studio this is restricted maximum likelihood).

use super::gaussian::{Information, Moments};

/// Variances of the levels.
#[derive(Clone, Debug, PartialEq)]
pub struct Hierarchy {
    pub studio: Vec<f64>,
    pub fibre: Vec<f64>,
    pub batch: Vec<f64>,
}

impl Hierarchy {
    fn batch_at(&self, scale: f64) -> Vec<f64> {
        self.batch.iter().map(|variance| scale * variance).collect()
    }
}

/// What the readings of a batch say, and the number of its fibre.
#[derive(Clone, Copy, Debug)]
pub struct BatchData<'a> {
    pub fibre: usize,
    pub data: &'a Information,
}

/// Batches together.
#[derive(Clone, Debug)]
pub struct Pooling<'a> {
    hierarchy: Hierarchy,
    batches: Vec<BatchData<'a>>,
    scales: Vec<AtScale>,
}

/// The pooling at one scale of the spread between batches.
#[derive(Clone, Debug)]
struct AtScale {
    scale: f64,
    /// Prior times evidence; sums to 1 over the grid.
    weight: f64,
    /// What is known of each fibre by its own batches.
    fibres: Vec<Information>,
}

impl<'a> Pooling<'a> {
    /// Over a grid of scales, each with its prior weight; `None` if that gives no numbers.
    pub fn new(
        hierarchy: Hierarchy,
        batches: &[BatchData<'a>],
        grid: &[(f64, f64)],
    ) -> Option<Self> {
        let mut scales = Vec::with_capacity(grid.len());
        for &(scale, prior) in grid {
            let fibres = fibre_data(&hierarchy, batches, scale);
            let evidence = evidence(&hierarchy, &fibres)?;
            scales.push((evidence, AtScale { scale, weight: prior, fibres }));
        }
        let most = scales.iter().map(|(evidence, _)| *evidence).fold(f64::NEG_INFINITY, f64::max);
        let mut scales: Vec<AtScale> = scales
            .into_iter()
            .map(|(evidence, at)| AtScale { weight: at.weight * (evidence - most).exp(), ..at })
            .collect();
        let total: f64 = scales.iter().map(|at| at.weight).sum();
        scales.iter_mut().for_each(|at| at.weight /= total);
        let sound = total.is_finite() && total > 0.0;
        sound.then(|| Self { hierarchy, batches: batches.to_vec(), scales })
    }

    /// At the scale with the largest evidence, by golden section over its logarithm.
    pub fn by_evidence(
        hierarchy: Hierarchy,
        batches: &[BatchData<'a>],
        [least, most]: [f64; 2],
    ) -> Option<Self> {
        const GOLDEN: f64 = 0.618_033_988_749_894_9;
        let at = |log: f64| evidence(&hierarchy, &fibre_data(&hierarchy, batches, log.exp()));
        let (mut low, mut high) = (least.ln(), most.ln());
        for _ in 0..80 {
            let (one, other) = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
            if at(one)? > at(other)? { high = other } else { low = one }
        }
        Self::new(hierarchy, batches, &[((0.5 * (low + high)).exp(), 1.0)])
    }

    /// Mean over the scales of a function of the scale.
    pub fn mean_scale(&self, of: impl Fn(f64) -> f64) -> f64 {
        self.scales.iter().map(|at| at.weight * of(at.scale)).sum()
    }

    /// The studio's mean.
    pub fn studio_mean(&self) -> Option<Vec<f64>> {
        Some(self.mixed(|at| self.studio(&at.fibres, None))?.mean)
    }

    /// The mean of a batch, by its own data and all others.
    pub fn batch_mean(&self, nth: usize) -> Option<Vec<f64>> {
        let own = self.batches.get(nth)?;
        let others: Vec<BatchData<'a>> = self
            .batches
            .iter()
            .enumerate()
            .filter(|(other, _)| *other != nth)
            .map(|(_, batch)| *batch)
            .collect();
        let mixed = self.mixed(|at| {
            let fibres = fibre_data(&self.hierarchy, &others, at.scale);
            let before = self.fibre(&fibres, own.fibre)?;
            let before = before.spread_by(&self.hierarchy.batch_at(at.scale));
            Some(own.data.posterior(&before)?.0)
        })?;
        Some(mixed.mean)
    }

    /// A batch to come, of a fibre by its number; one without a number was never bleached.
    pub(super) fn next_batch(&self, fibre: usize) -> Option<Moments> {
        self.mixed(|at| {
            let centre = self.fibre(&at.fibres, fibre)?;
            Some(centre.spread_by(&self.hierarchy.batch_at(at.scale)))
        })
    }

    fn mixed(&self, of: impl Fn(&AtScale) -> Option<Moments>) -> Option<Moments> {
        // A scale of next to no weight changes nothing.
        let parts: Option<Vec<_>> = self
            .scales
            .iter()
            .filter(|at| at.weight > 1e-9)
            .map(|at| Some((at.weight, of(at)?)))
            .collect();
        Moments::mixed(&parts?)
    }

    /// The studio by all fibres but one.
    fn studio(&self, fibres: &[Information], without: Option<usize>) -> Option<Moments> {
        let mut all = Information::none(self.hierarchy.studio.len());
        for (nth, fibre) in fibres.iter().enumerate() {
            if Some(nth) != without {
                all.add(&fibre.of_centre(&self.hierarchy.fibre));
            }
        }
        Some(all.posterior(&studio_prior(&self.hierarchy))?.0)
    }

    fn fibre(&self, fibres: &[Information], nth: usize) -> Option<Moments> {
        let studio = self.studio(fibres, Some(nth))?.spread_by(&self.hierarchy.fibre);
        match fibres.get(nth) {
            Some(own) => Some(own.posterior(&studio)?.0),
            None => Some(studio),
        }
    }
}

fn studio_prior(hierarchy: &Hierarchy) -> Moments {
    Moments::independent(vec![0.0; hierarchy.studio.len()], &hierarchy.studio)
}

/// What the batches of each fibre say of it.
fn fibre_data(hierarchy: &Hierarchy, batches: &[BatchData], scale: f64) -> Vec<Information> {
    let count = batches.iter().map(|batch| batch.fibre + 1).max().unwrap_or(0);
    let spread = hierarchy.batch_at(scale);
    let mut fibres = vec![Information::none(spread.len()); count];
    for batch in batches {
        fibres[batch.fibre].add(&batch.data.of_centre(&spread));
    }
    fibres
}

/// Logarithm of the probability of all data, up to a constant.
fn evidence(hierarchy: &Hierarchy, fibres: &[Information]) -> Option<f64> {
    let mut all = Information::none(hierarchy.studio.len());
    for fibre in fibres {
        all.add(&fibre.of_centre(&hierarchy.fibre));
    }
    Some(all.posterior(&studio_prior(hierarchy))?.1)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn levels() -> Hierarchy {
        Hierarchy { studio: vec![0.5], fibre: vec![0.3], batch: vec![0.2] }
    }

    const GRID: [(f64, f64); 3] = [(0.3, 0.3), (1.0, 0.4), (3.0, 0.3)];

    fn predicted(data: &[(usize, f64, f64)], fibre: usize) -> (f64, f64) {
        let data: Vec<(usize, Information)> = data
            .iter()
            .map(|&(fibre, value, deviation)| (fibre, Information::of_reading(value, deviation)))
            .collect();
        let batches: Vec<BatchData> =
            data.iter().map(|(fibre, data)| BatchData { fibre: *fibre, data }).collect();
        let next = Pooling::new(levels(), &batches, &GRID).unwrap().next_batch(fibre).unwrap();
        (next.mean[0], next.covariance[(0, 0)].sqrt())
    }

    #[test]
    fn without_data_a_batch_is_the_sum_of_the_levels() {
        let (mean, deviation) = predicted(&[], 0);
        let expected = 0.5 + 0.3 + 0.2 * (0.3 * 0.3 + 0.4 + 3.0 * 0.3);
        assert!(mean.abs() < 1e-12 && (deviation.powi(2) - expected).abs() < 1e-12);
    }

    #[test]
    fn another_fibre_says_something_and_the_own_says_more() {
        let data: Vec<_> = (0..6).map(|_| (0, 1.5, 0.2)).collect();
        let (own, own_deviation) = predicted(&data, 0);
        let (other, other_deviation) = predicted(&data, 1);
        assert!(own > 1.2 && 0.3 < other && other < own, "{own} {other}");
        assert!(own_deviation < other_deviation && other_deviation < predicted(&[], 1).1);
    }

    #[test]
    fn batches_that_differ_spread_the_next_one() {
        let alike: Vec<_> = (0..8).map(|_| (0, 0.5, 0.1)).collect();
        let unlike: Vec<_> =
            (0..8).map(|n| (0, if n % 2 == 0 { 1.5 } else { -0.5 }, 0.1)).collect();
        let ((_, alike), (_, unlike)) = (predicted(&alike, 0), predicted(&unlike, 0));
        assert!(unlike > 1.8 * alike, "{alike} {unlike}");
    }

    #[test]
    fn readings_that_say_nothing_change_nothing() {
        let (mean, deviation) = predicted(&[(0, 3.0, 1e6)], 0);
        assert!(mean.abs() < 1e-6 && (deviation - predicted(&[], 0).1).abs() < 1e-6);
    }
}
