//! Proof that no chlorine is left.

use jiff::Timestamp;

/// Proof that chlorine was tested for and not found, after the last oxidant. No acid dose is
/// calculated without one.
///
/// Made only from the end tests of a batch, by `ZeroChlorine::from_log` in
/// [`pulp::sign_off`](crate::pulp::sign_off).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChlorine {
    tested: Timestamp,
}

impl ZeroChlorine {
    /// The caller must have checked the end tests.
    pub(crate) fn tested_at(tested: Timestamp) -> Self {
        Self { tested }
    }

    /// When the strip read zero.
    pub fn tested(&self) -> Timestamp {
        self.tested
    }
}
