//! Dose of antichlor for residual chlorine.

use super::error::AntichlorError;
use super::reagent::{AntichlorReagent, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, PhShift, THIOSULFATE_TOP};
use super::residual::{ResidualEvidence, mass_in};
use crate::message::{Message, Value};
use crate::quantity::{
    Basis, Estimate, Mass, Ratio, Volume, grams_per_litre, in_grams, in_share, millilitres,
};

/// Whether gas can leave the vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VesselClosure {
    Open,
    Closed,
}

/// Antichlor to weigh.
#[derive(Clone, Debug, PartialEq)]
pub struct AntichlorDose {
    pub reagent: AntichlorReagent,
    /// Chlorine to remove.
    pub chlorine: Estimate<Mass>,
    /// Product to weigh, corrected for purity. For thiosulfate the range spans
    /// both its reactions.
    pub dose: Estimate<Mass>,
    pub rinses_after: u32,
    /// Oxygen released by peroxide; `None` for the others.
    pub oxygen: Option<Volume>,
    /// Most important first; the last is always to test by strip.
    pub remarks: Vec<Message>,
}

/// Dose for the chlorine in `volume` of liquor, the pulp's own water included.
///
/// `purity` is the share of the reagent in the product, by mass (for peroxide, of
/// H2O2).
///
/// # Errors
/// [`AntichlorError`] names the field.
pub fn antichlor_dose(
    reagent: AntichlorReagent,
    residual: ResidualEvidence,
    volume: Estimate<Volume>,
    purity: Ratio,
    vessel: VesselClosure,
) -> Result<AntichlorDose, AntichlorError> {
    let strength = residual.checked_strength(volume, purity)?;
    if reagent == AntichlorReagent::Peroxide {
        if vessel == VesselClosure::Closed {
            return Err(AntichlorError::ClosedVessel);
        }
        let limit = grams_per_litre(PEROXIDE_LIMIT);
        if strength.high > limit {
            return Err(AntichlorError::TooStrongForPeroxide { given: strength.high, limit });
        }
    }
    let chlorine = mass_in(strength, volume);
    let (least, most) = reagent.stoichiometry();
    let most = if reagent.is_thiosulfate() { most } else { reagent.usual() };
    let purity = in_share(purity);
    let dose = Estimate {
        value: chlorine.value * reagent.usual() / purity,
        low: chlorine.low * least / purity,
        high: chlorine.high * most / purity,
        basis: Basis::Computed,
    };
    let oxygen = (reagent == AntichlorReagent::Peroxide)
        .then(|| millilitres(in_grams(chlorine.high) * OXYGEN_PER_GRAM * 1000.0));
    Ok(AntichlorDose {
        reagent,
        chlorine,
        dose,
        rinses_after: reagent.rinses_after(),
        oxygen,
        remarks: remarks(reagent, oxygen),
    })
}

/// Whether `given` thiosulfate pentahydrate is more than any of its reactions with
/// this chlorine can use.
pub fn thiosulfate_overdosed(given: Mass, chlorine: Mass) -> bool {
    in_grams(given) > THIOSULFATE_TOP * in_grams(chlorine)
}

fn remarks(reagent: AntichlorReagent, oxygen: Option<Volume>) -> Vec<Message> {
    let mut remarks = Vec::new();
    if let Some(volume) = oxygen {
        remarks.push(Message::new("antichlor-remark-oxygen").with("volume", Value::Volume(volume)));
    }
    if reagent.is_thiosulfate() {
        let (least, most) = reagent.stoichiometry();
        remarks.push(
            Message::new("antichlor-remark-thiosulfate_range")
                .with("least", Value::Number(least))
                .with("most", Value::Number(most))
                .with("usual", Value::Number(reagent.usual())),
        );
        remarks.push(Message::new("antichlor-remark-no_acid_on_thiosulfate"));
    }
    if matches!(
        reagent,
        AntichlorReagent::Bisulfite | AntichlorReagent::Metabisulfite | AntichlorReagent::Sulfite
    ) {
        remarks.push(Message::new("antichlor-remark-sulfite_fumes"));
    }
    if reagent.ph_shift() == PhShift::Down {
        remarks.push(Message::new("antichlor-remark-acid_reagent_dissolve_first"));
    }
    remarks.push(
        Message::new("antichlor-remark-rinse_after")
            .with("rinses", Value::Count(reagent.rinses_after().into())),
    );
    remarks.push(Message::new("antichlor-remark-prove_by_strip"));
    remarks
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::{grams, share};
    use AntichlorReagent::{Peroxide, Sulfite};
    use VesselClosure::{Closed, Open};

    fn dose(
        reagent: AntichlorReagent,
        mg_per_litre: f64,
        purity: f64,
        vessel: VesselClosure,
    ) -> Result<AntichlorDose, AntichlorError> {
        let residual = ResidualEvidence::Strip(grams_per_litre(mg_per_litre / 1e3));
        let volume = Estimate::exact(millilitres(20_000.0), Basis::Measured);
        antichlor_dose(reagent, residual, volume, share(purity), vessel)
    }

    #[test]
    fn every_dose_has_a_range_and_ends_with_the_strip_remark() {
        for reagent in AntichlorReagent::ALL {
            let dose = dose(reagent, 50.0, 1.0, Open).unwrap();
            assert!(dose.dose.low < dose.dose.value && dose.dose.value <= dose.dose.high);
            assert_eq!(dose.remarks.last().unwrap().key, "antichlor-remark-prove_by_strip");
        }
    }

    #[test]
    fn peroxide_needs_a_weak_liquor_and_an_open_vessel() {
        assert_eq!(dose(Peroxide, 50.0, 1.0, Closed), Err(AntichlorError::ClosedVessel));
        // A strip at 0.7 g/L means up to 1.05 g/L.
        let strong = dose(Peroxide, 700.0, 1.0, Open);
        assert!(matches!(strong, Err(AntichlorError::TooStrongForPeroxide { .. })));
        assert!(dose(Peroxide, 600.0, 1.0, Open).unwrap().oxygen.is_some());
    }

    #[test]
    fn negative_residual_and_impossible_purity_are_errors() {
        let refused = dose(Sulfite, -1.0, 1.0, Open);
        assert!(matches!(refused, Err(AntichlorError::NegativeResidual { .. })));
        for purity in [0.0, 1.1, f64::NAN] {
            let refused = dose(Sulfite, 50.0, purity, Open);
            assert!(matches!(refused, Err(AntichlorError::BadPurity { .. })));
        }
    }

    #[test]
    fn thiosulfate_overdose_starts_at_7_grams_per_gram() {
        assert!(thiosulfate_overdosed(grams(7.1), grams(1.0)));
        assert!(!thiosulfate_overdosed(grams(6.9), grams(1.0)));
    }
}
