#![allow(clippy::unwrap_used)]

use super::*;
use crate::quantity::grams_per_litre;

fn at(minute: i64) -> Timestamp {
    Timestamp::from_second(1_772_000_000 + 60 * minute).unwrap()
}

fn chlorine(milligrams: f64, minute: i64) -> Logged {
    let chlorine = grams_per_litre(milligrams / 1000.0);
    Logged::of(Reading::ChlorineStrip { chlorine }, at(minute))
}

fn ph(rinse: f64, tap: f64, minute: i64) -> Logged {
    Logged::of(Reading::RinsePh { rinse, tap }, at(minute))
}

fn feel(slippery: bool, minute: i64) -> Logged {
    Logged::of(Reading::Feel { slippery }, at(minute))
}

const BLEACHED: Used = Used { hypochlorite: true, peroxide: false };

#[test]
fn clean_needs_every_test_after_the_last_change() {
    let log = [chlorine(0.0, 10), ph(7.6, 7.4, 11), feel(false, 12)];
    let signed = sign_off(BLEACHED, &log, Some(at(5)), "").unwrap();
    assert!(signed.clean && signed.gaps.is_empty());
    let missing = sign_off(BLEACHED, &log, Some(at(11)), "").unwrap_err();
    assert_eq!(missing.gaps, [Gap { test: Test::ChlorineStrip, standing: Standing::Outdated }]);
}

#[test]
fn a_failing_or_missing_test_needs_a_reason_in_writing() {
    let log = [chlorine(0.5, 10), ph(7.6, 7.4, 11)];
    let missing = sign_off(BLEACHED, &log, None, "  …  ").unwrap_err();
    assert_eq!(missing.gaps.len(), 2);
    let signed = sign_off(BLEACHED, &log, None, " for compost ").unwrap();
    assert!(!signed.clean);
    assert_eq!(signed.reason, "for compost");
}

#[test]
fn a_test_nobody_asked_for_still_counts_when_it_fails() {
    let turned = Logged::of(Reading::StarchIodide { turned: true, liquor_ph: None }, at(13));
    let log = [chlorine(0.0, 10), ph(7.5, 7.4, 11), feel(false, 12), turned];
    let missing = sign_off(BLEACHED, &log, None, "").unwrap_err();
    assert_eq!(missing.gaps, [Gap { test: Test::StarchIodide, standing: Standing::Failing }]);
}

#[test]
fn peroxide_needs_its_own_strip() {
    let log = [chlorine(0.0, 10), ph(7.5, 7.4, 11), feel(false, 12)];
    let used = Used { hypochlorite: false, peroxide: true };
    let missing = sign_off(used, &log, None, "").unwrap_err();
    assert_eq!(missing.gaps[0].test, Test::PeroxideStrip);
}

#[test]
fn white_starch_iodide_proves_nothing_in_alkali() {
    let paper = |liquor_ph| Reading::StarchIodide { turned: false, liquor_ph }.outcome();
    assert_eq!(paper(Some(7.5)), Outcome::Pass);
    assert_eq!(paper(Some(10.5)), Outcome::TellsNothing);
    assert_eq!(paper(None), Outcome::TellsNothing);
}

#[test]
fn readings_that_are_no_numbers_pass_nothing() {
    let strip = Reading::ChlorineStrip { chlorine: grams_per_litre(f64::NAN) };
    assert_eq!(strip.outcome(), Outcome::TellsNothing);
    assert_eq!(Reading::RinsePh { rinse: 20.0, tap: 20.0 }.outcome(), Outcome::TellsNothing);
}

#[test]
fn only_a_zero_strip_after_the_last_oxidant_opens_the_acid() {
    let standing =
        |log: &[Logged], oxidant| ZeroChlorine::from_log(log, oxidant).map_err(|g| g.standing);
    assert_eq!(standing(&[], None), Err(Standing::Missing));
    assert_eq!(standing(&[chlorine(0.5, 1)], None), Err(Standing::Failing));
    assert_eq!(standing(&[chlorine(0.0, 1)], Some(at(2))), Err(Standing::Outdated));
    assert!(standing(&[chlorine(0.0, 3)], Some(at(2))).is_ok());
    // The latest strip counts, in whatever order they were written down.
    assert_eq!(
        standing(&[chlorine(0.5, 4), chlorine(0.0, 3)], Some(at(2))),
        Err(Standing::Failing)
    );
    // Starch–iodide that turned overrules a white strip.
    let turned = Logged::of(Reading::StarchIodide { turned: true, liquor_ph: None }, at(5));
    assert_eq!(standing(&[chlorine(0.0, 3), turned], Some(at(2))), Err(Standing::Failing));
}

#[test]
fn a_journal_strip_called_passed_with_colour_on_it_has_not_passed() {
    let entry = EndTest {
        test: EndTestOf::ChlorineStrip,
        outcome: journal::Outcome::Passed,
        figure: Some(crate::quantity::Estimate::exact(0.5, crate::quantity::Basis::Strip)),
        note: String::new(),
    };
    assert_eq!(Logged::from_entry(&entry, at(0)).unwrap().outcome, Outcome::Fail);
}
