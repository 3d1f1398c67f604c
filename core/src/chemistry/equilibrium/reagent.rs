//! Acids and bases that can be added to a bath.

use super::totals::Totals;
use crate::chemistry::substance::{
    ACETIC_ACID, CITRIC_ACID, SODIUM_BICARBONATE, SODIUM_CARBONATE, SODIUM_HYDROXIDE, Substance,
};

/// An acid or base that is added to a bath.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Reagent {
    /// NaOH.
    Lye,
    /// Na2CO3.
    SodaAsh,
    /// NaHCO3.
    BakingSoda,
    AceticAcid,
    CitricAcid,
    /// Dissolved carbon dioxide.
    CarbonDioxide,
}

impl Reagent {
    /// Whether it only lowers pH.
    pub fn is_acid(self) -> bool {
        matches!(self, Self::AceticAcid | Self::CitricAcid | Self::CarbonDioxide)
    }

    /// Anhydrous substance to weigh; `None` for dissolved CO2.
    pub fn substance(self) -> Option<Substance> {
        match self {
            Self::Lye => Some(SODIUM_HYDROXIDE),
            Self::SodaAsh => Some(SODIUM_CARBONATE),
            Self::BakingSoda => Some(SODIUM_BICARBONATE),
            Self::AceticAcid => Some(ACETIC_ACID),
            Self::CitricAcid => Some(CITRIC_ACID),
            Self::CarbonDioxide => None,
        }
    }

    pub(super) fn add_to(self, totals: &mut Totals, amount: f64) {
        let sodium = match self {
            Self::Lye | Self::BakingSoda => amount,
            Self::SodaAsh => 2.0 * amount,
            Self::AceticAcid | Self::CitricAcid | Self::CarbonDioxide => 0.0,
        };
        totals.sodium += sodium;
        match self {
            Self::Lye => {}
            Self::SodaAsh | Self::BakingSoda | Self::CarbonDioxide => totals.carbonate += amount,
            Self::AceticAcid => totals.acetate += amount,
            Self::CitricAcid => totals.citrate += amount,
        }
    }
}
