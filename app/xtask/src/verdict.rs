//! Whether a measurement is within its limit.

use std::fmt;
use std::process::ExitCode;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    Within,
    Beyond,
}

impl Verdict {
    pub fn of(within: bool) -> Self {
        if within { Self::Within } else { Self::Beyond }
    }
}

impl fmt::Display for Verdict {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(if *self == Self::Within { "within the limit" } else { "BEYOND THE LIMIT" })
    }
}

impl From<Verdict> for ExitCode {
    fn from(verdict: Verdict) -> Self {
        if verdict == Verdict::Within { Self::SUCCESS } else { Self::FAILURE }
    }
}
