//! The id of a photo: the SHA-256 of its stored bytes.

use serde::{Deserialize, Serialize};

/// The SHA-256 of a photo's stored bytes as 64 lower-case hexadecimal digits.
/// Equal photos have equal ids on every device.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct PhotoId(String);

impl PhotoId {
    /// The 64 lower-case hexadecimal digits.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The id from the 32 bytes of a SHA-256.
    pub fn of_digest(digest: [u8; 32]) -> Self {
        Self(digest.iter().map(|byte| format!("{byte:02x}")).collect())
    }
}

impl TryFrom<String> for PhotoId {
    type Error = PhotoIdError;

    /// # Errors
    /// [`PhotoIdError`] unless `text` is 64 lower-case hexadecimal digits.
    fn try_from(text: String) -> Result<Self, PhotoIdError> {
        let digits = text.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b));
        if text.len() == 64 && digits { Ok(Self(text)) } else { Err(PhotoIdError) }
    }
}

impl From<PhotoId> for String {
    fn from(id: PhotoId) -> String {
        id.0
    }
}

impl std::fmt::Display for PhotoId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// A text that is not a SHA-256 in lower-case hexadecimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("a photo id is 64 lower-case hexadecimal digits")]
pub struct PhotoIdError;
