//! A neutral finish: citric or acetic acid for the alkali left in pulp.
//!
//! Acid on live bleach makes chlorine gas, so no dose is worked out without a
//! [`ZeroChlorine`], which only a strip at zero in the log can make.

use jiff::Timestamp;

use super::equilibrium::{Mix, Reagent};
use super::refusal::Refusal;
use super::substance::{
    ACETIC_ACID, CITRIC_ACID, CITRIC_ACID_MONOHYDRATE, in_moles_per_litre, moles_per_litre,
};
use crate::message::{Field, Message, Value};
use crate::pulp::sign_off::{Gap, Logged, ZeroChlorine};
use crate::pulp::wash::Alkali;
use crate::quantity::{
    Basis, Known, Mass, MassConcentration, Volume, grams, in_grams_per_litre, in_millilitres,
    millilitres,
};

pub const RESIDUE: Field = Field("acid.residue");
pub const VOLUME: Field = Field("acid.volume");
pub const TARGET_PH: Field = Field("acid.target_ph");
pub const STRENGTH: Field = Field("acid.strength");

/// Lowest pH to aim for: acid left in paper is worse than mild alkali.
pub const LOWEST_TARGET: f64 = 7.0;
/// Highest: above this there is nothing to finish.
pub const HIGHEST_TARGET: f64 = 9.5;

/// The acid at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Acid {
    CitricAnhydrous,
    CitricMonohydrate,
    /// Vinegar, grams of acetic acid in 100 mL: "5 % acidity" is 5.
    Vinegar {
        grams_per_100_ml: f64,
    },
}

impl Acid {
    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::CitricAnhydrous => "acid.kind.citric_anhydrous",
            Self::CitricMonohydrate => "acid.kind.citric_monohydrate",
            Self::Vinegar { .. } => "acid.kind.vinegar",
        }
    }

    fn reagent(self) -> Reagent {
        match self {
            Self::CitricAnhydrous | Self::CitricMonohydrate => Reagent::CitricAcid,
            Self::Vinegar { .. } => Reagent::AceticAcid,
        }
    }

    fn measure(self, moles: Known<f64>) -> Measure {
        match self {
            Self::CitricAnhydrous => {
                Measure::Weigh(moles.map(|n| grams(n * CITRIC_ACID.grams_per_mole)))
            }
            Self::CitricMonohydrate => {
                Measure::Weigh(moles.map(|n| grams(n * CITRIC_ACID_MONOHYDRATE.grams_per_mole)))
            }
            Self::Vinegar { grams_per_100_ml } => {
                Measure::Pour(moles.map(|n| {
                    millilitres(100.0 * n * ACETIC_ACID.grams_per_mole / grams_per_100_ml)
                }))
            }
        }
    }
}

/// What the pulp's water holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residue {
    pub alkali: Alkali,
    /// As pure Na2CO3 or NaOH.
    pub strength: Known<MassConcentration>,
    /// All the water that the acid goes into, the pulp's own included.
    pub volume: Known<Volume>,
    pub celsius: f64,
}

/// How much to measure out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    Weigh(Known<Mass>),
    Pour(Known<Volume>),
}

impl Measure {
    fn part(self, part: f64) -> Self {
        match self {
            Self::Weigh(mass) => Self::Weigh(mass.map(|mass| mass * part)),
            Self::Pour(volume) => Self::Pour(volume.map(|volume| volume * part)),
        }
    }
}

/// An acid dose with its two bounds.
#[derive(Clone, Debug, PartialEq)]
pub struct AcidDose {
    pub acid: Acid,
    /// Enough while the carbon dioxide stays in the water: what to aim for.
    pub closed: Measure,
    /// What it comes to once all of it has gone into the air.
    pub carbon_dioxide_gone: Measure,
    /// What to add first: half of `closed`. Then stir, wait, test again.
    pub first: Measure,
    pub remarks: Vec<Message>,
}

/// Why there is no acid dose.
#[derive(Clone, Debug, PartialEq)]
pub enum AcidRefusal {
    /// Chlorine was not proved absent; acid now could make chlorine gas.
    ChlorineNotProvenZero(Gap),
    /// Outside pH 7–9.5.
    BadTarget {
        given: f64,
    },
    /// Vinegar outside 1–30 %.
    BadStrength {
        given: f64,
    },
    NegativeResidue {
        given: MassConcentration,
    },
    NoVolume {
        given: Volume,
    },
    /// The water is at the target already, or below it.
    NothingToDo {
        ph: f64,
        target: f64,
    },
    /// The solver could not answer.
    Chemistry(Refusal),
}

impl AcidRefusal {
    /// The refusal as something to say beside its field.
    pub fn message(&self) -> Message {
        let new = Message::new;
        match self {
            Self::ChlorineNotProvenZero(gap) => new("acid.refusal.chlorine_not_proven_zero")
                .with("test", Value::Word(gap.test.word())),
            Self::BadTarget { given } => new("acid.refusal.bad_target")
                .beside(TARGET_PH)
                .with("given", Value::Ph(*given))
                .with("min", Value::Ph(LOWEST_TARGET))
                .with("max", Value::Ph(HIGHEST_TARGET)),
            Self::BadStrength { given } => new("acid.refusal.bad_strength")
                .beside(STRENGTH)
                .with("given", Value::Number(*given)),
            Self::NegativeResidue { given } => new("acid.refusal.negative_residue")
                .beside(RESIDUE)
                .with("given", Value::Concentration(*given)),
            Self::NoVolume { given } => {
                new("acid.refusal.no_volume").beside(VOLUME).with("given", Value::Volume(*given))
            }
            Self::NothingToDo { ph, target } => new("acid.refusal.nothing_to_do")
                .with("ph", Value::Ph(*ph))
                .with("target", Value::Ph(*target)),
            Self::Chemistry(refusal) => refusal.message(),
        }
    }
}

impl From<Refusal> for AcidRefusal {
    fn from(refusal: Refusal) -> Self {
        Self::Chemistry(refusal)
    }
}

impl From<Gap> for AcidRefusal {
    fn from(gap: Gap) -> Self {
        Self::ChlorineNotProvenZero(gap)
    }
}

/// The acid for this residue, if the log proves that no chlorine is left.
///
/// # Errors
/// [`AcidRefusal::ChlorineNotProvenZero`] before anything else; otherwise as
/// [`acid_dose`].
pub fn acid_dose_from_log(
    log: &[Logged],
    last_oxidant: Option<Timestamp>,
    acid: Acid,
    residue: &Residue,
    target_ph: f64,
) -> Result<AcidDose, AcidRefusal> {
    let proof = ZeroChlorine::from_log(log, last_oxidant)?;
    acid_dose(proof, acid, residue, target_ph)
}

/// The acid that brings this residue to `target_ph`.
///
/// Two bounds: with all carbon dioxide still dissolved, and with all of it
/// gone. The truth starts at the first and creeps towards the second as the
/// water is stirred, for carbonate nearly twofold; lye has no such gap.
///
/// # Errors
/// [`AcidRefusal`] names the field.
pub fn acid_dose(
    _proof: ZeroChlorine,
    acid: Acid,
    residue: &Residue,
    target_ph: f64,
) -> Result<AcidDose, AcidRefusal> {
    check(acid, residue, target_ph)?;
    let ph = residue.alkali.ph(residue.strength.value, residue.celsius)?;
    if ph <= target_ph {
        return Err(AcidRefusal::NothingToDo { ph, target: target_ph });
    }
    let closed = bound(acid, residue, target_ph, residue.alkali == Alkali::SodaAsh)?;
    let gone = bound(acid, residue, target_ph, false)?;
    let closed = acid.measure(closed);
    Ok(AcidDose {
        acid,
        closed,
        carbon_dioxide_gone: acid.measure(gone),
        first: closed.part(0.5),
        remarks: remarks(acid, residue.alkali),
    })
}

/// Moles of acid, with the carbonate in the water or with all of it gone.
fn bound(
    acid: Acid,
    residue: &Residue,
    target_ph: f64,
    carbonate: bool,
) -> Result<Known<f64>, Refusal> {
    let base = match residue.alkali {
        Alkali::SodaAsh => 2.0,
        Alkali::Lye => 1.0,
    };
    let moles = |strength: MassConcentration, volume: Volume| {
        let alkali = residue.alkali.substance().molar(strength);
        let mix = Mix::new(residue.celsius)?;
        let mix = if carbonate {
            mix.with_soda_ash(alkali)
        } else {
            mix.with_lye(moles_per_litre(base * in_moles_per_litre(alkali)))
        };
        // A low end that is below the target already needs no acid.
        let dose = if mix.solve()?.ph() <= target_ph {
            0.0
        } else {
            in_moles_per_litre(mix.dose(acid.reagent(), target_ph)?)
        };
        Ok::<_, Refusal>(dose * in_millilitres(volume) / 1000.0)
    };
    Ok(Known {
        value: moles(residue.strength.value, residue.volume.value)?,
        low: moles(residue.strength.low, residue.volume.low)?,
        high: moles(residue.strength.high, residue.volume.high)?,
        basis: Basis::Computed,
    })
}

fn check(acid: Acid, residue: &Residue, target_ph: f64) -> Result<(), AcidRefusal> {
    if !(LOWEST_TARGET..=HIGHEST_TARGET).contains(&target_ph) {
        return Err(AcidRefusal::BadTarget { given: target_ph });
    }
    if let Acid::Vinegar { grams_per_100_ml: given } = acid
        && !(1.0..=30.0).contains(&given)
    {
        return Err(AcidRefusal::BadStrength { given });
    }
    for given in [residue.strength.low, residue.strength.value, residue.strength.high] {
        let strength = in_grams_per_litre(given);
        if !(strength.is_finite() && strength >= 0.0) {
            return Err(AcidRefusal::NegativeResidue { given });
        }
    }
    for given in [residue.volume.low, residue.volume.value, residue.volume.high] {
        let volume = in_millilitres(given);
        if !(volume.is_finite() && volume > 0.0) {
            return Err(AcidRefusal::NoVolume { given });
        }
    }
    Ok(())
}

fn remarks(acid: Acid, alkali: Alkali) -> Vec<Message> {
    let mut remarks = vec![Message::new("acid.remark.half_then_test")];
    if alkali == Alkali::SodaAsh {
        remarks.push(Message::new("acid.remark.carbon_dioxide"));
    }
    remarks.push(Message::new(match acid {
        Acid::Vinegar { .. } => "acid.remark.acetic_leaves",
        Acid::CitricAnhydrous | Acid::CitricMonohydrate => "acid.remark.citric_stays",
    }));
    remarks.push(Message::new("acid.remark.not_below_seven"));
    remarks
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::sign_off::{Reading, Standing, Test};
    use crate::quantity::grams_per_litre;

    fn residue(strength: f64) -> Residue {
        Residue {
            alkali: Alkali::SodaAsh,
            strength: Known::within(grams_per_litre(strength), 0.3, Basis::Strip),
            volume: Known::exact(millilitres(5000.0), Basis::Measured),
            celsius: 20.0,
        }
    }

    fn log(milligrams: f64) -> [Logged; 1] {
        let chlorine = grams_per_litre(milligrams / 1000.0);
        [Logged::of(Reading::ChlorineStrip { chlorine }, Timestamp::UNIX_EPOCH)]
    }

    #[test]
    fn no_acid_without_a_zero_chlorine_test() {
        let dose = |log: &[Logged]| {
            acid_dose_from_log(log, None, Acid::CitricAnhydrous, &residue(0.5), 7.5)
        };
        for (log, standing) in [(&log(0.5)[..], Standing::Failing), (&[], Standing::Missing)] {
            let gap = Gap { test: Test::ChlorineStrip, standing };
            assert_eq!(dose(log), Err(AcidRefusal::ChlorineNotProvenZero(gap)));
        }
        assert!(dose(&log(0.0)).is_ok());
    }

    #[test]
    fn the_bounds_are_in_order_and_half_comes_first() {
        let vinegar = Acid::Vinegar { grams_per_100_ml: 5.0 };
        let dose = acid_dose_from_log(&log(0.0), None, vinegar, &residue(0.5), 7.5).unwrap();
        let poured = |measure| match measure {
            Measure::Pour(volume) => volume,
            Measure::Weigh(_) => panic!("vinegar is poured"),
        };
        let (closed, gone) = (poured(dose.closed), poured(dose.carbon_dioxide_gone));
        assert!(closed.low < closed.value && closed.value < closed.high);
        assert!(closed.value < gone.value && gone.value < closed.value * 2.1);
        assert_eq!(poured(dose.first).value, closed.value * 0.5);
    }

    #[test]
    fn targets_below_neutral_and_clean_water_are_refused() {
        let dose = |strength, ph| {
            acid_dose_from_log(&log(0.0), None, Acid::CitricAnhydrous, &residue(strength), ph)
        };
        assert!(matches!(dose(0.5, 6.5), Err(AcidRefusal::BadTarget { .. })));
        assert!(matches!(dose(0.0, 8.0), Err(AcidRefusal::NothingToDo { .. })));
        assert!(matches!(dose(-1.0, 8.0), Err(AcidRefusal::NegativeResidue { .. })));
    }
}
