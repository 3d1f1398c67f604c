//! The orientation of a picture: the one EXIF tag that is kept.
//!
//! Source: CIPA DC-008 (Exif 2.32, 2019) §4.6.4, tag 0x0112; TIFF 6.0 (1992)
//! §2 for headers and directories.

use exif::{In, Reader, Tag};
use img_parts::Bytes;

/// The orientation in an EXIF block, 1 to 8; 1 (upright) without a valid one.
pub(super) fn read(exif: Option<Bytes>) -> u8 {
    exif.and_then(|exif| find(exif.into()))
        .and_then(|orientation| u8::try_from(orientation).ok())
        .filter(|orientation| (1..=8).contains(orientation))
        .unwrap_or(1)
}

fn find(exif: Vec<u8>) -> Option<u32> {
    let mut reader = Reader::new();
    // Of a block that is damaged elsewhere, the part that can be read is used.
    reader.continue_on_error(true);
    let fields =
        reader.read_raw(exif).or_else(|error| error.distill_partial_result(|_| {})).ok()?;
    fields.get_field(Tag::Orientation, In::PRIMARY)?.value.get_uint(0)
}

/// An EXIF block with this orientation alone; `None` for upright, which needs
/// none.
pub(super) fn block(orientation: u8) -> Option<Bytes> {
    // Big-endian TIFF: header, one directory of one entry, no further directory. The entry: tag
    // 0x0112, type 3 (SHORT), count 1, the value at the left of its four bytes.
    #[rustfmt::skip]
    let block = [
        b'M', b'M', 0, 0x2a, 0, 0, 0, 8,
        0, 1,
        0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0,
        0, 0, 0, 0,
    ];
    (orientation != 1).then(|| Bytes::copy_from_slice(&block))
}
