//! Each rule applies where it should, and only there.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::{
    bath::{
        BathAim, BathSize, BathVessel, Bleach, Bottle, LabelBasis, PlanRequest, VesselKind, plan,
    },
    chemistry::Oxidant,
    property,
    pulp::WetPulp,
    quantity::{
        Basis, Celsius, Estimate, Interval, MassConcentration, Ph, Ratio, grams, grams_per_litre,
        in_grams_per_litre, in_share, millilitres, share,
    },
};
use proptest::prelude::*;

fn with(change: impl FnOnce(&mut Situation)) -> Situation {
    let mut s = Situation::without_bleach();
    change(&mut s);
    s
}

fn found(id: CautionId, act: Act, s: &Situation) -> Option<Severity> {
    cautions(act, s).iter().find(|c| c.id == id).map(|c| c.severity)
}

fn exact<Q: Copy>(value: Q) -> Option<Interval<Q>> {
    Some(Interval::exact(value))
}

fn c(value: f64) -> Option<Interval<Celsius>> {
    exact(Celsius::new(value).unwrap())
}

fn ph(value: f64) -> Option<Interval<Ph>> {
    exact(Ph::new(value).unwrap())
}

const NONE: BleachInUse = BleachInUse::None;
const HYPO: BleachInUse = BleachInUse::Known(Oxidant::Hypochlorite);
const PERC: BleachInUse = BleachInUse::Known(Oxidant::Percarbonate);

/// A rule, where it applies with which severity, and where it does not.
type RuleCase = (CautionId, Act, Situation, Severity, Act, Situation);

fn cases() -> Vec<RuleCase> {
    use Residual::{Hypochlorite, Peroxide, Unknown};
    use {Act as A, CautionId::*, Material::*, Severity::*};
    let hypo = || with(|s| s.oxidant = HYPO);
    let perc = || with(|s| s.oxidant = PERC);
    let clean = || with(|_| {});
    let at = |oxidant, t| with(|s| (s.oxidant, s.temperature) = (oxidant, c(t)));
    let acid = |value| {
        with(|s| {
            s.oxidant = HYPO;
            s.strength = exact(grams_per_litre(2.0));
            s.temperature = c(25.0);
            s.ph = ph(value);
        })
    };
    let alkaline = |value| with(|s| s.ph = ph(value));
    let lasting = |oxidant, minutes| with(|s| (s.oxidant, s.minutes) = (oxidant, exact(minutes)));
    let bath = |oxidant, x| {
        with(|s| {
            s.oxidant = oxidant;
            (s.strength, s.charge) = (exact(grams_per_litre(x)), exact(share(0.02)));
        })
    };
    let rusty = |rust| with(|s| (s.oxidant, s.rust) = (PERC, Some(rust)));
    let perc_after = |residual| with(|s| (s.oxidant, s.residual) = (PERC, residual));
    let perc_closed = |closed| with(|s| (s.oxidant, s.closed) = (PERC, Some(closed)));
    let blended = with(|s| (s.oxidant, s.blender) = (HYPO, true));
    let left = |residual| with(|s| s.residual = residual);
    let made_of = |material, oxidant| with(|s| (s.material, s.oxidant) = (Some(material), oxidant));
    let charge = |oxidant, x| with(|s| (s.oxidant, s.charge) = (oxidant, exact(share(x))));
    let drained =
        |x| with(|s| (s.residual, s.strength) = (Hypochlorite, exact(grams_per_litre(x))));
    let bottle = |x| with(|s| (s.oxidant, s.bottle_strength) = (HYPO, exact(grams_per_litre(x))));
    let antichlor = |x, closed| {
        with(|s| {
            s.oxidant = Oxidant::Peroxide.into();
            s.residual = Hypochlorite;
            s.strength = exact(grams_per_litre(x));
            s.closed = closed;
        })
    };
    vec![
        (BleachWithAcid, A::AddingAcid, left(Unknown), Danger, A::AddingAcid, clean()),
        (BleachWithAcid, A::AddingAcid, left(Hypochlorite), Danger, A::AddingAcid, left(Peroxide)),
        (BleachWithAcid, A::OpeningBottle, hypo(), Danger, A::OpeningBottle, perc()),
        (ChlorineFromLiquor, A::Bath, acid(7.7), Danger, A::Bath, acid(8.1)),
        (ResidualUnknown, A::AddingAcid, left(Unknown), Danger, A::AddingAcid, clean()),
        (BleachWithAmmonia, A::OpeningBottle, hypo(), Danger, A::OpeningBottle, perc()),
        (BleachWithPeroxide, A::Bath, perc_after(Hypochlorite), Danger, A::Bath, perc()),
        (BleachWithPeroxide, A::MakingLiquor, perc_after(Unknown), Danger, A::MakingLiquor, hypo()),
        (BleachWithSolvent, A::MakingLiquor, hypo(), Danger, A::MakingLiquor, perc()),
        (PeroxideClosed, A::Storing, perc(), Danger, A::Storing, hypo()),
        (PeroxideClosed, A::Storing, left(Peroxide), Danger, A::Storing, clean()),
        (PeroxideClosed, A::Bath, perc_closed(true), Danger, A::Bath, perc_closed(false)),
        (PeroxideHot, A::Bath, at(PERC, 55.0), Care, A::Bath, at(PERC, 50.0)),
        (PeroxideHot, A::Bath, at(PERC, 65.0), Danger, A::Bath, at(HYPO, 65.0)),
        (PowderReturned, A::OpeningBottle, perc(), Care, A::OpeningBottle, hypo()),
        (HypochloriteHot, A::Bath, at(HYPO, 45.0), Care, A::Bath, at(HYPO, 40.0)),
        (HypochloriteHot, A::MakingLiquor, at(HYPO, 70.0), Danger, A::MakingLiquor, at(PERC, 70.0)),
        (HypochloritePhLow, A::Bath, acid(8.5), Care, A::Bath, acid(9.5)),
        (HypochloritePhLow, A::Bath, acid(8.4), Danger, A::AddingAcid, acid(8.4)),
        (BlendingHot, A::BlendingHot, at(NONE, 45.0), Danger, A::BlendingHot, at(NONE, 30.0)),
        (BlendingHot, A::BlendingHot, clean(), Danger, A::Bath, clean()),
        (BlendingPeroxide, A::BlendingHot, perc(), Danger, A::BlendingHot, hypo()),
        (BlendingBleach, A::Bath, blended, Care, A::Bath, hypo()),
        (
            PeroxideAsAntichlor,
            A::AddingAntichlor,
            antichlor(5.0, Some(false)),
            Danger,
            A::AddingAntichlor,
            antichlor(1.0, Some(false)),
        ),
        (
            PeroxideAsAntichlor,
            A::AddingAntichlor,
            antichlor(1.0, None),
            Danger,
            A::Bath,
            antichlor(5.0, None),
        ),
        (SulfiteWithAcid, A::AddingAcid, with(|s| s.sulfite = true), Care, A::AddingAcid, clean()),
        (
            AluminiumWithAlkali,
            A::Heating,
            made_of(Aluminium, NONE),
            Danger,
            A::Heating,
            made_of(Enamel, NONE),
        ),
        (
            MetalWithBleach,
            A::Bath,
            made_of(OtherMetal, PERC),
            Care,
            A::Bath,
            made_of(Plastic, PERC),
        ),
        (
            MetalWithBleach,
            A::Bath,
            made_of(Stainless, HYPO),
            Care,
            A::Bath,
            made_of(Stainless, PERC),
        ),
        (HeatingBleach, A::Heating, hypo(), Care, A::Heating, clean()),
        (Scald, A::Heating, at(NONE, 70.0), Care, A::Heating, at(NONE, 40.0)),
        (StrongBottle, A::OpeningBottle, bottle(120.0), Care, A::OpeningBottle, bottle(55.0)),
        (HighCharge, A::Bath, charge(HYPO, 0.10), Care, A::Bath, charge(HYPO, 0.05)),
        (HighCharge, A::Bath, charge(HYPO, 0.13), Danger, A::MakingLiquor, charge(HYPO, 0.13)),
        (HighCharge, A::Bath, charge(PERC, 0.05), Care, A::Bath, charge(PERC, 0.02)),
        (EyesAndHands, A::MakingLiquor, hypo(), Care, A::Draining, hypo()),
        (EyesAndHands, A::Bath, perc(), Care, A::Draining, perc()),
        (Air, A::Bath, hypo(), Care, A::Bath, perc()),
        (IntoWater, A::MakingLiquor, perc(), Care, A::MakingLiquor, hypo()),
        (StoringBleach, A::Storing, hypo(), Care, A::Storing, clean()),
        (StoringPulp, A::Storing, left(Unknown), Care, A::Storing, clean()),
        (DrainOneAtATime, A::Draining, hypo(), Danger, A::Draining, clean()),
        (DrainStrong, A::Draining, drained(3.0), Care, A::Draining, drained(0.5)),
        (NotForFood, A::MakingLiquor, hypo(), Note, A::Bath, hypo()),
        (StrongBath, A::Bath, bath(HYPO, 5.0), Care, A::Bath, bath(HYPO, 4.0)),
        (StrongBath, A::Bath, bath(HYPO, 53.0), Danger, A::Bath, bath(PERC, 5.0)),
        (StrongBath, A::Bath, bath(PERC, 90.0), Danger, A::MakingLiquor, bath(HYPO, 53.0)),
        (LongBath, A::Bath, lasting(HYPO, 241.0), Care, A::Bath, lasting(HYPO, 240.0)),
        (LongBath, A::Bath, lasting(HYPO, 481.0), Danger, A::Bath, lasting(PERC, 900.0)),
        (AlkaliBurns, A::MakingLiquor, alkaline(12.1), Danger, A::Bath, alkaline(12.0)),
        (AlkaliSwellsFibre, A::Bath, alkaline(12.1), Care, A::MakingLiquor, alkaline(12.1)),
        (PeroxideWithSolvent, A::OpeningBottle, perc(), Danger, A::OpeningBottle, hypo()),
        (PeroxideWithAcid, A::AddingAcid, left(Peroxide), Danger, A::AddingAcid, clean()),
        (PeroxideWithAcid, A::MakingLiquor, perc(), Danger, A::MakingLiquor, hypo()),
        (PeroxideWithRust, A::Bath, rusty(true), Care, A::Bath, rusty(false)),
        (PeroxideWithRust, A::Bath, perc(), Care, A::Bath, hypo()),
        (PhUnknown, A::Bath, hypo(), Danger, A::Bath, acid(9.0)),
        (PhUnknown, A::AddingAcid, left(Unknown), Danger, A::AddingAcid, clean()),
        (TemperatureUnknown, A::Bath, perc(), Danger, A::Bath, at(PERC, 30.0)),
        (DoseUnknown, A::Bath, charge(HYPO, 0.05), Danger, A::Bath, bath(HYPO, 2.0)),
        (DoseUnknown, A::Draining, left(Hypochlorite), Care, A::Draining, drained(0.5)),
        (TimeUnknown, A::Bath, hypo(), Danger, A::Bath, lasting(HYPO, 60.0)),
        (BottleUnknown, A::OpeningBottle, hypo(), Care, A::OpeningBottle, bottle(55.0)),
    ]
}

#[test]
fn every_rule_applies_where_it_should_and_only_there() {
    for (id, act, s, severity, other_act, other) in cases() {
        assert_eq!(found(id, act, &s), Some(severity), "{id:?} should apply to {act:?} {s:?}");
        assert_eq!(found(id, other_act, &other), None, "{id:?} should not apply to {other:?}");
    }
}

#[test]
fn every_hazard_has_one_rule_and_a_case() {
    let rules: Vec<CautionId> = RULES.iter().map(|rule| rule.id).collect();
    assert_eq!(rules, CautionId::ALL);
    let tried: Vec<CautionId> = cases().into_iter().map(|case| case.0).collect();
    for id in CautionId::ALL {
        assert!(tried.contains(id) || *id == CautionId::LabelFirst, "{id:?} has no case");
    }
}

#[test]
fn the_label_comes_last_and_is_not_dismissable() {
    for act in Act::ALL.iter().copied() {
        for (_, _, s, ..) in cases() {
            let all = cautions(act, &s);
            let last = all.last().unwrap();
            assert_eq!(last.id, CautionId::LabelFirst);
            assert!(!last.dismissable());
            let severities: Vec<Severity> =
                all[..all.len() - 1].iter().map(|c| c.severity).collect();
            assert!(severities.is_sorted_by(|a, b| a >= b), "{severities:?}");
            for caution in &all {
                assert!(!caution.source.is_empty());
                assert!(caution.severity != Severity::Danger || !caution.dismissable());
            }
        }
    }
}

#[test]
fn unknown_facts_do_not_reduce_the_cautions_about_acid() {
    let unknown = cautions(Act::AddingAcid, &Situation::default());
    let ids: Vec<CautionId> = unknown.iter().map(|c| c.id).collect();
    assert!(ids.contains(&CautionId::BleachWithAcid) && ids.contains(&CautionId::ResidualUnknown));
}

#[test]
fn locale_keys_have_the_name_of_the_hazard() {
    assert_eq!(CautionId::DrainOneAtATime.say(), "caution-drain_one_at_a_time-say");
    assert_eq!(CautionId::DrainOneAtATime.title(), "caution-drain_one_at_a_time-title");
}

/// Cautions of a planned bath of 1 kg wet pulp in 6 % bleach.
fn planned(charge: f64, celsius: f64, vessel: Option<BathVessel>) -> Vec<CautionId> {
    let pulp = WetPulp {
        wet: Estimate::within(grams(1000.0), 0.005, Basis::Measured),
        dryness: Estimate::within(share(0.2), 0.05, Basis::OwnRecord),
    };
    let bleach = Bleach::Hypochlorite(Bottle::labelled(6.0, LabelBasis::NaoclByMass));
    let (aim, size) = (BathAim::Charge(share(charge)), BathSize::Consistency(share(0.05)));
    let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(celsius).unwrap());
    let request = PlanRequest { residual: Residual::None, vessel, ..request };
    let situation = Situation::of_plan(&request, &plan(&request).unwrap());
    cautions(Act::Bath, &situation).iter().map(|caution| caution.id).collect()
}

#[test]
fn a_plan_with_an_extreme_charge_in_a_hot_bath_has_cautions() {
    let ids = planned(0.15, 65.0, None);
    assert!(ids.contains(&CautionId::HighCharge) && ids.contains(&CautionId::HypochloriteHot));
    assert_eq!(ids.last(), Some(&CautionId::LabelFirst));
    assert!(!planned(0.02, 40.0, None).contains(&CautionId::HighCharge));
}

#[test]
fn a_plan_for_a_blender_has_the_caution_of_a_blender() {
    let vessel = BathVessel { capacity: millilitres(2000.0), kind: VesselKind::Blender };
    assert!(planned(0.02, 40.0, Some(vessel)).contains(&CautionId::BlendingBleach));
    assert!(!planned(0.02, 40.0, None).contains(&CautionId::BlendingBleach));
}

/// The least and greatest end of a plan's range decide, not the middle.
#[test]
fn a_plan_hands_over_its_whole_ranges() {
    let pulp = WetPulp {
        wet: Estimate::within(grams(1000.0), 0.005, Basis::Measured),
        dryness: Estimate {
            value: share(0.2),
            low: share(0.1),
            high: share(0.4),
            basis: Basis::Assumed,
        },
    };
    let bleach = Bleach::Hypochlorite(Bottle::labelled(6.0, LabelBasis::NaoclByMass));
    let (aim, size) = (BathAim::Charge(share(0.07)), BathSize::Consistency(share(0.05)));
    let request = PlanRequest::new(pulp, bleach, aim, size, Celsius::new(39.0).unwrap());
    let made = plan(&request).unwrap();
    let s = Situation::of_plan(&request, &made);
    let predicted = made.ph.unwrap().ph;
    assert_eq!(s.charge.unwrap().high, made.charge.high);
    assert_eq!(s.ph.unwrap().low.get(), predicted.low);
    assert_eq!(s.ph.unwrap().high.get(), predicted.high);
    assert_eq!(s.temperature.unwrap().high.get(), 41.0);
    assert_eq!(s.minutes, exact(60.0));
    let all = cautions(Act::Bath, &s);
    let of = |id| all.iter().find(|caution| caution.id == id).unwrap();
    let charge = ("charge", crate::message::Value::Share(in_share(made.charge.high)));
    assert!(of(CautionId::HighCharge).message.values.contains(&charge), "the end that fires");
    assert!(
        in_share(made.charge.value) < 0.08
            && of(CautionId::HypochloriteHot).severity == Severity::Care
    );
    assert_eq!(of(CautionId::BleachWithPeroxide).severity, Severity::Danger, "residual unknown");
}

#[test]
fn a_plan_without_a_predicted_ph_says_that_it_is_unknown() {
    let ids = planned(0.02, 90.0, None);
    assert!(ids.contains(&CautionId::PhUnknown) && ids.contains(&CautionId::HypochloriteHot));
}

fn interval(low: f64, high: f64) -> impl Strategy<Value = Interval<f64>> + Clone {
    (low..high, low..high).prop_map(|(a, b)| Interval { low: a.min(b), high: a.max(b) })
}

fn fact(low: f64, high: f64) -> impl Strategy<Value = Option<Interval<f64>>> {
    // As many narrow as wide ranges, since a wide one meets most conditions already.
    let narrow = (low..high).prop_map(Interval::exact);
    proptest::option::weighted(0.8, prop_oneof![narrow, interval(low, high)])
}

const LIMITS: [(f64, f64); 6] =
    [(0.0, 100.0), (0.0, 14.0), (0.0, 170.0), (0.0, 170.0), (0.0, 0.3), (1.0, 900.0)];

fn celsius_range(range: Interval<f64>) -> Interval<Celsius> {
    range.map(|celsius| Celsius::new(celsius).unwrap())
}

/// The measured facts in the order of [`LIMITS`].
fn numbers(s: &Situation) -> [Option<Interval<f64>>; 6] {
    [
        s.temperature.map(|t| t.map(Celsius::get)),
        s.ph.map(|ph| ph.map(Ph::get)),
        s.strength.map(|c| c.map(in_grams_per_litre)),
        s.bottle_strength.map(|c| c.map(in_grams_per_litre)),
        s.charge.map(|charge| charge.map(in_share)),
        s.minutes,
    ]
}

fn with_numbers(s: Situation, numbers: [Option<Interval<f64>>; 6]) -> Situation {
    let [temperature, ph, strength, bottle, charge, minutes] = numbers;
    let concentration =
        |c: Interval<f64>| -> Interval<MassConcentration> { c.map(grams_per_litre) };
    Situation {
        temperature: temperature.map(celsius_range),
        ph: ph.map(|ph| ph.map(|ph| Ph::new(ph).unwrap())),
        strength: strength.map(concentration),
        bottle_strength: bottle.map(concentration),
        charge: charge.map(|charge| -> Interval<Ratio> { charge.map(share) }),
        minutes,
        ..s
    }
}

fn situations() -> impl Strategy<Value = Situation> {
    use Material::{Aluminium, Enamel, Glass, OtherMetal, Plastic, Stainless};
    let oxidant = proptest::sample::select(vec![
        NONE,
        HYPO,
        PERC,
        BleachInUse::Known(Oxidant::Peroxide),
        BleachInUse::Unknown,
    ]);
    let residual = proptest::sample::select(vec![
        Residual::None,
        Residual::Hypochlorite,
        Residual::Peroxide,
        Residual::Unknown,
    ]);
    let material = proptest::option::weighted(
        0.8,
        proptest::sample::select(vec![Plastic, Glass, Enamel, Stainless, Aluminium, OtherMetal]),
    );
    let numbers = LIMITS.map(|(low, high)| fact(low, high));
    let flags = (any::<Option<bool>>(), any::<Option<bool>>(), any::<bool>(), any::<bool>());
    (oxidant, residual, material, numbers, flags).prop_map(
        |(oxidant, residual, material, numbers, (closed, rust, blender, sulfite))| {
            let s = Situation {
                oxidant,
                residual,
                material,
                closed,
                rust,
                blender,
                sulfite,
                ..Situation::default()
            };
            with_numbers(s, numbers)
        },
    )
}

/// The situation with one fact unknown, or, where `wider` is given, with a wider range.
fn known_less_of(fact: usize, wider: Option<Interval<f64>>, s: &Situation) -> Situation {
    let mut less = s.clone();
    match fact {
        6 => less.oxidant = BleachInUse::Unknown,
        7 => less.residual = Residual::Unknown,
        8 => less.material = None,
        9 => less.closed = None,
        10 => less.rust = None,
        number => {
            let mut numbers = numbers(s);
            let (least, most) = LIMITS[number];
            numbers[number] = numbers[number].and_then(|range| {
                let by = wider?;
                let low = range.low - by.low * (range.low - least);
                let high = range.high + by.high * (most - range.high);
                Some(Interval { low: low.max(least), high: high.min(most) })
            });
            less = with_numbers(less, numbers);
        }
    }
    less
}

/// Whether `more` says what `caution` says, as gravely: by the same caution, or by the one for the
/// unknown fact that `caution` rests on.
fn still_said(caution: &Caution, more: &[Caution]) -> bool {
    more.iter().any(|other| {
        let stands_for = other.id.is_of_unknown() && other.id.fact() == caution.id.fact();
        (other.id == caution.id || stands_for) && other.severity >= caution.severity
    })
}

#[test]
fn no_situation_is_milder_with_a_fact_unknown_or_a_range_wider() {
    let wider = proptest::option::of(interval(0.0, 1.0));
    let acts = proptest::sample::select(Act::ALL);
    let cases = (acts, situations(), 0..11_usize, wider);
    property::check_cases(20_000, cases, 10_000, |(act, s, fact, wider)| {
        let less = known_less_of(fact, wider, &s);
        let (before, after) = (cautions(act, &s), cautions(act, &less));
        for caution in &before {
            prop_assert!(
                still_said(caution, &after),
                "{act:?} {s:?}: {:?} {:?} is not in {less:?}",
                caution.id,
                caution.severity
            );
        }
        // Counted: a fact was known and is less so.
        Ok(less != s)
    });
}

/// [`Situation`] is exhaustive here, so that a new fact is added to the property above.
#[test]
fn the_property_varies_every_fact() {
    let Situation {
        oxidant: _,
        residual: _,
        temperature: _,
        ph: _,
        strength: _,
        bottle_strength: _,
        charge: _,
        minutes: _,
        closed: _,
        material: _,
        rust: _,
        blender: _,
        sulfite: _,
    } = Situation::default();
}

#[test]
fn the_gas_limit_is_highest_at_an_end_of_the_temperatures() {
    for strength in [0.01, 0.1, 0.5, 2.0, 5.0, 20.0, 60.0, 175.0] {
        let limits: Vec<f64> = (1..=16)
            .map(|step| {
                let s = with(|s| {
                    s.oxidant = HYPO;
                    (s.strength, s.ph) = (exact(grams_per_litre(strength)), ph(0.0));
                    s.temperature = c(5.0 * f64::from(step));
                });
                let all = cautions(Act::Bath, &s);
                let Some(found) = all.iter().find(|c| c.id == CautionId::ChlorineFromLiquor) else {
                    return 0.0;
                };
                let Some((_, crate::message::Value::Ph(limit))) = found.message.values.get(1)
                else {
                    panic!("the second value is the limit")
                };
                *limit
            })
            .collect();
        let peak = limits.windows(3).any(|at| at[1] > at[0].max(at[2]));
        assert!(!peak, "{strength} g/L: {limits:?}");
    }
}

#[test]
fn stored_names_stay_as_format_1_wrote_them() {
    assert_eq!(CautionId::Scald.stored_name(), "caution.scald.say");
    assert_eq!(CautionId::BleachWithAcid.stored_name(), "caution.bleach_with_acid.say");
    for id in CautionId::ALL {
        let stored = id.stored_name();
        let parts: Vec<&str> = stored.split('.').collect();
        assert!(matches!(parts[..], ["caution", _, "say"]), "{stored}");
    }
}

#[test]
fn a_cook_warns_of_what_its_liquor_is() {
    use crate::pulp::cook::{CookAlkali, CookRequest};
    let of = |alkali, celsius| {
        let request = CookRequest {
            dry_fibre: Estimate::exact(grams(200.0), Basis::Measured),
            alkali,
            charge: Estimate::exact(share(0.2), Basis::Measured),
            purity: share(1.0),
            litres_per_kilogram: 15.0,
            pot: millilitres(5000.0),
            celsius,
            minutes: 120.0,
        };
        let all = cook_cautions(alkali, &request.plan().unwrap(), celsius);
        assert_eq!(all.last().map(|caution| caution.id), Some(CautionId::LabelFirst));
        all.into_iter().map(|caution| caution.id).collect::<Vec<_>>()
    };
    let (soda, lye) = (of(CookAlkali::SodaAsh, 98.0), of(CookAlkali::Lye, 98.0));
    for all in [&soda, &lye] {
        assert!(all.contains(&CautionId::AluminiumWithAlkali) && all.contains(&CautionId::Scald));
        assert!(!all.contains(&CautionId::EyesAndHands) && !all.contains(&CautionId::PhUnknown));
    }
    // 13 g/L of lye is above pH 13, of soda ash below 12.
    assert!(lye.contains(&CautionId::AlkaliBurns) && !soda.contains(&CautionId::AlkaliBurns));
    assert!(!of(CookAlkali::SodaAsh, 30.0).contains(&CautionId::Scald));
}
