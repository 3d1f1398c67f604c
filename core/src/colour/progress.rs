//! A bath's colour over its time.

use super::difference::from_figures;
use super::shift::Dryness;
use super::space::Lab;
use crate::quantity::Estimate;
use serde::{Deserialize, Serialize};

/// A reading and when it was taken.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Taken {
    /// Minutes in the bath.
    pub minutes: f64,
    pub dryness: Dryness,
    /// L*, a*, b*.
    pub lab: [Estimate<f64>; 3],
    pub yellowness: Option<Estimate<f64>>,
}

/// One point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// Which of the readings given it is.
    pub nth: usize,
    pub minutes: f64,
    pub dryness: Dryness,
    pub lightness: Estimate<f64>,
    pub yellowness: Option<Estimate<f64>>,
    /// CIEDE2000 to the target, if there is one.
    pub to_target: Option<Estimate<f64>>,
}

/// The chart's points: those of one [`Dryness`] together, wettest first, since wet
/// readings are not to be joined by a line to dried ones; within it in order of
/// time, equal times in the order given.
pub fn series(taken: &[Taken], target: Option<Lab>) -> Vec<Step> {
    let mut steps: Vec<Step> = taken
        .iter()
        .enumerate()
        .map(|(nth, t)| Step {
            nth,
            minutes: t.minutes,
            dryness: t.dryness,
            lightness: t.lab[0],
            yellowness: t.yellowness,
            to_target: target.map(|target| from_figures(t.lab, target)),
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
    let less_yellow = now.yellowness.zip(before.yellowness).is_some_and(|(n, b)| n.high < b.low);
    Some(now.lightness.low > before.lightness.high || less_yellow)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::colour::measure::tests::reading;

    fn taken(minutes: f64, dryness: Dryness, lightness: f64) -> Taken {
        let of = reading(lightness);
        Taken { minutes, dryness, lab: [of.lightness, of.a, of.b], yellowness: Some(of.yellowness) }
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
            Some(Lab { l: 92.0, a: 0.0, b: 6.0 }),
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
        let far = |nth: usize| series[nth].to_target.unwrap();
        assert!(far(0).value > far(2).value);
        for nth in 0..series.len() {
            assert!(far(nth).low <= far(nth).value);
            assert!(far(nth).value <= far(nth).high);
        }
        assert_eq!(still_moving(&series, Dryness::Wet), Some(true));
        assert_eq!(still_moving(&series, Dryness::Dried), None);
    }

    #[test]
    fn a_bath_that_stands_still() {
        let steps = series(
            &[taken(0.0, Dryness::Wet, 0.50), taken(20.0, Dryness::Wet, 0.505)],
            Some(Lab { l: 92.0, a: 0.0, b: 6.0 }),
        );
        assert_eq!(still_moving(&steps, Dryness::Wet), Some(false));
    }
}
