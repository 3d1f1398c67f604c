#![allow(clippy::unwrap_used)]

use super::*;
use crate::chemistry::alkali::{Alkali, meter_ph, strip_ph};
use crate::quantity::{Basis, Estimate, grams_per_litre, in_grams, millilitres};
use jiff::Timestamp;

fn residue(strength: f64) -> Residue {
    let strength = Estimate::within(grams_per_litre(strength), 0.3, Basis::Strip);
    Residue {
        alkali: Alkali::SodaAsh,
        evidence: AlkaliEvidence::Strength(strength),
        volume: Estimate::exact(millilitres(5000.0), Basis::Measured),
        celsius: 20.0,
    }
}

fn dose(
    acid: NeutralisingAcid,
    residue: &Residue,
    target_ph: f64,
) -> Result<AcidDose, AcidDoseError> {
    acid_dose(ZeroChlorine::tested_at(Timestamp::UNIX_EPOCH), acid, residue, target_ph)
}

#[test]
fn bounds_are_ordered_and_the_first_portion_is_half() {
    let vinegar = NeutralisingAcid::Vinegar { grams_per_100_ml: 5.0 };
    let dose = dose(vinegar, &residue(0.5), 7.5).unwrap();
    let poured = |amount| match amount {
        AcidAmount::Pour(volume) => volume,
        AcidAmount::Weigh(_) => panic!("vinegar is poured"),
    };
    let (closed, gone) = (poured(dose.closed), poured(dose.carbon_dioxide_gone));
    assert!(closed.low < closed.value && closed.value < closed.high);
    assert!(closed.value < gone.value && gone.value < closed.value * 2.1);
    assert_eq!(poured(dose.first).value, closed.value * 0.5);
}

fn citric(ph: f64, target: f64) -> AcidDose {
    citric_by(strip_ph(ph), target)
}

fn citric_by(read: Estimate<f64>, target: f64) -> AcidDose {
    let residue = Residue { evidence: AlkaliEvidence::Ph(read), celsius: 25.0, ..residue(0.0) };
    dose(NeutralisingAcid::CitricAnhydrous, &residue, target).unwrap()
}

fn weighed(amount: AcidAmount) -> Estimate<f64> {
    match amount {
        AcidAmount::Weigh(mass) => mass.map(in_grams),
        AcidAmount::Pour(_) => panic!("citric acid is weighed"),
    }
}

/// By hand, with pK 6.35 and 10.33 of carbonic acid at 25 °C (Stumm and Morgan, from
/// memory) and citric acid threefold ionised above pH 7: 2 mmol/L of bicarbonate from
/// pH 8.4 to 7.5 loses its 1.1 % of carbonate and converts 6.6 less 0.9 % to carbon dioxide,
/// 0.14 mmol/L of acid; all of it gone takes 2.02 mmol/L. In 5 L 0.045 g and 0.65 g of
/// citric acid, where the same reading of distilled water needs next to nothing.
#[test]
fn near_the_ph_of_the_tap_its_bicarbonate_takes_most_of_the_acid() {
    let tap = citric(8.4, 7.5);
    let (closed, gone) = (weighed(tap.closed), weighed(tap.carbon_dioxide_gone));
    assert!((closed.value - 0.045).abs() < 0.006, "{closed:?}");
    assert!((gone.value - 0.65).abs() < 0.03, "{gone:?}");
    let distilled = Alkali::SodaAsh.strength_range(strip_ph(8.4), 25.0).unwrap();
    let distilled = Residue { evidence: AlkaliEvidence::Strength(distilled), ..residue(0.0) };
    let distilled = dose(NeutralisingAcid::CitricAnhydrous, &distilled, 7.5).unwrap();
    assert!(weighed(distilled.carbon_dioxide_gone).value < 0.02 * gone.value);
    // Soft water hardly needs any; hard water more than twice as much.
    assert!(gone.low < 0.1 * gone.value && gone.high > 2.3 * gone.value, "{gone:?}");
    assert!(closed.low < 0.3 * closed.value && closed.high > 1.9 * closed.value);
    assert!(tap.remarks.iter().any(|remark| remark.key == "acid-remark-carbon_dioxide"));
}

#[test]
fn a_meter_gives_a_narrower_dose_than_a_strip() {
    let [meter, strip] =
        [meter_ph(10.0), strip_ph(10.0)].map(|read| weighed(citric_by(read, 7.5).closed));
    assert_eq!(meter.value, strip.value);
    assert!(strip.low < meter.low && meter.high < strip.high);
}

#[test]
fn dose_increases_with_the_ph_that_was_read() {
    let readings = [7.6, 7.9, 8.3, 8.4, 9.0, 9.5, 10.0, 10.5, 11.0, 11.4];
    let doses = readings.map(|ph| citric(ph, 7.5));
    for two in doses.windows(2) {
        for of in [|d: &AcidDose| d.closed, |d: &AcidDose| d.carbon_dioxide_gone] {
            let [one, other] = [&two[0], &two[1]].map(|dose| weighed(of(dose)));
            // Below the pH of the tap only its bicarbonate can be lost.
            assert!(one.value < other.value * 1.000_001, "{one:?} {other:?}");
            assert!(one.low <= one.value && one.value <= one.high);
        }
    }
}

#[test]
fn targets_below_neutral_and_clean_water_are_refused() {
    let dose = |strength, ph| dose(NeutralisingAcid::CitricAnhydrous, &residue(strength), ph);
    assert!(matches!(dose(0.5, 6.5), Err(AcidDoseError::BadTarget { .. })));
    assert!(matches!(dose(0.0, 8.0), Err(AcidDoseError::NothingToDo { .. })));
    assert!(matches!(dose(-1.0, 8.0), Err(AcidDoseError::NegativeResidue { .. })));
}
