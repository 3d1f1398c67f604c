//! End tests of a batch, and what it takes to sign it off as clean.
//! Not here: the tests in a batch's log, which `derive::sign_off` collects.
//!
//! The verdict follows from the reading, not from the person. A batch is clean
//! when every test that its oxidants require has passed after the last change
//! that could affect it. A person may sign off without that, but only with a
//! written reason, and the record keeps both.

mod decision;
mod end_test;
mod requirement;
mod zero_chlorine;

pub use decision::{REASON, SignOff, SignOffError, sign_off, stored_reason};
pub use end_test::{
    EndTestKind, EndTestReading, EndTestResult, EndTestVerdict, PH_FROM_TAP, STARCH_IODIDE_TOP_PH,
};
pub use requirement::{OxidantsUsed, SignOffStatus, UnmetTest, required, status, unmet_tests};
pub use zero_chlorine::ZeroChlorine;

#[cfg(test)]
mod tests;
