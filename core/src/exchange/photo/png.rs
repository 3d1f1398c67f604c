//! PNG: the chunks that are kept.
//!
//! Source: PNG 3rd edition (W3C 2025) §4.8, §5.3 and §11.

use super::{PhotoError, orientation, stripped::Stripped};
use img_parts::{Bytes, ImageEXIF, png::Png};

/// Chunks that affect how the picture looks.
const KEPT: [&[u8; 4]; 14] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sRGB", b"cICP",
    b"sBIT", b"bKGD", b"pHYs", b"hIST",
];

pub(super) fn strip(file: Bytes) -> Result<Stripped, PhotoError> {
    let mut png = Png::from_bytes(file)?;
    let size = png.dimensions().ok_or(PhotoError::Damaged)?;
    let has = |kind: &[u8; 4]| png.chunk_by_type(*kind).is_some();
    if has(b"acTL") {
        return Err(PhotoError::Animated);
    }
    if !has(b"IDAT") || !has(b"IEND") {
        return Err(PhotoError::Damaged);
    }
    let orientation = orientation::read(png.exif());
    png.chunks_mut().retain(|chunk| KEPT.contains(&&chunk.kind()));
    png.set_exif(orientation::block(orientation));
    Ok(Stripped { bytes: png.encoder().bytes().to_vec(), size, orientation })
}
