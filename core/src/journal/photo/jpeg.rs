//! JPEG files: which segments the picture needs, and where it ends.
//!
//! Source: ITU-T T.81 (1992) Annex B, table B.1 and figure B.2.

use super::{PhotoError, orientation};
use img_parts::jpeg::{Jpeg, JpegSegment, markers};

/// Leaves what the picture needs: tables, frame, scans, colour profile.
pub(super) fn strip(jpeg: &mut Jpeg) -> Result<(), PhotoError> {
    jpeg.segments_mut().retain(needed);
    let Some(scan) = jpeg.segments_mut().iter_mut().find(|s| s.marker() == markers::SOS) else {
        return Err(PhotoError::Damaged);
    };
    let entropy = entropy_of(scan);
    let kept = scans(&entropy).ok_or(PhotoError::Damaged)?;
    *scan = JpegSegment::new_with_entropy(markers::SOS, scan.contents().clone(), kept.into());
    Ok(())
}

/// What a decoder has to know before it begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Frame {
    /// Size of the picture as stored, before its orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    /// EXIF orientation, 1 to 8.
    pub orientation: u8,
}

/// The frame of a JPEG by what stands before its picture; `None` of what is no JPEG or
/// is damaged there.
pub fn frame(bytes: &[u8]) -> Option<Frame> {
    let mut rest = bytes.strip_prefix(&[0xff, markers::SOI])?;
    let mut turned = 1;
    loop {
        let [0xff, marker, after @ ..] = rest else { return None };
        // A marker may be filled up from the left.
        if *marker == 0xff {
            rest = &rest[1..];
            continue;
        }
        let length = usize::from(u16::from_be_bytes([*after.first()?, *after.get(1)?]));
        let contents = after.get(2..length)?;
        match *marker {
            markers::SOS | markers::EOI => return None,
            markers::APP1 if contents.starts_with(b"Exif\0\0") => {
                turned = orientation::read(&contents[6..]);
            }
            // Table B.1: of these sixteen, three are no frames.
            markers::SOF0..=markers::SOF15
                if !matches!(*marker, markers::DHT | markers::JPG | markers::DAC) =>
            {
                let side =
                    |at| Some(u16::from_be_bytes([*contents.get(at)?, *contents.get(at + 1)?]));
                let (height_px, width_px) = (side(1)?.into(), side(3)?.into());
                return Some(Frame { width_px, height_px, orientation: turned });
            }
            _ => {}
        }
        rest = after.get(length..)?;
    }
}

/// Whether a segment bears on how the picture looks.
fn needed(segment: &JpegSegment) -> bool {
    let contents = segment.contents();
    match segment.marker() {
        // JFIF says how chroma is laid out; JFXX holds another small picture.
        markers::APP0 => contents.starts_with(b"JFIF\0"),
        markers::APP2 => contents.starts_with(b"ICC_PROFILE\0"),
        // Adobe's says whether the colours are YCbCr or RGB.
        markers::APP14 => contents.starts_with(b"Adobe"),
        markers::APP1..=markers::APP15 | markers::COM => false,
        _ => true,
    }
}

/// All that follows the header of the first scan, to the end of the file.
fn entropy_of(scan: &JpegSegment) -> Vec<u8> {
    let whole = scan.clone().encoder().bytes();
    whole.get(scan.len()..).unwrap_or_default().to_vec()
}

/// The scans of `rest` up to the end-of-image marker and with it, byte for
/// byte, but without comments and application data between them. None if
/// there is no end.
fn scans(rest: &[u8]) -> Option<Vec<u8>> {
    let mut kept = Vec::with_capacity(rest.len());
    let mut at = 0;
    loop {
        // A marker is 0xff and neither 0 (a stuffed byte) nor 0xff (fill).
        let marker_at = at + rest.get(at..)?.iter().position(|b| *b == 0xff)?;
        kept.extend_from_slice(&rest[at..marker_at]);
        at = marker_at;
        match *rest.get(at + 1)? {
            markers::EOI => {
                kept.extend_from_slice(&[0xff, markers::EOI]);
                return Some(kept);
            }
            0xff => {
                kept.push(0xff);
                at += 1;
            }
            0x00 | 0x01 | 0xd0..=0xd8 => {
                kept.extend_from_slice(&rest[at..at + 2]);
                at += 2;
            }
            marker => {
                let length = rest.get(at + 2..at + 4)?;
                let end = at + 2 + usize::from(u16::from_be_bytes([length[0], length[1]]));
                let segment = rest.get(at..end)?;
                if segment.len() < 4 {
                    return None;
                }
                if !matches!(marker, markers::APP0..=markers::APP15 | markers::COM) {
                    kept.extend_from_slice(segment);
                }
                at = end;
            }
        }
    }
}
