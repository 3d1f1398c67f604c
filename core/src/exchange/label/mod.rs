//! The label of a tub of pulp, as data: text, hazards, and a QR code that opens the batch.
//! The app draws and prints it; the wording is in the locale.
//!
//! A batch that was not signed off clean may be labelled; its label says
//! UNTESTED and states the hazards of possible residues.

mod content;
mod hazard;
mod qr;
mod tub;

pub use content::{LONGEST_NAME, Label, LabelError, NAME, Tub};
pub use hazard::{Hazard, Precaution, Residues, hazards, precautions, signal_word};
pub use qr::{LINK, Qr, QrError};
pub use tub::TubContents;
