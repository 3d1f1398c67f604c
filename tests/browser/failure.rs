//! What a scenario ends with when something is not as it should be.

use std::fmt;

pub type TestResult<T = ()> = Result<T, TestFailure>;

/// One sentence saying what was expected and what was found.
#[derive(Debug)]
pub struct TestFailure(String);

impl TestFailure {
    pub fn new(what: impl Into<String>) -> Self {
        Self(what.into())
    }
}

impl fmt::Display for TestFailure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl From<fantoccini::error::CmdError> for TestFailure {
    fn from(error: fantoccini::error::CmdError) -> Self {
        Self(format!("the driver: {error}"))
    }
}

impl From<std::io::Error> for TestFailure {
    fn from(error: std::io::Error) -> Self {
        Self(error.to_string())
    }
}

/// Fails with `what` unless `so`.
pub fn ensure(so: bool, what: impl FnOnce() -> String) -> TestResult {
    if so { Ok(()) } else { Err(TestFailure(what())) }
}
