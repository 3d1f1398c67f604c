//! What leaves or enters the app: the exchange file, tables, clean photos, labels, calendar files.
//! Built on the journal and on what is derived from it; nothing in the core builds on this.

pub mod calendar;
pub mod file;
pub mod label;
pub mod photo;
pub mod table;

use crate::message::Message;
use file::FileError;
use label::LabelError;
use photo::PhotoError;
use serde::{Deserialize, Serialize};

/// Why something could not be imported, exported or printed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ExchangeError {
    #[error(transparent)]
    File(#[from] FileError),
    #[error(transparent)]
    Photo(#[from] PhotoError),
    #[error(transparent)]
    Label(#[from] LabelError),
}

impl ExchangeError {
    /// The message for the locale.
    pub fn message(&self) -> Message {
        match self {
            Self::File(error) => error.message(),
            Self::Photo(error) => error.message(),
            Self::Label(error) => error.message(),
        }
    }
}
