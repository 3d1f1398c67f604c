//! Which way up a picture is: the one EXIF tag that is kept.
//!
//! Source: CIPA DC-008 (Exif 2.32, 2019) §4.6.4, tag 0x0112; TIFF 6.0 (1992)
//! §2 for headers and directories.

const ORIENTATION: u16 = 0x0112;
const SHORT: u16 = 3;

/// The orientation out of a TIFF block, 1 to 8; 1 (upright) where there is
/// none or it makes no sense.
pub(super) fn read(tiff: &[u8]) -> u8 {
    find(tiff).filter(|o| (1..=8).contains(o)).unwrap_or(1)
}

/// A TIFF block that says nothing but the orientation.
pub(super) fn exif_of(orientation: u8) -> Vec<u8> {
    let mut tiff = b"MM\0\x2a\0\0\0\x08".to_vec();
    tiff.extend(1u16.to_be_bytes());
    tiff.extend(ORIENTATION.to_be_bytes());
    tiff.extend(SHORT.to_be_bytes());
    tiff.extend(1u32.to_be_bytes());
    // A short stands at the left of its four bytes.
    tiff.extend([0, orientation, 0, 0]);
    tiff.extend(0u32.to_be_bytes());
    tiff
}

fn find(tiff: &[u8]) -> Option<u8> {
    let big = match tiff.get(..4)? {
        b"MM\0\x2a" => true,
        b"II\x2a\0" => false,
        _ => return None,
    };
    let short = |at: usize| {
        let b = tiff.get(at..at.checked_add(2)?)?.try_into().ok()?;
        Some(if big { u16::from_be_bytes(b) } else { u16::from_le_bytes(b) })
    };
    let long = |at: usize| {
        let b = tiff.get(at..at.checked_add(4)?)?.try_into().ok()?;
        Some(if big { u32::from_be_bytes(b) } else { u32::from_le_bytes(b) })
    };
    let directory = usize::try_from(long(4)?).ok()?;
    let count = usize::from(short(directory)?);
    for i in 0..count {
        let entry = directory.checked_add(2 + 12 * i)?;
        if short(entry)? == ORIENTATION && short(entry + 2)? == SHORT {
            return u8::try_from(short(entry + 8)?).ok();
        }
    }
    None
}
