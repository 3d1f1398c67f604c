//! Why a scenario fails.

use std::io;

use fantoccini::error::CmdError;
use thiserror::Error;

pub type TestResult<T = ()> = Result<T, TestFailure>;

#[derive(Debug, Error)]
pub enum TestFailure {
    /// What was expected and what was found, in a sentence.
    #[error("{0}")]
    Check(String),
    #[error("WebDriver: {0}")]
    Driver(#[from] CmdError),
    #[error(transparent)]
    Io(#[from] io::Error),
}

impl TestFailure {
    pub fn new(what: impl Into<String>) -> Self {
        Self::Check(what.into())
    }
}

/// # Errors
/// [`TestFailure::Check`] with `message` unless `condition` holds.
pub fn ensure(condition: bool, message: impl FnOnce() -> String) -> TestResult {
    if condition { Ok(()) } else { Err(TestFailure::Check(message())) }
}
