//! Dose of acid for a residue of alkali.

use super::acid::{AcidAmount, HIGHEST_TARGET, LOWEST_TARGET, NeutralisingAcid};
use super::error::{AcidDoseError, RESIDUE, VOLUME};
use super::residue::{AlkaliEvidence, DissolvedAlkali, Residue};
use super::zero_chlorine::ZeroChlorine;
use crate::chemistry::alkali::{Alkali, BICARBONATE, WATER_BICARBONATE};
use crate::chemistry::equilibrium::EquilibriumError;
use crate::chemistry::substance::in_moles_per_litre;
use crate::message::Message;
use crate::quantity::{
    Basis, Estimate, UncertainInput, in_grams_per_litre, in_millilitres, propagate_uncertainty,
};

/// An acid dose between two bounds.
#[derive(Clone, Debug, PartialEq)]
pub struct AcidDose {
    pub acid: NeutralisingAcid,
    /// With all carbon dioxide dissolved: the dose to aim for.
    pub closed: AcidAmount,
    /// With all carbon dioxide lost to the air.
    pub carbon_dioxide_gone: AcidAmount,
    /// First portion: half of `closed`. Then stir, wait, test again.
    pub first: AcidAmount,
    pub remarks: Vec<Message>,
}

/// The acid that brings this residue to `target_ph`.
///
/// Two bounds: with all carbon dioxide dissolved, and with all of it lost to the air. Demand
/// moves from the first to the second as the water is stirred: nearly twofold for carbonate,
/// not at all for lye.
///
/// # Errors
/// [`AcidDoseError`] names the field.
pub fn acid_dose(
    _proof: ZeroChlorine,
    acid: NeutralisingAcid,
    residue: &Residue,
    target_ph: f64,
) -> Result<AcidDose, AcidDoseError> {
    check(acid, residue, target_ph)?;
    let ph = match residue.evidence {
        AlkaliEvidence::Strength(strength) => residue.alkali.ph(strength.value, residue.celsius)?,
        AlkaliEvidence::Ph(read) => read.value,
    };
    if ph <= target_ph {
        return Err(AcidDoseError::NothingToDo { ph, target: target_ph });
    }
    let [closed, gone] = moles_of_acid(acid, residue, target_ph)?.map(|moles| acid.amount(moles));
    Ok(AcidDose {
        acid,
        closed,
        carbon_dioxide_gone: gone,
        first: closed.part(0.5),
        remarks: remarks(acid, residue),
    })
}

fn check(acid: NeutralisingAcid, residue: &Residue, target_ph: f64) -> Result<(), AcidDoseError> {
    if !(LOWEST_TARGET..=HIGHEST_TARGET).contains(&target_ph) {
        return Err(AcidDoseError::BadTarget { given: target_ph });
    }
    if let NeutralisingAcid::Vinegar { grams_per_100_ml: given } = acid
        && !(1.0..=30.0).contains(&given)
    {
        return Err(AcidDoseError::BadStrength { given });
    }
    if let AlkaliEvidence::Strength(strength) = residue.evidence {
        for given in [strength.low, strength.value, strength.high] {
            let strength = in_grams_per_litre(given);
            if !(strength.is_finite() && strength >= 0.0) {
                return Err(AcidDoseError::NegativeResidue { given });
            }
        }
    }
    for given in [residue.volume.low, residue.volume.value, residue.volume.high] {
        let volume = in_millilitres(given);
        if !(volume.is_finite() && volume > 0.0) {
            return Err(AcidDoseError::NoVolume { given });
        }
    }
    Ok(())
}

/// Moles of acid with all carbonate dissolved, and with all of it lost to the air.
fn moles_of_acid(
    acid: NeutralisingAcid,
    residue: &Residue,
    target_ph: f64,
) -> Result<[Estimate<f64>; 2], EquilibriumError> {
    let molar = |strength| in_moles_per_litre(residue.alkali.substance().molar(strength));
    let (found, bicarbonate, at_value) = match residue.evidence {
        AlkaliEvidence::Strength(strength) => {
            let alkali = strength.map(molar);
            let none = Estimate::exact(0.0, Basis::Measured);
            (alkali, none, DissolvedAlkali::pure(alkali.value))
        }
        AlkaliEvidence::Ph(read) => {
            let reading = Estimate { low: read.low.max(0.0), high: read.high.min(14.0), ..read };
            (reading, BICARBONATE, residue.solutes_at(read.value, BICARBONATE.value)?)
        }
    };
    let solutes = |found: f64, bicarbonate: f64| match residue.evidence {
        AlkaliEvidence::Strength(_) => Ok(DissolvedAlkali::pure(found)),
        // Beyond the reach of this alkali three times the value stands for the high end.
        AlkaliEvidence::Ph(read) if found > read.value => Ok(residue
            .solutes_at(found, bicarbonate)
            .unwrap_or(DissolvedAlkali { alkali: 3.0 * at_value.alkali, ..at_value })),
        AlkaliEvidence::Ph(_) => residue.solutes_at(found, bicarbonate),
    };
    let moles = |&[found, bicarbonate, millilitres]: &[f64; 3]| {
        let mut moles = [0.0; 2];
        let mixes = residue.closed_and_gone(solutes(found, bicarbonate)?)?;
        for (moles, mix) in moles.iter_mut().zip(mixes) {
            // A low end below the target needs no acid.
            if mix.solve()?.ph() > target_ph {
                let dose = mix.dose(acid.reagent(), target_ph)?;
                *moles = in_moles_per_litre(dose) * millilitres / 1000.0;
            }
        }
        Ok::<_, EquilibriumError>(moles)
    };
    let inputs = [
        UncertainInput::of(RESIDUE, found),
        UncertainInput::of(WATER_BICARBONATE, bicarbonate),
        UncertainInput::of(VOLUME, residue.volume.map(in_millilitres)),
    ];
    let nominal = moles(&inputs.map(|input| input.value))?;
    // This alkali cannot reach the reading with that much bicarbonate: such an end does not
    // occur and adds nothing to the range.
    let ends = propagate_uncertainty(&inputs, |at| moles(at).unwrap_or(nominal));
    let figures = ends.ok_or(EquilibriumError::Unreachable { target_ph })?;
    Ok(figures.map(|figure| Estimate { basis: Basis::Computed, ..figure.estimate() }))
}

fn remarks(acid: NeutralisingAcid, residue: &Residue) -> Vec<Message> {
    let mut remarks = vec![Message::new("acid-remark-half_then_test")];
    let tap_water = matches!(residue.evidence, AlkaliEvidence::Ph(_));
    if residue.alkali == Alkali::SodaAsh || tap_water {
        remarks.push(Message::new("acid-remark-carbon_dioxide"));
    }
    if tap_water {
        remarks.push(Message::new("acid-remark-tap"));
    }
    remarks.push(Message::new(match acid {
        NeutralisingAcid::Vinegar { .. } => "acid-remark-acetic_leaves",
        NeutralisingAcid::CitricAnhydrous | NeutralisingAcid::CitricMonohydrate => {
            "acid-remark-citric_stays"
        }
    }));
    remarks.push(Message::new("acid-remark-not_below_seven"));
    remarks
}
