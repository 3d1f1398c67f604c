//! Calculation and records for the bleach bath of a hand papermaker.
//!
//! Everything here is pure: no browser, no clock, no I/O, no globals. A person's
//! input becomes a plan through a function; a decision becomes an entry in a
//! journal; all else is projected from those entries.
//!
//! The nouns, and how they hang together:
//!
//! * a [`quantity`] is what a person reads off a scale, jug, strip or label,
//!   with how sure they are of it;
//! * [`pulp`] is wet fibre before, in and after the bath;
//! * [`chemistry`] is water with things dissolved in it;
//! * a [`bath`] brings the two together: strength, dilution, charge, plan;
//! * [`colour`] is what the bath did, as a camera with a white card saw it;
//! * a [`caution`] is a hazard rule that looks at a plan or a log;
//! * the [`journal`] holds entries, and a batch is its entries;
//! * [`derive`] is what follows from a book: current strengths, cues, swatches, lots;
//! * [`exchange`] is what leaves or enters the app: files, photos, labels, calendar files.
//!
//! Nothing here writes a sentence. What must be said to a person leaves as a
//! [`message::Message`]: a key and the values that belong in it.

pub mod bath;
pub mod caution;
pub mod chemistry;
pub mod colour;
pub mod derive;
pub mod exchange;
pub mod journal;
pub mod message;
#[cfg(test)]
mod property;
pub mod pulp;
pub mod quantity;
