//! Photos as they are stored: without metadata, and with every pixel unchanged.
//! Reads and writes files by `img-parts`; decoding and measuring pixels is in `colour` and the app.
//!
//! Kept is what affects how the picture looks: the compressed picture, its
//! tables, its colour profile and its orientation. Removed is everything else:
//! EXIF (position, maker's notes, thumbnail), XMP, IPTC, comments, and data
//! after the end of the picture (depth maps, short films).
//!
//! The id of a photo is the SHA-256 of the stored bytes.

mod clean;
mod error;
mod format;
mod jpeg;
mod orientation;
mod png;
mod stripped;
mod webp;

pub use clean::{Cleaned, clean, clean_with_orientation, id_of};
pub use error::{MOST_BYTES, PhotoError};
pub use format::ImageFormat;
pub use jpeg::{JpegHeader, jpeg_header};

#[cfg(test)]
mod tests;
