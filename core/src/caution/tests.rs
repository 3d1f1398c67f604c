//! Each rule applies where it should, and only there.

#![allow(clippy::unwrap_used)]

use super::*;
use crate::{
    bath::{
        BathAim, BathSize, BathVessel, Bleach, Bottle, LabelBasis, PlanRequest, VesselKind, plan,
    },
    chemistry::Oxidant,
    pulp::WetPulp,
    quantity::{Basis, Celsius, Estimate, Ph, grams, grams_per_litre, millilitres, share},
};

fn with(change: impl FnOnce(&mut Situation)) -> Situation {
    let mut s = Situation { residual: Residual::None, ..Situation::default() };
    change(&mut s);
    s
}

fn found(id: CautionId, act: Act, s: &Situation) -> Option<Severity> {
    cautions(act, s).iter().find(|c| c.id == id).map(|c| c.severity)
}

fn c(value: f64) -> Option<Celsius> {
    Some(Celsius::new(value).unwrap())
}

const HYPO: Option<Oxidant> = Some(Oxidant::Hypochlorite);
const PERC: Option<Oxidant> = Some(Oxidant::Percarbonate);

/// A rule, where it applies with which severity, and where it does not.
type RuleCase = (CautionId, Act, Situation, Severity, Act, Situation);

fn cases() -> Vec<RuleCase> {
    use {Act as A, CautionId as Id, Severity as S};
    let hypo = || with(|s| s.oxidant = HYPO);
    let perc = || with(|s| s.oxidant = PERC);
    let clean = || with(|_| {});
    let at = |oxidant, t| with(|s| (s.oxidant, s.temperature) = (oxidant, c(t)));
    let ph = |value| {
        with(|s| {
            s.oxidant = HYPO;
            s.strength = Some(grams_per_litre(2.0));
            s.ph = Some(Ph::new(value).unwrap());
        })
    };
    let left = |residual| with(|s| s.residual = residual);
    let made_of = |material, oxidant| with(|s| (s.material, s.oxidant) = (Some(material), oxidant));
    let charge = |oxidant, x| with(|s| (s.oxidant, s.charge) = (oxidant, Some(share(x))));
    let strength = |x| with(|s| s.strength = Some(grams_per_litre(x)));
    let bottle = |x| with(|s| (s.oxidant, s.bottle_strength) = (HYPO, Some(grams_per_litre(x))));
    let antichlor = |x, closed| {
        with(|s| {
            s.oxidant = Some(Oxidant::Peroxide);
            s.residual = Residual::Hypochlorite;
            s.strength = Some(grams_per_litre(x));
            s.closed = closed;
        })
    };
    vec![
        (
            Id::BleachWithAcid,
            A::AddingAcid,
            left(Residual::Unknown),
            S::Danger,
            A::AddingAcid,
            clean(),
        ),
        (
            Id::BleachWithAcid,
            A::AddingAcid,
            left(Residual::Hypochlorite),
            S::Danger,
            A::AddingAcid,
            left(Residual::Peroxide),
        ),
        (Id::BleachWithAcid, A::OpeningBottle, hypo(), S::Danger, A::OpeningBottle, perc()),
        (Id::ChlorineFromLiquor, A::Bath, ph(7.3), S::Danger, A::Bath, ph(7.6)),
        (
            Id::ResidualUnknown,
            A::AddingAcid,
            left(Residual::Unknown),
            S::Danger,
            A::AddingAcid,
            clean(),
        ),
        (Id::BleachWithAmmonia, A::OpeningBottle, hypo(), S::Danger, A::OpeningBottle, perc()),
        (
            Id::BleachWithPeroxide,
            A::Bath,
            with(|s| (s.oxidant, s.residual) = (PERC, Residual::Hypochlorite)),
            S::Danger,
            A::Bath,
            perc(),
        ),
        (
            Id::BleachWithPeroxide,
            A::MakingLiquor,
            with(|s| (s.oxidant, s.residual) = (PERC, Residual::Unknown)),
            S::Danger,
            A::MakingLiquor,
            hypo(),
        ),
        (Id::BleachWithSolvent, A::MakingLiquor, hypo(), S::Danger, A::MakingLiquor, perc()),
        (Id::PeroxideClosed, A::Storing, perc(), S::Danger, A::Storing, hypo()),
        (Id::PeroxideClosed, A::Storing, left(Residual::Peroxide), S::Danger, A::Storing, clean()),
        (
            Id::PeroxideClosed,
            A::Bath,
            with(|s| (s.oxidant, s.closed) = (PERC, Some(true))),
            S::Danger,
            A::Bath,
            with(|s| (s.oxidant, s.closed) = (PERC, Some(false))),
        ),
        (Id::PeroxideHot, A::Bath, at(PERC, 55.0), S::Care, A::Bath, at(PERC, 50.0)),
        (Id::PeroxideHot, A::Bath, at(PERC, 65.0), S::Danger, A::Bath, at(HYPO, 65.0)),
        (Id::PowderReturned, A::OpeningBottle, perc(), S::Care, A::OpeningBottle, hypo()),
        (Id::HypochloriteHot, A::Bath, at(HYPO, 45.0), S::Care, A::Bath, at(HYPO, 40.0)),
        (
            Id::HypochloriteHot,
            A::MakingLiquor,
            at(HYPO, 70.0),
            S::Danger,
            A::MakingLiquor,
            at(PERC, 70.0),
        ),
        (Id::HypochloritePhLow, A::Bath, ph(8.5), S::Care, A::Bath, ph(9.5)),
        (
            Id::BlendingHot,
            A::BlendingHot,
            at(None, 45.0),
            S::Danger,
            A::BlendingHot,
            at(None, 30.0),
        ),
        (Id::BlendingHot, A::BlendingHot, clean(), S::Danger, A::Bath, clean()),
        (Id::BlendingPeroxide, A::BlendingHot, perc(), S::Danger, A::BlendingHot, hypo()),
        (
            Id::BlendingBleach,
            A::Bath,
            with(|s| (s.oxidant, s.blender) = (HYPO, true)),
            S::Care,
            A::Bath,
            hypo(),
        ),
        (
            Id::PeroxideAsAntichlor,
            A::AddingAntichlor,
            antichlor(5.0, Some(false)),
            S::Danger,
            A::AddingAntichlor,
            antichlor(1.0, Some(false)),
        ),
        (
            Id::PeroxideAsAntichlor,
            A::AddingAntichlor,
            antichlor(1.0, None),
            S::Danger,
            A::Bath,
            antichlor(5.0, None),
        ),
        (
            Id::SulfiteWithAcid,
            A::AddingAcid,
            with(|s| s.sulfite = true),
            S::Care,
            A::AddingAcid,
            clean(),
        ),
        (
            Id::AluminiumWithAlkali,
            A::Heating,
            made_of(Material::Aluminium, None),
            S::Danger,
            A::Heating,
            made_of(Material::Enamel, None),
        ),
        (
            Id::MetalWithBleach,
            A::Bath,
            made_of(Material::OtherMetal, PERC),
            S::Care,
            A::Bath,
            made_of(Material::Plastic, PERC),
        ),
        (
            Id::MetalWithBleach,
            A::Bath,
            made_of(Material::Stainless, HYPO),
            S::Care,
            A::Bath,
            made_of(Material::Stainless, PERC),
        ),
        (Id::HeatingBleach, A::Heating, hypo(), S::Care, A::Heating, clean()),
        (Id::Scald, A::Heating, at(None, 70.0), S::Care, A::Heating, at(None, 40.0)),
        (
            Id::StrongBottle,
            A::OpeningBottle,
            bottle(120.0),
            S::Care,
            A::OpeningBottle,
            bottle(55.0),
        ),
        (Id::HighCharge, A::Bath, charge(HYPO, 0.10), S::Care, A::Bath, charge(HYPO, 0.05)),
        (Id::HighCharge, A::Bath, charge(PERC, 0.05), S::Care, A::Bath, charge(PERC, 0.02)),
        (Id::EyesAndHands, A::MakingLiquor, hypo(), S::Care, A::Draining, hypo()),
        (Id::Air, A::Bath, hypo(), S::Care, A::Bath, perc()),
        (Id::IntoWater, A::MakingLiquor, perc(), S::Care, A::MakingLiquor, hypo()),
        (Id::StoringBleach, A::Storing, hypo(), S::Care, A::Storing, clean()),
        (Id::StoringPulp, A::Storing, left(Residual::Unknown), S::Care, A::Storing, clean()),
        (Id::DrainOneAtATime, A::Draining, hypo(), S::Danger, A::Draining, clean()),
        (Id::DrainStrong, A::Draining, strength(3.0), S::Care, A::Draining, strength(0.5)),
        (Id::NotForFood, A::MakingLiquor, hypo(), S::Note, A::Bath, hypo()),
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
