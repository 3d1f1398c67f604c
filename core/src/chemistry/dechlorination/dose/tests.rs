#![allow(clippy::unwrap_used)]
use super::*;
use crate::chemistry::alkali::strip_ph;
use crate::chemistry::dechlorination::AntichlorRemedy;
use crate::quantity::{in_grams_per_litre, share};
use AntichlorReagent::*;
use VesselClosure::{Closed, Open};

fn request(reagent: AntichlorReagent, mg_per_litre: f64) -> AntichlorRequest {
    let residual = ResidualEvidence::Strip(grams_per_litre(mg_per_litre / 1e3));
    let volume = Estimate::within(millilitres(20_000.0), 0.1, Basis::Measured);
    let vessel = Some(Open);
    AntichlorRequest { vessel, ..AntichlorRequest::new(reagent, residual, volume, share(1.0)) }
}

fn dose(reagent: AntichlorReagent, mg_per_litre: f64) -> Result<AntichlorDose, AntichlorError> {
    antichlor_dose(&request(reagent, mg_per_litre))
}

fn refusal(request: &AntichlorRequest) -> GasRefusal {
    match antichlor_dose(request) {
        Err(AntichlorError::ChlorineGas(refusal)) => refusal,
        other => unreachable!("{other:?}"),
    }
}

/// The remedy that adds soda, g.
fn soda(refusal: &GasRefusal) -> Mass {
    let soda = refusal.remedies.iter().find_map(|remedy| match remedy {
        AntichlorRemedy::AddSodaFirst { soda } => Some(*soda),
        _ => None,
    });
    soda.unwrap_or_else(|| unreachable!("no soda in {refusal:?}"))
}

fn below(refusal: &GasRefusal) -> f64 {
    match refusal.remedies[0] {
        AntichlorRemedy::DrainAndRinse { below } => in_grams_per_litre(below),
        other => unreachable!("{other:?}"),
    }
}

fn meter(ph: f64) -> Option<Estimate<f64>> {
    Some(Estimate { value: ph, low: ph - 0.1, high: ph + 0.1, basis: Basis::Measured })
}

const ACID_FORMING: [AntichlorReagent; 5] =
    [ThiosulfatePentahydrate, ThiosulfateAnhydrous, Bisulfite, Metabisulfite, AscorbicAcid];

#[test]
fn a_gram_per_litre_with_bisulfite_falls_to_ph_2_with_thousands_of_ppm() {
    let known = Estimate::exact(grams_per_litre(1.0), Basis::Measured);
    let residual = ResidualEvidence::Titration(known);
    let liquor_ph = Some(Estimate::exact(9.8, Basis::Measured));
    let request = AntichlorRequest { residual, liquor_ph, ..request(Bisulfite, 0.0) };
    let worst = refusal(&request).worst;
    assert!((2.0..2.8).contains(&worst.ph) && (0.5..0.8).contains(&worst.share), "{worst:?}");
    assert!(worst.chlorine_ppm > 1000.0, "{worst:?}");
}

#[test]
fn acid_forming_reagents_are_refused_on_strong_liquor() {
    for reagent in ACID_FORMING {
        for strength in [200.0, 1000.0, 5000.0] {
            let refusal = refusal(&request(reagent, strength));
            assert!(refusal.worst.chlorine_ppm > NIOSH_CEILING_PPM);
            assert!(below(&refusal) > 0.005 && below(&refusal) < 0.05, "{refusal:?}");
        }
    }
}

#[test]
fn with_the_soda_of_the_remedy_the_dose_is_allowed() {
    for reagent in ACID_FORMING {
        for strength in [100.0, 1000.0, 5000.0] {
            for liquor_ph in [None, Some(strip_ph(8.5)), meter(9.5)] {
                let refused = AntichlorRequest { liquor_ph, ..request(reagent, strength) };
                let soda_added = soda(&refusal(&refused));
                let allowed = AntichlorRequest { soda_added, ..refused };
                let dose = antichlor_dose(&allowed).unwrap();
                assert!(dose.course.worst.chlorine_ppm <= NIOSH_CEILING_PPM);
                assert!(dose.course.end.low > 3.5, "{reagent:?} {strength} {dose:?}");
            }
        }
    }
}

#[test]
fn soda_for_bisulfite_is_about_a_mole_for_each_of_chlorine() {
    let grams = in_grams(soda(&refusal(&request(Bisulfite, 5000.0))));
    let chlorine = 7.5 * 22.0;
    assert!((1.0..2.5).contains(&(grams / chlorine)), "{grams}");
}

#[test]
fn a_strip_below_the_drained_strength_is_not_refused() {
    for reagent in [Bisulfite, ThiosulfatePentahydrate, AscorbicAcid, Sulfite] {
        let limit = 1000.0 * below(&refusal(&request(reagent, 3000.0)));
        assert!(dose(reagent, 0.99 * limit).is_ok(), "{reagent:?} {limit}");
        assert!(dose(reagent, 1.05 * limit).is_err(), "{reagent:?} {limit}");
    }
}

#[test]
fn sulfite_on_a_weak_residual_needs_no_questions() {
    for strength in [0.0, 1.0, 10.0, 50.0] {
        let request = AntichlorRequest { vessel: None, ..request(Sulfite, strength) };
        assert!(antichlor_dose(&request).is_ok(), "{strength}");
    }
}

#[test]
fn sulfite_on_strong_liquor_needs_a_known_alkaline_ph() {
    assert!(dose(Sulfite, 5000.0).is_err());
    let alkaline = AntichlorRequest { liquor_ph: meter(11.0), ..request(Sulfite, 5000.0) };
    let dose = antichlor_dose(&alkaline).unwrap();
    assert!(dose.course.end.low > 8.0, "{dose:?}");
    let bisulfite = AntichlorRequest { reagent: Bisulfite, ..alkaline };
    assert!(refusal(&bisulfite).remedies.contains(&AntichlorRemedy::Use(Sulfite)));
}

#[test]
fn sour_liquor_is_refused_for_every_reagent_and_none_is_offered() {
    for reagent in AntichlorReagent::ALL.into_iter().filter(|reagent| *reagent != Peroxide) {
        let sour = AntichlorRequest { liquor_ph: Some(strip_ph(6.5)), ..request(reagent, 2000.0) };
        let refusal = refusal(&sour);
        assert!(!refusal.remedies.iter().any(|r| matches!(r, AntichlorRemedy::Use(_))));
    }
}

#[test]
fn undiluted_bleach_is_refused_without_a_number() {
    for reagent in [Bisulfite, Sulfite, ThiosulfatePentahydrate] {
        assert!(dose(reagent, 100_000.0).is_err());
    }
}

#[test]
fn every_dose_has_a_range_and_ends_with_the_strip_remark() {
    for reagent in AntichlorReagent::ALL {
        let dose = dose(reagent, 10.0).unwrap();
        assert!(dose.dose.low < dose.dose.value && dose.dose.value <= dose.dose.high);
        let Estimate { value, low, high, .. } = dose.course.end;
        assert!(low <= value && value <= high);
        assert_eq!(dose.remarks.last().unwrap().key, "antichlor-remark-prove_by_strip");
    }
}

#[test]
fn peroxide_needs_a_weak_liquor_and_an_open_vessel() {
    for vessel in [Some(Closed), None] {
        let refused = antichlor_dose(&AntichlorRequest { vessel, ..request(Peroxide, 50.0) });
        assert_eq!(refused, Err(AntichlorError::ClosedVessel));
    }
    let alkaline = |strength| {
        antichlor_dose(&AntichlorRequest { liquor_ph: meter(10.5), ..request(Peroxide, strength) })
    };
    // A strip at 0.7 g/L means up to 1.05 g/L.
    assert!(matches!(alkaline(700.0), Err(AntichlorError::TooStrongForPeroxide { .. })));
    assert!(alkaline(600.0).unwrap().oxygen.is_some());
}

#[test]
fn impossible_inputs_are_errors() {
    let refused = dose(Sulfite, -1.0);
    assert!(matches!(refused, Err(AntichlorError::NegativeResidual { .. })));
    for purity in [0.0, 1.1, f64::NAN] {
        let bad = AntichlorRequest { purity: share(purity), ..request(Sulfite, 50.0) };
        assert!(matches!(antichlor_dose(&bad), Err(AntichlorError::BadPurity { .. })));
    }
    for soda in [-1.0, f64::NAN] {
        let bad = AntichlorRequest { soda_added: grams(soda), ..request(Sulfite, 50.0) };
        assert_eq!(antichlor_dose(&bad).unwrap_err().message().field, Some(SODA_ADDED));
    }
    for ph in [-0.1, 14.1, f64::NAN] {
        let bad = AntichlorRequest { liquor_ph: meter(ph), ..request(Sulfite, 50.0) };
        assert_eq!(antichlor_dose(&bad).unwrap_err().message().field, Some(LIQUOR_PH));
    }
}

#[test]
fn thiosulfate_overdose_starts_at_7_grams_per_gram() {
    assert!(thiosulfate_overdosed(grams(7.1), grams(1.0)));
    assert!(!thiosulfate_overdosed(grams(6.9), grams(1.0)));
}

mod properties {
    use super::*;
    use proptest::prelude::*;

    fn ppm(request: &AntichlorRequest) -> Option<f64> {
        match antichlor_dose(request) {
            Ok(dose) => Some(dose.course.worst.chlorine_ppm),
            Err(AntichlorError::ChlorineGas(refusal)) => Some(refusal.worst.chlorine_ppm),
            Err(AntichlorError::NoPh(_)) => None,
            Err(other) => unreachable!("{other:?}"),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(12))]

        #[test]
        fn nothing_gets_milder_when_less_is_known(
            at in 0..7_usize, log in 0.5..3.6_f64, ph in 8.6..11.0_f64, soda in 0.0..3.0_f64,
        ) {
            let known = AntichlorRequest {
                liquor_ph: Some(Estimate::exact(ph, Basis::Measured)),
                soda_added: grams(20.0 * soda),
                ..request(AntichlorReagent::ALL[at], 10_f64.powf(log))
            };
            let exact = Estimate::exact(grams_per_litre(10_f64.powf(log) / 1e3), Basis::Measured);
            let wider = ppm(&known).unwrap();
            let slack = 1.001 * wider + 1e-9;
            let titrated =
                AntichlorRequest { residual: ResidualEvidence::Titration(exact), ..known };
            prop_assert!(ppm(&titrated).unwrap() <= slack);
            let more_soda =
                AntichlorRequest { soda_added: known.soda_added + grams(10.0), ..known };
            prop_assert!(ppm(&more_soda).unwrap() <= slack);
            let unknown = AntichlorRequest { liquor_ph: None, ..known };
            prop_assert!(wider <= 1.001 * ppm(&unknown).unwrap() + 1e-9);
            let coarse = AntichlorRequest { liquor_ph: Some(strip_ph(ph)), ..known };
            prop_assert!(wider <= 1.001 * ppm(&coarse).unwrap() + 1e-9);
        }
    }
}
