//! Errors of the exchange file.

use super::FORMAT;
use crate::message::{Message, Value};
use serde::{Deserialize, Serialize};

/// A file that cannot be imported or written. Nothing of it is used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FileError {
    #[error("neither an exchange archive nor its JSON")]
    NotOurs,
    /// `part` is named as in the file; empty for the whole.
    #[error("damaged: {part}")]
    Damaged { part: String },
    /// Packed or unpacked.
    #[error("more than {most_bytes} bytes")]
    TooLarge { most_bytes: u64 },
    #[error("more than {most} files")]
    TooMany { most: usize },
    #[error("format {format} of version {app}; up to {FORMAT} is accepted")]
    Newer { format: u32, app: String },
    #[error("the bytes of {name} do not match its name")]
    WrongPhoto { name: String },
    /// An attempt to write outside the archive.
    #[error("the name {name} leaves the archive")]
    OddName { name: String },
}

impl FileError {
    /// The message for the locale.
    pub fn message(&self) -> Message {
        let text = |t: &String| Value::Text(t.clone());
        let new = Message::new;
        match self {
            Self::NotOurs => new("refusal-file-not_ours"),
            Self::Damaged { part } => new("refusal-file-damaged").with("part", text(part)),
            Self::TooLarge { most_bytes } => {
                new("refusal-file-too_large").with("most", Value::Count(most_bytes / (1024 * 1024)))
            }
            Self::TooMany { most } => {
                new("refusal-file-too_many").with("most", Value::Count(*most as u64))
            }
            Self::Newer { format, app } => new("refusal-file-newer")
                .with("format", Value::Count(u64::from(*format)))
                .with("known", Value::Count(u64::from(FORMAT)))
                .with("app", text(app)),
            Self::WrongPhoto { name } => new("refusal-file-wrong_photo").with("name", text(name)),
            Self::OddName { name } => new("refusal-file-odd_name").with("name", text(name)),
        }
    }
}
