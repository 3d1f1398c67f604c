//! JPEG: the segments that are kept, and the end of the picture.
//!
//! Source: ITU-T T.81 (1992) Annex B, table B.1 and figure B.2.

use super::{PhotoError, orientation, stripped::Stripped};
use img_parts::jpeg::{Jpeg, JpegSegment, markers};
use img_parts::{Bytes, ImageEXIF};

/// What a decoder needs to know in advance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JpegHeader {
    /// Size as stored, before the orientation is applied.
    pub width_px: u32,
    pub height_px: u32,
    /// EXIF orientation, 1 to 8.
    pub orientation: u8,
}

/// The header of a JPEG. The beginning of a file is enough if it holds the
/// header of the first scan. `None` if it is no JPEG or damaged there.
pub fn jpeg_header(bytes: &[u8]) -> Option<JpegHeader> {
    let jpeg = Jpeg::from_bytes(Bytes::copy_from_slice(bytes)).ok()?;
    let (width_px, height_px) = jpeg.dimensions()?;
    Some(JpegHeader {
        width_px: width_px.into(),
        height_px: height_px.into(),
        orientation: orientation::read(jpeg.exif()),
    })
}

/// Keeps what the picture needs: tables, frame, scans, colour profile.
/// `orientation` replaces the one of the file.
pub(super) fn strip(file: Bytes, orientation: Option<u8>) -> Result<Stripped, PhotoError> {
    let mut jpeg = Jpeg::from_bytes(file)?;
    let (width, height) = jpeg.dimensions().ok_or(PhotoError::Damaged)?;
    let orientation = orientation.unwrap_or_else(|| orientation::read(jpeg.exif()));
    jpeg.segments_mut().retain(is_kept);
    let scan = jpeg.segments_mut().iter_mut().find(|s| s.marker() == markers::SOS);
    let scan = scan.ok_or(PhotoError::Damaged)?;
    let entropy = scans(&entropy_of(scan)).ok_or(PhotoError::Damaged)?;
    *scan = JpegSegment::new_with_entropy(markers::SOS, scan.contents().clone(), entropy.into());
    jpeg.set_exif(orientation::block(orientation));
    let size = (width.into(), height.into());
    Ok(Stripped { bytes: jpeg.encoder().bytes().to_vec(), size, orientation })
}

/// Whether a segment affects how the picture looks.
fn is_kept(segment: &JpegSegment) -> bool {
    let contents = segment.contents();
    match segment.marker() {
        // JFIF states the layout of chroma; JFXX holds a thumbnail.
        markers::APP0 => contents.starts_with(b"JFIF\0"),
        markers::APP2 => contents.starts_with(b"ICC_PROFILE\0"),
        // Adobe's states whether the colours are YCbCr or RGB.
        markers::APP14 => contents.starts_with(b"Adobe"),
        markers::APP1..=markers::APP15 | markers::COM => false,
        _ => true,
    }
}

/// Everything after the header of the first scan, to the end of the file.
fn entropy_of(scan: &JpegSegment) -> Vec<u8> {
    let whole = scan.clone().encoder().bytes();
    whole.get(scan.len()..).unwrap_or_default().to_vec()
}

/// The scans in `rest` up to and including the end-of-image marker, without
/// comments and application data between them, which `img-parts` does not
/// parse. `None` if there is no end.
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
