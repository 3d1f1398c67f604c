//! Proof that no chlorine is left, from the end tests.
//! Not here: the proof itself and the acid dose, which are `chemistry::acid_dose`.

use jiff::Timestamp;

use super::{EndTestKind, EndTestResult, SignOffStatus, UnmetTest, status};
pub use crate::chemistry::acid_dose::ZeroChlorine;
use crate::message::{Message, Value};

impl ZeroChlorine {
    /// The proof, if the log has it: a chlorine strip at zero later than
    /// `last_oxidant`, and no later strip or starch–iodide paper that found
    /// oxidant.
    ///
    /// # Errors
    /// The test that is unmet.
    pub fn from_log(
        log: &[EndTestResult],
        last_oxidant: Option<Timestamp>,
    ) -> Result<Self, UnmetTest> {
        let test = EndTestKind::ChlorineStrip;
        match status(test, log, last_oxidant) {
            SignOffStatus::Passed => {}
            status => return Err(UnmetTest { test, status }),
        }
        let test = EndTestKind::StarchIodide;
        if status(test, log, last_oxidant) == SignOffStatus::Failing {
            return Err(UnmetTest { test, status: SignOffStatus::Failing });
        }
        let test = EndTestKind::ChlorineStrip;
        log.iter()
            .filter(|result| result.test == test)
            .map(|result| result.at)
            .max()
            .map(Self::tested_at)
            .ok_or(UnmetTest { test, status: SignOffStatus::Missing })
    }
}

impl UnmetTest {
    /// Why there is no acid dose while this test is unmet.
    pub fn no_acid(&self) -> Message {
        Message::new("acid-refusal-chlorine_not_proven_zero")
            .with("test", Value::Word(self.test.word()))
    }
}
