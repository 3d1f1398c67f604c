//! The structure of clean PNG and WebP files.

use super::*;
use img_parts::{ImageEXIF, png::Png, webp::WebP};

proptest! {
    #[test]
    fn a_clean_file_holds_its_orientation_and_size(orientation in 2u8..=8, flags in any::<u8>()) {
        let png = clean(&phone_png(&[(b"eXIf", &exif(orientation)), (b"tEXt", b"comment")])).unwrap();
        let read = Png::from_bytes(png.bytes.clone().into()).unwrap();
        prop_assert_eq!(orientation::read(read.exif()), orientation);
        prop_assert_eq!(read.dimensions(), Some((png.width_px, png.height_px)));
        prop_assert_eq!(read.encoder().bytes(), png.bytes);

        let webp = clean(&phone_webp(flags & !2, &webp_chunk(b"EXIF", &exif(orientation)))).unwrap();
        let read = WebP::from_bytes(webp.bytes.clone().into()).unwrap();
        prop_assert_eq!(orientation::read(read.exif()), orientation);
        prop_assert_eq!(read.dimensions(), Some((webp.width_px, webp.height_px)));
        prop_assert_eq!(read.encoder().bytes(), webp.bytes);
    }
}

#[test]
fn a_plain_webp_becomes_an_extended_one_to_hold_its_orientation() {
    let lossy = webp_chunk(b"VP8 ", &[0, 0, 0, 0x9d, 1, 0x2a, 16, 0, 8, 0, 1, 2, 3]);
    let lossless = webp_chunk(b"VP8L", &[0x2f, 15, 0xc0, 1, 0x10, 5]);
    for (picture, alpha) in [(lossy, 0), (lossless, 16)] {
        let body = [b"WEBP", &picture[..], &webp_chunk(b"EXIF", &exif(6))].concat();
        let file = [b"RIFF", &(body.len() as u32).to_le_bytes()[..], &body].concat();
        let turned = clean(&file).unwrap();
        assert_eq!((turned.width_px, turned.height_px, turned.orientation), (16, 8, 6));
        let read = WebP::from_bytes(turned.bytes.clone().into()).unwrap();
        let extended = read.chunk_by_id(*b"VP8X").unwrap().content().data().unwrap().clone();
        assert_eq!(&extended[..], [8 | alpha, 0, 0, 0, 15, 0, 0, 7, 0, 0]);
        assert!(holds(&turned.bytes, &picture));
        assert_eq!(clean(&turned.bytes).unwrap().bytes, turned.bytes);
    }
}
