//! A neutral finish: citric or acetic acid for the alkali left in pulp.
//!
//! Acid on live bleach makes chlorine gas, so no dose is worked out without a
//! [`ZeroChlorine`], which only a strip at zero in the log can make.

use jiff::Timestamp;

use super::alkali::{BICARBONATE, WATER_BICARBONATE};
use super::equilibrium::{Mix, Reagent};
use super::refusal::Refusal;
use super::substance::{
    ACETIC_ACID, CITRIC_ACID, CITRIC_ACID_MONOHYDRATE, in_moles_per_litre, moles_per_litre,
};
use crate::message::{Field, Message, Value};
use crate::pulp::sign_off::{Gap, Logged, ZeroChlorine};
use crate::pulp::wash::{Alkali, STRIP_PH};
use crate::quantity::{
    Basis, Input, Known, Mass, MassConcentration, Volume, grams, in_grams_per_litre,
    in_millilitres, millilitres, spread,
};

pub const RESIDUE: Field = Field("acid-residue");
pub const VOLUME: Field = Field("acid-volume");
pub const TARGET_PH: Field = Field("acid-target_ph");
pub const STRENGTH: Field = Field("acid-strength");

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
            Self::CitricAnhydrous => "acid-kind-citric_anhydrous",
            Self::CitricMonohydrate => "acid-kind-citric_monohydrate",
            Self::Vinegar { .. } => "acid-kind-vinegar",
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
    pub found: Found,
    /// All the water that the acid goes into, the pulp's own included.
    pub volume: Known<Volume>,
    pub celsius: f64,
}

/// How much alkali there is, as far as anybody knows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Found {
    /// As pure Na2CO3 or NaOH, in water that holds nothing else.
    Strength(Known<MassConcentration>),
    /// By what a strip shows of tap water with the alkali in it. The tap's own bicarbonate
    /// (0 to 5 mmol/L) takes up acid too: near pH 8 nearly all of it.
    Strip { ph: f64 },
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
            Self::ChlorineNotProvenZero(gap) => new("acid-refusal-chlorine_not_proven_zero")
                .with("test", Value::Word(gap.test.word())),
            Self::BadTarget { given } => new("acid-refusal-bad_target")
                .beside(TARGET_PH)
                .with("given", Value::Ph(*given))
                .with("min", Value::Ph(LOWEST_TARGET))
                .with("max", Value::Ph(HIGHEST_TARGET)),
            Self::BadStrength { given } => new("acid-refusal-bad_strength")
                .beside(STRENGTH)
                .with("given", Value::Number(*given)),
            Self::NegativeResidue { given } => new("acid-refusal-negative_residue")
                .beside(RESIDUE)
                .with("given", Value::Concentration(*given)),
            Self::NoVolume { given } => {
                new("acid-refusal-no_volume").beside(VOLUME).with("given", Value::Volume(*given))
            }
            Self::NothingToDo { ph, target } => new("acid-refusal-nothing_to_do")
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
    let ph = match residue.found {
        Found::Strength(strength) => residue.alkali.ph(strength.value, residue.celsius)?,
        Found::Strip { ph } => ph,
    };
    if ph <= target_ph {
        return Err(AcidRefusal::NothingToDo { ph, target: target_ph });
    }
    let [closed, gone] = bounds(acid, residue, target_ph)?.map(|moles| acid.measure(moles));
    Ok(AcidDose {
        acid,
        closed,
        carbon_dioxide_gone: gone,
        first: closed.part(0.5),
        remarks: remarks(acid, residue),
    })
}

/// mol/L of what makes the water alkaline.
#[derive(Clone, Copy)]
struct Held {
    alkali: f64,
    bicarbonate: f64,
    carbon_dioxide: f64,
}

impl Residue {
    /// What the water holds where it reads `ph` and the tap brought so much bicarbonate.
    fn read(&self, ph: f64, bicarbonate: f64) -> Result<Held, Refusal> {
        let tap = Mix::new(self.celsius)?.with_baking_soda(moles_per_litre(bicarbonate));
        let reagent = match self.alkali {
            Alkali::SodaAsh => Reagent::SodaAsh,
            Alkali::Lye => Reagent::Lye,
        };
        let dose = |reagent| tap.dose(reagent, ph).map(in_moles_per_litre);
        let none = Held { alkali: 0.0, bicarbonate, carbon_dioxide: 0.0 };
        // Below the tap's own pH there is no other alkali, but some carbon dioxide.
        Ok(if ph > tap.solve()?.ph() {
            Held { alkali: dose(reagent)?, ..none }
        } else {
            Held { carbon_dioxide: dose(Reagent::CarbonDioxide)?, ..none }
        })
    }

    /// The water as it is, and with all its carbonate gone into the air.
    fn closed_and_gone(&self, held: Held) -> Result<[Mix; 2], Refusal> {
        let water = Mix::new(self.celsius)?;
        let Held { alkali, bicarbonate, carbon_dioxide } = held;
        let closed = water
            .with_baking_soda(moles_per_litre(bicarbonate))
            .with_carbon_dioxide(moles_per_litre(carbon_dioxide));
        Ok(match self.alkali {
            Alkali::SodaAsh => {
                let gone = water.with_lye(moles_per_litre(2.0 * alkali + bicarbonate));
                [closed.with_soda_ash(moles_per_litre(alkali)), gone]
            }
            Alkali::Lye => {
                let gone = water.with_lye(moles_per_litre(alkali + bicarbonate));
                [closed.with_lye(moles_per_litre(alkali)), gone]
            }
        })
    }
}

/// Moles of acid, with the carbonate in the water and with all of it gone.
fn bounds(acid: Acid, residue: &Residue, target_ph: f64) -> Result<[Known<f64>; 2], Refusal> {
    let molar = |strength| in_moles_per_litre(residue.alkali.substance().molar(strength));
    let pure = |alkali| Held { alkali, bicarbonate: 0.0, carbon_dioxide: 0.0 };
    let (found, bicarbonate, middle) = match residue.found {
        Found::Strength(strength) => {
            let alkali = strength.map(molar);
            (alkali, Known::exact(0.0, Basis::Measured), pure(alkali.value))
        }
        Found::Strip { ph } => {
            let (low, high) = ((ph - STRIP_PH).max(0.0), (ph + STRIP_PH).min(14.0));
            let read = Known { value: ph, low, high, basis: Basis::Strip };
            (read, BICARBONATE, residue.read(ph, BICARBONATE.value)?)
        }
    };
    let held = |found: f64, bicarbonate: f64| match residue.found {
        Found::Strength(_) => Ok(pure(found)),
        // Beyond what this alkali reaches, a threefold stands for the half pH.
        Found::Strip { ph } if found > ph => Ok(residue
            .read(found, bicarbonate)
            .unwrap_or(Held { alkali: 3.0 * middle.alkali, ..middle })),
        Found::Strip { .. } => residue.read(found, bicarbonate),
    };
    let moles = |&[found, bicarbonate, millilitres]: &[f64; 3]| {
        let mut moles = [0.0; 2];
        let mixes = residue.closed_and_gone(held(found, bicarbonate)?)?;
        for (moles, mix) in moles.iter_mut().zip(mixes) {
            // A low end that is below the target already needs no acid.
            if mix.solve()?.ph() > target_ph {
                let dose = mix.dose(acid.reagent(), target_ph)?;
                *moles = in_moles_per_litre(dose) * millilitres / 1000.0;
            }
        }
        Ok::<_, Refusal>(moles)
    };
    let inputs = [
        Input::of(RESIDUE, found),
        Input::of(WATER_BICARBONATE, bicarbonate),
        Input::of(VOLUME, residue.volume.map(in_millilitres)),
    ];
    moles(&inputs.map(|input| input.value))?;
    let ends = spread(&inputs, |at| moles(at).unwrap_or([f64::NAN; 2]));
    let figures = ends.ok_or(Refusal::Unreachable { target_ph })?;
    Ok(figures.map(|figure| Known { basis: Basis::Computed, ..figure.known() }))
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
    if let Found::Strength(strength) = residue.found {
        for given in [strength.low, strength.value, strength.high] {
            let strength = in_grams_per_litre(given);
            if !(strength.is_finite() && strength >= 0.0) {
                return Err(AcidRefusal::NegativeResidue { given });
            }
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

fn remarks(acid: Acid, residue: &Residue) -> Vec<Message> {
    let mut remarks = vec![Message::new("acid-remark-half_then_test")];
    let from_the_tap = matches!(residue.found, Found::Strip { .. });
    if residue.alkali == Alkali::SodaAsh || from_the_tap {
        remarks.push(Message::new("acid-remark-carbon_dioxide"));
    }
    if from_the_tap {
        remarks.push(Message::new("acid-remark-tap"));
    }
    remarks.push(Message::new(match acid {
        Acid::Vinegar { .. } => "acid-remark-acetic_leaves",
        Acid::CitricAnhydrous | Acid::CitricMonohydrate => "acid-remark-citric_stays",
    }));
    remarks.push(Message::new("acid-remark-not_below_seven"));
    remarks
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::pulp::sign_off::{Reading, Standing, Test};
    use crate::quantity::{grams_per_litre, in_grams};

    fn residue(strength: f64) -> Residue {
        Residue {
            alkali: Alkali::SodaAsh,
            found: Found::Strength(Known::within(grams_per_litre(strength), 0.3, Basis::Strip)),
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

    fn citric(ph: f64, target: f64) -> AcidDose {
        let residue = Residue { found: Found::Strip { ph }, celsius: 25.0, ..residue(0.0) };
        acid_dose_from_log(&log(0.0), None, Acid::CitricAnhydrous, &residue, target).unwrap()
    }

    fn weighed(measure: Measure) -> Known<f64> {
        match measure {
            Measure::Weigh(mass) => mass.map(in_grams),
            Measure::Pour(_) => panic!("citric acid is weighed"),
        }
    }

    /// By hand, with pK 6.35 and 10.33 of carbonic acid at 25 °C (Stumm and Morgan, from
    /// memory) and citric acid threefold ionised above pH 7: 2 mmol/L of bicarbonate from
    /// pH 8.4 to 7.5 sheds its 1.1 % of carbonate and turns 6.6 less 0.9 % to carbon dioxide,
    /// 0.14 mmol/L of acid; all of it gone takes 2.02 mmol/L. In 5 L 0.045 g and 0.65 g of
    /// citric acid, where the same reading of distilled water asks for next to nothing.
    #[test]
    fn near_the_taps_own_ph_its_bicarbonate_takes_most_of_the_acid() {
        let dose = citric(8.4, 7.5);
        let (closed, gone) = (weighed(dose.closed), weighed(dose.carbon_dioxide_gone));
        assert!((closed.value - 0.045).abs() < 0.006, "{closed:?}");
        assert!((gone.value - 0.65).abs() < 0.03, "{gone:?}");
        let distilled = Alkali::SodaAsh.by_strip(8.4, 25.0).unwrap();
        let distilled = Residue { found: Found::Strength(distilled), ..residue(0.0) };
        let distilled =
            acid_dose_from_log(&log(0.0), None, Acid::CitricAnhydrous, &distilled, 7.5).unwrap();
        assert!(weighed(distilled.carbon_dioxide_gone).value < 0.02 * gone.value);
        // Soft water hardly needs any; hard water more than twice as much.
        assert!(gone.low < 0.1 * gone.value && gone.high > 2.3 * gone.value, "{gone:?}");
        assert!(closed.low < 0.3 * closed.value && closed.high > 1.9 * closed.value);
        assert!(dose.remarks.iter().any(|remark| remark.key == "acid-remark-carbon_dioxide"));
    }

    /// Where there is much alkali the tap hardly matters, and what reads lower needs less.
    #[test]
    fn more_alkali_needs_more_acid_at_every_reading() {
        let readings = [7.6, 7.9, 8.3, 8.4, 9.0, 9.5, 10.0, 10.5, 11.0, 11.4];
        let doses = readings.map(|ph| citric(ph, 7.5));
        for two in doses.windows(2) {
            for of in [|d: &AcidDose| d.closed, |d: &AcidDose| d.carbon_dioxide_gone] {
                let [one, other] = [&two[0], &two[1]].map(|dose| weighed(of(dose)));
                // Below the tap's own pH all that can go is the tap's bicarbonate.
                assert!(one.value < other.value * 1.000_001, "{one:?} {other:?}");
                assert!(one.low <= one.value && one.value <= one.high);
            }
        }
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
