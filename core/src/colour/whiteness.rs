//! Yellowness and whiteness indices, for D65 and the 2° observer.

use super::space::Xyz;
use serde::{Deserialize, Serialize};

/// Yellowness index by ASTM E313, D65 and 2° observer: 100 (Cx X - Cz Z) / Y.
///
/// Coefficients 1.2985 and 1.1335 are the standard's table for D65/2°, as carried
/// by colour-science 0.4.7. Zero for a perfect white; `None` for black.
pub fn yellowness(xyz: Xyz) -> Option<f64> {
    (xyz.y > 0.0).then(|| 100.0 * (1.2985 * xyz.x - 1.1335 * xyz.z) / xyz.y)
}

/// CIE whiteness and tint.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Whiteness {
    pub whiteness: f64,
    /// Positive is greenish, negative reddish.
    pub tint: f64,
}

/// CIE whiteness for the 2° observer; `None` outside the validity of the formula.
///
/// CIE 15 (2004), section 9.3: W = Y + 800 (xn - x) + 1700 (yn - y),
/// T = 1000 (xn - x) - 650 (yn - y), with D65 at 0.3127, 0.3290. It is meant for
/// samples called white: 40 < W < 5 Y - 280 and -4 < T < 2. Cream and unbleached
/// pulps are outside; use yellowness for those.
pub fn cie_whiteness(xyz: Xyz) -> Option<Whiteness> {
    let found = formula(xyz)?;
    let holds = found.whiteness > 40.0
        && found.whiteness < 5.0 * xyz.y - 280.0
        && found.tint > -4.0
        && found.tint < 2.0;
    holds.then_some(found)
}

/// The formula without its limits of validity.
pub(super) fn formula(xyz: Xyz) -> Option<Whiteness> {
    let sum = xyz.x + xyz.y + xyz.z;
    if sum <= 0.0 {
        return None;
    }
    let (dx, dy) = (0.3127 - xyz.x / sum, 0.3290 - xyz.y / sum);
    Some(Whiteness { whiteness: xyz.y + 800.0 * dx + 1700.0 * dy, tint: 1000.0 * dx - 650.0 * dy })
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    fn xyz(x: f64, y: f64, z: f64) -> Xyz {
        Xyz { x, y, z }
    }

    #[test]
    fn yellowness_of_reference_points() {
        for (point, expected) in [
            (xyz(70.0, 72.0, 60.0), 31.785),
            (xyz(80.0, 84.0, 82.0), 13.015),
            (xyz(95.0, 100.0, 105.0), 4.340),
            (super::super::space::D65, 0.0),
        ] {
            assert!((yellowness(point).unwrap() - expected).abs() < 0.005);
        }
        assert_eq!(yellowness(xyz(0.0, 0.0, 0.0)), None);
    }

    #[test]
    fn whiteness_is_given_only_for_whites() {
        // 52.81 and -4.40 by the formula: outside by its tint.
        let green = xyz(80.0, 84.0, 82.0);
        let raw = formula(green).unwrap();
        assert!((raw.whiteness - 52.81).abs() < 0.02 && (raw.tint + 4.40).abs() < 0.02);
        assert_eq!(cie_whiteness(green), None);
        // A cream pulp.
        assert_eq!(cie_whiteness(xyz(70.0, 72.0, 60.0)), None);
        // A brightened copy paper.
        assert!(cie_whiteness(xyz(84.0, 88.0, 104.0)).is_some());
    }
}
