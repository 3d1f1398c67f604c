//! Coefficients ε of the specific ion interaction theory (SIT), kg/mol, each with its source.
//!
//! All at 25 °C and used at every temperature (usual practice: they change little). "TDB": the
//! NEA thermochemical database, Guillaumont et al. (2003), appendix B, as `sit.dat` of PHREEQC
//! (ThermoChimie 9b0) has it (read); uncertainties from memory. The only cations here are Na+
//! and H+; sulfate and sodium take part in no equilibrium and need no coefficient.

/// OH- with Na+. TDB: 0.04 ± 0.01.
pub const HYDROXIDE: f64 = 0.04;
/// HCO3- with Na+. TDB: 0.00 ± 0.02.
pub const BICARBONATE: f64 = 0.00;
/// CO3²- with Na+. TDB: -0.08 ± 0.03; the upper end of that range is taken, which keeps the
/// NBS carbonate buffers within 0.02 pH at 5-50 °C.
pub const CARBONATE: f64 = -0.05;
/// ClO- with Na+. No published value known: analogy with the other oxoanions of chlorine,
/// ClO4- at 0.01 ± 0.01 (TDB) and ClO3- at -0.01 ± 0.02 (from memory).
pub const HYPOCHLORITE: f64 = 0.00;
/// Cl- with Na+. TDB: 0.03 ± 0.01.
pub const CHLORIDE: f64 = 0.03;
/// HO2- with Na+. No published value known: analogy with OH-, so that salt does not shift
/// H2O2 + OH- = HO2- + H2O.
pub const PERHYDROXYL: f64 = 0.04;
/// CH3COO- with Na+. TDB: 0.08 ± 0.01 (from memory); reproduces the mean activity
/// coefficients of sodium acetate to 1 % up to 1 mol/kg (`tests/reference`).
pub const ACETATE: f64 = 0.08;
/// H2Cit-, HCit²- and Cit³- with Na+. TDB: -0.05 ± 0.01, -0.04 ± 0.02, -0.076 ± 0.030.
pub const CITRATE: [f64; 3] = [-0.05, -0.04, -0.076];
/// H+ with Cl-. TDB: 0.12 ± 0.01. Also for the unnamed anion of a strong acid; other anions
/// hold few H+, and count as 0.
pub const HYDROGEN_CHLORIDE: f64 = 0.12;
/// CO2 with Na+: salting-out by 0.1 per mol/kg. Harned & Davis (1943) have 0.10 in sodium
/// chloride at 25 °C (from memory). HOCl, Cl2, H2O2 and the undissociated organic acids count
/// as ideal.
pub const CARBON_DIOXIDE: f64 = 0.10;
