#![allow(clippy::unwrap_used)]

use super::*;
use crate::chemistry::substance::moles_per_litre as molar;
use proptest::prelude::*;

fn ph(mix: Mix) -> f64 {
    mix.solve().unwrap().ph()
}

fn at(celsius: f64) -> Mix {
    Mix::new(celsius).unwrap()
}

#[test]
fn soda_ash_bath() {
    assert!((ph(at(25.0).with_soda_ash(molar(0.1))) - 11.385).abs() < 0.01);
    assert!((ph(at(25.0).with_lye(molar(0.001))) - 10.979).abs() < 0.003);
}

#[test]
fn pure_water_and_plain_brine_are_neutral() {
    assert!((ph(at(25.0)) - 13.995 / 2.0).abs() < 0.002);
    assert!((ph(at(25.0).with_salt(molar(0.4))) - 7.0).abs() < 0.02);
}

#[test]
fn two_oxidants_are_refused() {
    let mix = at(20.0).with_bleach(molar(0.01)).with_peroxide(molar(0.01));
    assert_eq!(mix.solve(), Err(Refusal::TwoOxidants));
    assert!(mix.picture().is_err());
    assert_eq!(mix.dose(Reagent::Lye, 10.0), Err(Refusal::TwoOxidants));
}

#[test]
fn a_bottle_is_beyond_the_activity_model() {
    let bottle = at(20.0).with_bleach(molar(0.75));
    assert!(matches!(bottle.solve(), Err(Refusal::TooConcentrated { .. })));
    let bath = at(20.0).with_bleach(molar(0.3));
    assert!(bath.solve().unwrap().validity.strong_in_salts);
}

#[test]
fn a_hot_hypochlorite_bath_says_that_it_is_extrapolated() {
    let solve = |celsius| at(celsius).with_bleach(molar(0.02)).solve().unwrap().validity;
    assert!(!solve(35.0).hypochlorite_extrapolated);
    assert!(solve(40.0).hypochlorite_extrapolated);
}

#[test]
fn acid_is_refused_while_hypochlorite_is_there() {
    let bath = at(20.0).with_bleach(molar(0.02));
    assert_eq!(bath.dose(Reagent::AceticAcid, 7.0), Err(Refusal::AcidWithHypochlorite));
}

#[test]
fn baking_soda_cannot_reach_eleven() {
    let refused = at(20.0).with_bleach(molar(0.02)).dose(Reagent::BakingSoda, 11.0);
    assert!(refused.is_err());
}

#[test]
fn lye_standing_open_turns_to_soda_and_loses_its_ph() {
    let lye = at(25.0).with_lye(molar(0.01));
    let open = lye.under(Air::Open { carbon_dioxide_atm: OUTDOOR_CARBON_DIOXIDE }).unwrap();
    assert!(ph(open) < ph(lye) - 2.0);
    assert!(lye.under(Air::Open { carbon_dioxide_atm: -1.0 }).is_err());
}

#[test]
fn nothing_that_is_no_number_gets_through() {
    assert!(at(25.0).with_lye(molar(f64::INFINITY)).solve().is_err());
    assert!(ph(at(25.0).with_lye(molar(f64::NAN))) > 6.9);
}

/// Any recipe, from nothing to strong, each part as a power of ten or not there.
fn recipe() -> impl Strategy<Value = Mix> {
    let amount = || prop_oneof![Just(0.0), (-9.0..-0.2_f64).prop_map(|log| 10_f64.powf(log))];
    let parts = proptest::collection::vec(amount(), 10);
    (5.0..80.0_f64, parts, any::<bool>(), any::<bool>()).prop_map(
        |(celsius, part, chlorine, open)| {
            let part: Vec<_> = part.into_iter().map(molar).collect();
            let mix = at(celsius)
                .with_salt(part[1])
                .with_lye(part[2])
                .with_soda_ash(part[3])
                .with_baking_soda(part[4])
                .with_carbon_dioxide(part[5])
                .with_acetic_acid(part[6])
                .with_citric_acid(part[7])
                .with_sulfate(part[8])
                .with_strong_acid(part[9]);
            let mix = if chlorine { mix.with_bleach(part[0]) } else { mix.with_peroxide(part[0]) };
            if open { mix.under(Air::Open { carbon_dioxide_atm: 420e-6 }).unwrap() } else { mix }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn charges_balance_whatever_is_in_it(mix in recipe()) {
        let totals = mix.totals();
        let root = solver::solve(&totals, mix.constants());
        prop_assert!(root.h > 0.0 && root.h.is_finite());
        let net = balance::charge(&totals, &root.folded, root.h) + root.folded.proton_charge(root.h);
        let at = balance::balance_at(&totals, &root.folded, root.h);
        prop_assert!(net.abs() <= 1e-8 * at.ionic_strength + 1e-15, "net {net} of {}", at.ionic_strength);
        // The coefficients belong to the ionic strength that they lead to.
        prop_assert!((at.ionic_strength - root.ionic_strength).abs() <= 1e-5 * at.ionic_strength);
    }

    #[test]
    fn matter_is_conserved(mix in recipe()) {
        let totals = mix.totals();
        let root = solver::solve(&totals, mix.constants());
        let amounts = balance::speciate(&totals, &root.folded, root.h);
        let sum = |all: &[Species]| all.iter().map(|species| amounts[*species as usize]).sum::<f64>();
        let close = |ours: f64, total: f64| (ours - total).abs() <= 1e-12 + 1e-9 * total;
        prop_assert!(amounts.iter().all(|amount| *amount >= 0.0));
        prop_assert!(close(sum(&[Species::Chlorine, Species::HypochlorousAcid, Species::Hypochlorite]), totals.hypochlorite));
        prop_assert!(close(sum(&[Species::Chlorine, Species::Chloride]), totals.chloride));
        prop_assert!(close(sum(&[Species::HydrogenPeroxide, Species::Perhydroxyl]), totals.peroxide));
        prop_assert!(close(sum(&[Species::CitricAcid, Species::DihydrogenCitrate, Species::HydrogenCitrate, Species::Citrate]), totals.citrate));
    }

    #[test]
    fn lye_raises_ph_and_acid_lowers_it(mix in recipe(), log in -6.0..-1.0_f64) {
        let amount = molar(10_f64.powf(log));
        if let (Ok(before), Ok(more), Ok(less)) =
            (mix.solve(), mix.with_lye(amount).solve(), mix.with_strong_acid(amount).solve())
        {
            // Added salt shifts the coefficients too, so near-nothing may move either way.
            prop_assert!(more.ph() > before.ph() - 0.02, "{} to {}", before.ph(), more.ph());
            prop_assert!(less.ph() < before.ph() + 0.02, "{} to {}", before.ph(), less.ph());
        }
    }

    #[test]
    fn a_dose_reaches_its_target(mix in recipe(), target in 6.0..12.0_f64) {
        for (reagent, add) in [
            (Reagent::Lye, Mix::with_lye as fn(Mix, MolarConcentration) -> Mix),
            (Reagent::SodaAsh, Mix::with_soda_ash),
            (Reagent::AceticAcid, Mix::with_acetic_acid),
        ] {
            if let Ok(dose) = mix.dose(reagent, target) {
                let reached = ph(add(mix, dose));
                prop_assert!((reached - target).abs() < 1e-4, "{reagent:?} {reached} for {target}");
            }
        }
    }

    #[test]
    fn chloride_and_acid_make_chlorine(ph in 0.0..9.0_f64, salt in 0.001..0.3_f64) {
        let share = |ph, salt| {
            let mix = at(25.0).with_hypochlorite(molar(1e-6)).with_salt(molar(salt));
            mix.picture().unwrap().at(ph).chlorine
        };
        prop_assert!(share(ph, salt * 1.5) > share(ph, salt));
        prop_assert!(share(ph + 0.1, salt) < share(ph, salt));
    }
}
