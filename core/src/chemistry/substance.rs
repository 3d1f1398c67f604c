//! Molar masses, and conversion between grams and moles.
//!
//! Atomic weights: IUPAC conventional values (2013 table, abridged): H 1.008, C 12.011,
//! O 15.999, Na 22.990, S 32.06 (from memory), Cl 35.453 (the older value, on which the
//! factors 70.906 and 35.453 of the bleach trade are based). Sulfites, thiosulfates and
//! ascorbates: IUPAC abridged atomic weights (2021). Ca 40.078, N 14.007 (from memory).

use crate::quantity::{MassConcentration, grams_per_litre, in_grams_per_litre};
use uom::si::{f64::MolarConcentration, molar_concentration::mole_per_liter};

/// A chemical substance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Substance {
    /// Molar mass of its formula.
    pub grams_per_mole: f64,
}

impl Substance {
    const fn new(grams_per_mole: f64) -> Self {
        Self { grams_per_mole }
    }

    /// Molar concentration from a mass concentration of this substance.
    pub fn molar(self, concentration: MassConcentration) -> MolarConcentration {
        moles_per_litre(in_grams_per_litre(concentration) / self.grams_per_mole)
    }

    /// Mass concentration of this substance from a molar concentration.
    pub fn mass_concentration(self, concentration: MolarConcentration) -> MassConcentration {
        grams_per_litre(in_moles_per_litre(concentration) * self.grams_per_mole)
    }
}

/// A solid with chlorine(+1), "pool chlorine": one atom of it counts as one Cl2 of available
/// chlorine, since it takes up two electrons.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChlorineSource {
    pub substance: Substance,
    /// Atoms of chlorine(+1) in its formula.
    pub active_chlorine: u8,
}

impl ChlorineSource {
    const fn new(grams_per_mole: f64, active_chlorine: u8) -> Self {
        Self { substance: Substance::new(grams_per_mole), active_chlorine }
    }

    /// Available chlorine of the pure substance, as a share of its mass.
    pub fn available_chlorine(self) -> f64 {
        f64::from(self.active_chlorine) * CHLORINE.grams_per_mole / self.substance.grams_per_mole
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

/// Cl2; "available chlorine" is given as this.
pub const CHLORINE: Substance = Substance::new(70.906);
/// NaOCl.
pub const SODIUM_HYPOCHLORITE: Substance = Substance::new(74.442);
/// NaOH, lye.
pub const SODIUM_HYDROXIDE: Substance = Substance::new(39.997);
/// Na2CO3, soda ash.
pub const SODIUM_CARBONATE: Substance = Substance::new(105.988);
/// Na2CO3·H2O.
pub const SODIUM_CARBONATE_MONOHYDRATE: Substance = Substance::new(124.003);
/// Na2CO3·10H2O, washing soda.
pub const SODIUM_CARBONATE_DECAHYDRATE: Substance = Substance::new(286.141);
/// NaHCO3, baking soda.
pub const SODIUM_BICARBONATE: Substance = Substance::new(84.006);
/// H2O2.
pub const HYDROGEN_PEROXIDE: Substance = Substance::new(34.0147);
/// Na2CO3·1.5H2O2: half of the formula 2Na2CO3·3H2O2 (314.02).
pub const SODIUM_PERCARBONATE: Substance = Substance::new(157.010);
/// CH3COOH.
pub const ACETIC_ACID: Substance = Substance::new(60.052);
/// C6H8O7, anhydrous.
pub const CITRIC_ACID: Substance = Substance::new(192.124);
/// C6H8O7·H2O.
pub const CITRIC_ACID_MONOHYDRATE: Substance = Substance::new(210.139);
/// Na2S2O3.
pub const SODIUM_THIOSULFATE: Substance = Substance::new(158.11);
/// Na2S2O3·5H2O.
pub const SODIUM_THIOSULFATE_PENTAHYDRATE: Substance = Substance::new(248.18);
/// Na2SO3.
pub const SODIUM_SULFITE: Substance = Substance::new(126.04);
/// NaHSO3.
pub const SODIUM_BISULFITE: Substance = Substance::new(104.06);
/// Na2S2O5.
pub const SODIUM_METABISULFITE: Substance = Substance::new(190.11);
/// C6H8O6.
pub const ASCORBIC_ACID: Substance = Substance::new(176.12);
/// NaC6H7O6.
pub const SODIUM_ASCORBATE: Substance = Substance::new(198.11);
/// SO2.
pub const SULFUR_DIOXIDE: Substance = Substance::new(64.058);
/// CaCO3.
pub const CALCIUM_CARBONATE: Substance = Substance::new(100.087);
/// Ca(OCl)2, calcium hypochlorite. The trade's granules have 65 to 70 % available chlorine
/// (common practice, from memory).
pub const CALCIUM_HYPOCHLORITE: ChlorineSource = ChlorineSource::new(142.982, 2);
/// NaC3Cl2N3O3, sodium dichloroisocyanurate (dichlor).
pub const SODIUM_DICHLOROISOCYANURATE: ChlorineSource = ChlorineSource::new(219.947, 2);
/// NaC3Cl2N3O3·2H2O.
pub const SODIUM_DICHLOROISOCYANURATE_DIHYDRATE: ChlorineSource = ChlorineSource::new(255.977, 2);
/// C3Cl3N3O3, trichloroisocyanuric acid (trichlor).
pub const TRICHLOROISOCYANURIC_ACID: ChlorineSource = ChlorineSource::new(232.410, 3);
