//! Proof that no chlorine is left.

use jiff::Timestamp;

/// Proof that chlorine was tested for and not found after the last oxidant, or that no chlorine
/// bleach was ever in the batch. No acid dose is calculated without one.
///
/// Made only from the end tests of a batch, by `ZeroChlorine::from_log` in
/// [`pulp::sign_off`](crate::pulp::sign_off).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChlorine {
    tested: Option<Timestamp>,
}

impl ZeroChlorine {
    /// The caller must have checked the end tests.
    pub(crate) fn tested_at(tested: Timestamp) -> Self {
        Self { tested: Some(tested) }
    }

    /// The caller must have checked that the batch met no chlorine bleach.
    pub(crate) fn never_used() -> Self {
        Self { tested: None }
    }

    /// When the strip read zero; `None` if there was no chlorine bleach to test for.
    pub fn tested(&self) -> Option<Timestamp> {
        self.tested
    }
}
