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

    /// Whether a script ended because its page made way for the next one; only WebKitGTK's driver
    /// reports that as an error of the script.
    pub fn is_page_replaced(&self) -> bool {
        matches!(self, Self::Driver(error)
            if error.to_string().contains("Could not parse script result"))
    }
}

/// # Errors
/// [`TestFailure::Check`] with `message` unless `condition` holds.
pub fn ensure(condition: bool, message: impl FnOnce() -> String) -> TestResult {
    if condition { Ok(()) } else { Err(TestFailure::Check(message())) }
}
