//! WebP: the chunks that are kept.
//!
//! Source: RFC 9649 (2024) §2.7.

use super::{PhotoError, orientation, stripped::Stripped};
use img_parts::riff::RiffContent;
use img_parts::webp::{CHUNK_ANIM, CHUNK_ANMF, CHUNK_VP8, CHUNK_VP8L, CHUNK_VP8X, WebP};
use img_parts::{Bytes, ImageEXIF};

/// Chunks that affect how the picture looks.
const KEPT: [&[u8; 4]; 5] = [b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ICCP"];

// Flags in the first byte of the VP8X chunk (§2.7.1).
const XMP: u8 = 0b0000_0100;
const ANIMATION: u8 = 0b0000_0010;

pub(super) fn strip(file: Bytes) -> Result<Stripped, PhotoError> {
    let mut webp = WebP::from_bytes(file)?;
    let size = webp.dimensions().ok_or(PhotoError::Damaged)?;
    if webp.has_chunk(CHUNK_ANIM) || webp.has_chunk(CHUNK_ANMF) || flags(&webp) & ANIMATION != 0 {
        return Err(PhotoError::Animated);
    }
    if !webp.has_chunk(CHUNK_VP8) && !webp.has_chunk(CHUNK_VP8L) {
        return Err(PhotoError::Damaged);
    }
    let orientation = orientation::read(webp.exif());
    webp.chunks_mut().retain(|chunk| KEPT.contains(&&chunk.id()));
    clear_xmp_flag(&mut webp);
    // Keeps the EXIF flag in step, and makes a plain file extended if it needs EXIF.
    webp.set_exif(orientation::block(orientation));
    Ok(Stripped { bytes: webp.encoder().bytes().to_vec(), size, orientation })
}

/// The flags of an extended file; none of a plain one.
fn flags(webp: &WebP) -> u8 {
    let extended = webp.chunk_by_id(CHUNK_VP8X).and_then(|chunk| chunk.content().data());
    extended.and_then(|data| data.first().copied()).unwrap_or_default()
}

fn clear_xmp_flag(webp: &mut WebP) {
    for chunk in webp.chunks_mut().iter_mut().filter(|chunk| chunk.id() == CHUNK_VP8X) {
        if let RiffContent::Data(data) = chunk.content_mut() {
            let mut extended = data.to_vec();
            if let Some(flags) = extended.first_mut() {
                *flags &= !XMP;
            }
            *data = extended.into();
        }
    }
}
