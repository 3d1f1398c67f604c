//! Alkalis as they are weighed.

use crate::chemistry::equilibrium::Reagent;
use crate::chemistry::substance::{
    SODIUM_BICARBONATE, SODIUM_CARBONATE, SODIUM_CARBONATE_DECAHYDRATE,
    SODIUM_CARBONATE_MONOHYDRATE, SODIUM_HYDROXIDE, Substance,
};
use crate::quantity::{Basis, Estimate, Mass, in_grams};

/// An alkali as it is weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AlkaliReagent {
    /// Na2CO3.
    SodaAsh,
    /// Na2CO3·H2O.
    SodaMonohydrate,
    /// Na2CO3·10H2O, washing soda in crystals.
    WashingSoda,
    /// NaOH.
    Lye,
    /// NaHCO3: buffers near 8.3, reaches no window of a bleach bath by itself.
    BakingSoda,
}

impl AlkaliReagent {
    /// All, mildest to handle first.
    pub const ALL: [Self; 5] =
        [Self::SodaAsh, Self::WashingSoda, Self::SodaMonohydrate, Self::BakingSoda, Self::Lye];

    /// The substance that is weighed.
    pub fn substance(self) -> Substance {
        match self {
            Self::SodaAsh => SODIUM_CARBONATE,
            Self::SodaMonohydrate => SODIUM_CARBONATE_MONOHYDRATE,
            Self::WashingSoda => SODIUM_CARBONATE_DECAHYDRATE,
            Self::Lye => SODIUM_HYDROXIDE,
            Self::BakingSoda => SODIUM_BICARBONATE,
        }
    }

    /// Level teaspoons in a mass; `None` for lye, which must be weighed.
    ///
    /// Bulk density varies within one name: light and dense soda ash by a factor of two
    /// (suppliers' data, 0.57 to 1.05 g/mL); the others are given a quarter either way.
    pub fn teaspoons(self, mass: Estimate<Mass>) -> Option<Estimate<f64>> {
        let (density, off) = match self {
            Self::SodaAsh => (0.8, 0.35),
            Self::SodaMonohydrate => (1.0, 0.25),
            Self::WashingSoda => (0.82, 0.25),
            Self::BakingSoda => (1.0, 0.25),
            Self::Lye => return None,
        };
        let spoons = |mass: Mass, density: f64| in_grams(mass) / (density * TEASPOON);
        Some(Estimate {
            value: spoons(mass.value, density),
            low: spoons(mass.low, density * (1.0 + off)),
            high: spoons(mass.high, density * (1.0 - off)),
            basis: Basis::Assumed,
        })
    }

    pub fn reagent(self) -> Reagent {
        match self {
            Self::SodaAsh | Self::SodaMonohydrate | Self::WashingSoda => Reagent::SodaAsh,
            Self::Lye => Reagent::Lye,
            Self::BakingSoda => Reagent::BakingSoda,
        }
    }
}

/// A level teaspoon, mL.
const TEASPOON: f64 = 5.0;

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::grams;

    #[test]
    fn teaspoons_widen_the_range_and_lye_has_none() {
        let mass = Estimate::within(grams(8.0), 0.1, Basis::Computed);
        let spoons = AlkaliReagent::SodaAsh.teaspoons(mass).unwrap();
        assert!((spoons.value - 2.0).abs() < 1e-9);
        assert!(spoons.low < 1.4 && spoons.high > 3.3);
        assert_eq!(AlkaliReagent::Lye.teaspoons(mass), None);
    }
}
