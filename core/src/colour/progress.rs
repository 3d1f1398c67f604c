//! A bath's colour over its time.

use super::difference::to_target;
use super::measure::Reading;
use super::shift::Dryness;
use super::space::Lab;
use crate::quantity::Known;
use serde::{Deserialize, Serialize};

/// A reading and when it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Minutes in the bath.
    pub minutes: f64,
    pub dryness: Dryness,
    pub reading: Reading,
}

/// One point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    pub minutes: f64,
    pub dryness: Dryness,
    pub lightness: Known<f64>,
    pub yellowness: Known<f64>,
    /// CIEDE2000 to the target.
    pub to_target: Known<f64>,
}

/// The chart's points: those of one [`Dryness`] together, wettest first, since wet
/// readings are not to be joined by a line to dried ones; within it in order of
/// time, equal times in the order given.
pub fn series(taken: &[Taken], target: Lab) -> Vec<Step> {
    let mut steps: Vec<Step> = taken
        .iter()
        .map(|t| Step {
            minutes: t.minutes,
            dryness: t.dryness,
            lightness: t.reading.lightness,
            yellowness: t.reading.yellowness,
            to_target: to_target(&t.reading, target),
        })
        .collect();
    steps.sort_by(|one, other| {
        one.dryness.cmp(&other.dryness).then(one.minutes.total_cmp(&other.minutes))
    });
    steps
}

/// Whether the last two readings of one dryness differ by more than their ranges:
/// `None` with fewer than two, `Some(false)` when the bath can no longer be seen to
/// do anything.
pub fn still_moving(steps: &[Step], dryness: Dryness) -> Option<bool> {
    let mut last = steps.iter().rev().filter(|step| step.dryness == dryness);
    let (now, before) = (last.next()?, last.next()?);
    Some(now.lightness.low > before.lightness.high || now.yellowness.high < before.yellowness.low)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::measure::tests::reading;

    fn taken(minutes: f64, dryness: Dryness, lightness: f64) -> Taken {
        Taken { minutes, dryness, reading: reading(lightness) }
    }

    #[test]
    fn in_order_and_apart() {
        let series = series(
            &[
                taken(30.0, Dryness::Wet, 0.4),
                taken(0.0, Dryness::Dried, 0.5),
                taken(0.0, Dryness::Wet, 0.2),
                taken(60.0, Dryness::Wet, 0.6),
            ],
            Lab { l: 92.0, a: 0.0, b: 6.0 },
        );
        let order: Vec<_> = series.iter().map(|s| (s.dryness, s.minutes)).collect();
        assert_eq!(
            order,
            [
                (Dryness::Wet, 0.0),
                (Dryness::Wet, 30.0),
                (Dryness::Wet, 60.0),
                (Dryness::Dried, 0.0)
            ]
        );
        assert!(series[0].to_target.value > series[2].to_target.value);
        for step in &series {
            assert!(step.to_target.low <= step.to_target.value);
            assert!(step.to_target.value <= step.to_target.high);
        }
        assert_eq!(still_moving(&series, Dryness::Wet), Some(true));
        assert_eq!(still_moving(&series, Dryness::Dried), None);
    }

    #[test]
    fn a_bath_that_stands_still() {
        let steps = series(
            &[taken(0.0, Dryness::Wet, 0.50), taken(20.0, Dryness::Wet, 0.505)],
            Lab { l: 92.0, a: 0.0, b: 6.0 },
        );
        assert_eq!(still_moving(&steps, Dryness::Wet), Some(false));
    }
}
