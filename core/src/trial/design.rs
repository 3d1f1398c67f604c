//! Which pots a trial has: levels in balance, in random order.

use fastrand::Rng;
use strum::VariantArray;

pub const FEWEST_POTS: usize = 4;
pub const MOST_POTS: usize = 12;

/// What may differ between pots.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, VariantArray)]
pub enum Factor {
    /// Which bleach.
    Bleach,
    Charge,
    Temperature,
    Time,
}

const FACTORS: usize = Factor::VARIANTS.len();

/// How many levels each factor has, in the order of [`Factor`]; 1 for one that is the same in
/// every pot.
pub type LevelCounts = [usize; FACTORS];

/// The level of each factor in one pot, from 0.
pub type DesignPoint = [usize; FACTORS];

/// Why there is no design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DesignError {
    #[error("{0} pots; {FEWEST_POTS} to {MOST_POTS} are accepted")]
    Pots(usize),
    #[error("nothing differs between the pots")]
    NothingVaries,
    /// A level would be in no pot.
    #[error("{levels} levels of one factor in {pots} pots")]
    TooManyLevels { levels: usize, pots: usize },
}

/// The pots in the order in which they are started.
///
/// Every level of a factor is in as many pots as any other, within one; pairs of levels of two
/// factors are as even as an exchange search from several random starts makes them (after
/// Fedorov's exchange of points, here of the counts rather than of a determinant). The order is
/// random, so that what changes from the first pot to the last is not taken for an effect.
///
/// # Errors
/// Pots outside [`FEWEST_POTS`]–[`MOST_POTS`], no factor with two levels, or more levels than
/// pots.
pub fn design(
    levels: LevelCounts,
    pots: usize,
    seed: u32,
) -> Result<Vec<DesignPoint>, DesignError> {
    if !(FEWEST_POTS..=MOST_POTS).contains(&pots) {
        return Err(DesignError::Pots(pots));
    }
    let most = levels.into_iter().max().unwrap_or(1);
    if most < 2 {
        return Err(DesignError::NothingVaries);
    }
    if most > pots {
        return Err(DesignError::TooManyLevels { levels: most, pots });
    }
    let candidates = full_factorial(levels);
    let mut random = Rng::with_seed(u64::from(seed));
    let starts = (0..STARTS).map(|_| exchanged(&candidates, levels, pots, &mut random));
    let best = starts.min_by_key(|points| imbalance(points, levels)).unwrap_or_default();
    let mut points = best;
    random.shuffle(&mut points);
    Ok(points)
}

/// Random starts of the search; more change nothing in the tests.
const STARTS: usize = 8;

/// Every combination of levels.
fn full_factorial(levels: LevelCounts) -> Vec<DesignPoint> {
    levels.iter().enumerate().fold(vec![[0; FACTORS]], |points, (factor, &count)| {
        let with = |point: &DesignPoint, level| {
            let mut point = *point;
            point[factor] = level;
            point
        };
        points
            .iter()
            .flat_map(|point| (0..count.max(1)).map(move |level| with(point, level)))
            .collect()
    })
}

/// A random choice, improved by exchanging one pot at a time until nothing improves it.
fn exchanged(
    candidates: &[DesignPoint],
    levels: LevelCounts,
    pots: usize,
    random: &mut Rng,
) -> Vec<DesignPoint> {
    let mut order: Vec<DesignPoint> = candidates.to_vec();
    random.shuffle(&mut order);
    let mut points: Vec<DesignPoint> = order.iter().copied().cycle().take(pots).collect();
    let mut least = imbalance(&points, levels);
    loop {
        let before = least;
        for place in 0..points.len() {
            for candidate in &order {
                let was = std::mem::replace(&mut points[place], *candidate);
                let now = imbalance(&points, levels);
                if now < least {
                    least = now;
                } else {
                    points[place] = was;
                }
            }
        }
        if least == before {
            return points;
        }
    }
}

/// How uneven a design is: first single levels, then pairs, then repeated pots. Counts are
/// compared exactly: a sum of squares is least where they are even.
fn imbalance(points: &[DesignPoint], levels: LevelCounts) -> [u32; 3] {
    let squares = |counts: Vec<u32>| counts.iter().map(|count| count * count).sum::<u32>();
    let count_by = |cells: usize, cell: &dyn Fn(&DesignPoint) -> usize| {
        let mut counts = vec![0_u32; cells];
        for point in points {
            counts[cell(point)] += 1;
        }
        squares(counts)
    };
    let single = (0..FACTORS).map(|one| count_by(levels[one].max(1), &|point| point[one])).sum();
    let pairs = (0..FACTORS)
        .flat_map(|one| (one + 1..FACTORS).map(move |other| (one, other)))
        .map(|(one, other)| {
            let width = levels[other].max(1);
            count_by(levels[one].max(1) * width, &|point| point[one] * width + point[other])
        })
        .sum();
    let repeats = points
        .iter()
        .enumerate()
        .map(|(nth, point)| points[..nth].iter().filter(|other| *other == point).count() as u32)
        .sum();
    [single, pairs, repeats]
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn counts(points: &[DesignPoint], factor: usize, levels: usize) -> Vec<usize> {
        (0..levels).map(|l| points.iter().filter(|point| point[factor] == l).count()).collect()
    }

    #[test]
    fn every_level_is_in_as_many_pots_as_any_other() {
        for pots in FEWEST_POTS..=MOST_POTS {
            for levels in [[1, 3, 1, 1], [1, 2, 2, 1], [1, 3, 1, 2], [2, 2, 2, 2], [2, 3, 1, 3]] {
                let points = design(levels, pots, 11).unwrap();
                assert_eq!(points.len(), pots);
                for (factor, &count) in levels.iter().enumerate() {
                    let counts = counts(&points, factor, count);
                    let (least, most) = (counts.iter().min(), counts.iter().max());
                    assert!(most.unwrap() - least.unwrap() <= 1, "{levels:?} {pots} {counts:?}");
                }
            }
        }
    }

    #[test]
    fn six_pots_of_three_charges_and_two_times_are_the_whole_table() {
        let mut points = design([1, 3, 1, 2], 6, 5).unwrap();
        points.sort_unstable();
        points.dedup();
        assert_eq!(points.len(), 6);
    }

    #[test]
    fn half_of_a_table_has_every_pair_of_levels_once() {
        // Four pots of a 2 x 2 x 2: the half fraction, in which no two factors are confused.
        let points = design([1, 2, 2, 2], 4, 3).unwrap();
        for (one, other) in [(1, 2), (1, 3), (2, 3)] {
            let mut pairs: Vec<_> = points.iter().map(|point| (point[one], point[other])).collect();
            pairs.sort_unstable();
            pairs.dedup();
            assert_eq!(pairs.len(), 4, "{points:?}");
        }
    }

    #[test]
    fn a_seed_gives_the_same_order_again_and_another_seed_another_order() {
        let of = |seed| design([1, 3, 1, 2], 6, seed).unwrap();
        assert_eq!(of(1), of(1));
        assert!((2..12).any(|seed| of(seed) != of(1)));
        // Over many seeds every pot is first about as often as any other.
        let mut first = [0; 6];
        for seed in 0..600 {
            let [_, charge, _, time] = of(seed)[0];
            first[charge * 2 + time] += 1;
        }
        assert!(first.iter().all(|count| (60..=140).contains(count)), "{first:?}");
    }

    #[test]
    fn what_cannot_be_designed_is_refused() {
        assert_eq!(design([1, 2, 1, 1], 3, 0), Err(DesignError::Pots(3)));
        assert_eq!(design([1, 2, 1, 1], 13, 0), Err(DesignError::Pots(13)));
        assert_eq!(design([1, 1, 1, 1], 6, 0), Err(DesignError::NothingVaries));
        let refused = DesignError::TooManyLevels { levels: 5, pots: 4 };
        assert_eq!(design([1, 5, 1, 1], 4, 0), Err(refused));
    }
}
