//! Whether a strength is known well enough for a dose.

use super::bottle::BottleStrength;
use crate::quantity::{Estimate, in_grams_per_litre};

/// Widest range of a strength, high over low, that a dose is worked out from: within it the
/// middle is off by less than twice (own estimate).
pub const MOST_UNCERTAIN: f64 = 3.0;

/// Whether a strength must be measured before it is used: no figure stands for its range.
pub fn is_too_uncertain(strength: &Estimate<f64>) -> bool {
    let known = strength.low > 0.0 && strength.high <= MOST_UNCERTAIN * strength.low;
    !known
}

impl BottleStrength {
    /// [`is_too_uncertain`] of the strength today.
    pub fn is_too_uncertain(&self) -> bool {
        is_too_uncertain(&self.available_chlorine.map(in_grams_per_litre))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Basis;

    #[test]
    fn a_range_of_more_than_threefold_is_too_uncertain() {
        let range = |low, high| Estimate { value: high, low, high, basis: Basis::Computed };
        assert!(!is_too_uncertain(&range(10.0, 30.0)));
        assert!(is_too_uncertain(&range(10.0, 30.1)));
        assert!(is_too_uncertain(&range(0.0, 1.0)));
        assert!(is_too_uncertain(&range(0.0, 0.0)));
        assert!(is_too_uncertain(&range(f64::NAN, 1.0)));
    }
}
