//! Activity coefficients by the specific ion interaction theory (SIT).
//!
//! `log γ = -z² A√I / (1 + 1.5√I) + Σ ε m`, the sum over the ions of opposite charge;
//! Ciavatta (1980), Ann. Chim. (Rome) 70:551, as in NEA-TDB (from memory). The coefficients ε
//! are in `interaction`.

use super::constants::{Constants, exp10};
use super::error::EquilibriumError;
use super::interaction as epsilon;
use super::totals::Totals;

/// Ionic strength above which a solution is marked strong in salts, mol/kg: as far as
/// [`model_error`] was measured.
pub const STRONG_IN_SALTS: f64 = 1.5;

/// Highest ionic strength that coefficients are calculated for, mol/kg. SIT is held to be good
/// to 3.5 (NEA-TDB guidelines; from memory).
pub const MAX_IONIC_STRENGTH: f64 = 3.0;

/// The error for an ionic strength, mol/kg, above [`MAX_IONIC_STRENGTH`].
pub(super) fn too_concentrated(ionic_strength: f64) -> EquilibriumError {
    EquilibriumError::TooConcentrated { ionic_strength, highest: MAX_IONIC_STRENGTH }
}

/// Error of a calculated pH by the model alone, in pH either way, about 19 times of 20.
/// `ionic_strength` in mol/kg.
///
/// Own figure, measured on sodium hydroxide, carbonate, bicarbonate, chloride and sulfate
/// together at 5-60 °C against PHREEQC's `pitzer.dat` (`tests/phreeqc`, which fails if it
/// covers less than 95 % of them): 0.02 in the thinnest, 0.12 from 0.05 to
/// [`STRONG_IN_SALTS`]. Up to [`MAX_IONIC_STRENGTH`] it is taken to grow to 0.3 (own
/// estimate). Hypochlorite, peroxide and citrate have no such comparison and are taken to be
/// alike.
pub fn model_error(ionic_strength: f64) -> f64 {
    const LEAST: f64 = 0.02;
    const USUAL: f64 = 0.12;
    const USUAL_FROM: f64 = 0.05;
    const MOST: f64 = 0.3;
    let share = |low: f64, high: f64| ((ionic_strength - low) / (high - low)).clamp(0.0, 1.0);
    LEAST
        + (USUAL - LEAST) * share(0.0, USUAL_FROM)
        + (MOST - USUAL) * share(STRONG_IN_SALTS, MAX_IONIC_STRENGTH)
}

/// What the activity coefficients depend on besides sodium, mol/kg. The solver iterates it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Medium {
    pub ionic_strength: f64,
    /// Sum of all solutes.
    pub solutes: f64,
    /// H+.
    pub hydrogen: f64,
    /// Cl-, and the anion of a strong acid.
    pub chloride: f64,
}

impl Medium {
    /// First guess for a bath: the ions that take part in no reaction.
    pub fn guess(totals: &Totals) -> Self {
        Self {
            ionic_strength: totals.spectator_strength(),
            solutes: 2.0 * totals.spectator_count(),
            hydrogen: 0.0,
            chloride: totals.chloride + totals.strong_anion,
        }
    }
}

/// `10^(ε m)` of each solute for one molality of sodium.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct SodiumTerms {
    hydroxide: f64,
    bicarbonate: f64,
    carbonate: f64,
    hypochlorite: f64,
    chloride: f64,
    perhydroxyl: f64,
    acetate: f64,
    citrate: [f64; 3],
    carbon_dioxide: f64,
}

impl SodiumTerms {
    /// For `sodium` in mol/kg, limited to [`MAX_IONIC_STRENGTH`].
    pub fn of(sodium: f64) -> Self {
        let sodium = sodium.clamp(0.0, MAX_IONIC_STRENGTH);
        let term = |epsilon: f64| if epsilon == 0.0 { 1.0 } else { exp10(epsilon * sodium) };
        Self {
            hydroxide: term(epsilon::HYDROXIDE),
            bicarbonate: term(epsilon::BICARBONATE),
            carbonate: term(epsilon::CARBONATE),
            hypochlorite: term(epsilon::HYPOCHLORITE),
            chloride: term(epsilon::CHLORIDE),
            perhydroxyl: term(epsilon::PERHYDROXYL),
            acetate: term(epsilon::ACETATE),
            citrate: epsilon::CITRATE.map(term),
            carbon_dioxide: term(epsilon::CARBON_DIOXIDE),
        }
    }
}

/// Activity coefficients of the solutes, and the activity of water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct ActivityCoefficients {
    pub hydrogen: f64,
    pub hydroxide: f64,
    pub bicarbonate: f64,
    pub carbonate: f64,
    pub hypochlorite: f64,
    pub chloride: f64,
    pub perhydroxyl: f64,
    pub acetate: f64,
    /// Of H2Cit-, HCit²- and Cit³-.
    pub citrate: [f64; 3],
    pub carbon_dioxide: f64,
    pub water: f64,
}

impl ActivityCoefficients {
    /// By SIT. Water by Raoult's law in the form `a = 1 - 0.017 Σm`, Garrels & Christ (1965)
    /// (from memory). Above [`MAX_IONIC_STRENGTH`] the coefficients are those of that ionic
    /// strength.
    pub fn sit(constants: &Constants, sodium: &SodiumTerms, medium: &Medium) -> Self {
        let one = exp10(-debye_hueckel(constants, medium.ionic_strength));
        let squared = one * one;
        let two = squared * squared;
        let three = two * two * one;
        let with_chloride = epsilon::HYDROGEN_CHLORIDE * limited(medium.chloride);
        let with_hydrogen = epsilon::HYDROGEN_CHLORIDE * limited(medium.hydrogen);
        let [citrate_1, citrate_2, citrate_3] = sodium.citrate;
        Self {
            hydrogen: one * exp10(with_chloride),
            hydroxide: one * sodium.hydroxide,
            bicarbonate: one * sodium.bicarbonate,
            carbonate: two * sodium.carbonate,
            hypochlorite: one * sodium.hypochlorite,
            chloride: one * sodium.chloride * exp10(with_hydrogen),
            perhydroxyl: one * sodium.perhydroxyl,
            acetate: one * sodium.acetate,
            citrate: [one * citrate_1, two * citrate_2, three * citrate_3],
            carbon_dioxide: sodium.carbon_dioxide,
            water: (1.0 - 0.017 * medium.solutes).max(0.5),
        }
    }
}

/// `A√I / (1 + 1.5√I)`. `ionic_strength` in mol/kg, limited to [`MAX_IONIC_STRENGTH`].
fn debye_hueckel(constants: &Constants, ionic_strength: f64) -> f64 {
    let root = limited(ionic_strength).sqrt();
    constants.debye_slope * root / (1.0 + 1.5 * root)
}

fn limited(molality: f64) -> f64 {
    molality.clamp(0.0, MAX_IONIC_STRENGTH)
}

/// A salt, base or acid whose mean activity coefficient has published values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Electrolyte {
    SodiumHydroxide,
    SodiumChloride,
    SodiumBicarbonate,
    SodiumCarbonate,
    SodiumAcetate,
    HydrochloricAcid,
}

impl Electrolyte {
    /// ε of its two ions, kg/mol, and the charge number of its anion.
    fn interaction(self) -> (f64, f64) {
        match self {
            Self::SodiumHydroxide => (epsilon::HYDROXIDE, 1.0),
            Self::SodiumChloride => (epsilon::CHLORIDE, 1.0),
            Self::SodiumBicarbonate => (epsilon::BICARBONATE, 1.0),
            Self::SodiumCarbonate => (epsilon::CARBONATE, 2.0),
            Self::SodiumAcetate => (epsilon::ACETATE, 1.0),
            Self::HydrochloricAcid => (epsilon::HYDROGEN_CHLORIDE, 1.0),
        }
    }
}

impl Constants {
    /// Mean activity coefficient of an electrolyte alone in water, completely dissociated and
    /// not hydrolysed. `molality` in mol/kg.
    pub fn mean_activity_coefficient(&self, electrolyte: Electrolyte, molality: f64) -> f64 {
        let (epsilon, charge) = electrolyte.interaction();
        let ionic_strength = 0.5 * molality * (charge + charge * charge);
        let specific = 2.0 * charge / (1.0 + charge) * epsilon * molality;
        exp10(specific - charge * debye_hueckel(self, ionic_strength))
    }

    /// [`Self::chlorine_hydrolysis`] in concentrations instead of activities, (mol/kg)², in
    /// sodium chloride of this molality.
    pub fn chlorine_hydrolysis_in_salt(&self, molality: f64) -> f64 {
        let medium = Medium {
            ionic_strength: molality,
            solutes: 2.0 * molality,
            hydrogen: 0.0,
            chloride: molality,
        };
        let activity = ActivityCoefficients::sit(self, &SodiumTerms::of(molality), &medium);
        self.chlorine_hydrolysis * activity.water / (activity.hydrogen * activity.chloride)
    }
}
