//! PNG files, chunk by chunk.
//!
//! Source: PNG 3rd edition (W3C 2025) §4.8, §5.3 and §11.

use super::{Parts, PhotoError, orientation};
use crate::journal::check_sum::crc32;
use img_parts::Bytes;

/// What bears on how the picture looks.
const KEPT: [&[u8; 4]; 14] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sRGB", b"cICP",
    b"sBIT", b"bKGD", b"pHYs", b"hIST",
];

/// Signature, length, kind and check sum are of 8, 4, 4 and 4 bytes.
pub(super) fn clean_png(file: Bytes) -> Result<Parts, PhotoError> {
    let (signature, mut rest) = file.split_at_checked(8).ok_or(PhotoError::Damaged)?;
    let mut clean = Vec::with_capacity(file.len());
    clean.extend_from_slice(signature);
    let (mut size, mut turned, mut after_header) = (None, None, None);
    let (mut moving, mut picture) = (false, false);
    loop {
        let (kind, contents) = chunk(rest).ok_or(PhotoError::Damaged)?;
        let (whole, after) = rest.split_at(contents.len() + 12);
        match kind {
            b"IHDR" if size.is_none() => size = Some(dimensions(contents)),
            b"eXIf" if turned.is_none() => turned = Some(orientation::read(contents)),
            b"acTL" => moving = true,
            b"IDAT" => picture = true,
            _ => {}
        }
        if KEPT.contains(&kind) {
            clean.extend_from_slice(whole);
            after_header.get_or_insert(clean.len());
        }
        if kind == b"IEND" {
            break;
        }
        rest = after;
    }
    let size = size.flatten().ok_or(PhotoError::Damaged)?;
    if moving {
        return Err(PhotoError::Animated);
    }
    if !picture {
        return Err(PhotoError::Damaged);
    }
    let turned = turned.unwrap_or(1);
    if let (Some(at), true) = (after_header, turned != 1) {
        let (header, others) = clean.split_at(at);
        clean = [header, &chunk_of(*b"eXIf", &orientation::exif_of(turned)), others].concat();
    }
    Ok((clean, size, turned))
}

/// Kind and contents of the first chunk; `None` if it is cut short or altered.
fn chunk(file: &[u8]) -> Option<(&[u8; 4], &[u8])> {
    let (length, rest) = file.split_first_chunk()?;
    let length = usize::try_from(u32::from_be_bytes(*length)).ok()?;
    let summed = rest.get(..length.checked_add(4)?)?;
    let sum = rest.get(summed.len()..)?.first_chunk()?;
    (crc32(summed) == u32::from_be_bytes(*sum)).then(|| summed.split_first_chunk())?
}

fn chunk_of(kind: [u8; 4], contents: &[u8]) -> Vec<u8> {
    let summed = [&kind, contents].concat();
    [&(contents.len() as u32).to_be_bytes(), &*summed, &crc32(&summed).to_be_bytes()].concat()
}

/// Width and height out of the header.
fn dimensions(header: &[u8]) -> Option<(u32, u32)> {
    let (width, rest) = header.split_first_chunk()?;
    let size = (u32::from_be_bytes(*width), u32::from_be_bytes(*rest.first_chunk()?));
    (size.0 != 0 && size.1 != 0).then_some(size)
}
