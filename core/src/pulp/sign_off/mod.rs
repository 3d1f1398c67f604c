//! Proof that the pulp is clean, and what it takes to say so.
//!
//! A test is a reading; the reading is judged here, not by the person who
//! wants to go home. A batch is clean when every test that its oxidant calls
//! for has passed after the last thing that could have changed it. A person
//! may still sign without that, but only in writing, and the record keeps both.

mod evidence;
mod proof;
mod test;

pub use evidence::Evidence;
pub use proof::ZeroChlorine;
pub use test::{Outcome, PH_FROM_TAP, Reading, STARCH_IODIDE_TOP_PH, Test};

use jiff::Timestamp;

use crate::journal::{self, EndTest, EndTestOf};
use crate::message::{Field, Message, Value};
use crate::quantity::is_letter;

pub const REASON: Field = Field("sign_off-reason");

/// An end test as it stands in the log.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Logged {
    pub test: Test,
    pub outcome: Outcome,
    pub at: Timestamp,
}

impl Logged {
    /// A reading, judged.
    pub fn of(reading: Reading, at: Timestamp) -> Self {
        Self { test: reading.test(), outcome: reading.outcome(), at }
    }

    /// An end test from the journal. A strip that was called passed but has a
    /// figure other than zero beside it has not passed. `None` for a smell,
    /// which proves nothing.
    pub fn from_entry(entry: &EndTest, at: Timestamp) -> Option<Self> {
        let test = match entry.test {
            EndTestOf::ChlorineStrip => Test::ChlorineStrip,
            EndTestOf::PeroxideStrip => Test::PeroxideStrip,
            EndTestOf::StarchIodide => Test::StarchIodide,
            EndTestOf::LastRinsePh => Test::RinsePh,
            EndTestOf::Feel => Test::Feel,
            EndTestOf::Smell => return None,
        };
        let strip = matches!(test, Test::ChlorineStrip | Test::PeroxideStrip);
        let colour = strip && entry.figure.is_some_and(|figure| figure.value != 0.0);
        let outcome = match entry.outcome {
            journal::Outcome::Passed if colour => Outcome::Fail,
            journal::Outcome::Passed => Outcome::Pass,
            journal::Outcome::Failed => Outcome::Fail,
            journal::Outcome::Unclear => Outcome::TellsNothing,
        };
        Some(Self { test, outcome, at })
    }
}

/// What the batch was bleached with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Used {
    pub hypochlorite: bool,
    /// Percarbonate included.
    pub peroxide: bool,
}

/// What one kind of test has to say about a batch now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    Passed,
    Failing,
    /// Read, but the reading proves nothing.
    TellsNothing,
    /// Passed once, but something was done to the batch since.
    Outdated,
    Missing,
}

/// A test that stands between a batch and "clean".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    pub test: Test,
    pub standing: Standing,
}

impl Gap {
    /// The gap as something to say.
    pub fn message(&self) -> Message {
        let key = match self.standing {
            Standing::Passed => "sign_off-standing-passed",
            Standing::Failing => "sign_off-gap-failing",
            Standing::TellsNothing => "sign_off-gap-tells_nothing",
            Standing::Outdated => "sign_off-gap-outdated",
            Standing::Missing => "sign_off-gap-missing",
        };
        Message::new(key).with("test", Value::Word(self.test.word()))
    }
}

/// A sign-off that may be entered in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct SignOff {
    /// `true` only if nothing was failing or missing.
    pub clean: bool,
    /// What was failing or missing, when it was signed anyway.
    pub gaps: Vec<Gap>,
    /// What the person wrote; empty when clean.
    pub reason: String,
}

/// Why a batch cannot be signed off yet: these tests, and no reason written.
#[derive(Clone, Debug, PartialEq)]
pub struct Missing {
    pub gaps: Vec<Gap>,
}

impl Missing {
    /// The refusal; each gap has a [`Gap::message`] of its own.
    pub fn message(&self) -> Message {
        Message::new("sign_off-refusal-not_clean")
            .beside(REASON)
            .with("count", Value::Count(self.gaps.len() as u64))
    }
}

/// The tests that a batch must pass to be called clean. Peroxide and chlorine
/// each need their own strip: starch–iodide answers to both and cannot tell
/// them apart, so it backs a strip up and never replaces it.
pub fn required(used: Used) -> Vec<Test> {
    let chlorine = used.hypochlorite.then_some(Test::ChlorineStrip);
    let peroxide = used.peroxide.then_some(Test::PeroxideStrip);
    chlorine.into_iter().chain(peroxide).chain([Test::RinsePh, Test::Feel]).collect()
}

/// How one kind of test stands, given everything logged and the instant of the
/// last thing that could have changed its answer (oxidant, alkali, acid, pulp
/// added). The latest reading counts.
pub fn standing(test: Test, log: &[Logged], changed: Option<Timestamp>) -> Standing {
    let latest = log.iter().filter(|entry| entry.test == test).max_by_key(|e| e.at);
    match latest {
        None => Standing::Missing,
        Some(entry) => match entry.outcome {
            Outcome::Fail => Standing::Failing,
            Outcome::TellsNothing => Standing::TellsNothing,
            Outcome::Pass if changed.is_some_and(|changed| entry.at < changed) => {
                Standing::Outdated
            }
            Outcome::Pass => Standing::Passed,
        },
    }
}

/// What stands between this batch and "clean": each required test that has not
/// passed, and any other test that is failing.
pub fn gaps(used: Used, log: &[Logged], changed: Option<Timestamp>) -> Vec<Gap> {
    let required = required(used);
    Test::ALL
        .into_iter()
        .map(|test| Gap { test, standing: standing(test, log, changed) })
        .filter(|gap| match gap.standing {
            Standing::Passed => false,
            Standing::Failing => true,
            _ => required.contains(&gap.test),
        })
        .collect()
}

/// Signs a batch off: clean if nothing is failing or missing, otherwise only
/// with a reason in the person's own words.
///
/// # Errors
/// [`Missing`] when tests are failing or missing and `reason` has no letter
/// or digit in it.
pub fn sign_off(
    used: Used,
    log: &[Logged],
    changed: Option<Timestamp>,
    reason: &str,
) -> Result<SignOff, Missing> {
    let gaps = gaps(used, log, changed);
    let reason = reason.trim();
    if gaps.is_empty() {
        Ok(SignOff { clean: true, gaps, reason: String::new() })
    } else if reason.chars().any(|c| is_letter(c) || c.is_ascii_digit()) {
        Ok(SignOff { clean: false, gaps, reason: reason.to_owned() })
    } else {
        Err(Missing { gaps })
    }
}

#[cfg(test)]
mod tests;
