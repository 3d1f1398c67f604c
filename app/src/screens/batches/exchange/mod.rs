//! Exchange files: export of the book or some batches, and import.

mod export;
mod import;
mod incoming;
mod last_export;

pub use export::ExportFile;
pub use import::ImportFile;
pub use incoming::{IncomingFile, incoming, open_incoming, provide_incoming};
pub use last_export::ExportReminder;
