//! Timers as a pure function of entries and the present instant.

mod schedule;

pub use schedule::{CueKind, Schedule};
