//! Molar masses, and the step between grams and moles.
//!
//! Atomic weights: IUPAC conventional values (2013 table, abridged): H 1.008, C 12.011,
//! O 15.999, Na 22.990, S 32.06 (from memory), Cl 35.453 (the older value that the bleach
//! trade's factors, 70.906 and 35.453, are built on).

use crate::quantity::MassConcentration;
use uom::si::{
    f64::{MolarConcentration, MolarMass},
    mass_concentration::gram_per_liter,
    molar_concentration::mole_per_liter,
    molar_mass::gram_per_mole,
};

/// Something that is weighed into a bath, as grams per mole of its formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Substance {
    /// Locale key for its name, under `substance-`.
    pub key: &'static str,
    /// Grams per mole.
    pub grams_per_mole: f64,
}

impl Substance {
    /// The molar mass as a typed quantity.
    pub fn molar_mass(self) -> MolarMass {
        MolarMass::new::<gram_per_mole>(self.grams_per_mole)
    }

    /// Moles per litre in a mass concentration of this substance.
    pub fn molar(self, concentration: MassConcentration) -> MolarConcentration {
        moles_per_litre(concentration.get::<gram_per_liter>() / self.grams_per_mole)
    }

    /// Mass concentration of this substance at a molar concentration.
    pub fn mass_concentration(self, concentration: MolarConcentration) -> MassConcentration {
        MassConcentration::new::<gram_per_liter>(
            in_moles_per_litre(concentration) * self.grams_per_mole,
        )
    }
}

/// A molar concentration from moles per litre.
pub fn moles_per_litre(value: f64) -> MolarConcentration {
    MolarConcentration::new::<mole_per_liter>(value)
}

/// A molar concentration in moles per litre.
pub fn in_moles_per_litre(concentration: MolarConcentration) -> f64 {
    concentration.get::<mole_per_liter>()
}

macro_rules! substances {
    ($($(#[$about:meta])* $name:ident = $key:literal, $mass:expr;)*) => {
        $($(#[$about])* pub const $name: Substance = Substance { key: $key, grams_per_mole: $mass };)*
    };
}

substances! {
    /// Cl2; "available chlorine" is always counted as this.
    CHLORINE = "chlorine", 70.906;
    /// NaOCl.
    SODIUM_HYPOCHLORITE = "sodium_hypochlorite", 74.442;
    /// NaCl.
    SODIUM_CHLORIDE = "sodium_chloride", 58.443;
    /// NaOH, lye.
    SODIUM_HYDROXIDE = "sodium_hydroxide", 39.997;
    /// Na2CO3, soda ash.
    SODIUM_CARBONATE = "sodium_carbonate", 105.988;
    /// Na2CO3·H2O.
    SODIUM_CARBONATE_MONOHYDRATE = "sodium_carbonate_monohydrate", 124.003;
    /// Na2CO3·10H2O, washing soda.
    SODIUM_CARBONATE_DECAHYDRATE = "sodium_carbonate_decahydrate", 286.141;
    /// NaHCO3, baking soda.
    SODIUM_BICARBONATE = "sodium_bicarbonate", 84.006;
    /// H2O2.
    HYDROGEN_PEROXIDE = "hydrogen_peroxide", 34.0147;
    /// Na2CO3·1.5H2O2: half of the formula 2Na2CO3·3H2O2 (314.02).
    SODIUM_PERCARBONATE = "sodium_percarbonate", 157.010;
    /// CH3COOH.
    ACETIC_ACID = "acetic_acid", 60.052;
    /// C6H8O7, anhydrous.
    CITRIC_ACID = "citric_acid", 192.124;
    /// C6H8O7·H2O.
    CITRIC_ACID_MONOHYDRATE = "citric_acid_monohydrate", 210.139;
    /// Na2S2O3·5H2O.
    SODIUM_THIOSULFATE_PENTAHYDRATE = "sodium_thiosulfate_pentahydrate", 248.18;
    /// Na2SO4.
    SODIUM_SULFATE = "sodium_sulfate", 142.04;
    /// O2.
    OXYGEN = "oxygen", 31.998;
    /// CaCO3.
    CALCIUM_CARBONATE = "calcium_carbonate", 100.087;
}
