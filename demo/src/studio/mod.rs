//! Saltreed Studio: two invented people by an invented estuary, and one season of
//! their bleaching.
//!
//! [`file`] is all of it as one exchange file. What they did is told in [`season`],
//! step by step, through a [`course::Course`], which makes each plan with the core's
//! own `plan` and takes what meters and strips would have shown from [`model`].
//! Photographs come from [`crate::photo`], and colours are measured from their
//! pixels by the core.
//!
//! Entries are dated back from an instant that the caller gives, so that a file made
//! today holds a bath that is running today. One instant gives one file, byte for
//! byte; two instants give two studios that can stand side by side.

mod course;
mod log;
mod model;
mod picture;
mod season;
mod shelf;

use std::error::Error;
use std::fmt;

use bleachfield_core::exchange::file::{Header, write};
use jiff::Timestamp;

/// The instant that the file is made for where nobody names one. A season counted
/// back from it runs from March to October 2026.
pub const NOW: &str = "2026-10-17T09:40:00Z";

/// The studio as one exchange file, as it stands at `now`.
///
/// # Errors
/// [`Failure`] if the core refuses a plan, a photo or a reading of the season, or if
/// `now` is so early that there is no season before it.
pub fn file(now: Timestamp) -> Result<Vec<u8>, Failure> {
    let mut log = log::Log::new(now)?;
    let shelf = shelf::stock(&mut log)?;
    season::tell(&mut log, &shelf)?;
    let header = Header {
        app: env!("CARGO_PKG_VERSION").to_owned(),
        exported_at: now,
        device: log::Hand::Marl.device(),
    };
    let (entries, photos) = log.close()?;
    write(&header, &entries, photos).map_err(Failure::of("the file"))
}

/// Why there is no file: which step failed, and how.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Failure {
    what: &'static str,
    why: String,
}

impl Failure {
    fn of<E: fmt::Debug>(what: &'static str) -> impl Fn(E) -> Self {
        move |error| Self { what, why: format!("{error:?}") }
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.what, self.why)
    }
}

impl Error for Failure {}

#[cfg(test)]
mod tests;
