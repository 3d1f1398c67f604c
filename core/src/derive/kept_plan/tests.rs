#![allow(clippy::unwrap_used)]

use jiff::{SignedDuration, Timestamp};

use super::*;
use crate::{
    bath::{
        ACID_PULP_PH, BathAim, BathSize, Bleach, Bottle, LabelBasis, PlanRequest, Powder,
        PowderBasis, plan,
    },
    caution::{Act, CautionId, Residual, cautions},
    chemistry::Oxidant,
    derive::{
        plan_record,
        sample::{book_of, exact, rinse, weighed},
    },
    journal::{
        Acid, AcidFinished, Added, Additive, Amount, BathStarted, Cook, Corrected, ProductAdded,
        ProductFinished, ProductKind, ProductUsed, Storage, Strength, StrengthFound,
        StrengthMethod, Subject, Weighed, Withdrawn, sample::bath_started,
    },
    message::Value,
    pulp::WetPulp,
    quantity::{Celsius, grams, grams_per_litre, share},
};

const BATCH: Ulid = Ulid::from_parts(1, 1);
const BOTTLE: Ulid = Ulid::from_parts(1, 2);

fn powder() -> Bleach {
    Bleach::Percarbonate(Powder::labelled(share(0.95), PowderBasis::Percarbonate))
}

fn bottle(g_per_l: f64) -> Strength {
    Bleach::Hypochlorite(Bottle::labelled(g_per_l, LabelBasis::ChlorineGramsPerLitre)).strength()
}

fn record(bleach: Bleach, celsius: f64, minutes: f64) -> PlanRecord {
    let pulp = WetPulp::new(exact(1250.0).map(grams), exact(0.2).map(share)).unwrap();
    let (aim, size) = (BathAim::Charge(share(0.02)), BathSize::Consistency(share(0.05)));
    let at = Celsius::new(celsius).unwrap();
    let request = PlanRequest {
        minutes: Some(minutes),
        residual: Residual::None,
        ..PlanRequest::new(pulp, bleach, aim, size, at)
    };
    plan_record(&request, &plan(&request).unwrap(), ProductUsed::typed(&bleach))
}

fn percarbonate() -> Body {
    Body::Planned(Box::new(record(powder(), 52.0, 120.0)))
}

/// A plan with a bottle of the shelf that had 50 g/L.
fn hypochlorite() -> Body {
    let bleach = Bleach::Hypochlorite(bottle(50.0).bottle().unwrap());
    let mut record = record(bleach, 38.0, 60.0);
    record.product.shelf = Some(BOTTLE);
    record.product.name = "Blue bottle".into();
    Body::Planned(Box::new(record))
}

fn on_shelf(product: ProductKind, strength: Strength) -> (Subject, Body) {
    let added = ProductAdded {
        name: "Blue bottle".into(),
        product,
        strength: Some(strength),
        size: None,
        bought: None,
        made: None,
        opened: None,
        storage: Storage::default(),
        price: None,
        note: String::new(),
    };
    (Subject::Bottle(BOTTLE), Body::ProductAdded(added))
}

fn of_batch(body: Body) -> (Subject, Body) {
    (Subject::Batch(BATCH), body)
}

fn kept_at(entries: Vec<(Subject, Body)>, now: Timestamp) -> Option<KeptPlan> {
    let book = book_of(entries);
    KeptPlan::of(&book, &book.batches[&BATCH], now)
}

/// One entry a minute; now is an hour after the first.
fn kept(bodies: Vec<Body>) -> Option<KeptPlan> {
    let now = Timestamp::UNIX_EPOCH + SignedDuration::from_hours(1);
    kept_at(bodies.into_iter().map(of_batch).collect(), now)
}

/// The changes by what was written after the plan.
fn changes(plan: Body, since: Vec<Body>) -> Vec<PlanChange> {
    kept([weighed(), plan].into_iter().chain(since).collect()).unwrap().changes
}

/// The changes of a plan with the bottle of the shelf, by what became of the bottle.
fn changes_of_bottle(since: Vec<Body>, days: i64) -> Vec<PlanChange> {
    let mut entries = vec![
        on_shelf(ProductKind::Hypochlorite, bottle(50.0)),
        of_batch(weighed()),
        of_batch(hypochlorite()),
    ];
    entries.extend(since.into_iter().map(|body| (Subject::Bottle(BOTTLE), body)));
    let now = Timestamp::UNIX_EPOCH + SignedDuration::from_hours(1 + 24 * days);
    kept_at(entries, now).unwrap().changes
}

fn added(what: Additive) -> Body {
    let amount = Amount::MassG(exact(10.0));
    Body::Added(Added { bath: None, what, product: None, amount, note: String::new() })
}

/// Acid was added, and no pH read.
fn acid_unread() -> Body {
    Body::AcidFinished(AcidFinished {
        acid: Acid::Citric,
        product: None,
        amount: Amount::MassG(exact(1.0)),
        ph_before: None,
        ph_after: None,
        note: String::new(),
    })
}

fn lump(wet_g: f64, dryness: f64) -> Body {
    let Body::Weighed(before) = weighed() else { unreachable!("the sample is a weighing") };
    Body::Weighed(Weighed { wet_mass_g: exact(wet_g), dryness: exact(dryness), ..before })
}

#[test]
fn a_plan_waits_as_it_was_made() {
    let kept = kept(vec![weighed(), percarbonate()]).unwrap();
    let record = &kept.record;
    assert_eq!((record.celsius, record.minutes), (52.0, 120.0));
    assert_eq!(Oxidant::from(record.oxidant), Oxidant::Percarbonate);
    assert_eq!(kept.changes, []);
    assert!(!kept.is_stopped());
}

#[test]
fn the_last_plan_counts_and_a_withdrawn_one_does_not() {
    let entries = vec![weighed(), percarbonate(), hypochlorite()];
    let book = book_of(entries.clone().into_iter().map(of_batch));
    let now = Timestamp::UNIX_EPOCH;
    let last = KeptPlan::of(&book, &book.batches[&BATCH], now).unwrap();
    assert_eq!(last.record.celsius, 38.0);
    let withdrawn = Body::Withdrawn(Withdrawn { entry: last.entry, why: String::new() });
    let before = kept([entries, vec![withdrawn]].concat()).unwrap();
    assert_eq!(before.record.celsius, 52.0);
    assert_eq!(kept(vec![weighed()]), None);
}

#[test]
fn a_bath_ends_it() {
    let bath = Ulid::from_parts(2, 2);
    let started = bath_started(bath, crate::journal::Oxidant::Percarbonate);
    let other = Body::BathStarted(started.clone());
    assert_eq!(kept(vec![weighed(), percarbonate(), other.clone()]), None);
    // A bath before it is not of this plan.
    assert!(kept(vec![weighed(), other.clone(), percarbonate()]).is_some());
    // Written before the plan by a clock that was behind, and yet it follows the plan.
    let book = book_of([of_batch(other), of_batch(percarbonate())]);
    let plan = book.entries().last().unwrap().id;
    let follows = Body::BathStarted(BathStarted { plan: Some(plan), ..started });
    assert_eq!(kept(vec![follows, percarbonate()]), None);
}

#[test]
fn weighed_again() {
    let change = |wet, dryness| changes(percarbonate(), vec![lump(wet, dryness)]);
    assert_eq!(change(1255.0, 0.2), []);
    let now = (grams(1300.0), 0.2);
    let planned = (grams(1250.0), 0.2);
    assert_eq!(change(1300.0, 0.2), [PlanChange::Weighed { planned, now }]);
    assert!(matches!(change(1250.0, 0.22)[..], [PlanChange::Weighed { .. }]));
    assert!(!change(1300.0, 0.2)[0].stops());
}

#[test]
fn a_weighing_withdrawn_or_corrected() {
    let book = book_of([of_batch(weighed()), of_batch(percarbonate())]);
    let entry = book.entries().next().unwrap().id;
    let withdrawn = Body::Withdrawn(Withdrawn { entry, why: String::new() });
    assert_eq!(changes(percarbonate(), vec![withdrawn]), [PlanChange::NotWeighed]);
    let corrected =
        Corrected { entry, body: Box::new(lump(900.0, 0.2)), at: None, why: String::new() };
    let found = changes(percarbonate(), vec![Body::Corrected(corrected)]);
    assert!(matches!(found[..], [PlanChange::Weighed { .. }]), "{found:?}");
}

#[test]
fn rinsed_and_not_weighed_since() {
    assert_eq!(changes(percarbonate(), vec![rinse(5.0, None, None)]), [PlanChange::Rinsed]);
    let weighed_after = vec![rinse(5.0, None, None), weighed()];
    assert_eq!(changes(percarbonate(), weighed_after), []);
}

#[test]
fn the_bottle_aged() {
    assert_eq!(changes_of_bottle(vec![], 1), []);
    let found = changes_of_bottle(vec![], 120);
    let [PlanChange::Strength { product, planned, now }] = &found[..] else { panic!("{found:?}") };
    assert_eq!(product, "Blue bottle");
    let (Value::Concentration(planned), Value::Concentration(now)) = (planned, now) else {
        panic!("{found:?}")
    };
    assert!(now < planned);
}

#[test]
fn the_bottle_was_measured_again() {
    let found = |g_per_l: f64| {
        let strength = Bleach::Hypochlorite(Bottle::titrated(exact(g_per_l).map(grams_per_litre)));
        Body::StrengthFound(StrengthFound {
            method: StrengthMethod::IodometricTitration,
            strength: strength.strength(),
            runs: Vec::new(),
            dilution: None,
            strip_mg_per_l: None,
            note: String::new(),
        })
    };
    assert_eq!(changes_of_bottle(vec![found(49.0)], 0), []);
    // Inside the range of the label, but off by more than 5 %.
    let weaker = changes_of_bottle(vec![found(46.0)], 0);
    assert!(matches!(weaker[..], [PlanChange::Strength { .. }]), "{weaker:?}");
    assert!(!weaker[0].stops());
}

#[test]
fn a_strength_that_is_no_longer_known_stops_it() {
    let long = changes_of_bottle(vec![], 10_000);
    assert_eq!(long, [PlanChange::StrengthUnknown { product: "Blue bottle".into() }]);
    assert!(long[0].stops());
}

#[test]
fn the_bottle_is_used_up_or_gone() {
    let product = || "Blue bottle".to_owned();
    let used_up = Body::ProductFinished(ProductFinished::default());
    let finished = PlanChange::ProductFinished { product: product() };
    assert_eq!(changes_of_bottle(vec![used_up], 0), [finished]);
    let gone = PlanChange::ProductGone { product: product() };
    assert_eq!(changes(hypochlorite(), vec![]), std::slice::from_ref(&gone));
    let now = Timestamp::UNIX_EPOCH + SignedDuration::from_hours(1);
    let other = on_shelf(ProductKind::Percarbonate, powder().strength());
    let entries = vec![other, of_batch(weighed()), of_batch(hypochlorite())];
    assert_eq!(kept_at(entries, now).unwrap().changes, [gone]);
}

#[test]
fn another_oxidant_stops_it() {
    let clash = |left| PlanChange::OtherOxidant { left, planned: Oxidant::Percarbonate };
    let after = |what| changes(percarbonate(), vec![added(what)]);
    assert_eq!(after(Additive::Hypochlorite), [clash(Residual::Hypochlorite)]);
    assert_eq!(after(Additive::Other), [clash(Residual::Unknown)]);
    assert_eq!(after(Additive::Peroxide), []);
    assert_eq!(after(Additive::SodaAsh), []);
    let kept = kept(vec![weighed(), percarbonate(), added(Additive::Hypochlorite)]).unwrap();
    assert!(kept.is_stopped());
    let cautions = cautions(Act::Bath, &kept.situation);
    assert!(cautions.iter().any(|caution| caution.id == CautionId::BleachWithPeroxide));
}

#[test]
fn a_running_bath_stops_it() {
    let bath = Ulid::from_parts(2, 2);
    let running = Body::BathStarted(bath_started(bath, crate::journal::Oxidant::Percarbonate));
    let kept = kept(vec![weighed(), running, percarbonate()]).unwrap();
    assert_eq!(kept.changes, [PlanChange::BathRunning]);
    assert!(kept.is_stopped());
}

#[test]
fn acid_in_the_pulp_stops_hypochlorite() {
    let typed = || {
        let bleach = Bleach::Hypochlorite(bottle(50.0).bottle().unwrap());
        Body::Planned(Box::new(record(bleach, 38.0, 60.0)))
    };
    let cooked = |ph| Body::Cooked(Cook { ph_after_rinse: Some(exact(ph)), ..Cook::default() });
    let hypochlorite = |since| changes(typed(), since);
    let planned = Oxidant::Hypochlorite;
    assert_eq!(hypochlorite(vec![cooked(ACID_PULP_PH)]), []);
    let acid = PlanChange::AcidPulp { ph: Some(5.0), planned };
    assert!(acid.stops());
    assert_eq!(hypochlorite(vec![cooked(5.0)]), [acid]);
    // Read again, and no longer acid.
    assert_eq!(hypochlorite(vec![cooked(5.0), cooked(8.0)]), []);
    let unknown = PlanChange::AcidPulp { ph: None, planned };
    assert_eq!(hypochlorite(vec![acid_unread()]), [unknown]);
    let peroxide = changes(percarbonate(), vec![acid_unread()]);
    assert!(matches!(peroxide[..], [PlanChange::AcidPulp { .. }]) && !peroxide[0].stops());
}

#[test]
fn the_last_ph_of_the_pulps_water_stands_until_acid_is_added() {
    let of = |bodies: Vec<Body>| {
        let book = book_of(bodies.into_iter().map(of_batch));
        PulpWaterPh::of(&book.batches[&BATCH])
    };
    let cooked = Body::Cooked(Cook { ph_after_rinse: Some(exact(9.0)), ..Cook::default() });
    let rinsed = rinse(5.0, None, Some(8.0));
    assert_eq!(of(vec![weighed()]), PulpWaterPh::NotRead);
    assert_eq!(of(vec![cooked.clone(), rinse(5.0, None, None)]), PulpWaterPh::Read(exact(9.0)));
    assert_eq!(of(vec![cooked.clone(), rinsed.clone()]), PulpWaterPh::Read(exact(8.0)));
    assert_eq!(of(vec![cooked, rinsed, acid_unread()]), PulpWaterPh::AcidSince);
}

#[test]
fn a_record_has_the_cautions_of_its_plan() {
    let Body::Planned(record) = percarbonate() else { unreachable!("a plan") };
    let now = Situation::of_record(&record, Residual::None);
    let shown: Vec<String> =
        cautions(Act::Bath, &now).iter().map(|caution| caution.id.stored_name()).collect();
    for caution in &record.cautions {
        assert!(shown.contains(caution), "{caution} is missing among {shown:?}");
    }
}

#[test]
fn the_last_started_plan_is_the_latest_of_its_oxidant() {
    use crate::{derive::last_started_plan, journal::Oxidant};
    // Ids depend on the place in the book alone.
    let planned = [of_batch(hypochlorite()), of_batch(percarbonate())];
    let ids: Vec<Ulid> = book_of(planned.clone()).entries().map(|entry| entry.id).collect();
    let started = |nth: usize, oxidant| {
        let bath = bath_started(Ulid::from_parts(2, nth as u128), oxidant);
        of_batch(Body::BathStarted(BathStarted { plan: Some(ids[nth]), ..bath }))
    };
    let book = book_of(planned.clone());
    assert_eq!(last_started_plan(&book, Oxidant::Percarbonate), None, "kept, not started");
    let [bottle, powder] = planned;
    let book = book_of([
        bottle,
        powder,
        started(0, Oxidant::Hypochlorite),
        started(1, Oxidant::Percarbonate),
    ]);
    let celsius = |oxidant| last_started_plan(&book, oxidant).map(|plan| plan.celsius);
    assert_eq!(celsius(Oxidant::Percarbonate), Some(52.0));
    assert_eq!(celsius(Oxidant::Hypochlorite), Some(38.0));
    assert_eq!(celsius(Oxidant::Peroxide), None);
}

#[test]
fn a_stored_plan_is_measured_out_as_it_was_planned() {
    use crate::derive::BathToMeasure;
    let planned = record(powder(), 52.0, 120.0);
    let bath = BathToMeasure::of(&planned);
    assert_eq!(bath.loads, 1);
    assert_eq!(bath.whole, bath.each);
    let Amount::MassG(need) = planned.product_amount else { panic!("a powder is weighed") };
    let crate::bath::BleachAmount::Powder(mass) = bath.whole.dose.amount() else { panic!() };
    let g = crate::quantity::in_grams(mass);
    assert!(need.low <= g && g <= need.high, "{g} of {need:?}");
    // The pulp is colder than the bath, so that the water is warmer.
    assert!(bath.water_at.unwrap().get() > 52.0);
}
