//! Named target colours.

use super::space::Lab;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// Steps from raw fibre to the whitest plant paper, as targets without an own sample.
/// The steps and their CIELAB values are Bleachfield's own; no standard defines them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-white-", serialize_all = "snake_case")]
pub enum PaperWhite {
    /// Washed, unbleached leaf pulp.
    Raw,
    /// Light brown.
    Straw,
    /// Warm and pale.
    Oat,
    /// Warm, yellowish white.
    Cream,
    /// Slightly warm white: unbleached cotton.
    Natural,
    /// Whitest plant fibre without optical brighteners.
    Bright,
}

impl PaperWhite {
    /// From darkest to whitest.
    pub const ALL: [Self; 6] =
        [Self::Raw, Self::Straw, Self::Oat, Self::Cream, Self::Natural, Self::Bright];

    /// CIELAB of the step, D65/2°.
    pub fn lab(self) -> Lab {
        let (l, a, b) = match self {
            Self::Raw => (60.0, 5.0, 22.0),
            Self::Straw => (74.0, 2.5, 20.0),
            Self::Oat => (83.0, 1.2, 15.0),
            Self::Cream => (89.0, 0.3, 10.0),
            Self::Natural => (92.5, 0.0, 6.0),
            Self::Bright => (95.0, -0.2, 2.5),
        };
        Lab { l, a, b }
    }

    /// The step whose L* is nearest.
    pub fn of_lightness(l: f64) -> Self {
        let far = |step: &Self| (step.lab().l - l).abs();
        Self::ALL.into_iter().min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(Self::Raw)
    }

    /// Locale key of its name.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::difference::delta_e00;

    #[test]
    fn a_lightness_is_of_the_nearest_step() {
        for step in PaperWhite::ALL {
            assert_eq!(PaperWhite::of_lightness(step.lab().l + 0.4), step);
        }
        assert_eq!(PaperWhite::of_lightness(20.0), PaperWhite::Raw);
    }

    #[test]
    fn steps_get_lighter_and_differ_visibly() {
        for pair in PaperWhite::ALL.windows(2) {
            let (from, to) = (pair[0].lab(), pair[1].lab());
            assert!(to.l > from.l && to.b < from.b);
            assert!(delta_e00(from, to) > 2.0, "{pair:?}");
        }
    }
}
