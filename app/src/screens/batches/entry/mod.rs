//! An entry on screen: its description, figures and note.

mod description;
mod figures;
mod note;
mod view;

pub use description::{describe, name_of, title_and_time};
pub use figures::{EntryFigure, figures_mut};
pub use note::{note_mut, note_of};
pub use view::{EntryView, brief};
