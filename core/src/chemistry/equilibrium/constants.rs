//! Every equilibrium constant of the bath at one temperature, with its source.
//!
//! A set costs a few hundred nanoseconds: keep it while the temperature stays the same. `t` is
//! kelvin in the formulae below; logs are to base 10. Constants are on the molal scale at
//! infinite dilution unless said otherwise.

use crate::chemistry::water;
use crate::quantity::{QuantityKind, OutOfRange, TEMPERATURE};

/// Lower temperature limit of the solver, °C.
pub const COLDEST: f64 = 5.0;
/// Upper temperature limit of the solver, °C.
pub const HOTTEST: f64 = 80.0;
/// Highest temperature at which Morris (1966) measured hypochlorous acid, °C.
pub const MORRIS_HOTTEST: f64 = 35.0;

const R: f64 = 8.314; // J/(mol·K), the value that the rate laws here were fitted with
const LN_10: f64 = std::f64::consts::LN_10;

/// Equilibrium constants at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Constants {
    /// °C.
    pub celsius: f64,
    /// Ion product of water.
    pub water: f64,
    /// First dissociation of carbonic acid (all dissolved CO2 counted as acid).
    pub carbonic_1: f64,
    /// Second dissociation of carbonic acid.
    pub carbonic_2: f64,
    /// Solubility of CO2, mol/(kg·atm).
    pub carbon_dioxide_henry: f64,
    /// Dissociation of hypochlorous acid.
    pub hypochlorous: f64,
    /// Hydrolysis of chlorine, `[HOCl][H+][Cl-]/[Cl2]`, (mol/kg)².
    pub chlorine_hydrolysis: f64,
    /// Solubility of chlorine as Cl2, mol/(L·atm).
    pub chlorine_henry: f64,
    /// Dissociation of hydrogen peroxide.
    pub peroxide: f64,
    /// Dissociation of acetic acid.
    pub acetic: f64,
    /// The three dissociations of citric acid.
    pub citric: [f64; 3],
    /// Debye-Hückel slope, (kg/mol)^½.
    pub debye_slope: f64,
    /// Water in a litre of liquor, kg; taken as that of pure water.
    pub kilograms_per_litre: f64,
}

impl Constants {
    /// The constants at a temperature.
    ///
    /// # Errors
    /// Outside 5-80 °C, or not a number.
    pub fn at(celsius: f64) -> Result<Self, OutOfRange> {
        let kind = QuantityKind::Temperature;
        let celsius = OutOfRange::check(TEMPERATURE, kind, celsius, COLDEST, HOTTEST)?;
        let kelvin = celsius + 273.15;
        Ok(Self {
            celsius,
            water: exp10(log_water(kelvin)),
            carbonic_1: exp10(log_carbonic_1(kelvin)),
            carbonic_2: exp10(log_carbonic_2(kelvin)),
            carbon_dioxide_henry: exp10(log_carbon_dioxide_henry(kelvin)),
            hypochlorous: exp10(-pk_hypochlorous(kelvin)),
            chlorine_hydrolysis: chlorine_hydrolysis(kelvin),
            chlorine_henry: chlorine_henry(kelvin),
            peroxide: exp10(-pk_peroxide(kelvin)),
            acetic: exp10(-pk_acetic(kelvin)),
            citric: pk_citric(kelvin).map(|pk| exp10(-pk)),
            debye_slope: water::debye_slope(celsius),
            kilograms_per_litre: water::kilograms_per_litre(celsius),
        })
    }
}

/// `10^x`.
pub(super) fn exp10(x: f64) -> f64 {
    (x * LN_10).exp()
}

/// log Kw. As in the PHREEQC distribution's `phreeqc.dat` (read there), 0-100 °C at 1 atm;
/// within 0.003 of Millero's form over 0-80 °C.
fn log_water(t: f64) -> f64 {
    293.292_27 + 0.136_083_3 * t - 10_576.913 / t - 123.731_58 * t.log10() - 6.996_455e-5 * t * t
}

/// log K1. Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46:1011, 0-90 °C (read in
/// `phreeqc.dat`, as the difference of two reverse reactions).
fn log_carbonic_1(t: f64) -> f64 {
    -356.3094 - 0.060_919_64 * t + 21_834.37 / t + 126.8339 * t.log10() - 1_684_915.0 / (t * t)
}

/// log K2. Plummer & Busenberg (1982), 0-90 °C (read in `phreeqc.dat`, as its reverse).
fn log_carbonic_2(t: f64) -> f64 {
    -107.8871 - 0.032_528_49 * t + 5151.79 / t + 38.925_61 * t.log10() - 563_713.9 / (t * t)
}

/// log KH of CO2, mol/(kg·atm). Plummer & Busenberg (1982), 0-90 °C (from memory).
fn log_carbon_dioxide_henry(t: f64) -> f64 {
    108.3865 + 0.019_850_76 * t - 6919.53 / t - 40.451_54 * t.log10() + 669_365.0 / (t * t)
}

/// pKa of hypochlorous acid. Morris (1966), J. Phys. Chem. 70:3798, 5-35 °C.
///
/// The published fit has a minimum at 71 °C, which is an artefact. Above 35 °C the heat of
/// dissociation of the fit at 35 °C is kept (van 't Hoff): an extrapolation, marked in
/// [`Validity`](super::Validity).
fn pk_hypochlorous(t: f64) -> f64 {
    let morris = |t: f64| 3000.00 / t - 10.0686 + 0.0253 * t;
    let edge = MORRIS_HOTTEST + 273.15;
    if t <= edge {
        return morris(t);
    }
    let slope = 3000.00 - 0.0253 * edge * edge; // d(pKa)/d(1/T) at the edge
    morris(edge) + slope * (1.0 / t - 1.0 / edge)
}

/// Hydrolysis of chlorine at infinite dilution. Wang & Margerum (1994), Inorg. Chem.
/// 33:1050: 5.1e-4 M² at 25 °C (as quoted by Deborde & von Gunten 2008; from memory), with
/// the temperature course from the abstract's heats at 15 °C (63 - 27 kJ/mol) and heat
/// capacity (-537 J/(mol·K)), measured over 0-30 °C; extrapolated above.
fn chlorine_hydrolysis(t: f64) -> f64 {
    const CAPACITY: f64 = -537.0;
    const WARM: f64 = 298.15;
    let heat = 36_000.0 - CAPACITY * 288.15;
    let log_ratio = heat / R * (1.0 / WARM - 1.0 / t) + CAPACITY / R * (t / WARM).ln();
    5.1e-4 * log_ratio.exp()
}

/// Solubility of chlorine as Cl2, mol/(L·atm): 6.1e-4 mol/(m³·Pa) at 25 °C and 3200 K, Brian
/// et al. (1962) in Sander (2015), Atmos. Chem. Phys. 15:4399 (read). The lowest of the
/// published values, which gives most chlorine in the air.
fn chlorine_henry(t: f64) -> f64 {
    const PASCALS_PER_ATMOSPHERE: f64 = 101_325.0;
    6.1e-4 * PASCALS_PER_ATMOSPHERE / 1000.0 * (3200.0 * (1.0 / t - 1.0 / 298.15)).exp()
}

/// pKa of hydrogen peroxide: 11.65 at 25 °C and 34.3 kJ/mol, Evans & Uri (1949), Trans.
/// Faraday Soc. 45:224 (from memory). Gives 11.75 at 20 °C, as Ardon (1964) has it (read).
fn pk_peroxide(t: f64) -> f64 {
    11.65 + 34_300.0 / (R * LN_10) * (1.0 / t - 1.0 / 298.15)
}

/// pKa of acetic acid. Harned & Ehlers (1933), J. Am. Chem. Soc. 55:652, 0-60 °C (from
/// memory; 4.756 at 25 °C).
fn pk_acetic(t: f64) -> f64 {
    1170.48 / t - 3.1649 + 0.013_399 * t
}

/// The three pKa of citric acid. Bates & Pinching (1949), J. Am. Chem. Soc. 71:1274,
/// 0-50 °C (from memory; 3.128, 4.761, 6.396 at 25 °C).
fn pk_citric(t: f64) -> [f64; 3] {
    [
        1255.6 / t - 4.5635 + 0.011_673 * t,
        1585.2 / t - 5.4460 + 0.016_399 * t,
        1814.9 / t - 6.3664 + 0.022_389 * t,
    ]
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn temperatures_outside_the_limits_are_errors() {
        assert!(Constants::at(4.9).is_err());
        assert!(Constants::at(80.1).is_err());
        assert!(Constants::at(f64::NAN).is_err());
    }

    #[test]
    fn pka_of_hypochlorous_acid_decreases_up_to_80_degrees() {
        let pk = |celsius| -Constants::at(celsius).unwrap().hypochlorous.log10();
        assert!((pk(35.0) - pk(35.000_1)).abs() < 1e-5);
        for celsius in 5..80 {
            assert!(pk(f64::from(celsius)) > pk(f64::from(celsius) + 1.0));
        }
    }
}
