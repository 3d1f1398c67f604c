#![allow(clippy::unwrap_used)]

use super::*;
use super::{
    balance::{ProtonBalance, ProtonReference},
    solver,
    speciate::{charge, speciate},
};
use crate::chemistry::substance::moles_per_litre as molar;
use proptest::prelude::*;

fn ph(mix: Mix) -> f64 {
    mix.solve().unwrap().ph()
}

fn at(celsius: f64) -> Mix {
    Mix::new(celsius).unwrap()
}

#[test]
fn ph_of_soda_ash_and_of_lye() {
    assert!((ph(at(25.0).with_soda_ash(molar(0.1))) - 11.349).abs() < 0.005);
    assert!((ph(at(25.0).with_lye(molar(0.001))) - 10.981).abs() < 0.003);
}

#[test]
fn pure_water_and_plain_brine_are_neutral() {
    assert!((ph(at(25.0)) - 13.995 / 2.0).abs() < 0.002);
    assert!((ph(at(25.0).with_salt(molar(0.4))) - 7.0).abs() < 0.02);
}

#[test]
fn two_oxidants_are_refused() {
    let mix = at(20.0).with_bleach(molar(0.01)).with_peroxide(molar(0.01));
    assert_eq!(mix.solve(), Err(EquilibriumError::TwoOxidants));
    assert!(mix.speciation().is_err());
    assert_eq!(mix.dose(Reagent::Lye, 10.0), Err(EquilibriumError::TwoOxidants));
}

#[test]
fn a_strong_bottle_is_too_concentrated_and_a_household_one_is_marked() {
    let bottle = |moles| at(20.0).with_bleach(molar(moles)).solve();
    assert!(matches!(bottle(1.6), Err(EquilibriumError::TooConcentrated { .. })));
    assert!(bottle(0.8).unwrap().validity.strong_in_salts);
    assert!(!bottle(0.3).unwrap().validity.strong_in_salts);
}

#[test]
fn salt_lowers_the_ph_of_soda_ash_and_of_baking_soda() {
    let soda = at(25.0).with_soda_ash(molar(0.1));
    let bicarbonate = at(25.0).with_baking_soda(molar(0.1));
    for mix in [soda, bicarbonate] {
        let fall = ph(mix) - ph(mix.with_salt(molar(0.5)));
        assert!((0.05..0.25).contains(&fall), "{fall}");
    }
}

#[test]
fn model_error_grows_with_ionic_strength() {
    let strengths = [0.0, 0.02, 0.05, 0.5, STRONG_IN_SALTS, 2.0, MAX_IONIC_STRENGTH, 9.0];
    assert!(strengths.is_sorted_by(|a, b| model_error(*a) <= model_error(*b)));
    assert_eq!(model_error(0.0), 0.02);
    assert!((model_error(0.5) - 0.12).abs() < 1e-12);
    assert!((model_error(f64::INFINITY) - 0.3).abs() < 1e-12);
}

#[test]
fn hypochlorite_above_35_degrees_is_marked_extrapolated() {
    let solve = |celsius| at(celsius).with_bleach(molar(0.02)).solve().unwrap().validity;
    assert!(!solve(35.0).hypochlorite_extrapolated);
    assert!(solve(40.0).hypochlorite_extrapolated);
}

#[test]
fn bleach_gets_no_acid_and_does_not_reach_ph_11_by_baking_soda() {
    let bath = at(20.0).with_bleach(molar(0.02));
    assert_eq!(bath.dose(Reagent::AceticAcid, 7.0), Err(EquilibriumError::AcidWithHypochlorite));
    assert!(bath.dose(Reagent::BakingSoda, 11.0).is_err());
}

#[test]
fn lye_open_to_air_loses_two_ph_units() {
    let lye = at(25.0).with_lye(molar(0.01));
    let open = lye.under(Air::Open { carbon_dioxide_atm: OUTDOOR_CARBON_DIOXIDE }).unwrap();
    assert!(ph(open) < ph(lye) - 2.0);
    assert!(lye.under(Air::Open { carbon_dioxide_atm: -1.0 }).is_err());
}

#[test]
fn infinite_amount_is_an_error_and_nan_adds_nothing() {
    assert!(at(25.0).with_lye(molar(f64::INFINITY)).solve().is_err());
    assert!(ph(at(25.0).with_lye(molar(f64::NAN))) > 6.9);
}

/// Random mix: each component absent or of a random order of magnitude, 1e-9 to 0.6 mol/L;
/// hypochlorite or peroxide, never both.
fn recipe() -> impl Strategy<Value = Mix> {
    any::<bool>().prop_flat_map(recipe_of)
}

fn recipe_of(chlorine: bool) -> impl Strategy<Value = Mix> {
    let amount = || prop_oneof![Just(0.0), (-9.0..-0.2_f64).prop_map(|log| 10_f64.powf(log))];
    let parts = proptest::collection::vec(amount(), 10);
    (5.0..80.0_f64, parts, any::<bool>()).prop_map(move |(celsius, part, open)| {
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
    })
}

/// The dose of `reagent`, added to the mix, gives the target pH. A case without a dose is
/// rejected, and not counted.
fn dose_reaches_target(mix: Mix, target: f64, reagent: Reagent) -> Result<(), TestCaseError> {
    let dose = mix.dose(reagent, target);
    prop_assume!(dose.is_ok());
    let reached = ph(mix.with(reagent, dose.unwrap()));
    prop_assert!((reached - target).abs() < 1e-4, "{reached} for {target}");
    Ok(())
}

proptest! {
    // `cases` counts accepted cases only. A test fails after this many rejected ones; least
    // accepted are acid doses, at 22 %.
    #![proptest_config(ProptestConfig {
        cases: 2000,
        max_global_rejects: 10_000,
        ..ProptestConfig::default()
    })]

    #[test]
    fn charges_balance_in_any_mix(mix in recipe()) {
        let totals = mix.totals();
        let root = solver::solve(&totals, mix.constants());
        prop_assert!(root.h > 0.0 && root.h.is_finite());
        let conditional = &root.conditional;
        let net = charge(&totals, conditional, root.h) + conditional.proton_charge(root.h);
        let reference = ProtonReference::of(&totals);
        let balance = ProtonBalance::at(&totals, &reference, conditional, root.h);
        let strength = balance.medium.ionic_strength;
        prop_assert!(net.abs() <= 1e-8 * strength + 1e-15, "net {net} of {strength}");
        // The coefficients belong to the ionic strength that they lead to.
        prop_assert!((strength - root.ionic_strength).abs() <= 1e-5 * strength);
    }

    #[test]
    fn matter_is_conserved(mix in recipe()) {
        use Species::*;
        let totals = mix.totals();
        let root = solver::solve(&totals, mix.constants());
        let amounts = speciate(&totals, &root.conditional, root.h);
        let sum = |all: &[Species]| all.iter().map(|species| amounts[*species as usize]).sum::<f64>();
        let close = |ours: f64, total: f64| (ours - total).abs() <= 1e-12 + 1e-9 * total;
        prop_assert!(amounts.iter().all(|amount| *amount >= 0.0));
        prop_assert!(close(sum(&[Chlorine, HypochlorousAcid, Hypochlorite]), totals.hypochlorite));
        prop_assert!(close(sum(&[Chlorine, Chloride]), totals.chloride));
        prop_assert!(close(sum(&[HydrogenPeroxide, Perhydroxyl]), totals.peroxide));
        let citrate = [CitricAcid, DihydrogenCitrate, HydrogenCitrate, Citrate];
        prop_assert!(close(sum(&citrate), totals.citrate));
    }

    #[test]
    fn lye_raises_ph_and_acid_lowers_it(mix in recipe(), log in -6.0..-1.0_f64) {
        let amount = molar(10_f64.powf(log));
        let solved = [mix, mix.with_lye(amount), mix.with_strong_acid(amount)].map(|m| m.solve());
        prop_assume!(solved.iter().all(Result::is_ok));
        let [before, more, less] = solved.map(|solution| solution.unwrap().ph());
        // The added salt changes the coefficients too: a trace may move pH either way.
        prop_assert!(more > before - 0.02, "{before} to {more}");
        prop_assert!(less < before + 0.02, "{before} to {less}");
    }

    #[test]
    fn lye_dose_reaches_its_target(mix in recipe(), target in 6.0..12.0_f64) {
        dose_reaches_target(mix, target, Reagent::Lye)?;
    }

    #[test]
    fn soda_ash_dose_reaches_its_target(mix in recipe(), target in 6.0..12.0_f64) {
        dose_reaches_target(mix, target, Reagent::SodaAsh)?;
    }

    #[test]
    fn acetic_acid_dose_reaches_its_target(mix in recipe_of(false), target in 6.0..12.0_f64) {
        dose_reaches_target(mix, target, Reagent::AceticAcid)?;
    }

    #[test]
    fn chloride_and_acid_make_chlorine(ph in 0.0..9.0_f64, salt in 0.001..0.3_f64) {
        let share = |ph, salt| {
            let mix = at(25.0).with_hypochlorite(molar(1e-6)).with_salt(molar(salt));
            mix.speciation().unwrap().at(ph).chlorine
        };
        prop_assert!(share(ph, salt * 1.5) > share(ph, salt));
        prop_assert!(share(ph + 0.1, salt) < share(ph, salt));
    }
}
