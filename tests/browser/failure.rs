//! What a scenario ends with when something is not as it should be.

use std::fmt;

pub type Outcome<T = ()> = Result<T, Failure>;

/// One sentence saying what was expected and what was found.
#[derive(Debug)]
pub struct Failure(String);

impl Failure {
    pub fn new(what: impl Into<String>) -> Self {
        Self(what.into())
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl From<fantoccini::error::CmdError> for Failure {
    fn from(error: fantoccini::error::CmdError) -> Self {
        Self(format!("the driver: {error}"))
    }
}

impl From<std::io::Error> for Failure {
    fn from(error: std::io::Error) -> Self {
        Self(error.to_string())
    }
}

/// Fails with `what` unless `so`.
pub fn ensure(so: bool, what: impl FnOnce() -> String) -> Outcome {
    if so { Ok(()) } else { Err(Failure(what())) }
}
