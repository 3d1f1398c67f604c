//! The record of a strength test: a strip or a titration as the journal stores it.
//! Not here: the sums of a titration, which are `chemistry::titration`.

use crate::{
    chemistry::{
        StrengthError,
        bottle::from_strip,
        oxidant_strip,
        titration::{self, Agreement, Analyte, Dilution, TitrationReadings, TitrationResult},
    },
    journal::{ProductKind, Strength, StrengthBasis, StrengthFound, StrengthMethod, TitrationRun},
    quantity::{Mass, Volume, in_grams, in_grams_per_litre, in_millilitres},
};

/// The sample behind each titre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TitrationSample {
    /// `taken` of a bottle made up to `diluted_to`, and `aliquot` of that.
    Liquid { taken: Volume, diluted_to: Volume, aliquot: Volume },
    /// `weighed` of a powder dissolved to `dissolved_to`, and `aliquot` of that.
    Powder { weighed: Mass, dissolved_to: Volume, aliquot: Volume },
}

impl StrengthFound {
    /// A hypochlorite bottle by a strip that read `mg_per_l` of a sample diluted one in
    /// `one_in`, with the error of [`oxidant_strip`].
    ///
    /// # Errors
    /// A dilution below 1 or above 100 000; a strength that is impossible.
    pub fn by_strip(mg_per_l: f64, one_in: f64) -> Result<Self, StrengthError> {
        let reading = oxidant_strip(mg_per_l);
        let found = from_strip(reading, one_in)?;
        Ok(Self {
            method: StrengthMethod::Strip,
            strength: Strength {
                figure: found.map(in_grams_per_litre),
                stated_as: StrengthBasis::AvailableChlorineGPerL,
                density_g_per_ml: None,
            },
            runs: Vec::new(),
            dilution: Some(one_in - 1.0),
            strip_mg_per_l: Some(reading),
            note: String::new(),
        })
    }

    /// A bleach of `kind` by iodometric titration, and how well the repeats agree. Hypochlorite
    /// is given in g/L of available chlorine, peroxide in g of H2O2 in 100 mL, a powder in
    /// percent of percarbonate (never above the pure substance).
    ///
    /// # Errors
    /// A volume, mass or normality out of range; a strength above what can exist;
    /// [`StrengthError::Missing`] for a kind that iodometry does not measure, or a powder taken as a
    /// liquid.
    pub fn by_titration(
        kind: ProductKind,
        sample: TitrationSample,
        readings: &TitrationReadings<'_>,
    ) -> Result<(Self, Agreement), StrengthError> {
        let (figure, stated_as, agreement) = match (kind, sample) {
            (ProductKind::Hypochlorite, TitrationSample::Liquid { .. }) => {
                let found = liquid(Analyte::AvailableChlorine, sample, readings)?;
                (found.strength, StrengthBasis::AvailableChlorineGPerL, found.agreement)
            }
            (ProductKind::Peroxide, TitrationSample::Liquid { .. }) => {
                let found = liquid(Analyte::HydrogenPeroxide, sample, readings)?;
                let figure = found.strength.map(|g_per_l| g_per_l / 10.0);
                (figure, StrengthBasis::HydrogenPeroxidePercentByVolume, found.agreement)
            }
            (
                ProductKind::Percarbonate,
                TitrationSample::Powder { weighed, dissolved_to, aliquot },
            ) => {
                let analyte = Analyte::Percarbonate;
                let found = titration::powder(analyte, weighed, dissolved_to, aliquot, readings)?;
                // A titration of the pure powder may exceed 100 % by its own error.
                let figure = found.strength.map(|share| (100.0 * share).min(100.0));
                (figure, StrengthBasis::PercarbonatePercentByMass, found.agreement)
            }
            _ => return Err(StrengthError::Missing { field: titration::SAMPLE }),
        };
        let found = Self {
            method: StrengthMethod::IodometricTitration,
            strength: Strength { figure, stated_as, density_g_per_ml: None },
            runs: runs(sample, readings),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        };
        Ok((found, agreement))
    }
}

fn liquid(
    analyte: Analyte,
    sample: TitrationSample,
    readings: &TitrationReadings<'_>,
) -> Result<TitrationResult<f64>, StrengthError> {
    let TitrationSample::Liquid { taken, diluted_to, aliquot } = sample else {
        return Err(StrengthError::Missing { field: titration::SAMPLE });
    };
    let dilution = Dilution { taken, diluted_to };
    let found = titration::liquid(analyte, aliquot, &[dilution], readings)?;
    Ok(TitrationResult {
        strength: found.strength.map(in_grams_per_litre),
        agreement: found.agreement,
    })
}

/// Each titre with the amount of undiluted product in its aliquot.
fn runs(sample: TitrationSample, readings: &TitrationReadings<'_>) -> Vec<TitrationRun> {
    let (sample_ml, sample_g) = match sample {
        TitrationSample::Liquid { taken, diluted_to, aliquot } => {
            let part = in_millilitres(aliquot) / in_millilitres(diluted_to);
            (Some(in_millilitres(taken) * part), None)
        }
        TitrationSample::Powder { weighed, dissolved_to, aliquot } => {
            let part = in_millilitres(aliquot) / in_millilitres(dissolved_to);
            (None, Some(in_grams(weighed) * part))
        }
    };
    let run = |titre: &Volume| TitrationRun {
        sample_ml,
        sample_g,
        titrant_mol_per_l: readings.normality,
        titrant_ml: in_millilitres(*titre),
        // Without a blank nothing is taken off, and none is recorded.
        blank_ml: Some(in_millilitres(readings.blank)).filter(|blank| *blank != 0.0),
    };
    readings.titres.iter().map(run).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]

    use super::*;
    use crate::quantity::{grams, millilitres};

    fn readings(titres: &[Volume]) -> TitrationReadings<'_> {
        let (blank, reading_error) = (millilitres(0.0), millilitres(0.05));
        TitrationReadings { normality: 0.1, titres, blank, reading_error }
    }

    fn diluted() -> TitrationSample {
        TitrationSample::Liquid {
            taken: millilitres(10.0),
            diluted_to: millilitres(250.0),
            aliquot: millilitres(25.0),
        }
    }

    #[test]
    fn a_diluted_sample_gives_the_strength_of_the_bottle() {
        // 1 mL of the bottle: 14.1 mL of 0.1 N is 1.41 mmol/2, 50.0 g/L (35.453 per equivalent).
        let titres = [14.1, 14.1].map(millilitres);
        let kind = ProductKind::Hypochlorite;
        let (found, agreement) =
            StrengthFound::by_titration(kind, diluted(), &readings(&titres)).unwrap();
        assert!((found.strength.figure.value - 49.989).abs() < 0.001);
        assert_eq!(found.runs.len(), 2);
        assert!((found.runs[0].sample_ml.unwrap() - 1.0).abs() < 1e-12);
        assert!(agreement.is_good());
        assert!(found.strength.bottle().unwrap().liquid().is_ok());
    }

    #[test]
    fn peroxide_and_percarbonate_are_given_in_their_own_units() {
        let titres = [17.64].map(millilitres);
        let (bottle, _) =
            StrengthFound::by_titration(ProductKind::Peroxide, diluted(), &readings(&titres))
                .unwrap();
        assert!((bottle.strength.figure.value - 3.0).abs() < 0.01);
        let tub = TitrationSample::Powder {
            weighed: grams(1.0),
            dissolved_to: millilitres(250.0),
            aliquot: millilitres(25.0),
        };
        let powder = |ml: f64| {
            let titres = [millilitres(ml)];
            StrengthFound::by_titration(ProductKind::Percarbonate, tub, &readings(&titres))
        };
        // Pure powder takes 19.107 mL; one that reads a little over it is still usable.
        let (pure, _) = powder(19.2).unwrap();
        assert_eq!(pure.strength.figure.value, 100.0);
        assert!(pure.strength.powder().unwrap().peroxide().is_ok());
        assert!(powder(25.0).is_err());
        let as_liquid =
            StrengthFound::by_titration(ProductKind::Percarbonate, diluted(), &readings(&titres));
        assert!(as_liquid.is_err());
    }

    #[test]
    fn a_strip_record_has_the_reading_and_the_dilution() {
        let found = StrengthFound::by_strip(100.0, 500.0).unwrap();
        assert!((found.strength.figure.value - 50.0).abs() < 1e-9);
        assert_eq!(found.dilution, Some(499.0));
        assert!(found.strength.figure.low < 26.0 && found.strength.figure.high > 74.0);
        assert!(StrengthFound::by_strip(100.0, 0.5).is_err());
        assert!(StrengthFound::by_strip(1000.0, 500.0).is_err());
    }
}
