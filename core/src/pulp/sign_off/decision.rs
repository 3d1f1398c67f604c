//! Signing a batch off: clean, or with a written reason.
//! Not here: which tests are unmet, which is `requirement`.

use jiff::Timestamp;

use super::{EndTestResult, OxidantsUsed, UnmetTest, unmet_tests};
use crate::message::{Field, Message, Value};

pub const REASON: Field = Field("sign_off-reason");

/// A sign-off that may be entered in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct SignOff {
    /// No test was failing or missing.
    pub clean: bool,
    /// Tests that were failing or missing when it was signed off.
    pub unmet: Vec<UnmetTest>,
    /// The person's reason; empty when clean.
    pub reason: String,
}

/// Why a batch cannot be signed off.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SignOffError {
    #[error("{} end tests are failing or missing; a written reason is needed", .unmet.len())]
    NoReason { unmet: Vec<UnmetTest> },
}

impl SignOffError {
    /// The message for the locale; each unmet test has one of its own.
    pub fn message(&self) -> Message {
        let Self::NoReason { unmet } = self;
        Message::new("sign_off-refusal-not_clean")
            .beside(REASON)
            .with("count", Value::Count(unmet.len() as u64))
    }
}

/// Signs a batch off: clean if no test is failing or missing, otherwise only
/// with a reason in the person's own words.
///
/// # Errors
/// [`SignOffError`] when tests are failing or missing and `reason` has no
/// letter or digit in it.
pub fn sign_off(
    used: OxidantsUsed,
    log: &[EndTestResult],
    changed: Option<Timestamp>,
    reason: &str,
) -> Result<SignOff, SignOffError> {
    let unmet = unmet_tests(used, log, changed);
    if unmet.is_empty() {
        return Ok(SignOff { clean: true, unmet, reason: String::new() });
    }
    match stored_reason(reason) {
        Some(reason) => Ok(SignOff { clean: false, unmet, reason }),
        None => Err(SignOffError::NoReason { unmet }),
    }
}

/// A reason as it may be recorded: trimmed; `None` if it has no letter or digit in it.
pub fn stored_reason(typed: &str) -> Option<String> {
    let reason = typed.trim();
    reason.contains(char::is_alphanumeric).then(|| reason.to_owned())
}
