//! The one key to the acid step.

use jiff::Timestamp;

use super::{Gap, Logged, Standing, Test, standing};

/// Proof that chlorine was tested for and not found, after the last oxidant.
///
/// There is no other way to make one than [`ZeroChlorine::from_log`], and no
/// acid dose without one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChlorine {
    tested: Timestamp,
}

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
            .map(|tested| Self { tested })
            .ok_or_else(|| gap(test, Standing::Missing))
    }

    /// When the strip read zero.
    pub fn tested(&self) -> Timestamp {
        self.tested
    }
}
