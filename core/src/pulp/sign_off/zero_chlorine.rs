//! Proof that no chlorine is left, without which no acid is dosed.
//! Not here: the acid dose, which is `chemistry::acid_dose`.

use jiff::Timestamp;

use super::{EndTestKind, EndTestResult, SignOffStatus, UnmetTest, status};

/// Proof that chlorine was tested for and not found after the last oxidant.
/// [`ZeroChlorine::from_log`] is its only constructor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChlorine {
    tested: Timestamp,
}

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
            .map(|tested| Self { tested })
            .ok_or(UnmetTest { test, status: SignOffStatus::Missing })
    }

    /// When the strip read zero.
    pub fn tested(&self) -> Timestamp {
        self.tested
    }
}
