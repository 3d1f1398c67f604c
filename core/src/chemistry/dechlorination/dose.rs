//! How much antichlor to weigh for the chlorine that is left.

use super::{
    Antichlor, AntichlorRefusal, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, PhShift, THIOSULFATE_TOP,
};
use crate::message::{Message, Value};
use crate::quantity::{
    Basis, Known, Mass, MassConcentration, Ratio, Volume, grams, grams_per_litre, in_grams,
    in_grams_per_litre, in_millilitres, in_share, millilitres,
};

/// What the residual was found by: the better the evidence, the tighter the dose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Found {
    /// A strip, read to about one step: ± 50 % (own estimate, no source).
    Strip(MassConcentration),
    /// Titrated.
    Titration(Known<MassConcentration>),
    /// What the wash model says is left.
    WashModel(Known<MassConcentration>),
}

impl Found {
    /// The strength with its range.
    pub fn strength(self) -> Known<MassConcentration> {
        match self {
            Self::Strip(read) => Known::within(read, 0.5, Basis::Strip),
            Self::Titration(known) | Self::WashModel(known) => known,
        }
    }
}

/// The vessel that the pulp stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Vessel {
    Open,
    Closed,
}

/// What to weigh, and what to expect of it.
#[derive(Clone, Debug, PartialEq)]
pub struct AntichlorDose {
    pub reagent: Antichlor,
    /// Oxidant to take out.
    pub chlorine: Known<Mass>,
    /// Product to weigh, purity allowed for. For thiosulfate the range spans
    /// both its reactions.
    pub dose: Known<Mass>,
    pub rinses_after: u32,
    /// Oxygen that peroxide sets free; `None` for the others.
    pub oxygen: Option<Volume>,
    /// What to know, in order of weight; the last is always to prove it by strip.
    pub remarks: Vec<Message>,
}

/// The dose for chlorine left in `volume` of liquor, pulp's own water included.
///
/// `purity` is the product's share of the named reagent (for peroxide, of
/// H2O2 by mass).
///
/// # Errors
/// [`AntichlorRefusal`] names the field.
pub fn antichlor_dose(
    reagent: Antichlor,
    found: Found,
    volume: Known<Volume>,
    purity: Ratio,
    vessel: Vessel,
) -> Result<AntichlorDose, AntichlorRefusal> {
    let strength = checked(found, volume, purity)?;
    if reagent == Antichlor::Peroxide {
        if vessel == Vessel::Closed {
            return Err(AntichlorRefusal::ClosedVessel);
        }
        let limit = grams_per_litre(PEROXIDE_LIMIT);
        if strength.high > limit {
            return Err(AntichlorRefusal::TooStrongForPeroxide { given: strength.high, limit });
        }
    }
    let chlorine = in_liquor(strength, volume);
    let (least, most) = match reagent {
        Antichlor::ThiosulfatePentahydrate | Antichlor::ThiosulfateAnhydrous => {
            reagent.stoichiometry()
        }
        _ => (reagent.stoichiometry().0, reagent.usual()),
    };
    let purity = in_share(purity);
    let dose = Known {
        value: chlorine.value * reagent.usual() / purity,
        low: chlorine.low * least / purity,
        high: chlorine.high * most / purity,
        basis: Basis::Computed,
    };
    let oxygen = (reagent == Antichlor::Peroxide)
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

/// Grams of thiosulfate pentahydrate per gram of chlorine that were really
/// given, and whether that is more than any of its reactions can use.
pub fn thiosulfate_overdosed(given: Mass, chlorine: Mass) -> bool {
    in_grams(given) > THIOSULFATE_TOP * in_grams(chlorine)
}

fn remarks(reagent: Antichlor, oxygen: Option<Volume>) -> Vec<Message> {
    let mut remarks = Vec::new();
    if let Some(volume) = oxygen {
        remarks.push(Message::new("antichlor-remark-oxygen").with("volume", Value::Volume(volume)));
    }
    if matches!(reagent, Antichlor::ThiosulfatePentahydrate | Antichlor::ThiosulfateAnhydrous) {
        let (least, most) = reagent.stoichiometry();
        remarks.push(
            Message::new("antichlor-remark-thiosulfate_range")
                .with("least", Value::Number(least))
                .with("most", Value::Number(most))
                .with("usual", Value::Number(reagent.usual())),
        );
        remarks.push(Message::new("antichlor-remark-no_acid_on_thiosulfate"));
    }
    if matches!(reagent, Antichlor::Bisulfite | Antichlor::Metabisulfite | Antichlor::Sulfite) {
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

pub(super) fn checked(
    found: Found,
    volume: Known<Volume>,
    purity: Ratio,
) -> Result<Known<MassConcentration>, AntichlorRefusal> {
    let strength = found.strength();
    for given in [strength.value, strength.low, strength.high] {
        let grams = in_grams_per_litre(given);
        if !(grams.is_finite() && grams >= 0.0) {
            return Err(AntichlorRefusal::NegativeResidual { given });
        }
    }
    for given in [volume.value, volume.low, volume.high] {
        let volume = in_millilitres(given);
        if !(volume.is_finite() && volume > 0.0) {
            return Err(AntichlorRefusal::NoVolume { given });
        }
    }
    let share = in_share(purity);
    if !(share > 0.0 && share <= 1.0) {
        return Err(AntichlorRefusal::BadPurity { given: purity });
    }
    Ok(strength)
}

pub(super) fn in_liquor(strength: Known<MassConcentration>, volume: Known<Volume>) -> Known<Mass> {
    let of = |strength, volume| grams(in_grams_per_litre(strength) * in_millilitres(volume) / 1e3);
    Known {
        value: of(strength.value, volume.value),
        low: of(strength.low, volume.low),
        high: of(strength.high, volume.high),
        basis: strength.basis.max(volume.basis),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::quantity::share;

    fn dose(
        reagent: Antichlor,
        mg: f64,
        vessel: Vessel,
    ) -> Result<AntichlorDose, AntichlorRefusal> {
        let volume = Known::exact(millilitres(20_000.0), Basis::Measured);
        antichlor_dose(reagent, Found::Strip(grams_per_litre(mg / 1e3)), volume, share(1.0), vessel)
    }

    #[test]
    fn every_dose_has_its_range_and_ends_with_the_strip() {
        for reagent in Antichlor::ALL {
            let dose = dose(reagent, 50.0, Vessel::Open).unwrap();
            assert!(dose.dose.low < dose.dose.value && dose.dose.value <= dose.dose.high);
            assert_eq!(dose.remarks.last().unwrap().key, "antichlor-remark-prove_by_strip");
        }
    }

    #[test]
    fn peroxide_needs_a_weak_liquor_and_an_open_vessel() {
        let closed = dose(Antichlor::Peroxide, 50.0, Vessel::Closed);
        assert_eq!(closed, Err(AntichlorRefusal::ClosedVessel));
        // A strip at 0.7 g/L may be as much as 1.05.
        let strong = dose(Antichlor::Peroxide, 700.0, Vessel::Open);
        assert!(matches!(strong, Err(AntichlorRefusal::TooStrongForPeroxide { .. })));
        assert!(dose(Antichlor::Peroxide, 600.0, Vessel::Open).unwrap().oxygen.is_some());
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let refused = dose(Antichlor::Sulfite, -1.0, Vessel::Open);
        assert!(matches!(refused, Err(AntichlorRefusal::NegativeResidual { .. })));
        let volume = Known::exact(millilitres(1.0), Basis::Measured);
        let found = Found::Strip(grams_per_litre(0.05));
        for purity in [0.0, 1.1, f64::NAN] {
            let refused =
                antichlor_dose(Antichlor::Sulfite, found, volume, share(purity), Vessel::Open);
            assert!(matches!(refused, Err(AntichlorRefusal::BadPurity { .. })));
        }
    }

    #[test]
    fn an_overdose_of_thiosulfate_is_seen() {
        assert!(thiosulfate_overdosed(grams(7.1), grams(1.0)));
        assert!(!thiosulfate_overdosed(grams(6.9), grams(1.0)));
    }
}
