//! The acids of a neutral finish, and the target pH that they are dosed to.

use crate::chemistry::equilibrium::Reagent;
use crate::chemistry::substance::{ACETIC_ACID, CITRIC_ACID, CITRIC_ACID_MONOHYDRATE};
use crate::quantity::{Estimate, Mass, Volume, grams, millilitres};

/// Lowest target pH: acid left in paper is worse than mild alkali.
pub const LOWEST_TARGET: f64 = 7.0;
/// Highest target pH: above this no finish is needed.
pub const HIGHEST_TARGET: f64 = 9.5;

/// An acid as it is measured out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NeutralisingAcid {
    CitricAnhydrous,
    CitricMonohydrate,
    /// Vinegar, grams of acetic acid in 100 mL: "5 % acidity" is 5.
    Vinegar {
        grams_per_100_ml: f64,
    },
}

impl NeutralisingAcid {
    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::CitricAnhydrous => "acid-kind-citric_anhydrous",
            Self::CitricMonohydrate => "acid-kind-citric_monohydrate",
            Self::Vinegar { .. } => "acid-kind-vinegar",
        }
    }

    pub(super) fn reagent(self) -> Reagent {
        match self {
            Self::CitricAnhydrous | Self::CitricMonohydrate => Reagent::CitricAcid,
            Self::Vinegar { .. } => Reagent::AceticAcid,
        }
    }

    /// Amount to measure out for so many moles.
    pub(super) fn amount(self, moles: Estimate<f64>) -> AcidAmount {
        let weigh = |per_mole: f64| AcidAmount::Weigh(moles.map(|n| grams(n * per_mole)));
        match self {
            Self::CitricAnhydrous => weigh(CITRIC_ACID.grams_per_mole),
            Self::CitricMonohydrate => weigh(CITRIC_ACID_MONOHYDRATE.grams_per_mole),
            Self::Vinegar { grams_per_100_ml } => {
                AcidAmount::Pour(moles.map(|n| {
                    millilitres(100.0 * n * ACETIC_ACID.grams_per_mole / grams_per_100_ml)
                }))
            }
        }
    }
}

/// Amount of acid to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum AcidAmount {
    Weigh(Estimate<Mass>),
    Pour(Estimate<Volume>),
}

impl AcidAmount {
    pub(super) fn part(self, part: f64) -> Self {
        match self {
            Self::Weigh(mass) => Self::Weigh(mass.map(|mass| mass * part)),
            Self::Pour(volume) => Self::Pour(volume.map(|volume| volume * part)),
        }
    }
}
