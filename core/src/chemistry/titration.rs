//! Iodometric titration: volumes in, strength out.
//!
//! Hypochlorite: `OCl- + 2 I- + 2 H+ -> I2 + Cl- + H2O`, in acetic acid, never hydrochloric
//! (Standard Methods 4500-Cl B; read). Peroxide: `H2O2 + 2 I- + 2 H+ -> I2 + 2 H2O`, slow
//! without molybdate (Reichert et al. 1939; read). Then `I2 + 2 S2O3²- -> 2 I- + S4O6²-`, so
//! that 0.1 N thiosulfate is 0.1 mol/L. Both oxidants react: the method cannot tell a mixture
//! apart.

use super::hypochlorite_limit::check_hypochlorite;
use super::strength_error::StrengthError;
use crate::message::Field;
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, OutOfRange, QuantityKind, Volume, grams_per_litre,
    in_grams, in_grams_per_litre, in_millilitres, millilitres,
};

pub const NORMALITY: Field = Field("normality");
pub const SAMPLE: Field = Field("sample");
pub const DILUTED_TO: Field = Field("diluted_to");
pub const TITRE: Field = Field("titre");
pub const BLANK: Field = Field("blank");

/// Reading error of a titre by a burette, and by a 10 or 20 mL syringe, mL (common practice, no
/// source).
pub const BURETTE_ML: f64 = 0.05;
pub const SYRINGE_ML: f64 = 0.5;

/// The substance that is determined.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Analyte {
    /// As Cl2.
    AvailableChlorine,
    SodiumHypochlorite,
    HydrogenPeroxide,
    /// As O.
    ActiveOxygen,
    /// As 2Na2CO3·3H2O2.
    Percarbonate,
}

impl Analyte {
    /// Grams per equivalent, half a mole of oxidant: 35.453, 37.221, 17.007, 8.000, 52.337.
    /// (USP hypochlorite assay: 1 mL of 0.1 N is 3.722 mg NaOCl; read.)
    pub fn grams_per_equivalent(self) -> f64 {
        match self {
            Self::AvailableChlorine => 35.453,
            Self::SodiumHypochlorite => 37.221,
            Self::HydrogenPeroxide => 34.0147 / 2.0,
            Self::ActiveOxygen => 15.999 / 2.0,
            Self::Percarbonate => 314.02 / 6.0,
        }
    }

    /// Grams of analyte in the titrated sample.
    fn grams(self, normality: f64, titre: Volume) -> f64 {
        self.grams_per_equivalent() * normality * in_millilitres(titre) / 1000.0
    }
}

/// A dilution step: `taken` made up to `diluted_to`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dilution {
    pub taken: Volume,
    pub diluted_to: Volume,
}

/// Burette or syringe readings of one titration with repeats.
#[derive(Clone, Copy, Debug)]
pub struct TitrationReadings<'a> {
    /// Thiosulfate, equivalents per litre.
    pub normality: f64,
    /// Thiosulfate used, one volume per repeat.
    pub titres: &'a [Volume],
    /// Thiosulfate used by the reagents alone.
    pub blank: Volume,
    /// Reading error of one titre: [`BURETTE_ML`] or [`SYRINGE_ML`].
    pub reading_error: Volume,
}

/// Strength from a titration.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TitrationResult<Q> {
    pub strength: Estimate<Q>,
    pub agreement: Agreement,
}

/// Agreement of the repeats.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Agreement {
    pub repeats: usize,
    /// Largest minus smallest titre, as a share of the mean.
    pub spread: f64,
    /// Index of a titre that fails Dixon's Q test at 90 %. It still counts in the mean: the
    /// person decides to repeat or remove it.
    pub outlier: Option<usize>,
}

impl Agreement {
    /// Two or more repeats within 2 % of each other (common practice, no source).
    pub fn is_good(&self) -> bool {
        self.repeats >= 2 && self.spread <= 0.02
    }
}

/// Strength of a liquid: `sample` for each titre, after `dilutions` in order.
///
/// # Errors
/// An impossible volume, normality or titre, or a strength above what can exist.
pub fn liquid(
    analyte: Analyte,
    sample: Volume,
    dilutions: &[Dilution],
    readings: &TitrationReadings<'_>,
) -> Result<TitrationResult<MassConcentration>, StrengthError> {
    let undiluted = in_millilitres(sample) * checked_dilution(sample, dilutions)?;
    let strength = readings.mean(|titre| {
        grams_per_litre(1000.0 * analyte.grams(readings.normality, titre) / undiluted)
    })?;
    check_possible(analyte, strength.strength.value)?;
    Ok(strength)
}

/// Share of an analyte in a powder, 0 to 1: `weighed` dissolved to `dissolved_to`, and
/// `aliquot` of that for each titre.
///
/// # Errors
/// An impossible mass, volume, normality or titre; more than the pure substance contains.
pub fn powder(
    analyte: Analyte,
    weighed: Mass,
    dissolved_to: Volume,
    aliquot: Volume,
    readings: &TitrationReadings<'_>,
) -> Result<TitrationResult<f64>, StrengthError> {
    let weighed = OutOfRange::check(SAMPLE, QuantityKind::Mass, in_grams(weighed), 1e-3, 1e4)?;
    let part = checked_dilution(aliquot, &[Dilution { taken: aliquot, diluted_to: dissolved_to }])?;
    let share =
        readings.mean(|titre| analyte.grams(readings.normality, titre) / (weighed * part))?;
    let pure = match analyte {
        Analyte::ActiveOxygen => 3.0 * 15.999 / 314.02,
        Analyte::HydrogenPeroxide => 3.0 * 34.0147 / 314.02,
        _ => 1.0,
    };
    // The error of a titration may exceed the pure substance by 2 %.
    OutOfRange::check(TITRE, QuantityKind::Share, share.strength.value, 0.0, pure * 1.02)?;
    Ok(share)
}

impl TitrationReadings<'_> {
    /// Mean of the titres, with the range of the repeats and of the reading error.
    fn mean<Q>(&self, strength: impl Fn(Volume) -> Q) -> Result<TitrationResult<Q>, StrengthError> {
        OutOfRange::check(NORMALITY, QuantityKind::Number, self.normality, 1e-4, 2.0)?;
        let blank = check_volume(BLANK, self.blank, 0.0, 100.0)?;
        let error = in_millilitres(self.reading_error).max(0.0);
        if self.titres.is_empty() {
            return Err(StrengthError::Missing { field: TITRE });
        }
        let net =
            |titre: &Volume| check_volume(TITRE, *titre, blank, 1000.0).map(|titre| titre - blank);
        let titres = self.titres.iter().map(net).collect::<Result<Vec<f64>, OutOfRange>>()?;
        let count = titres.len() as f64;
        let mean = titres.iter().sum::<f64>() / count;
        let lowest = titres.iter().copied().fold(f64::INFINITY, f64::min);
        let highest = titres.iter().copied().fold(0.0, f64::max);
        // A titre is a difference of two readings; repeats reduce the reading error.
        let mean_error = error * (2.0 / count).sqrt();
        let off = mean_error.hypot(0.5 * (highest - lowest));
        let at = |titre: f64| strength(millilitres(titre.max(0.0)));
        Ok(TitrationResult {
            strength: Estimate {
                value: at(mean),
                low: at(mean - off),
                high: at(mean + off),
                basis: Basis::Measured,
            },
            agreement: Agreement {
                repeats: titres.len(),
                spread: if mean > 0.0 { (highest - lowest) / mean } else { 0.0 },
                outlier: outlier(&titres, error),
            },
        })
    }
}

/// Product of the dilution factors: share of the original in what was titrated.
fn checked_dilution(sample: Volume, dilutions: &[Dilution]) -> Result<f64, StrengthError> {
    check_volume(SAMPLE, sample, 1e-3, 1e5)?;
    let mut part = 1.0;
    for step in dilutions {
        let taken = check_volume(SAMPLE, step.taken, 1e-3, 1e5)?;
        part *= taken / check_volume(DILUTED_TO, step.diluted_to, taken, 1e6)?;
    }
    Ok(part)
}

/// The volume in mL, if it is between `min` and `max` mL.
fn check_volume(field: Field, volume: Volume, min: f64, max: f64) -> Result<f64, OutOfRange> {
    OutOfRange::check(field, QuantityKind::Volume, in_millilitres(volume), min, max)
}

/// Refuses a strength above what can exist.
fn check_possible(analyte: Analyte, found: MassConcentration) -> Result<(), OutOfRange> {
    /// 50 % by mass, 1.196 g/mL: stronger is not sold to a studio (common practice).
    const PEROXIDE: f64 = 600.0;
    let grams = in_grams_per_litre(found);
    let chlorine = |factor: f64| check_hypochlorite(grams_per_litre(grams * factor), None);
    let at_most = |most: f64| {
        OutOfRange::check(TITRE, QuantityKind::Concentration, grams, 0.0, most).map(|_| ())
    };
    match analyte {
        Analyte::AvailableChlorine => chlorine(1.0),
        Analyte::SodiumHypochlorite => chlorine(70.906 / 74.442),
        Analyte::HydrogenPeroxide => at_most(PEROXIDE),
        Analyte::ActiveOxygen => at_most(PEROXIDE * 15.999 / 34.0147),
        // Solubility in warm water (from memory).
        Analyte::Percarbonate => at_most(200.0),
    }
}

/// Dixon's Q test: gap over range, against the critical value at 90 % for 3 to 10 values
/// (Dean & Dixon 1951, Anal. Chem. 23:636; from memory). Gaps within the reading error are
/// not outliers.
fn outlier(titres: &[f64], reading_error: f64) -> Option<usize> {
    const CRITICAL: [f64; 8] = [0.941, 0.765, 0.642, 0.560, 0.507, 0.468, 0.437, 0.412];
    let critical = *CRITICAL.get(titres.len().checked_sub(3)?)?;
    let mut order: Vec<usize> = (0..titres.len()).collect();
    order.sort_by(|a, b| titres[*a].total_cmp(&titres[*b]));
    let value = |rank: usize| titres[order[rank]];
    let last = titres.len() - 1;
    let range = value(last) - value(0);
    let (low_gap, high_gap) = (value(1) - value(0), value(last) - value(last - 1));
    let (gap, suspect) =
        if low_gap > high_gap { (low_gap, order[0]) } else { (high_gap, order[last]) };
    (gap > critical * range && gap > 2.0 * reading_error).then_some(suspect)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::grams;

    fn readings(titres: &[Volume]) -> TitrationReadings<'_> {
        TitrationReadings {
            normality: 0.1,
            titres,
            blank: millilitres(0.0),
            reading_error: millilitres(0.05),
        }
    }

    fn liquor(titres: &[f64]) -> Result<TitrationResult<MassConcentration>, StrengthError> {
        let titres: Vec<Volume> = titres.iter().copied().map(millilitres).collect();
        liquid(Analyte::AvailableChlorine, millilitres(10.0), &[], &readings(&titres))
    }

    #[test]
    fn repeats_narrow_the_range_and_disagreement_widens_it() {
        let width = |found: TitrationResult<MassConcentration>| {
            in_grams_per_litre(found.strength.high) - in_grams_per_litre(found.strength.low)
        };
        let one = liquor(&[5.64]).unwrap();
        let three = liquor(&[5.64, 5.65, 5.63]).unwrap();
        let apart = liquor(&[5.14, 6.14]).unwrap();
        assert!(width(three) < width(one) && width(one) < width(apart));
        assert!(three.agreement.is_good() && !one.agreement.is_good());
        assert!(!apart.agreement.is_good());
    }

    #[test]
    fn an_outlier_is_named_and_stays_in_the_mean() {
        let found = liquor(&[5.64, 7.20, 5.66, 5.65]).unwrap();
        assert_eq!(found.agreement.outlier, Some(1));
        assert!(in_grams_per_litre(found.strength.value) > 2.05);
        assert_eq!(liquor(&[5.64, 5.66, 5.65]).unwrap().agreement.outlier, None);
    }

    #[test]
    fn impossible_results_are_errors() {
        assert!(liquor(&[]).is_err());
        assert!(liquor(&[-1.0]).is_err());
        assert!(liquor(&[900.0]).is_err(), "319 g/L of available chlorine");
        let titres = [millilitres(25.0)];
        let (dissolved_to, aliquot) = (millilitres(250.0), millilitres(25.0));
        let readings = readings(&titres);
        let rich = powder(Analyte::Percarbonate, grams(1.0), dissolved_to, aliquot, &readings);
        assert!(rich.is_err(), "131 % of the pure substance");
        let backwards = Dilution { taken: millilitres(250.0), diluted_to: millilitres(5.0) };
        let sample = millilitres(10.0);
        assert!(liquid(Analyte::AvailableChlorine, sample, &[backwards], &readings).is_err());
    }

    #[test]
    fn the_blank_is_subtracted() {
        let titres = [millilitres(5.84)];
        let with_blank = TitrationReadings { blank: millilitres(0.2), ..readings(&titres) };
        let found =
            liquid(Analyte::AvailableChlorine, millilitres(10.0), &[], &with_blank).unwrap();
        assert_eq!(found.strength.value, liquor(&[5.64]).unwrap().strength.value);
    }
}
