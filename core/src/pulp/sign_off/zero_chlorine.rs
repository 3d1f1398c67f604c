//! Proof that no chlorine is left, from the end tests.
//! Not here: the proof itself and the acid dose, which are `chemistry::acid_dose`.

use jiff::Timestamp;

use super::{EndTestKind, EndTestResult, OxidantsUsed, SignOffStatus, UnmetTest, status};
pub use crate::chemistry::acid_dose::ZeroChlorine;
use crate::message::{Message, Value};

impl ZeroChlorine {
    /// The proof, if the log has it. After chlorine bleach: a chlorine strip at zero later than
    /// `last_oxidant`, and no later strip or starch–iodide paper that found oxidant. After
    /// peroxide: a peroxide strip at zero, since vinegar and peroxide make peracetic acid. A batch
    /// that met neither needs no test.
    ///
    /// # Errors
    /// The test that is unmet.
    pub fn from_log(
        used: OxidantsUsed,
        log: &[EndTestResult],
        last_oxidant: Option<Timestamp>,
    ) -> Result<Self, UnmetTest> {
        let strips = [
            (used.hypochlorite, EndTestKind::ChlorineStrip),
            (used.peroxide, EndTestKind::PeroxideStrip),
        ];
        for (_, test) in strips.into_iter().filter(|(used, _)| *used) {
            match status(test, log, last_oxidant) {
                SignOffStatus::Passed => {}
                status => return Err(UnmetTest { test, status }),
            }
        }
        let paper = EndTestKind::StarchIodide;
        if status(paper, log, last_oxidant) == SignOffStatus::Failing {
            return Err(UnmetTest { test: paper, status: SignOffStatus::Failing });
        }
        if !used.hypochlorite {
            return Ok(Self::never_used());
        }
        let test = EndTestKind::ChlorineStrip;
        let results = log.iter().filter(|result| result.test == test);
        let tested = results.map(|result| result.at).max();
        tested.map(Self::tested_at).ok_or(UnmetTest { test, status: SignOffStatus::Missing })
    }
}

impl UnmetTest {
    /// Why there is no acid dose while this test is unmet.
    pub fn no_acid(&self) -> Message {
        let key = match self.test {
            EndTestKind::PeroxideStrip => "acid-refusal-peroxide_not_proven_zero",
            _ => "acid-refusal-chlorine_not_proven_zero",
        };
        Message::new(key).with("test", Value::Word(self.test.word()))
    }
}
