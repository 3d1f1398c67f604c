//! Decoding a JPEG at a part of its size, where the browser can.
//!
//! A JPEG is stored in squares of eight by eight pixels, and a decoder can make fewer than
//! eight of each at once (ITU-T T.81 Annex A; so do all that stand on libjpeg): half the
//! work and a quarter of the memory. Browsers offer it through `ImageDecoder`, which says
//! which way up the picture came only where `VideoFrame` has a rotation; elsewhere the
//! whole is decoded.

use bleachfield_core::exchange::photo::JpegHeader;
use js_sys::{Array, ArrayBuffer, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::pixels::{Decoded, Picture, with};

#[wasm_bindgen]
extern "C" {
    type ImageDecoder;
    #[wasm_bindgen(constructor, catch)]
    fn new(options: &JsValue) -> Result<ImageDecoder, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn decode(this: &ImageDecoder) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method)]
    fn close(this: &ImageDecoder);
}

/// A JPEG that is being decoded at a part of its size.
pub struct Scaled {
    decoder: ImageDecoder,
    coming: Promise,
    frame: JpegHeader,
    /// What is to come, the way that it is stored.
    size: (u32, u32),
}

impl Scaled {
    /// Begins at once; `bytes` are gone then. `None` where the browser or the picture's size
    /// offers nothing.
    pub fn of(bytes: &ArrayBuffer, frame: JpegHeader, wanted: u32) -> Option<Self> {
        let eighths = eighths(frame.width_px.max(frame.height_px), wanted)?;
        let size = [frame.width_px, frame.height_px].map(|side| (side * eighths).div_ceil(8));
        let kind = Reflect::get(&js_sys::global(), &"VideoFrame".into()).ok()?;
        let kind = Reflect::get(&kind, &"prototype".into()).ok()?;
        if !Reflect::has(&kind, &"rotation".into()).ok()? {
            return None;
        }
        let options = with("type", &"image/jpeg".into());
        for (name, value) in [
            ("data", bytes.into()),
            ("transfer", Array::of1(bytes).into()),
            ("desiredWidth", size[0].into()),
            ("desiredHeight", size[1].into()),
        ] {
            Reflect::set(&options, &name.into(), &value).ok()?;
        }
        let decoder = ImageDecoder::new(&options).ok()?;
        let coming = decoder.decode().ok()?;
        Some(Self { decoder, coming, frame, size: size.into() })
    }

    /// `None` if it came in another size or another way up than it should.
    pub async fn picture(self) -> Option<Picture> {
        let Self { decoder, coming, frame, size: (width, height) } = self;
        let done = JsFuture::from(coming).await;
        decoder.close();
        let decoded: Decoded = Reflect::get(&done.ok()?, &"image".into()).ok()?.unchecked_into();
        let size = (decoded.display_width(), decoded.display_height());
        let (turned, flipped) = turned(frame.orientation);
        let stored = if turned % 180 == 0 { size } else { (size.1, size.0) };
        let long_side = frame.width_px.max(frame.height_px);
        let picture = Picture { decoded, size, long_side, turned: Some(frame.orientation) };
        let as_told = picture.decoded.rotation() == Some(turned.into())
            && picture.decoded.flip() == Some(flipped);
        (stored == (width, height) && as_told).then_some(picture)
    }
}

/// How many eighths of a picture come near enough to what is wanted: no more than a twentieth
/// less, or else more. `None` if it takes the whole.
fn eighths(long_side: u32, wanted: u32) -> Option<u32> {
    let enough = |eighths: &u32| {
        let side = u64::from(long_side) * u64::from(*eighths) / 8;
        side * 20 >= u64::from(wanted) * 19
    };
    (1..8).find(enough)
}

/// Degrees clockwise, after a flip from left to right, that an EXIF orientation stands for.
///
/// Source: CIPA DC-008 (Exif 2.32, 2019) §4.6.4, tag 0x0112.
fn turned(orientation: u8) -> (u16, bool) {
    match orientation {
        2 => (0, true),
        3 => (180, false),
        4 => (180, true),
        5 => (90, true),
        6 => (90, false),
        7 => (270, true),
        8 => (270, false),
        _ => (0, false),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_is_near_what_is_wanted_or_more() {
        // 12, 16, 48 and 64 megapixels, to be kept small and to be measured.
        let parts = [4000, 4032, 4608, 8000, 9248].map(|l| (eighths(l, 1536), eighths(l, 1200)));
        assert_eq!(parts.map(|(kept, _)| kept), [Some(3), Some(3), Some(3), Some(2), Some(2)]);
        assert_eq!(parts.map(|(_, seen)| seen), [Some(3), Some(3), Some(2), Some(2), Some(1)]);
        assert_eq!(
            (eighths(1601, 1536), eighths(1200, 1200), eighths(10, 1200)),
            (None, None, None)
        );
        assert_eq!(eighths(u32::MAX, 1536), Some(1));
    }
}
