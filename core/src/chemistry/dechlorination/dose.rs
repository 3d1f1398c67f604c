//! Dose of antichlor for residual chlorine.

use super::course::{Liquor, PhCourse, PhShift, UNMEASURED_PH};
use super::error::{AntichlorError, LIQUOR_PH, SODA_ADDED};
use super::reagent::{AntichlorReagent, OXYGEN_PER_GRAM, PEROXIDE_LIMIT, THIOSULFATE_TOP};
use super::refusal::GasRefusal;
use super::residual::{ResidualEvidence, mass_in};
use crate::chemistry::headspace::NIOSH_CEILING_PPM;
use crate::chemistry::substance::{CHLORINE, SODIUM_CARBONATE, in_moles_per_litre};
use crate::message::{Message, Value};
use crate::quantity::{
    Basis, Estimate, Mass, MassConcentration, OutOfRange, QuantityKind, Ratio, Volume, grams,
    grams_per_litre, in_grams, in_millilitres, in_share, millilitres,
};

/// Whether gas can leave the vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VesselClosure {
    Open,
    Closed,
}

/// What a dose is worked out from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AntichlorRequest {
    pub reagent: AntichlorReagent,
    pub residual: ResidualEvidence,
    /// Liquor, the pulp's own water included.
    pub volume: Estimate<Volume>,
    /// Share of the reagent in the product, by mass (for peroxide, of H2O2).
    pub purity: Ratio,
    /// `None`, not known, counts as closed.
    pub vessel: Option<VesselClosure>,
    /// pH of the liquor before any soda was added, with the error of strip or meter.
    pub liquor_ph: Option<Estimate<f64>>,
    /// Soda ash stirred into the liquor.
    pub soda_added: Mass,
}

impl AntichlorRequest {
    /// A request for a liquor of which no more is known.
    pub fn new(
        reagent: AntichlorReagent,
        residual: ResidualEvidence,
        volume: Estimate<Volume>,
        purity: Ratio,
    ) -> Self {
        Self {
            reagent,
            residual,
            volume,
            purity,
            vessel: None,
            liquor_ph: None,
            soda_added: grams(0.0),
        }
    }

    /// The liquor at the start, with soda diluted by all of the volume.
    fn liquor(&self, strength: Estimate<MassConcentration>) -> Result<Liquor, AntichlorError> {
        const MOST: f64 = 1e6;
        let soda = in_grams(self.soda_added);
        OutOfRange::check(SODA_ADDED, QuantityKind::Mass, soda, 0.0, MOST)?;
        let ph = match self.liquor_ph {
            Some(read) => {
                for ph in [read.value, read.low, read.high] {
                    // An end of the range may be beyond the scale, the reading not.
                    let slack = if ph == read.value { 0.0 } else { 1.0 };
                    OutOfRange::check(LIQUOR_PH, QuantityKind::Ph, ph, -slack, 14.0 + slack)?;
                }
                Estimate { low: read.low.max(0.0), high: read.high.min(14.0), ..read }
            }
            None => UNMEASURED_PH,
        };
        Ok(Liquor {
            chlorine: strength.map(|strength| in_moles_per_litre(CHLORINE.molar(strength))),
            ph,
            soda_ash: soda * 1000.0
                / in_millilitres(self.volume.high)
                / SODIUM_CARBONATE.grams_per_mole,
        })
    }
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
    /// pH from nothing added to all added.
    pub course: PhCourse,
    pub rinses_after: u32,
    /// Oxygen released by peroxide; `None` for the others.
    pub oxygen: Option<Volume>,
    /// Most important first; the last is always to test by strip.
    pub remarks: Vec<Message>,
}

/// Dose for the chlorine in a liquor.
///
/// # Errors
/// [`AntichlorError`] names the field. [`AntichlorError::ChlorineGas`], if anywhere along the
/// dose, at the bad end of every range, chlorine over the liquor exceeds the NIOSH ceiling.
pub fn antichlor_dose(request: &AntichlorRequest) -> Result<AntichlorDose, AntichlorError> {
    let AntichlorRequest { reagent, volume, .. } = *request;
    let strength = request.residual.checked_strength(volume, request.purity)?;
    if reagent == AntichlorReagent::Peroxide {
        if request.vessel != Some(VesselClosure::Open) {
            return Err(AntichlorError::ClosedVessel);
        }
        let limit = grams_per_litre(PEROXIDE_LIMIT);
        if strength.high > limit {
            return Err(AntichlorError::TooStrongForPeroxide { given: strength.high, limit });
        }
    }
    let liquor = request.liquor(strength)?;
    let course = liquor.course(reagent).map_err(AntichlorError::NoPh)?;
    if course.worst.chlorine_ppm > NIOSH_CEILING_PPM {
        let refusal = GasRefusal::of(reagent, course.worst, &liquor, volume.high);
        return Err(AntichlorError::ChlorineGas(refusal));
    }
    let chlorine = mass_in(strength, volume);
    let oxygen = (reagent == AntichlorReagent::Peroxide)
        .then(|| millilitres(in_grams(chlorine.high) * OXYGEN_PER_GRAM * 1000.0));
    Ok(AntichlorDose {
        reagent,
        chlorine,
        dose: product(reagent, chlorine, in_share(request.purity)),
        course,
        rinses_after: reagent.rinses_after(),
        oxygen,
        remarks: remarks(reagent, course.shift(), oxygen),
    })
}

/// Product to weigh for this chlorine.
fn product(reagent: AntichlorReagent, chlorine: Estimate<Mass>, purity: f64) -> Estimate<Mass> {
    let (least, most) = reagent.stoichiometry();
    let most = if reagent.is_thiosulfate() { most } else { reagent.usual() };
    Estimate {
        value: chlorine.value * reagent.usual() / purity,
        low: chlorine.low * least / purity,
        high: chlorine.high * most / purity,
        basis: Basis::Computed,
    }
}

/// Whether `given` thiosulfate pentahydrate is more than any of its reactions with
/// this chlorine can use.
pub fn thiosulfate_overdosed(given: Mass, chlorine: Mass) -> bool {
    in_grams(given) > THIOSULFATE_TOP * in_grams(chlorine)
}

fn remarks(reagent: AntichlorReagent, shift: PhShift, oxygen: Option<Volume>) -> Vec<Message> {
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
    if shift == PhShift::Down {
        remarks.push(Message::new("antichlor-remark-dissolve_first"));
    }
    remarks.push(
        Message::new("antichlor-remark-rinse_after")
            .with("rinses", Value::Count(reagent.rinses_after().into())),
    );
    remarks.push(Message::new("antichlor-remark-prove_by_strip"));
    remarks
}

#[cfg(test)]
mod tests;
