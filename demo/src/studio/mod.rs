//! Saltreed Studio: two invented people by an invented estuary, and one season of
//! their bleaching.
//!
//! [`file`] returns all of it as one exchange file. [`season`] lists the batches step by
//! step through a [`simulation::BatchSimulation`], which plans with the core's own `plan`
//! and takes the readings of meters and strips from [`model`]. Photographs come from
//! [`crate::photo`]; the core measures their colours.
//!
//! Entries are dated back from an instant that the caller gives, so that a file made
//! today holds a bath that is running today. One instant gives one file, byte for
//! byte; the ids of two instants differ, so that both files can be imported.

mod captured_photo;
mod journal_builder;
mod model;
mod season;
mod shelf;
mod simulation;

use std::fmt;

use bleachfield_core::exchange::file::{Header, write};
use jiff::Timestamp;

/// The default end of the season: it then runs from March to October 2026.
pub const NOW: &str = "2026-10-17T09:40:00Z";

/// The studio at `now` as one exchange file.
///
/// # Errors
/// [`DemoError`] if the core refuses a plan, a photo or a reading of the season, or if
/// `now` is so early that there is no season before it.
pub fn file(now: Timestamp) -> Result<Vec<u8>, DemoError> {
    let mut journal = journal_builder::JournalBuilder::new(now)?;
    let shelf = shelf::stock(&mut journal)?;
    season::simulate(&mut journal, &shelf)?;
    let header = Header {
        app: env!("CARGO_PKG_VERSION").to_owned(),
        exported_at: now,
        device: journal_builder::Author::Marl.device(),
        demo: true,
    };
    let (entries, photos) = journal.close()?;
    write(&header, &entries, photos).map_err(DemoError::of("the file"))
}

/// The step that failed, and the core's error.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{step}: {cause}")]
pub struct DemoError {
    step: &'static str,
    cause: String,
}

impl DemoError {
    fn of<E: fmt::Debug>(step: &'static str) -> impl Fn(E) -> Self {
        move |error| Self { step, cause: format!("{error:?}") }
    }
}

#[cfg(test)]
mod tests;
