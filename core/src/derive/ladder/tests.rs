#![allow(clippy::unwrap_used)]

use super::*;
use crate::derive::Station;
use crate::derive::sample::{book, exact, reading, rinse, weighed};
use crate::journal::{
    Acid, AcidFinished, Amount, Antichlor, Antichlored, BathStopped, EndTest, EndTestOf, Outcome,
    Oxidant, ReadingOf, Rinsed, SignedOff, StopReason, StripOf, sample::bath_started,
};

use EndTestKind::{ChlorineStrip, Feel, PeroxideStrip, RinsePh};
use RungKind::{Acid as AcidRung, Antichlor as AntichlorRung, Drain, Rinse, SignOff, Store, Test};

fn bath(oxidant: Oxidant) -> Vec<Body> {
    let bath = Ulid(1);
    let stopped = BathStopped { bath, why: StopReason::TimeUp, note: String::new() };
    vec![weighed(), Body::BathStarted(bath_started(bath, oxidant)), Body::BathStopped(stopped)]
}

fn ladder(oxidant: Oxidant, after: Vec<Body>) -> Ladder {
    let book = book([bath(oxidant), after].concat());
    let batch = book.batches.values().next().unwrap();
    Ladder::of(&book, batch).unwrap()
}

fn after_chlorine(after: Vec<Body>) -> Ladder {
    ladder(Oxidant::Hypochlorite, after)
}

fn named(strip: f64, strip_of: StripOf, ph: f64) -> Body {
    let Body::Rinsed(rinse) = rinse(5.0, Some(strip), Some(ph)) else { unreachable!() };
    Body::Rinsed(Rinsed { strip_of: Some(strip_of), ..rinse })
}

fn chlorine(strip: f64, ph: f64) -> Body {
    named(strip, StripOf::AvailableChlorine, ph)
}

fn tap() -> Body {
    reading(ReadingOf::TapPh, exact(7.4))
}

fn passed(test: EndTestOf) -> Body {
    Body::EndTest(EndTest { test, outcome: Outcome::Passed, figure: None, note: String::new() })
}

fn antichlor() -> Body {
    Body::Antichlored(Antichlored {
        reagent: Antichlor::ThiosulfatePentahydrate,
        product: None,
        grams: exact(1.0),
        minutes: None,
        strip_mg_per_l: None,
        note: String::new(),
    })
}

fn kinds(ladder: &Ladder, state: RungState) -> Vec<RungKind> {
    let rungs = ladder.rungs.iter().filter(|rung| rung.state == state);
    rungs.map(|rung| rung.kind).collect()
}

#[test]
fn there_is_no_ladder_before_a_bath_or_while_one_runs() {
    let of = |bodies| {
        let book = book(bodies);
        Ladder::of(&book, book.batches.values().next().unwrap())
    };
    assert_eq!(of(vec![weighed(), rinse(5.0, None, None)]), None);
    assert_eq!(of(bath(Oxidant::Hypochlorite)[..2].to_vec()), None);
}

#[test]
fn draining_comes_first_then_a_rinse_at_least() {
    let stopped = after_chlorine(vec![]);
    assert_eq!(stopped.now(), Some(Drain));
    let ahead = [Rinse(1), Test(ChlorineStrip), Test(RinsePh), Test(Feel), SignOff, Store];
    assert_eq!(kinds(&stopped, RungState::Ahead), ahead);
    // Nothing was read and nothing planned: the number is not known.
    assert_eq!(stopped.ahead.count, None);
}

#[test]
fn rinses_ahead_fall_with_each_rinse_and_follow_each_reading() {
    let read = || {
        vec![
            reading(ReadingOf::AvailableChlorineMgPerL, exact(500.0)),
            reading(ReadingOf::Ph, exact(10.5)),
        ]
    };
    let count = |after: Vec<Body>| after_chlorine([read(), after].concat()).ahead.count.unwrap();
    let rinses = |n| vec![rinse(5.0, None, None); n];
    let [first, second, third] = [1, 2, 3].map(|n| count(rinses(n)));
    assert!(first > second && second > third, "{first} {second} {third}");
    assert_eq!((first - second, second - third), (1, 1), "no reading: one less for each");
    // A strip that reads far less than predicted leaves fewer, one that reads more leaves more.
    let with_strip = |mg| count([rinses(1), vec![rinse(5.0, Some(mg), Some(8.0))]].concat());
    assert!(with_strip(1.0) < second && with_strip(400.0) > second);
}

#[test]
fn the_reading_of_a_rinse_proves_and_only_what_is_missing_is_asked() {
    let clean = after_chlorine(vec![chlorine(20.0, 9.0), chlorine(0.0, 7.5), tap()]);
    let done = [Drain, Rinse(1), Rinse(2), Test(ChlorineStrip), Test(RinsePh)];
    assert_eq!(kinds(&clean, RungState::Done), done);
    assert_eq!(clean.now(), Some(Test(Feel)));
    // The tap was not read: its pH is asked for, that of the rinse is known.
    let no_tap = after_chlorine(vec![chlorine(0.0, 7.5)]);
    let ph = no_tap.rungs.iter().find(|rung| rung.kind == Test(RinsePh)).unwrap();
    assert_eq!((ph.state, ph.ph.map(|ph| ph.value)), (RungState::Now, Some(7.5)));
}

#[test]
fn a_failed_test_leads_to_another_rinse_and_then_to_the_test() {
    let failed = after_chlorine(vec![chlorine(3.0, 7.5), tap()]);
    assert_eq!(failed.now(), Some(Rinse(2)));
    // pH below the tap's cannot be predicted away, and still calls for a rinse.
    let sour = after_chlorine(vec![tap(), chlorine(0.0, 5.0)]);
    assert_eq!(sour.now(), Some(Rinse(2)));
    let again = after_chlorine(vec![tap(), chlorine(0.0, 5.0), rinse(50.0, None, None)]);
    assert_eq!(again.now(), Some(Test(RinsePh)));
}

#[test]
fn antichlor_appears_while_a_strip_finds_oxidant_and_wants_a_rinse_after() {
    let optional = |ladder: &Ladder| kinds(ladder, RungState::Optional);
    assert_eq!(optional(&after_chlorine(vec![])), []);
    assert_eq!(optional(&after_chlorine(vec![chlorine(4.0, 7.5)])), [AntichlorRung]);
    assert_eq!(optional(&after_chlorine(vec![chlorine(4.0, 7.5), chlorine(0.0, 7.5)])), []);
    let done = after_chlorine(vec![chlorine(4.0, 7.5), antichlor()]);
    assert_eq!(optional(&done), []);
    assert_eq!(kinds(&done, RungState::Done), [Drain, Rinse(1), AntichlorRung]);
    assert_eq!(done.now(), Some(Rinse(2)));
}

#[test]
fn acid_appears_once_it_is_safe_and_there_is_alkali() {
    let optional = |ladder: &Ladder| kinds(ladder, RungState::Optional);
    let alkaline = after_chlorine(vec![tap(), chlorine(0.0, 9.0)]);
    assert_eq!(optional(&alkaline), [AcidRung]);
    assert_eq!(optional(&after_chlorine(vec![tap(), chlorine(0.0, 7.4)])), []);
    let unproven = after_chlorine(vec![tap(), rinse(5.0, Some(0.0), Some(9.0))]);
    assert_eq!(optional(&unproven), []);
    let finished = Body::AcidFinished(AcidFinished {
        acid: Acid::Citric,
        product: None,
        amount: Amount::MassG(exact(1.0)),
        ph_before: None,
        ph_after: Some(exact(7.4)),
        note: String::new(),
    });
    let done = after_chlorine(vec![tap(), chlorine(0.0, 9.0), finished]);
    assert_eq!(done.now(), Some(Rinse(2)), "the acid is rinsed out");
}

#[test]
fn the_water_of_the_last_rinse_is_planned_for_the_next() {
    let litres = |after: Vec<Body>| {
        let each = after_chlorine(after).ahead.each.unwrap();
        crate::quantity::in_millilitres(each) / 1000.0
    };
    assert_eq!(litres(vec![chlorine(4.0, 8.4)]), 5.0);
    let finished = Body::AcidFinished(AcidFinished {
        acid: Acid::Citric,
        product: None,
        amount: Amount::MassG(exact(1.0)),
        ph_before: None,
        ph_after: Some(exact(7.5)),
        note: String::new(),
    });
    assert_eq!(litres(vec![chlorine(4.0, 8.4), antichlor(), finished]), 5.0);
}

#[test]
fn percarbonate_has_its_own_strip_and_no_other() {
    let after = ladder(Oxidant::Percarbonate, vec![tap(), named(0.0, StripOf::Peroxide, 7.5)]);
    assert!(kinds(&after, RungState::Done).contains(&Test(PeroxideStrip)));
    assert!(after.rungs.iter().all(|rung| rung.kind != Test(ChlorineStrip)));
}

#[test]
fn a_sign_off_with_a_reason_leaves_the_tests_out_and_leads_to_the_store() {
    let signed = Body::SignedOff(SignedOff { complete: false, reason: "no strips".into() });
    let signed = after_chlorine(vec![rinse(5.0, None, None), signed]);
    let left_out = [Test(ChlorineStrip), Test(RinsePh), Test(Feel), SignOff];
    assert_eq!(kinds(&signed, RungState::LeftOut), left_out);
    assert_eq!(signed.now(), Some(Store));
}

#[test]
fn a_bath_that_was_not_read_counts_as_fresh() {
    let record = crate::journal::sample::bodies(3.0, 0)
        .into_iter()
        .find_map(|(_, body)| matches!(body, Body::Planned(_)).then_some(body));
    let mut bodies = bath(Oxidant::Hypochlorite);
    bodies.insert(1, record.unwrap());
    let first = book(bodies[..2].to_vec());
    let plan = first.batches.values().next().unwrap().plan;
    let Body::BathStarted(started) = &mut bodies[2] else { unreachable!() };
    started.plan = plan;
    let book = book(bodies);
    let ladder = Ladder::of(&book, book.batches.values().next().unwrap()).unwrap();
    assert!(ladder.ahead.assumed && ladder.ahead.count.unwrap() > 1, "{:?}", ladder.ahead);
}

#[test]
fn the_station_follows_the_ladder() {
    let station = |after: Vec<Body>| {
        let book = book([bath(Oxidant::Hypochlorite), after].concat());
        Station::of(&book, book.batches.values().next().unwrap()).unwrap()
    };
    assert_eq!(station(vec![]), Station::Wash);
    assert_eq!(station(vec![chlorine(5.0, 9.0)]), Station::Wash);
    let proven = || vec![tap(), chlorine(0.0, 7.4), passed(EndTestOf::Feel)];
    assert_eq!(station(vec![tap(), chlorine(0.0, 7.4)]), Station::Prove);
    assert_eq!(station(proven()), Station::Prove);
    let signed = Body::SignedOff(SignedOff { complete: true, reason: String::new() });
    assert_eq!(station([proven(), vec![signed]].concat()), Station::Store);
}
