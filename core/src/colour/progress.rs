//! Colour of a bath over time.

use super::difference::{ColourDifference, from_figures};
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

/// Whether a later wet reading shows that the bath works, beyond the ± of the difference:
/// lighter, or less yellow and not darker.
pub fn is_bleached(difference: &ColourDifference) -> bool {
    let lightness = difference.lightness;
    lightness.low > 0.0 || lightness.high > 0.0 && difference.b.high < 0.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::colour::difference::unrelated;
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
    }

    #[test]
    fn only_a_change_beyond_its_range_counts() {
        let lab = |lightness| reading(0.0, Wet, lightness).lab;
        assert!(is_bleached(&unrelated(lab(0.2), lab(0.6))));
        assert!(!is_bleached(&unrelated(lab(0.50), lab(0.505))));
        assert!(!is_bleached(&unrelated(lab(0.6), lab(0.2))));
    }
}
