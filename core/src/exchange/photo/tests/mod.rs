#![allow(clippy::unwrap_used)]

mod structure;

use super::*;
use proptest::prelude::*;

/// What a clean file must not contain.
const SECRETS: [&[u8]; 6] = [
    b"GPS-38.7N",
    b"MakerNote",
    b"http://ns.adobe.com/xap",
    b"serial 1234",
    b"comment",
    b"hidden film",
];

/// The picture: quantisation table, frame of 16 by 8, Huffman table, scans.
/// With a stuffed byte, a restart marker and a table between the scans.
fn picture() -> Vec<Vec<u8>> {
    let mut scan = vec![0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0];
    scan.extend([0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56]);
    scan.extend([0xff, 0xc4, 0, 4, 9, 9]);
    scan.extend([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0, 0x78, 0xff, 0x00]);
    vec![
        segment(0xdb, &[0, 1, 2, 3]),
        segment(0xc0, &[8, 0, 8, 0, 16, 1, 1, 0x11, 0]),
        segment(0xc4, &[0, 1, 2]),
        scan,
    ]
}

fn segment(marker: u8, contents: &[u8]) -> Vec<u8> {
    let length = u16::try_from(contents.len() + 2).unwrap().to_be_bytes();
    [&[0xff, marker], &length[..], contents].concat()
}

/// A TIFF block with an orientation and a GPS directory, little-endian.
fn exif(orientation: u8) -> Vec<u8> {
    let mut tiff = b"II\x2a\0\x08\0\0\0".to_vec();
    tiff.extend(2u16.to_le_bytes());
    for (tag, kind, value) in [(0x0112u16, 3u16, u32::from(orientation)), (0x8825, 4, 38)] {
        tiff.extend(tag.to_le_bytes());
        tiff.extend(kind.to_le_bytes());
        tiff.extend(1u32.to_le_bytes());
        tiff.extend(value.to_le_bytes());
    }
    tiff.extend(0u32.to_le_bytes());
    tiff.extend(b"GPS-38.7N MakerNote serial 1234");
    tiff
}

/// A JPEG with all metadata that phones write.
fn phone_jpeg(orientation: u8) -> Vec<u8> {
    let mut file = vec![0xff, 0xd8];
    file.extend(segment(0xe0, b"JFIF\0\x01\x02\0\0\x01\0\x01\0\0"));
    file.extend(segment(0xe0, b"JFXX\0\x10serial 1234"));
    file.extend(segment(0xe1, &[b"Exif\0\0", &exif(orientation)[..]].concat()));
    file.extend(segment(0xe1, b"http://ns.adobe.com/xap/1.0/\0<x:GPS>GPS-38.7N</x:GPS>"));
    file.extend(segment(0xe2, b"ICC_PROFILE\0\x01\x01profile"));
    file.extend(segment(0xe2, b"MPF\0GPS-38.7N"));
    file.extend(segment(0xed, b"Photoshop 3.0\0GPS-38.7N"));
    file.extend(segment(0xee, b"Adobe\0\x64\0\0\0\0\x01"));
    file.extend(segment(0xfe, b"comment"));
    let [quantisation, frame, huffman, scan] = picture().try_into().unwrap();
    file.extend([quantisation, frame, huffman, scan].concat());
    file.extend(segment(0xfe, b"comment"));
    file.extend([0xff, 0xd9]);
    // A second picture with its own position, and a film.
    file.extend([0xff, 0xd8]);
    file.extend(segment(0xe1, &[b"Exif\0\0", &exif(1)[..]].concat()));
    file.extend([0xff, 0xd9]);
    file.extend(b"hidden film");
    file
}

fn holds(file: &[u8], what: &[u8]) -> bool {
    file.windows(what.len()).any(|w| w == what)
}

#[test]
fn a_jpeg_keeps_its_picture_to_the_byte_and_nothing_else() {
    let clean = clean(&phone_jpeg(6)).unwrap();
    for secret in SECRETS {
        assert!(!holds(&clean.bytes, secret), "{}", String::from_utf8_lossy(secret));
    }
    for part in picture() {
        assert!(holds(&clean.bytes, &part));
    }
    assert!(holds(&clean.bytes, b"ICC_PROFILE\0\x01\x01profile") && holds(&clean.bytes, b"Adobe"));
    assert!(clean.bytes.ends_with(&[0x78, 0xff, 0x00, 0xff, 0xd9]));
    assert_eq!(
        (clean.width_px, clean.height_px, clean.orientation, clean.mime),
        (16, 8, 6, "image/jpeg")
    );
    assert_eq!(clean.id(), id_of(&clean.bytes));
}

#[test]
fn cleaning_is_idempotent() {
    for orientation in 1..=8 {
        let once = clean(&phone_jpeg(orientation)).unwrap();
        let twice = clean(&once.bytes).unwrap();
        assert_eq!(
            (&twice.bytes, twice.orientation, twice.removed_bytes),
            (&once.bytes, orientation, 0)
        );
        assert_eq!(holds(&once.bytes, b"Exif"), orientation != 1);
    }
}

#[test]
fn a_jpeg_gets_the_orientation_that_is_passed() {
    let upright = clean(&phone_jpeg(1)).unwrap();
    let turned = clean_with_orientation(&upright.bytes, Some(6)).unwrap();
    assert_eq!(
        turned,
        Cleaned { removed_bytes: turned.removed_bytes, ..clean(&phone_jpeg(6)).unwrap() }
    );
    assert_eq!(jpeg_header(&turned.bytes).unwrap().orientation, 6);
}

#[test]
fn the_header_is_read_without_the_scans() {
    for orientation in 1..=8 {
        let file = phone_jpeg(orientation);
        let header = jpeg_header(&file).unwrap();
        let clean = clean(&file).unwrap();
        assert_eq!(
            (header.width_px, header.height_px, header.orientation),
            (clean.width_px, clean.height_px, clean.orientation)
        );
        assert_eq!(jpeg_header(&clean.bytes), Some(header));
    }
    let cut = |length: usize| jpeg_header(&phone_jpeg(6)[..length]);
    assert_eq!((cut(0), cut(3), cut(100)), (None, None, None));
    assert_eq!(jpeg_header(&phone_png(&[])), None);
}

fn png_chunk(kind: &[u8; 4], contents: &[u8]) -> Vec<u8> {
    img_parts::png::PngChunk::new(*kind, contents.to_vec().into()).encoder().bytes().to_vec()
}

fn phone_png(extra: &[(&[u8; 4], &[u8])]) -> Vec<u8> {
    let mut file = b"\x89PNG\r\n\x1a\n".to_vec();
    file.extend(png_chunk(b"IHDR", &[0, 0, 0, 16, 0, 0, 0, 8, 8, 2, 0, 0, 0]));
    for (kind, contents) in extra {
        file.extend(png_chunk(kind, contents));
    }
    file.extend(png_chunk(b"IDAT", b"the picture"));
    file.extend(png_chunk(b"IEND", b""));
    file.extend(b"hidden film");
    file
}

#[test]
fn a_png_keeps_what_affects_its_look() {
    let exif = exif(3);
    let file = phone_png(&[
        (b"iCCP", b"profile"),
        (b"eXIf", &exif),
        (b"tEXt", b"GPS-38.7N"),
        (b"tIME", b"1234567"),
    ]);
    let clean = clean(&file).unwrap();
    assert!(SECRETS.iter().all(|secret| !holds(&clean.bytes, secret)));
    assert!(!holds(&clean.bytes, b"tIME"));
    assert!(holds(&clean.bytes, b"the picture") && holds(&clean.bytes, b"profile"));
    assert_eq!((clean.width_px, clean.height_px, clean.orientation), (16, 8, 3));
}

fn webp_chunk(id: &[u8; 4], contents: &[u8]) -> Vec<u8> {
    let mut chunk =
        [&id[..], &u32::try_from(contents.len()).unwrap().to_le_bytes(), contents].concat();
    chunk.resize(chunk.len().next_multiple_of(2), 0);
    chunk
}

fn phone_webp(flags: u8, extra: &[u8]) -> Vec<u8> {
    let mut body = b"WEBP".to_vec();
    body.extend(webp_chunk(b"VP8X", &[flags, 0, 0, 0, 15, 0, 0, 7, 0, 0]));
    body.extend(webp_chunk(b"ICCP", b"profile!"));
    body.extend(webp_chunk(b"VP8 ", b"the picture itself"));
    body.extend(extra);
    [b"RIFF", &u32::try_from(body.len()).unwrap().to_le_bytes()[..], &body].concat()
}

#[test]
fn a_webp_keeps_its_picture_and_its_flags_match_its_chunks() {
    let extra = [
        webp_chunk(b"EXIF", &exif(8)),
        webp_chunk(b"XMP ", b"GPS-38.7N"),
        webp_chunk(b"ABCD", b"serial 1234"),
    ];
    let mut file = phone_webp(0b0010_1100, &extra.concat());
    file.extend(b"hidden film");
    let turned = clean(&file).unwrap();
    assert!(SECRETS.iter().all(|secret| !holds(&turned.bytes, secret)));
    assert!(holds(&turned.bytes, b"the picture itself") && holds(&turned.bytes, b"profile!"));
    assert_eq!((turned.width_px, turned.height_px, turned.orientation), (16, 8, 8));
    // Profile and orientation are there, XMP is not.
    assert!(holds(&turned.bytes, &[b"VP8X", &[10, 0, 0, 0, 0b0010_1000][..]].concat()));
    let upright = clean(&phone_webp(0b0010_1100, &webp_chunk(b"XMP ", b"GPS-38.7N"))).unwrap();
    assert!(holds(&upright.bytes, &[b"VP8X", &[10, 0, 0, 0, 0b0010_0000][..]].concat()));
}

#[test]
fn unsupported_files_are_refused() {
    let truncated = phone_jpeg(1);
    let picture_end = truncated.windows(2).rposition(|w| w == [0x78, 0xff]).unwrap();
    for (bytes, error) in [
        (&b""[..], PhotoError::Empty),
        (b"hello", PhotoError::NotAPicture),
        (b"\0\0\0\x18ftypheic\0\0\0\0", PhotoError::Heic),
        (b"\0\0\0\x18ftypmif1\0\0\0\0", PhotoError::Heic),
        (b"\xff\xd8\xff\xe0", PhotoError::Damaged),
        (&truncated[..picture_end], PhotoError::Damaged),
        (&phone_png(&[])[..40], PhotoError::Damaged),
        (&phone_png(&[(b"acTL", b"12345678")]), PhotoError::Animated),
        (&phone_webp(2, b""), PhotoError::Animated),
        (&phone_webp(0, b"")[..60], PhotoError::Damaged),
        (&vec![0; MOST_BYTES + 1], PhotoError::TooLarge { bytes: MOST_BYTES + 1 }),
    ] {
        assert_eq!(clean(bytes), Err(error));
        assert!(error.message().key.starts_with("refusal-photo-"));
    }
}

proptest! {
    /// Any truncation or alteration gives a photo or an error, not a panic.
    #[test]
    fn damaged_files_never_panic(orientation in 1u8..=8, cut in 0usize..700, at in 0usize..700, byte in any::<u8>()) {
        for mut file in [phone_jpeg(orientation), phone_png(&[(b"eXIf", &exif(orientation))]), phone_webp(8, &webp_chunk(b"EXIF", &exif(orientation)))] {
            file.truncate(cut.max(1));
            if let Some(altered) = file.get_mut(at) {
                *altered = byte;
            }
            let _ = jpeg_header(&file);
            if let Ok(clean) = clean(&file) {
                prop_assert!((1..=8).contains(&clean.orientation));
            }
        }
    }
}

/// The ids that earlier versions gave these photos: the stored bytes do not change.
#[test]
fn photos_have_the_same_ids_as_in_earlier_versions() {
    let lossless = webp_chunk(b"VP8L", &[0x2f, 15, 0xc0, 1, 0x10, 5]);
    let plain = |picture: &[u8], extra: &[u8]| {
        let body = [b"WEBP", picture, extra].concat();
        [b"RIFF", &(body.len() as u32).to_le_bytes()[..], &body].concat()
    };
    let exif = exif(6);
    let files = [
        (phone_jpeg(1), "b690f47bf6bf58eadaeabcbea50a50096df262bf36b256d29acb9888a9783102"),
        (phone_jpeg(6), "79512e9b53a7e193bd3b20eb3b4cac9f5bff3eca6baac1dcc20eaee3b0dfbe4e"),
        (
            phone_png(&[(b"iCCP", b"profile"), (b"tEXt", b"comment")]),
            "acab430d05761a9fc074c3917818d01ed9a7ec967eaa193470e901caed723820",
        ),
        (
            phone_png(&[(b"eXIf", &exif), (b"sRGB", b"0"), (b"tIME", b"1234567")]),
            "fd9f3204bd088fed83b168662b4757c4eddd4b8c13d357a5c3a1cbcea4ce7f19",
        ),
        (
            phone_webp(0b0010_1100, &webp_chunk(b"XMP ", b"GPS-38.7N")),
            "966549f1bcbd13289f06650eabca10b36c492a899f9ed26cc1aee87284f9c5ed",
        ),
        (
            phone_webp(0b0010_1100, &webp_chunk(b"EXIF", &exif)),
            "826617f99d2387d16312bed0626abffae2a2e5e90a03757668c08076db9d802c",
        ),
        (plain(&lossless, b""), "d81c00af3598b0ee89189832761d38e35fda8d2dce277b42011a1237bcbf159d"),
        (
            plain(&lossless, &webp_chunk(b"EXIF", &[b"Exif\0\0", &exif[..]].concat())),
            "04bcbdc83e6df5211da30dc3f08b5cd78b05a25bd1916b31d86db34fb63b08a8",
        ),
    ];
    for (file, id) in files {
        assert_eq!(clean(&file).unwrap().id().as_str(), id);
    }
}
