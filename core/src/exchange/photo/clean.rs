//! Removing the metadata of a photo, whatever its format.

use super::stripped::Stripped;
use super::{ImageFormat, MOST_BYTES, PhotoError, jpeg, png, webp};
use crate::journal::PhotoId;
use img_parts::Bytes;
use sha2::{Digest, Sha256};

/// A photo without metadata.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cleaned {
    pub bytes: Vec<u8>,
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: &'static str,
    /// Size as stored, before the orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    /// EXIF orientation, 1 to 8; the bytes keep it, so that browsers rotate
    /// the picture.
    pub orientation: u8,
    /// The number of bytes removed.
    pub removed_bytes: usize,
}

impl Cleaned {
    /// The id of the photo. A browser's own SHA-256 gives the same faster.
    pub fn id(&self) -> PhotoId {
        id_of(&self.bytes)
    }
}

/// Removes the metadata from a photo's file.
///
/// # Errors
/// A [`PhotoError`] for a file that is empty, too large, damaged, or of a
/// format that not every browser shows.
pub fn clean(bytes: &[u8]) -> Result<Cleaned, PhotoError> {
    clean_with_orientation(bytes, None)
}

/// As [`clean`], for a JPEG that was re-encoded and lost its orientation.
///
/// # Errors
/// As [`clean`].
pub fn clean_with_orientation(
    bytes: &[u8],
    orientation: Option<u8>,
) -> Result<Cleaned, PhotoError> {
    if bytes.len() > MOST_BYTES {
        return Err(PhotoError::TooLarge { bytes: bytes.len() });
    }
    let format = ImageFormat::of(bytes)?;
    let file = Bytes::copy_from_slice(bytes);
    let Stripped { bytes: clean, size: (width_px, height_px), orientation } = match format {
        ImageFormat::Jpeg => jpeg::strip(file, orientation)?,
        ImageFormat::Png => png::strip(file)?,
        ImageFormat::Webp => webp::strip(file)?,
    };
    Ok(Cleaned {
        removed_bytes: bytes.len().saturating_sub(clean.len()),
        bytes: clean,
        mime: format.mime(),
        width_px,
        height_px,
        orientation,
    })
}

/// The id of a photo with these bytes.
pub fn id_of(bytes: &[u8]) -> PhotoId {
    PhotoId::of_digest(Sha256::digest(bytes).into())
}
