//! When each pot starts, so that one person has time for every start and every stop.

/// One pot's times, minutes from the start of the first pot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StaggeredPot {
    pub start: f64,
    pub stop: f64,
}

/// Step of the starts, minutes.
const STEP: f64 = 0.5;

/// Starts of pots that take `minutes` each, in their order: every start or stop is at least
/// `apart` minutes from every other, and no pot starts before the one ahead of it. Each starts as
/// early as that allows.
pub fn stagger(minutes: &[f64], apart: f64) -> Vec<StaggeredPot> {
    let apart = apart.max(0.0);
    let mut acts: Vec<f64> = Vec::with_capacity(2 * minutes.len());
    let mut pots: Vec<StaggeredPot> = Vec::with_capacity(minutes.len());
    for &length in minutes {
        let length = length.max(apart);
        let clear = |at: f64| acts.iter().all(|act| (act - at).abs() > apart - 1e-9);
        let mut start = pots.last().map_or(0.0, |pot| pot.start + apart);
        // Ends: after the last stop everything is clear.
        while !(clear(start) && clear(start + length)) {
            start += STEP;
        }
        acts.extend([start, start + length]);
        pots.push(StaggeredPot { start, stop: start + length });
    }
    pots
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn equal_pots_follow_each_other_at_the_gap() {
        let pots = stagger(&[60.0; 6], 3.0);
        let starts: Vec<f64> = pots.iter().map(|pot| pot.start).collect();
        assert_eq!(starts, [0.0, 3.0, 6.0, 9.0, 12.0, 15.0]);
        assert_eq!(pots[5].stop, 75.0);
    }

    #[test]
    fn a_stop_moves_the_next_start() {
        // The first pot stops at 6, so nothing starts between 3 and 9.
        let pots = stagger(&[6.0, 60.0, 60.0], 3.0);
        assert_eq!(pots.iter().map(|pot| pot.start).collect::<Vec<_>>(), [0.0, 3.0, 9.0]);
    }

    proptest! {
        #[test]
        fn no_two_acts_are_closer_than_the_gap(
            minutes in prop::collection::vec(5.0..120.0f64, 1..=12),
            apart in 1.0..8.0f64,
        ) {
            let pots = stagger(&minutes, apart);
            let mut acts: Vec<f64> = pots.iter().flat_map(|pot| [pot.start, pot.stop]).collect();
            acts.sort_by(f64::total_cmp);
            prop_assert!(acts.windows(2).all(|pair| pair[1] - pair[0] > apart - 1e-6));
            prop_assert!(pots.windows(2).all(|pair| pair[0].start < pair[1].start));
            for (pot, minutes) in pots.iter().zip(&minutes) {
                prop_assert!((pot.stop - pot.start - minutes.max(apart)).abs() < 1e-9);
            }
        }
    }
}
