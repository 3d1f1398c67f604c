//! How far apart two colours are to the eye.

use super::space::Lab;
use palette::color_difference::Ciede2000;

/// CIEDE2000 with kL = kC = kH = 1. About 1 is a just noticeable difference side
/// by side.
///
/// CIE 142 (2001), as implemented by the crate `palette`, which reproduces all 34
/// pairs of Sharma, Wu and Dalal (2005), Color Research and Application 30(1), to
/// their four printed decimals, in both orders.
pub fn delta_e00(one: Lab, other: Lab) -> f64 {
    one.inner().difference(other.inner())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lab((l, a, b): (f64, f64, f64)) -> Lab {
        Lab { l, a, b }
    }

    /// Computed with colour-science 0.4.7: pulps a papermaker might compare.
    #[test]
    fn pulps() {
        for (one, other, expected) in [
            ((90.0, 0.0, 8.0), (92.0, 0.0, 5.0), 2.632),
            ((85.0, 1.0, 15.0), (90.0, 0.0, 8.0), 5.736),
            ((70.0, 3.0, 22.0), (85.0, 1.0, 14.0), 11.669),
            ((92.0, 0.0, 5.0), (91.5, 0.2, 6.5), 1.261),
        ] {
            let found = delta_e00(lab(one), lab(other));
            assert!((found - expected).abs() < 0.001, "{found} is not {expected}");
        }
    }
}
