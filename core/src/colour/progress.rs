//! Colour of a bath over time.

use super::difference::from_figures;
use super::shift::Dryness;
use super::space::Lab;
use crate::quantity::Estimate;
use serde::{Deserialize, Serialize};

/// A colour measured in a bath.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProgressReading {
    /// Minutes in the bath.
    pub minutes: f64,
    pub dryness: Dryness,
    /// L*, a*, b*.
    pub lab: [Estimate<f64>; 3],
    pub yellowness: Option<Estimate<f64>>,
}

/// One point of the chart.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProgressPoint {
    /// Index of the reading.
    pub nth: usize,
    pub minutes: f64,
    pub dryness: Dryness,
    pub lightness: Estimate<f64>,
    pub yellowness: Option<Estimate<f64>>,
    /// CIEDE2000 to the target.
    pub to_target: Option<Estimate<f64>>,
}

/// Points of the chart, grouped by [`Dryness`], wettest first, since wet and dried readings
/// are not comparable; within a group by time, stable.
pub fn series(readings: &[ProgressReading], target: Option<Lab>) -> Vec<ProgressPoint> {
    let mut points: Vec<ProgressPoint> = readings
        .iter()
        .enumerate()
        .map(|(nth, t)| ProgressPoint {
            nth,
            minutes: t.minutes,
            dryness: t.dryness,
            lightness: t.lab[0],
            yellowness: t.yellowness,
            to_target: target.map(|target| from_figures(t.lab, target)),
        })
        .collect();
    points.sort_by(|one, other| {
        one.dryness.cmp(&other.dryness).then(one.minutes.total_cmp(&other.minutes))
    });
    points
}

/// Whether the last two readings of one dryness differ by more than their ranges: `None` with
/// fewer than two, `Some(false)` when no further change is visible.
pub fn still_moving(points: &[ProgressPoint], dryness: Dryness) -> Option<bool> {
    let mut last = points.iter().rev().filter(|point| point.dryness == dryness);
    let (now, before) = (last.next()?, last.next()?);
    let less_yellow = now.yellowness.zip(before.yellowness).is_some_and(|(n, b)| n.high < b.low);
    Some(now.lightness.low > before.lightness.high || less_yellow)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::colour::measure::tests::measurement;
    use Dryness::{Dried, Wet};

    fn reading(minutes: f64, dryness: Dryness, lightness: f64) -> ProgressReading {
        let of = measurement(lightness);
        let lab = [of.lightness, of.a, of.b];
        ProgressReading { minutes, dryness, lab, yellowness: Some(of.yellowness) }
    }

    #[test]
    fn points_are_grouped_by_dryness_and_sorted_by_time() {
        let readings = [(30.0, Wet, 0.4), (0.0, Dried, 0.5), (0.0, Wet, 0.2), (60.0, Wet, 0.6)]
            .map(|(minutes, dryness, lightness)| reading(minutes, dryness, lightness));
        let series = series(&readings, Some(Lab { l: 92.0, a: 0.0, b: 6.0 }));
        let order: Vec<_> = series.iter().map(|s| (s.dryness, s.minutes)).collect();
        assert_eq!(order, [(Wet, 0.0), (Wet, 30.0), (Wet, 60.0), (Dried, 0.0)]);
        let far = |nth: usize| series[nth].to_target.unwrap();
        assert!(far(0).value > far(2).value);
        for nth in 0..series.len() {
            assert!(far(nth).low <= far(nth).value);
            assert!(far(nth).value <= far(nth).high);
        }
        assert_eq!(still_moving(&series, Wet), Some(true));
        assert_eq!(still_moving(&series, Dried), None);
    }

    #[test]
    fn no_visible_change_is_reported() {
        let readings = [reading(0.0, Wet, 0.50), reading(20.0, Wet, 0.505)];
        let points = series(&readings, Some(Lab { l: 92.0, a: 0.0, b: 6.0 }));
        assert_eq!(still_moving(&points, Wet), Some(false));
    }
}
