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
    use Residual::{Hypochlorite, Peroxide, Unknown};
    use {Act as A, CautionId::*, Material::*, Severity::*};
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
    let perc_after = |residual| with(|s| (s.oxidant, s.residual) = (PERC, residual));
    let perc_closed = |closed| with(|s| (s.oxidant, s.closed) = (PERC, Some(closed)));
    let blended = with(|s| (s.oxidant, s.blender) = (HYPO, true));
    let left = |residual| with(|s| s.residual = residual);
    let made_of = |material, oxidant| with(|s| (s.material, s.oxidant) = (Some(material), oxidant));
    let charge = |oxidant, x| with(|s| (s.oxidant, s.charge) = (oxidant, Some(share(x))));
    let strength = |x| with(|s| s.strength = Some(grams_per_litre(x)));
    let bottle = |x| with(|s| (s.oxidant, s.bottle_strength) = (HYPO, Some(grams_per_litre(x))));
    let antichlor = |x, closed| {
        with(|s| {
            s.oxidant = Some(Oxidant::Peroxide);
            s.residual = Hypochlorite;
            s.strength = Some(grams_per_litre(x));
            s.closed = closed;
        })
    };
    vec![
        (BleachWithAcid, A::AddingAcid, left(Unknown), Danger, A::AddingAcid, clean()),
        (BleachWithAcid, A::AddingAcid, left(Hypochlorite), Danger, A::AddingAcid, left(Peroxide)),
        (BleachWithAcid, A::OpeningBottle, hypo(), Danger, A::OpeningBottle, perc()),
        (ChlorineFromLiquor, A::Bath, ph(7.3), Danger, A::Bath, ph(7.6)),
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
        (HypochloritePhLow, A::Bath, ph(8.5), Care, A::Bath, ph(9.5)),
        (BlendingHot, A::BlendingHot, at(None, 45.0), Danger, A::BlendingHot, at(None, 30.0)),
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
            made_of(Aluminium, None),
            Danger,
            A::Heating,
            made_of(Enamel, None),
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
        (Scald, A::Heating, at(None, 70.0), Care, A::Heating, at(None, 40.0)),
        (StrongBottle, A::OpeningBottle, bottle(120.0), Care, A::OpeningBottle, bottle(55.0)),
        (HighCharge, A::Bath, charge(HYPO, 0.10), Care, A::Bath, charge(HYPO, 0.05)),
        (HighCharge, A::Bath, charge(PERC, 0.05), Care, A::Bath, charge(PERC, 0.02)),
        (EyesAndHands, A::MakingLiquor, hypo(), Care, A::Draining, hypo()),
        (Air, A::Bath, hypo(), Care, A::Bath, perc()),
        (IntoWater, A::MakingLiquor, perc(), Care, A::MakingLiquor, hypo()),
        (StoringBleach, A::Storing, hypo(), Care, A::Storing, clean()),
        (StoringPulp, A::Storing, left(Unknown), Care, A::Storing, clean()),
        (DrainOneAtATime, A::Draining, hypo(), Danger, A::Draining, clean()),
        (DrainStrong, A::Draining, strength(3.0), Care, A::Draining, strength(0.5)),
        (NotForFood, A::MakingLiquor, hypo(), Note, A::Bath, hypo()),
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
