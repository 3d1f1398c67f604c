//! Errors of the worker.

use crate::i18n::key;
use bleachfield_core::exchange::{ExchangeError, file::FileError, photo::PhotoError};
use bleachfield_core::message::Message;
use serde::{Deserialize, Serialize};

/// A request that was not fulfilled.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkerError {
    #[error(transparent)]
    Exchange(#[from] ExchangeError),
    #[error("this browser cannot decode the picture; JPEG, PNG and WebP are accepted")]
    Undecodable,
    /// Older browsers have a canvas on the page and none in a worker.
    #[error("no canvas to draw on, or none that encodes JPEG")]
    NoCanvas,
    #[error("no forecast can be made of this bath")]
    NoForecast,
    /// It stopped by an error in its program, which Help shows.
    #[error("the worker stopped by a panic")]
    Stopped,
    /// It could not start, ended, or is of another version than the page.
    #[error("the worker does not respond: reload the page")]
    Unavailable,
}

impl WorkerError {
    /// The message for the locale.
    pub fn message(&self) -> Message {
        match self {
            Self::Exchange(error) => error.message(),
            Self::Undecodable => Message::new(key!("refusal-photo-damaged")),
            Self::NoCanvas => Message::new(key!("refusal-photo-no_canvas")),
            Self::NoForecast => Message::new(key!("refusal-no_forecast")),
            Self::Stopped => Message::new(key!("refusal-worker-stopped")),
            Self::Unavailable => Message::new(key!("refusal-worker-gone")),
        }
    }
}

impl From<FileError> for WorkerError {
    fn from(error: FileError) -> Self {
        Self::Exchange(error.into())
    }
}

impl From<PhotoError> for WorkerError {
    fn from(error: PhotoError) -> Self {
        Self::Exchange(error.into())
    }
}
