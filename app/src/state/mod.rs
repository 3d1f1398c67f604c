//! The state of the app that every screen shares: the book of records and the way to write to it.
//! Preferences are in `platform::preferences`; state of one screen stays with that screen.

mod app_state;
mod learning;

pub use app_state::{AppState, LoadState, app_state};
pub use learning::{LearningState, learning_state};
