//! What a papermaker bleaches towards.

use super::space::Lab;
use crate::words;

/// Named steps from raw fibre to the whitest plant paper, for someone who has no
/// sheet of their own to aim at. The steps and their places in CIELAB are
/// Bleachfield's own; no standard defines them. The locale names each under
/// `colour-white-` and its key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PaperWhite {
    /// The colour of a washed, unbleached leaf pulp, for reference.
    Raw,
    /// A light brown that still says plant.
    Straw,
    /// Warm and pale, like oat flakes.
    Oat,
    /// Warm white with plain yellow.
    Cream,
    /// White with a trace of warmth: unbleached cotton.
    Natural,
    /// As white as plant fibre goes without brighteners.
    Bright,
}

words!(PaperWhite {
    Raw = "raw",
    Straw = "straw",
    Oat = "oat",
    Cream = "cream",
    Natural = "natural",
    Bright = "bright",
});

impl PaperWhite {
    /// From darkest to whitest.
    pub const ALL: [Self; 6] =
        [Self::Raw, Self::Straw, Self::Oat, Self::Cream, Self::Natural, Self::Bright];

    /// Where the step lies, D65/2°.
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

    /// Key for the name in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Raw => "colour-white-raw",
            Self::Straw => "colour-white-straw",
            Self::Oat => "colour-white-oat",
            Self::Cream => "colour-white-cream",
            Self::Natural => "colour-white-natural",
            Self::Bright => "colour-white-bright",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::difference::delta_e00;

    #[test]
    fn steps_rise_and_can_be_told_apart() {
        for pair in PaperWhite::ALL.windows(2) {
            let (from, to) = (pair[0].lab(), pair[1].lab());
            assert!(to.l > from.l && to.b < from.b);
            assert!(delta_e00(from, to) > 2.0, "{pair:?}");
        }
    }
}
