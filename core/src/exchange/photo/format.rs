//! The image formats that every browser shows.

use super::PhotoError;

/// The format of a photo's file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ImageFormat {
    Jpeg,
    Png,
    Webp,
}

impl ImageFormat {
    /// The format by the first bytes of a file.
    ///
    /// # Errors
    /// [`PhotoError::Empty`], [`PhotoError::Heic`] or
    /// [`PhotoError::NotAPicture`].
    pub fn of(bytes: &[u8]) -> Result<Self, PhotoError> {
        match bytes {
            [] => Err(PhotoError::Empty),
            [0xff, 0xd8, 0xff, ..] => Ok(Self::Jpeg),
            [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', ..] => Ok(Self::Png),
            [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Ok(Self::Webp),
            // ISO 14496-12 file type box; the brands of HEIF (ISO 23008-12).
            [_, _, _, _, b'f', b't', b'y', b'p', brand @ ..]
                if [b"heic", b"heix", b"heim", b"heis", b"hevc", b"mif1", b"msf1"]
                    .iter()
                    .any(|b| brand.starts_with(*b)) =>
            {
                Err(PhotoError::Heic)
            }
            _ => Err(PhotoError::NotAPicture),
        }
    }

    /// The media type.
    pub fn mime(self) -> &'static str {
        match self {
            Self::Jpeg => "image/jpeg",
            Self::Png => "image/png",
            Self::Webp => "image/webp",
        }
    }

    /// The file name extension, without the dot.
    pub fn extension(self) -> &'static str {
        match self {
            Self::Jpeg => "jpg",
            Self::Png => "png",
            Self::Webp => "webp",
        }
    }
}
