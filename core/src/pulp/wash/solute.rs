//! The solutes that are washed out, and their concentrations in liquor and tap water.
//! Not here: how they fall from rinse to rinse, which is `balance`.

use crate::quantity::{Estimate, MassConcentration};

/// A solute of the liquor in the pulp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Solute {
    /// Available chlorine (as Cl2) or hydrogen peroxide, whichever was used.
    Oxidant,
    /// Soda ash or lye, as pure Na2CO3 or NaOH.
    Alkali,
    /// Neutral salts, mostly sodium chloride and sulfate.
    Salt,
    /// Dissolved matter of the plant, which is brown.
    Organics,
}

impl Solute {
    /// All four, in the order in which they are shown.
    pub const ALL: [Self; 4] = [Self::Oxidant, Self::Alkali, Self::Salt, Self::Organics];

    /// Locale key of the solute's name.
    pub fn word(self) -> &'static str {
        match self {
            Self::Oxidant => "wash-solute-oxidant",
            Self::Alkali => "wash-solute-alkali",
            Self::Salt => "wash-solute-salt",
            Self::Organics => "wash-solute-organics",
        }
    }
}

/// A value for each solute that is known or asked for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PerSolute<T> {
    pub oxidant: Option<T>,
    pub alkali: Option<T>,
    pub salt: Option<T>,
    pub organics: Option<T>,
}

impl<T> Default for PerSolute<T> {
    fn default() -> Self {
        Self { oxidant: None, alkali: None, salt: None, organics: None }
    }
}

impl<T: Copy> PerSolute<T> {
    /// The value for one solute.
    pub fn get(&self, solute: Solute) -> Option<T> {
        match solute {
            Solute::Oxidant => self.oxidant,
            Solute::Alkali => self.alkali,
            Solute::Salt => self.salt,
            Solute::Organics => self.organics,
        }
    }

    /// Sets the value for one solute.
    pub fn set(&mut self, solute: Solute, value: Option<T>) {
        match solute {
            Solute::Oxidant => self.oxidant = value,
            Solute::Alkali => self.alkali = value,
            Solute::Salt => self.salt = value,
            Solute::Organics => self.organics = value,
        }
    }
}

/// Concentrations in the liquor that the pulp holds.
pub type PulpLiquor = PerSolute<Estimate<MassConcentration>>;

/// Highest concentrations that may be left in the water still held.
pub type Targets = PerSolute<MassConcentration>;

/// Concentrations in the wash water, the lower limit of any number of rinses.
/// A solute left out is absent from it.
pub type TapWater = PerSolute<MassConcentration>;
