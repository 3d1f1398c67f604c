//! The reagents that take out chlorine: what each needs, leaves and does to pH.

/// Molar masses, g/mol, from IUPAC abridged atomic weights (2021).
pub(super) mod molar {
    pub(crate) const CL2: f64 = 70.906;
    pub(crate) const THIOSULFATE: f64 = 158.11;
    pub(crate) const THIOSULFATE_5H2O: f64 = 248.18;
    pub(crate) const SULFITE: f64 = 126.04;
    pub(crate) const BISULFITE: f64 = 104.06;
    pub(crate) const METABISULFITE: f64 = 190.11;
    pub(crate) const ASCORBIC: f64 = 176.12;
    pub(crate) const ASCORBATE: f64 = 198.11;
    pub(crate) const H2O2: f64 = 34.0147;
}

/// Strongest chlorine liquor that peroxide may be put into, g/L available
/// chlorine: each gram gives 0.345 L of oxygen at once (25 °C). 1 g/L is the
/// careful end of 1–2 g/L (own estimate, no source).
pub const PEROXIDE_LIMIT: f64 = 1.0;

/// Litres of oxygen from each gram of available chlorine that peroxide takes
/// out: 24.465 L/mol at 25 °C and 1 atm, over 70.906 g/mol.
pub const OXYGEN_PER_GRAM: f64 = 24.465 / molar::CL2;

/// Thiosulfate pentahydrate beyond this, per gram of chlorine, is more than
/// any of its reactions can use (tetrathionate stoichiometry).
pub const THIOSULFATE_TOP: f64 = 2.0 * molar::THIOSULFATE_5H2O / molar::CL2;

/// A reagent that takes out chlorine.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Antichlor {
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

/// Which way a reagent moves pH.
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

impl Antichlor {
    /// Every reagent, the usual one first.
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

    /// Grams of the pure reagent for a gram of chlorine by the reaction's
    /// stoichiometry: least, and most. They differ only for thiosulfate, which
    /// goes to sulfate (4 Cl2 each) in alkali with chlorine to spare, and to
    /// tetrathionate (half a Cl2 each) in acid or with thiosulfate to spare.
    pub fn stoichiometry(self) -> (f64, f64) {
        use molar::*;
        let per = |mass: f64, moles: f64| mass * moles / CL2;
        let same = |x| (x, x);
        match self {
            Self::ThiosulfatePentahydrate => {
                (per(THIOSULFATE_5H2O, 0.25), per(THIOSULFATE_5H2O, 2.0))
            }
            Self::ThiosulfateAnhydrous => (per(THIOSULFATE, 0.25), per(THIOSULFATE, 2.0)),
            Self::Sulfite => same(per(SULFITE, 1.0)),
            Self::Bisulfite => same(per(BISULFITE, 1.0)),
            Self::Metabisulfite => same(per(METABISULFITE, 0.5)),
            Self::AscorbicAcid => same(per(ASCORBIC, 1.0)),
            Self::SodiumAscorbate => same(per(ASCORBATE, 1.0)),
            Self::Peroxide => same(per(H2O2, 1.0)),
        }
    }

    /// Grams of the pure reagent to weigh for a gram of chlorine.
    ///
    /// Thiosulfate: 2 g of pentahydrate, near the 1.9 of the water trade's
    /// field table (AWWA field guide, Table 7-2, pH 7), and the same sulfur as
    /// anhydrous. The others: stoichiometry and a tenth more, which covers the
    /// same table (bisulfite 1.61, metabisulfite 1.47, sulfite 1.96, ascorbic
    /// acid 2.5, ascorbate 2.8) to within 1 %. Peroxide without excess.
    pub fn usual(self) -> f64 {
        match self {
            Self::ThiosulfatePentahydrate => 2.0,
            Self::ThiosulfateAnhydrous => 2.0 * molar::THIOSULFATE / molar::THIOSULFATE_5H2O,
            Self::Peroxide => self.stoichiometry().0,
            _ => 1.1 * self.stoichiometry().0,
        }
    }

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::ThiosulfatePentahydrate => "antichlor-reagent-thiosulfate_pentahydrate",
            Self::ThiosulfateAnhydrous => "antichlor-reagent-thiosulfate_anhydrous",
            Self::Sulfite => "antichlor-reagent-sulfite",
            Self::Bisulfite => "antichlor-reagent-bisulfite",
            Self::Metabisulfite => "antichlor-reagent-metabisulfite",
            Self::AscorbicAcid => "antichlor-reagent-ascorbic_acid",
            Self::SodiumAscorbate => "antichlor-reagent-sodium_ascorbate",
            Self::Peroxide => "antichlor-reagent-peroxide",
        }
    }

    /// Locale key: what it leaves behind in the pulp's water.
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

    /// Which way it moves pH as it works in an alkaline liquor: thiosulfate
    /// gives 2 H+ for 4 OCl-; bisulfite and ascorbic acid bring acid of their
    /// own; sulfite, ascorbate and peroxide leave pH about where it was.
    pub fn ph_shift(self) -> PhShift {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => PhShift::SlightlyDown,
            Self::Bisulfite | Self::Metabisulfite | Self::AscorbicAcid => PhShift::Down,
            Self::Sulfite | Self::SodiumAscorbate | Self::Peroxide => PhShift::Steady,
        }
    }

    /// Rinses to follow, to carry the excess and the salts off (common
    /// practice, no source). Thiosulfate left in paper turns to sulfur and acid.
    pub fn rinses_after(self) -> u32 {
        match self {
            Self::ThiosulfatePentahydrate | Self::ThiosulfateAnhydrous => 3,
            Self::Peroxide => 1,
            _ => 2,
        }
    }
}
