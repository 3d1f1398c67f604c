//! Errors of photo files.

use crate::message::{Message, Value};
use serde::{Deserialize, Serialize};

/// The largest accepted photo: 64 MiB. A 48-megapixel JPEG is about 20 MiB;
/// common practice, no source.
pub const MOST_BYTES: usize = 64 * 1024 * 1024;

/// A photo's file that is not accepted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PhotoError {
    #[error("an empty file")]
    Empty,
    #[error("{bytes} bytes; at most {MOST_BYTES} are accepted")]
    TooLarge { bytes: usize },
    /// Most browsers cannot show HEIC and HEIF.
    #[error("HEIC or HEIF; JPEG, PNG and WebP are accepted")]
    Heic,
    #[error("not a picture; JPEG, PNG and WebP are accepted")]
    NotAPicture,
    #[error("an animation; single pictures are accepted")]
    Animated,
    /// It has the signature of a picture and is not one, or is cut short.
    #[error("a damaged picture")]
    Damaged,
}

impl PhotoError {
    /// The message for the locale.
    pub fn message(&self) -> Message {
        match *self {
            PhotoError::Empty => Message::new("refusal-photo-empty"),
            PhotoError::TooLarge { bytes } => Message::new("refusal-photo-too_large")
                .with("megabytes", Value::Count(mebibytes(bytes)))
                .with("most", Value::Count(mebibytes(MOST_BYTES))),
            PhotoError::Heic => Message::new("refusal-photo-heic"),
            PhotoError::NotAPicture => Message::new("refusal-photo-not_a_picture"),
            PhotoError::Animated => Message::new("refusal-photo-moving"),
            PhotoError::Damaged => Message::new("refusal-photo-damaged"),
        }
    }
}

impl From<img_parts::Error> for PhotoError {
    fn from(_: img_parts::Error) -> Self {
        PhotoError::Damaged
    }
}

/// Bytes in mebibytes, rounded up.
fn mebibytes(bytes: usize) -> u64 {
    bytes.div_ceil(1024 * 1024) as u64
}
