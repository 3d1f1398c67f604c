//! Photos as they are kept: without the place, the time and the camera that
//! their files tell, and not one pixel altered.
//!
//! What stays is what the picture needs to be seen as it was taken: the
//! compressed picture itself, its tables, its colour profile, and which way
//! up it is. Everything else goes: EXIF (position, maker's notes, a second
//! small picture), XMP, IPTC, comments, and whatever phones hide behind the
//! end of the picture (depth maps, short films).
//!
//! The id of a photo is the SHA-256 of the bytes that are kept.

mod png;
mod webp;

mod jpeg;
mod orientation;

pub use jpeg::{Frame, frame};

use super::PhotoId;
use crate::choice;
use crate::message::{Message, Value};
use img_parts::{Bytes, ImageEXIF, jpeg::Jpeg};
use png::clean_png;
use sha2::{Digest, Sha256};
use webp::clean_webp;

/// The largest photo that is taken in: 64 MiB. A 48-megapixel JPEG is about
/// 20 MiB; common practice, no source.
pub const MOST_BYTES: usize = 64 * 1024 * 1024;

/// A photo ready to be stored, but for its id.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cleaned {
    pub bytes: Vec<u8>,
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: &'static str,
    /// Size of the picture as stored, before its orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    /// EXIF orientation, 1 to 8; the bytes keep it, so that browsers turn
    /// the picture the right way up.
    pub orientation: u8,
    /// How many bytes of metadata were left out.
    pub removed_bytes: usize,
}

impl Cleaned {
    /// The id that it is kept under. A browser's own SHA-256 gives the same sooner.
    pub fn id(&self) -> PhotoId {
        id_of(&self.bytes)
    }
}

/// Takes everything out of a photo's file but the picture.
///
/// # Errors
/// A [`PhotoError`] for a file that is empty, too large, of a kind that not
/// every browser shows, or damaged.
pub fn clean(bytes: &[u8]) -> Result<Cleaned, PhotoError> {
    clean_turned(bytes, None)
}

/// As [`clean`], of a JPEG that was made of another one's picture and lost its orientation.
///
/// # Errors
/// As [`clean`].
pub fn clean_turned(bytes: &[u8], orientation: Option<u8>) -> Result<Cleaned, PhotoError> {
    if bytes.len() > MOST_BYTES {
        return Err(PhotoError::TooLarge { bytes: bytes.len() });
    }
    let kind = Kind::of(bytes)?;
    let picture = Bytes::copy_from_slice(bytes);
    let (clean, (width_px, height_px), orientation) = match kind {
        Kind::Jpeg => clean_jpeg(picture, orientation)?,
        Kind::Png => clean_png(picture)?,
        Kind::Webp => clean_webp(picture)?,
    };
    Ok(Cleaned {
        removed_bytes: bytes.len().saturating_sub(clean.len()),
        bytes: clean,
        mime: kind.mime(),
        width_px,
        height_px,
        orientation,
    })
}

/// The id of a photo with these bytes.
pub fn id_of(bytes: &[u8]) -> PhotoId {
    PhotoId::of_digest(Sha256::digest(bytes).into())
}

/// The kinds of picture that every browser shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Jpeg,
    Png,
    Webp,
}

impl Kind {
    /// The kind by the file's first bytes.
    ///
    /// # Errors
    /// [`PhotoError::Empty`], [`PhotoError::Heic`] or
    /// [`PhotoError::NotAPicture`].
    pub fn of(bytes: &[u8]) -> Result<Self, PhotoError> {
        match bytes {
            [] => Err(PhotoError::Empty),
            [0xff, 0xd8, 0xff, ..] => Ok(Kind::Jpeg),
            [0x89, b'P', b'N', b'G', b'\r', b'\n', 0x1a, b'\n', ..] => Ok(Kind::Png),
            [b'R', b'I', b'F', b'F', _, _, _, _, b'W', b'E', b'B', b'P', ..] => Ok(Kind::Webp),
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
            Kind::Jpeg => "image/jpeg",
            Kind::Png => "image/png",
            Kind::Webp => "image/webp",
        }
    }

    /// The ending of a file's name, without the dot.
    pub fn ending(self) -> &'static str {
        match self {
            Kind::Jpeg => "jpg",
            Kind::Png => "png",
            Kind::Webp => "webp",
        }
    }
}

/// A photo that cannot be taken in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PhotoError {
    Empty,
    TooLarge {
        bytes: usize,
    },
    /// HEIC/HEIF, which most browsers cannot show.
    Heic,
    /// No JPEG, PNG or WebP.
    NotAPicture,
    /// Several pictures in one: an animation.
    Moving,
    /// It begins like a picture and does not go on like one.
    Damaged,
}

choice!(PhotoError {
    Empty = "empty",
    TooLarge { bytes } = "too_large",
    Heic = "heic",
    NotAPicture = "not_a_picture",
    Moving = "moving",
    Damaged = "damaged",
});

impl PhotoError {
    /// What to say.
    pub fn message(&self) -> Message {
        match *self {
            PhotoError::Empty => Message::new("refusal-photo-empty"),
            PhotoError::TooLarge { bytes } => Message::new("refusal-photo-too_large")
                .with("megabytes", Value::Count(megabytes(bytes)))
                .with("most", Value::Count(megabytes(MOST_BYTES))),
            PhotoError::Heic => Message::new("refusal-photo-heic"),
            PhotoError::NotAPicture => Message::new("refusal-photo-not_a_picture"),
            PhotoError::Moving => Message::new("refusal-photo-moving"),
            PhotoError::Damaged => Message::new("refusal-photo-damaged"),
        }
    }
}

/// Bytes in mebibytes, rounded up.
fn megabytes(bytes: usize) -> u64 {
    bytes.div_ceil(1024 * 1024) as u64
}

/// Clean bytes, width and height, orientation.
type Parts = (Vec<u8>, (u32, u32), u8);

fn clean_jpeg(bytes: Bytes, orientation: Option<u8>) -> Result<Parts, PhotoError> {
    let mut jpeg = Jpeg::from_bytes(bytes).map_err(damaged)?;
    let (width, height) = jpeg.dimensions().ok_or(PhotoError::Damaged)?;
    let told = jpeg.exif().map_or(1, |exif| orientation::read(&exif));
    let turned = orientation.unwrap_or(told);
    jpeg::strip(&mut jpeg)?;
    if turned != 1 {
        jpeg.set_exif(Some(orientation::exif_of(turned).into()));
    }
    Ok((jpeg.encoder().bytes().to_vec(), (width.into(), height.into()), turned))
}

fn damaged(_: img_parts::Error) -> PhotoError {
    PhotoError::Damaged
}

#[cfg(test)]
mod tests;
