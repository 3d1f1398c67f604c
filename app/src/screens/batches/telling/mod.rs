//! Entries in words.

mod figures;
mod view;
mod what;

pub use figures::{EntryFigure, figures};
pub use view::Telling;
pub use what::{line, name_of, what};
