//! Antichlor reagents: stoichiometry, excess and residues.

use super::reaction::{
    ASCORBATE_REACTIONS, ASCORBIC_ACID_REACTIONS, BISULFITE_REACTIONS, METABISULFITE_REACTIONS,
    PEROXIDE_REACTIONS, Reaction, SULFITE_REACTIONS, THIOSULFATE_REACTIONS,
};
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

/// Excess over stoichiometry in [`AntichlorReagent::usual`].
const EXCESS: f64 = 0.1;

/// Reagent left over at the end of a dose: a weak acid or its salt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Excess {
    pub moles_per_chlorine: f64,
    pub pka: f64,
    /// Protons that it has already given: 0 for the acid, 1 for the salt.
    pub dissociated: f64,
}

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

    /// Its reactions with hypochlorite.
    pub(super) fn reactions(self) -> &'static [Reaction] {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => THIOSULFATE_REACTIONS,
            Self::Sulfite => SULFITE_REACTIONS,
            Self::Bisulfite => BISULFITE_REACTIONS,
            Self::Metabisulfite => METABISULFITE_REACTIONS,
            Self::AscorbicAcid => ASCORBIC_ACID_REACTIONS,
            Self::SodiumAscorbate => ASCORBATE_REACTIONS,
            Self::Peroxide => PEROXIDE_REACTIONS,
        }
    }

    /// The reaction that gives most acid, and so most chlorine along a dose.
    pub(super) fn most_acid_reaction(self) -> &'static Reaction {
        let reactions = self.reactions();
        let more_acid = |a: &'static Reaction, b: &'static Reaction| {
            if b.acid_per_chlorine() > a.acid_per_chlorine() { b } else { a }
        };
        reactions.iter().fold(&reactions[0], more_acid)
    }

    fn substance(self) -> Substance {
        match self {
            Self::ThiosulfatePentahydrate => SODIUM_THIOSULFATE_PENTAHYDRATE,
            Self::ThiosulfateAnhydrous => SODIUM_THIOSULFATE,
            Self::Sulfite => SODIUM_SULFITE,
            Self::Bisulfite => SODIUM_BISULFITE,
            Self::Metabisulfite => SODIUM_METABISULFITE,
            Self::AscorbicAcid => ASCORBIC_ACID,
            Self::SodiumAscorbate => SODIUM_ASCORBATE,
            Self::Peroxide => HYDROGEN_PEROXIDE,
        }
    }

    /// Grams of pure reagent per gram of chlorine by stoichiometry: least and most of its
    /// reactions. They differ only for thiosulfate.
    pub fn stoichiometry(self) -> (f64, f64) {
        let grams = self.substance().grams_per_mole / CHLORINE.grams_per_mole;
        let moles = self.reactions().iter().map(Reaction::reagent_per_chlorine);
        let ends = (f64::INFINITY, f64::NEG_INFINITY);
        let (least, most) = moles.fold(ends, |(least, most), x| (least.min(x), most.max(x)));
        (grams * least, grams * most)
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
            _ => (1.0 + EXCESS) * self.stoichiometry().0,
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

    /// What the reagent left over does to pH; `None` if nothing.
    ///
    /// pKa at 25 °C: bisulfite 7.2, ascorbic acid 4.17 (CRC Handbook, from memory).
    pub(super) fn excess(self) -> Option<Excess> {
        let excess =
            |pka, dissociated| Some(Excess { moles_per_chlorine: EXCESS, pka, dissociated });
        match self {
            Self::Sulfite => excess(7.2, 1.0),
            Self::Bisulfite | Self::Metabisulfite => excess(7.2, 0.0),
            Self::AscorbicAcid => excess(4.17, 0.0),
            Self::SodiumAscorbate => excess(4.17, 1.0),
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous | Self::Peroxide => None,
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
