//! The one key to the acid step.

use jiff::Timestamp;

use super::{Gap, Logged, Standing, Test, standing};
pub use crate::chemistry::acid_dose::ZeroChlorine;
use crate::message::{Message, Value};

impl ZeroChlorine {
    /// The proof, if the log holds it.
    ///
    /// A chlorine strip at zero is needed, later than `last_oxidant`, and
    /// nothing since that found oxidant: neither a strip nor starch–iodide.
    ///
    /// # Errors
    /// The standing of the chlorine test otherwise.
    pub fn from_log(log: &[Logged], last_oxidant: Option<Timestamp>) -> Result<Self, Gap> {
        let test = Test::ChlorineStrip;
        let gap = |test, standing| Gap { test, standing };
        match standing(test, log, last_oxidant) {
            Standing::Passed => {}
            other => return Err(gap(test, other)),
        }
        if standing(Test::StarchIodide, log, last_oxidant) == Standing::Failing {
            return Err(gap(Test::StarchIodide, Standing::Failing));
        }
        log.iter()
            .filter(|entry| entry.test == test)
            .map(|entry| entry.at)
            .max()
            .map(Self::tested_at)
            .ok_or_else(|| gap(test, Standing::Missing))
    }
}

impl Gap {
    /// Why there is no acid while this test is open.
    pub fn no_acid(&self) -> Message {
        Message::new("acid.refusal.chlorine_not_proven_zero")
            .with("test", Value::Word(self.test.word()))
    }
}
