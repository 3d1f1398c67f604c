//! The cooking alkalis, and equivalent masses of them by Na2O.
//! Not here: the alkali that a wash removes, which is `pulp::wash::Alkali`.

use crate::quantity::{Mass, grams, in_grams};

/// Molar masses, g/mol, from IUPAC abridged atomic weights (2021).
const NA2O: f64 = 61.979;
const NA2CO3: f64 = 105.988;
const NAOH: f64 = 39.997;
const WATER: f64 = 18.015;

/// The alkali of a cook.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum CookAlkali {
    /// Anhydrous sodium carbonate.
    SodaAsh,
    /// Sodium carbonate monohydrate.
    WashingSodaMonohydrate,
    /// Sodium carbonate decahydrate, the clear crystals.
    WashingSodaDecahydrate,
    /// Sodium hydroxide.
    Lye,
}

impl CookAlkali {
    /// Every alkali, the mildest first.
    pub const ALL: [Self; 4] =
        [Self::SodaAsh, Self::WashingSodaMonohydrate, Self::WashingSodaDecahydrate, Self::Lye];

    /// Share of Na2CO3 or NaOH in the pure product; the rest is crystal water.
    pub fn pure_share(self) -> f64 {
        match self {
            Self::SodaAsh | Self::Lye => 1.0,
            Self::WashingSodaMonohydrate => NA2CO3 / (NA2CO3 + WATER),
            Self::WashingSodaDecahydrate => NA2CO3 / (NA2CO3 + 10.0 * WATER),
        }
    }

    /// Grams of Na2O per gram of Na2CO3 or NaOH: 0.5848 or 0.7748.
    pub fn sodium_oxide(self) -> f64 {
        match self {
            Self::Lye => NA2O / (2.0 * NAOH),
            _ => NA2O / NA2CO3,
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::SodaAsh => "cook-alkali-soda_ash",
            Self::WashingSodaMonohydrate => "cook-alkali-washing_soda_monohydrate",
            Self::WashingSodaDecahydrate => "cook-alkali-washing_soda_decahydrate",
            Self::Lye => "cook-alkali-lye",
        }
    }
}

/// The mass of `to` with the same Na2O as `mass` of `from`, both pure.
///
/// Equal Na2O is not equal cooking: lye has a far higher pH than soda ash of the
/// same Na2O, and attacks the fibre more.
pub fn equivalent(mass: Mass, from: CookAlkali, to: CookAlkali) -> Mass {
    let oxide = |alkali: CookAlkali| alkali.pure_share() * alkali.sodium_oxide();
    grams(in_grams(mass) * oxide(from) / oxide(to))
}
