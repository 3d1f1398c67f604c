//! Calculation and records for the bleach bath of a hand papermaker.
//!
//! Pure: no browser, no clock, no I/O, no globals. A person's input becomes a plan
//! through a function; a decision becomes an entry in a journal; everything else is
//! projected from those entries.
//!
//! * [`quantity`]: values read off a scale, jug, strip or label, with their uncertainty;
//! * [`pulp`]: wet fibre before, in and after the bath;
//! * [`chemistry`]: water and what is dissolved in it;
//! * [`bath`]: strength, dilution, charge, plan;
//! * [`colour`]: colour measured from photos with a white reference;
//! * [`caution`]: hazard rules over a plan or a log;
//! * [`journal`]: entries, and the book projected from them;
//! * [`derive`]: what follows from a book: current strengths, cues, swatches, lots;
//! * [`forecast`]: bands of what a running bath will do;
//! * [`class_sheet`]: amounts and times of a workshop;
//! * [`learning`]: own parameters from own batches;
//! * [`trial`]: a ladder of small pots, designed, dosed and read;
//! * [`exchange`]: what leaves or enters the app: files, photos, labels, calendar files.
//!
//! No sentence is written here. Texts for a person are a [`message::Message`]: a key and
//! its values.

pub mod bath;
pub mod caution;
pub mod chemistry;
pub mod class_sheet;
pub mod colour;
pub mod derive;
pub mod exchange;
pub mod forecast;
pub mod journal;
pub mod learning;
pub mod message;
#[cfg(test)]
mod property;
pub mod pulp;
pub mod quantity;
pub mod trial;
