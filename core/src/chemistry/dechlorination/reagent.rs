//! Antichlor reagents: stoichiometry, residues and effect on pH.

use crate::chemistry::substance::{
    ASCORBIC_ACID, CHLORINE, HYDROGEN_PEROXIDE, SODIUM_ASCORBATE, SODIUM_BISULFITE,
    SODIUM_METABISULFITE, SODIUM_SULFITE, SODIUM_THIOSULFATE, SODIUM_THIOSULFATE_PENTAHYDRATE,
    Substance,
};
use strum::IntoStaticStr;

/// Strongest chlorine liquor in which peroxide may be used, g/L available
/// chlorine: each gram gives 0.345 L of oxygen at once (25 °C). 1 g/L is the
/// low end of 1–2 g/L (own estimate, no source).
pub const PEROXIDE_LIMIT: f64 = 1.0;

/// Litres of oxygen per gram of available chlorine removed by peroxide:
/// 24.465 L/mol at 25 °C and 1 atm, over 70.906 g/mol.
pub const OXYGEN_PER_GRAM: f64 = 24.465 / CHLORINE.grams_per_mole;

/// Most thiosulfate pentahydrate that its reactions can use, grams per gram of
/// chlorine (tetrathionate stoichiometry).
pub const THIOSULFATE_TOP: f64 =
    2.0 * SODIUM_THIOSULFATE_PENTAHYDRATE.grams_per_mole / CHLORINE.grams_per_mole;

/// A reagent that removes chlorine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, IntoStaticStr)]
#[strum(const_into_str, prefix = "antichlor-reagent-", serialize_all = "snake_case")]
pub enum AntichlorReagent {
    ThiosulfatePentahydrate,
    ThiosulfateAnhydrous,
    Sulfite,
    Bisulfite,
    Metabisulfite,
    AscorbicAcid,
    SodiumAscorbate,
    /// Only in a weak liquor and an open vessel.
    Peroxide,
}

/// Effect of a reagent on pH.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhShift {
    Down,
    SlightlyDown,
    Steady,
}

impl PhShift {
    /// Locale key.
    pub fn word(self) -> &'static str {
        match self {
            Self::Down => "antichlor-ph-down",
            Self::SlightlyDown => "antichlor-ph-slightly_down",
            Self::Steady => "antichlor-ph-steady",
        }
    }
}

impl AntichlorReagent {
    /// All, the usual one first.
    pub const ALL: [Self; 8] = [
        Self::ThiosulfatePentahydrate,
        Self::ThiosulfateAnhydrous,
        Self::Sulfite,
        Self::Bisulfite,
        Self::Metabisulfite,
        Self::AscorbicAcid,
        Self::SodiumAscorbate,
        Self::Peroxide,
    ];

    pub(super) fn is_thiosulfate(self) -> bool {
        matches!(self, Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous)
    }

    /// Grams of pure reagent per gram of chlorine by stoichiometry: least and most.
    /// They differ only for thiosulfate, which is oxidised to sulfate (4 Cl2 each)
    /// in alkali with excess chlorine, and to tetrathionate (half a Cl2 each) in
    /// acid or with excess thiosulfate.
    pub fn stoichiometry(self) -> (f64, f64) {
        let per = |reagent: Substance, moles: f64| {
            reagent.grams_per_mole * moles / CHLORINE.grams_per_mole
        };
        let same = |x| (x, x);
        match self {
            Self::ThiosulfatePentahydrate => (
                per(SODIUM_THIOSULFATE_PENTAHYDRATE, 0.25),
                per(SODIUM_THIOSULFATE_PENTAHYDRATE, 2.0),
            ),
            Self::ThiosulfateAnhydrous => {
                (per(SODIUM_THIOSULFATE, 0.25), per(SODIUM_THIOSULFATE, 2.0))
            }
            Self::Sulfite => same(per(SODIUM_SULFITE, 1.0)),
            Self::Bisulfite => same(per(SODIUM_BISULFITE, 1.0)),
            Self::Metabisulfite => same(per(SODIUM_METABISULFITE, 0.5)),
            Self::AscorbicAcid => same(per(ASCORBIC_ACID, 1.0)),
            Self::SodiumAscorbate => same(per(SODIUM_ASCORBATE, 1.0)),
            Self::Peroxide => same(per(HYDROGEN_PEROXIDE, 1.0)),
        }
    }

    /// Grams of pure reagent to weigh per gram of chlorine.
    ///
    /// Thiosulfate: 2 g of pentahydrate, near the 1.9 of the water trade's
    /// field table (AWWA field guide, Table 7-2, pH 7), and the same sulfur as
    /// anhydrous. The others: stoichiometry and a tenth more, which covers the
    /// same table (bisulfite 1.61, metabisulfite 1.47, sulfite 1.96, ascorbic
    /// acid 2.5, ascorbate 2.8) to within 1 %. Peroxide without excess.
    pub fn usual(self) -> f64 {
        match self {
            Self::ThiosulfatePentahydrate => 2.0,
            Self::ThiosulfateAnhydrous => {
                2.0 * SODIUM_THIOSULFATE.grams_per_mole
                    / SODIUM_THIOSULFATE_PENTAHYDRATE.grams_per_mole
            }
            Self::Peroxide => self.stoichiometry().0,
            _ => 1.1 * self.stoichiometry().0,
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        self.into_str()
    }

    /// Locale key of its residue in the pulp's water.
    pub fn leaves(self) -> &'static str {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => {
                "antichlor-leaves-thiosulfate"
            }
            Self::Sulfite | Self::Bisulfite | Self::Metabisulfite => "antichlor-leaves-sulfite",
            Self::AscorbicAcid | Self::SodiumAscorbate => "antichlor-leaves-ascorbate",
            Self::Peroxide => "antichlor-leaves-peroxide",
        }
    }

    /// Effect on the pH of an alkaline liquor: thiosulfate gives 2 H+ for 4 OCl-;
    /// bisulfite and ascorbic acid are acids; sulfite, ascorbate and peroxide leave
    /// pH about the same.
    pub fn ph_shift(self) -> PhShift {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => PhShift::SlightlyDown,
            Self::Bisulfite | Self::Metabisulfite | Self::AscorbicAcid => PhShift::Down,
            Self::Sulfite | Self::SodiumAscorbate | Self::Peroxide => PhShift::Steady,
        }
    }

    /// Rinses afterwards, to remove the excess and the salts (common practice, no
    /// source). Thiosulfate left in paper decomposes to sulfur and acid.
    pub fn rinses_after(self) -> u32 {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => 3,
            Self::Peroxide => 1,
            _ => 2,
        }
    }
}
