//! WebP files, chunk by chunk.
//!
//! Source: RFC 9649 (2024) §2.3 to §2.7, and §3.4 for the header of what is
//! without loss; RFC 6386 §9.1 for that of what is not.

use super::{Parts, PhotoError, orientation};
use img_parts::Bytes;

const KEPT: [&[u8; 4]; 5] = [b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ICCP"];

// Bits of the VP8X flags (§2.7.1).
const ICC: u8 = 0b0010_0000;
const ALPHA: u8 = 0b0001_0000;
const EXIF: u8 = 0b0000_1000;
const XMP: u8 = 0b0000_0100;
const MOVING: u8 = 0b0000_0010;

type Chunk<'a> = (&'a [u8; 4], &'a [u8]);

pub(super) fn clean_webp(file: Bytes) -> Result<Parts, PhotoError> {
    let chunks = chunks(&file).ok_or(PhotoError::Damaged)?;
    let first =
        |wanted: &[u8; 4]| chunks.iter().find(|(id, _)| *id == wanted).map(|(_, data)| *data);
    let extended = first(b"VP8X");
    let size = extended
        .and_then(canvas)
        .or_else(|| first(b"VP8 ").and_then(lossy))
        .or_else(|| first(b"VP8L").and_then(lossless))
        .ok_or(PhotoError::Damaged)?;
    let flags = extended.and_then(|data| data.first().copied()).unwrap_or_default();
    if first(b"ANIM").or(first(b"ANMF")).is_some() || flags & MOVING != 0 {
        return Err(PhotoError::Animated);
    }
    if first(b"VP8 ").or(first(b"VP8L")).is_none() {
        return Err(PhotoError::Damaged);
    }
    let exif = first(b"EXIF").map(|data| data.strip_prefix(b"Exif\0\0").unwrap_or(data));
    let turned = exif.map_or(1, orientation::read);

    let mut clean = Vec::with_capacity(file.len());
    clean.extend_from_slice(b"RIFF\0\0\0\0WEBP");
    let mut flags = flags & !(EXIF | XMP);
    if turned != 1 {
        flags |= EXIF;
        if extended.is_none() {
            // Only an extended file may have an orientation.
            let see_through = first(b"VP8L").is_some_and(|d| d.get(4).is_some_and(|b| b & 16 != 0));
            flags |= if first(b"ALPH").is_some() || see_through { ALPHA } else { 0 };
            flags |= if first(b"ICCP").is_some() { ICC } else { 0 };
            let [width, height] = [size.0, size.1].map(|side| (side - 1).to_le_bytes());
            let canvas = [&[0; 4], &width[..3], &height[..3]].concat();
            put_extended(&mut clean, flags, &canvas);
        }
    }
    for (id, data) in chunks.iter().filter(|(id, _)| KEPT.contains(id)) {
        match *id {
            b"VP8X" => put_extended(&mut clean, flags, data),
            _ => put(&mut clean, id, data),
        }
    }
    if turned != 1 {
        put(&mut clean, b"EXIF", &orientation::exif_of(turned));
    }
    let length = (clean.len() - 8) as u32;
    clean[4..8].copy_from_slice(&length.to_le_bytes());
    Ok((clean, size, turned))
}

/// The chunks of a file, without what follows the last; `None` if one is cut short.
fn chunks(file: &[u8]) -> Option<Vec<Chunk<'_>>> {
    let (_, whole, _) = chunk(file)?;
    let mut rest = whole.strip_prefix(b"WEBP")?;
    let mut chunks = Vec::new();
    while !rest.is_empty() {
        let (id, data, after) = chunk(rest)?;
        chunks.push((id, data));
        // Filled up to an even length.
        rest = after.get(data.len() % 2..)?;
    }
    Some(chunks)
}

/// The first chunk's name and contents, and what follows it.
fn chunk(file: &[u8]) -> Option<(&[u8; 4], &[u8], &[u8])> {
    let (id, rest) = file.split_first_chunk()?;
    let (length, rest) = rest.split_first_chunk()?;
    let length = usize::try_from(u32::from_le_bytes(*length)).ok()?;
    let (data, after) = rest.split_at_checked(length)?;
    Some((id, data, after))
}

fn put_extended(file: &mut Vec<u8>, flags: u8, data: &[u8]) {
    let mut data = data.to_vec();
    if let Some(first) = data.first_mut() {
        *first = flags;
    }
    put(file, b"VP8X", &data);
}

fn put(file: &mut Vec<u8>, id: &[u8; 4], data: &[u8]) {
    file.extend_from_slice(id);
    file.extend_from_slice(&(data.len() as u32).to_le_bytes());
    file.extend_from_slice(data);
    if data.len() % 2 == 1 {
        file.push(0);
    }
}

/// Width and height out of an extended file's header: each less one, in 24 bits.
fn canvas(data: &[u8]) -> Option<(u32, u32)> {
    let [a, b, c, d, e, f] = *data.get(4..)?.first_chunk()?;
    Some((u32::from_le_bytes([a, b, c, 0]) + 1, u32::from_le_bytes([d, e, f, 0]) + 1))
}

/// Out of the header of a picture with loss: a key frame's tag, a start code, 14 bits each.
fn lossy(data: &[u8]) -> Option<(u32, u32)> {
    let [tag, _, _, 0x9d, 0x01, 0x2a, a, b, c, d] = *data.first_chunk()? else { return None };
    let side = |low, high| u32::from(u16::from_le_bytes([low, high]) & 0x3fff);
    let size = (side(a, b), side(c, d));
    (tag & 1 == 0 && size.0 != 0 && size.1 != 0).then_some(size)
}

/// Out of the header of one without: a signature, each less one in 14 bits.
fn lossless(data: &[u8]) -> Option<(u32, u32)> {
    let bits = u32::from_le_bytes(*data.get(1..)?.first_chunk()?);
    Some(((bits & 0x3fff) + 1, (bits >> 14 & 0x3fff) + 1))
}
