#![allow(clippy::unwrap_used)]

use jiff::Timestamp;

use super::*;
use crate::quantity::grams_per_litre;

fn at(minute: i64) -> Timestamp {
    Timestamp::from_second(1_772_000_000 + 60 * minute).unwrap()
}

fn chlorine(milligrams: f64, minute: i64) -> EndTestResult {
    let chlorine = grams_per_litre(milligrams / 1000.0);
    EndTestResult::of(EndTestReading::ChlorineStrip { chlorine }, at(minute))
}

fn ph(rinse: f64, tap: f64, minute: i64) -> EndTestResult {
    EndTestResult::of(EndTestReading::RinsePh { rinse, tap }, at(minute))
}

fn feel(slippery: bool, minute: i64) -> EndTestResult {
    EndTestResult::of(EndTestReading::Feel { slippery }, at(minute))
}

fn unmet(signed: Result<SignOff, SignOffError>) -> Vec<UnmetTest> {
    let SignOffError::NoReason { unmet } = signed.unwrap_err();
    unmet
}

const BLEACHED: OxidantsUsed = OxidantsUsed { hypochlorite: true, peroxide: false };

#[test]
fn clean_needs_every_test_after_the_last_change() {
    let log = [chlorine(0.0, 10), ph(7.6, 7.4, 11), feel(false, 12)];
    let signed = sign_off(BLEACHED, &log, Some(at(5)), "").unwrap();
    assert!(signed.clean && signed.unmet.is_empty());
    let unmet = unmet(sign_off(BLEACHED, &log, Some(at(11)), ""));
    assert_eq!(
        unmet,
        [UnmetTest { test: EndTestKind::ChlorineStrip, status: SignOffStatus::Outdated }]
    );
}

#[test]
fn a_failing_or_missing_test_needs_a_reason_in_writing() {
    let log = [chlorine(0.5, 10), ph(7.6, 7.4, 11)];
    let unmet = unmet(sign_off(BLEACHED, &log, None, "  …  "));
    assert_eq!(unmet.len(), 2);
    let signed = sign_off(BLEACHED, &log, None, " for compost ").unwrap();
    assert!(!signed.clean);
    assert_eq!(signed.reason, "for compost");
}

#[test]
fn a_test_that_is_not_required_counts_when_it_fails() {
    let turned =
        EndTestResult::of(EndTestReading::StarchIodide { turned: true, liquor_ph: None }, at(13));
    let log = [chlorine(0.0, 10), ph(7.5, 7.4, 11), feel(false, 12), turned];
    let unmet = unmet(sign_off(BLEACHED, &log, None, ""));
    assert_eq!(
        unmet,
        [UnmetTest { test: EndTestKind::StarchIodide, status: SignOffStatus::Failing }]
    );
}

#[test]
fn peroxide_needs_its_own_strip() {
    let log = [chlorine(0.0, 10), ph(7.5, 7.4, 11), feel(false, 12)];
    let used = OxidantsUsed { hypochlorite: false, peroxide: true };
    let unmet = unmet(sign_off(used, &log, None, ""));
    assert_eq!(unmet[0].test, EndTestKind::PeroxideStrip);
}

#[test]
fn white_starch_iodide_is_inconclusive_in_alkali() {
    let paper = |liquor_ph| EndTestReading::StarchIodide { turned: false, liquor_ph }.verdict();
    assert_eq!(paper(Some(7.5)), EndTestVerdict::Pass);
    assert_eq!(paper(Some(10.5)), EndTestVerdict::Inconclusive);
    assert_eq!(paper(None), EndTestVerdict::Inconclusive);
}

#[test]
fn readings_out_of_range_pass_nothing() {
    let strip = EndTestReading::ChlorineStrip { chlorine: grams_per_litre(f64::NAN) };
    assert_eq!(strip.verdict(), EndTestVerdict::Inconclusive);
    assert_eq!(
        EndTestReading::RinsePh { rinse: 20.0, tap: 20.0 }.verdict(),
        EndTestVerdict::Inconclusive
    );
}

#[test]
fn only_a_zero_strip_after_the_last_oxidant_proves_zero_chlorine() {
    let status = |log: &[EndTestResult], oxidant| {
        ZeroChlorine::from_log(BLEACHED, log, oxidant).map_err(|unmet| unmet.status)
    };
    assert_eq!(status(&[], None), Err(SignOffStatus::Missing));
    assert_eq!(status(&[chlorine(0.5, 1)], None), Err(SignOffStatus::Failing));
    assert_eq!(status(&[chlorine(0.0, 1)], Some(at(2))), Err(SignOffStatus::Outdated));
    assert!(status(&[chlorine(0.0, 3)], Some(at(2))).is_ok());
    // The latest strip counts, whatever the order of the log.
    assert_eq!(
        status(&[chlorine(0.5, 4), chlorine(0.0, 3)], Some(at(2))),
        Err(SignOffStatus::Failing)
    );
    // Starch–iodide that turned outweighs a white strip.
    let turned =
        EndTestResult::of(EndTestReading::StarchIodide { turned: true, liquor_ph: None }, at(5));
    assert_eq!(status(&[chlorine(0.0, 3), turned], Some(at(2))), Err(SignOffStatus::Failing));
}
