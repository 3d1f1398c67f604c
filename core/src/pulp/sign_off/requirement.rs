//! Which end tests a batch needs, and which of them are unmet.
//! Not here: the verdict of one reading, which is `end_test`.

use jiff::Timestamp;

use super::{EndTestKind, EndTestResult, EndTestVerdict};
use crate::message::{Message, Value};

/// The oxidants that a batch was bleached with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct OxidantsUsed {
    pub hypochlorite: bool,
    /// Percarbonate included.
    pub peroxide: bool,
}

/// The status of one kind of test.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SignOffStatus {
    Passed,
    Failing,
    /// Read, but the reading proves nothing.
    Inconclusive,
    /// Passed, but before the last change to the batch.
    Outdated,
    Missing,
}

/// A test that keeps a batch from being signed off as clean.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnmetTest {
    pub test: EndTestKind,
    pub status: SignOffStatus,
}

impl UnmetTest {
    /// The message for the locale.
    pub fn message(&self) -> Message {
        let key = match self.status {
            SignOffStatus::Passed => "sign_off-standing-passed",
            SignOffStatus::Failing => "sign_off-gap-failing",
            SignOffStatus::Inconclusive => "sign_off-gap-tells_nothing",
            SignOffStatus::Outdated => "sign_off-gap-outdated",
            SignOffStatus::Missing => "sign_off-gap-missing",
        };
        Message::new(key).with("test", Value::Word(self.test.word()))
    }
}

/// The tests that a batch must pass to be clean. Chlorine and peroxide each
/// need their own strip: starch–iodide reacts with both and cannot tell them
/// apart, so it supports a strip and never replaces it.
pub fn required(used: OxidantsUsed) -> Vec<EndTestKind> {
    let chlorine = used.hypochlorite.then_some(EndTestKind::ChlorineStrip);
    let peroxide = used.peroxide.then_some(EndTestKind::PeroxideStrip);
    chlorine.into_iter().chain(peroxide).chain([EndTestKind::RinsePh, EndTestKind::Feel]).collect()
}

/// The status of one kind of test by its latest result. `changed` is the
/// instant of the last addition that could affect it: oxidant, alkali, acid or
/// pulp.
pub fn status(
    test: EndTestKind,
    log: &[EndTestResult],
    changed: Option<Timestamp>,
) -> SignOffStatus {
    let latest = log.iter().filter(|result| result.test == test).max_by_key(|result| result.at);
    let Some(latest) = latest else { return SignOffStatus::Missing };
    match latest.verdict {
        EndTestVerdict::Fail => SignOffStatus::Failing,
        EndTestVerdict::Inconclusive => SignOffStatus::Inconclusive,
        EndTestVerdict::Pass if changed.is_some_and(|changed| latest.at < changed) => {
            SignOffStatus::Outdated
        }
        EndTestVerdict::Pass => SignOffStatus::Passed,
    }
}

/// Each required test that has not passed, and any other test that is failing.
pub fn unmet_tests(
    used: OxidantsUsed,
    log: &[EndTestResult],
    changed: Option<Timestamp>,
) -> Vec<UnmetTest> {
    let required = required(used);
    EndTestKind::ALL
        .into_iter()
        .map(|test| UnmetTest { test, status: status(test, log, changed) })
        .filter(|unmet| match unmet.status {
            SignOffStatus::Passed => false,
            SignOffStatus::Failing => true,
            _ => required.contains(&unmet.test),
        })
        .collect()
}
