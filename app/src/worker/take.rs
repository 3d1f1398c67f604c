//! Getting a photo ready to be kept, decoded once: clean, smaller if wished, with a small
//! copy for lists, and its pixels held in case its colour is measured next.

use bleachfield_core::journal::photo::{Cleaned, PhotoError, clean};
use js_sys::Uint8Array;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

use super::{
    look,
    message::{Answer, CleanPhoto},
    pixels::{self, Drawing, Picture},
};

/// JPEG quality of a photo made smaller: high, for its colour may be measured.
const QUALITY: f64 = 0.92;

/// The long side a foreign format is redrawn with where no limit was asked for.
const REDRAWN: u32 = 4096;

/// Long side and quality of the small copy.
const SMALL: (u32, f64) = (320, 0.8);

/// The pixels are left alone unless the picture is larger than `long_side`, or comes in a
/// format that other phones cannot show.
pub async fn take(file: &Blob, long_side: Option<u32>) -> (Answer, Vec<Vec<u8>>) {
    let none = |answer| (answer, Vec::new());
    let Ok(picture) = Picture::of(file).await else { return none(Answer::NoCanvas) };
    let shrink = picture.as_ref().zip(long_side).is_some_and(|(p, most)| p.long_side() > most);
    let as_it_is = if shrink { None } else { cleaned(file).await };
    let (Some(picture), drawing, kept) = (match (picture, as_it_is) {
        (None, Some(Err(refused))) => return none(Answer::PhotoRefused(refused)),
        (None, _) => return none(Answer::Unseen),
        (Some(picture), Some(Ok(kept))) => (Some(picture), None, Some((kept, false))),
        (Some(_), Some(Err(refused))) if refused.message().key != "refusal.photo.heic" => {
            return none(Answer::PhotoRefused(refused));
        }
        (Some(picture), _) => {
            let drawing = picture.drawn(long_side.unwrap_or(REDRAWN));
            let kept = redrawn(drawing.as_ref()).await;
            (Some(picture), drawing, kept.map(|kept| (kept, true)))
        }
    }) else {
        return none(Answer::NoCanvas);
    };
    let Some((kept, smaller)) = kept else { return none(Answer::NoCanvas) };
    let measured = match &drawing {
        Some(drawing) => drawing.drawn(pixels::LONG_SIDE),
        None => picture.drawn(pixels::LONG_SIDE),
    };
    drop(picture);
    let thumb = match measured.as_ref().and_then(|drawing| drawing.drawn(SMALL.0)) {
        Some(small) => small.jpeg(SMALL.1).await,
        None => None,
    };
    let photo = CleanPhoto {
        id: kept.id.into(),
        mime: kept.mime.into(),
        width_px: kept.width_px,
        height_px: kept.height_px,
        orientation: kept.orientation,
    };
    if let Some(pixels) = measured.and_then(|drawing| drawing.pixels()) {
        look::hold(photo.id.clone(), pixels);
    }
    let bytes = [Some(kept.bytes), thumb].into_iter().flatten().collect();
    (Answer::Taken { photo, smaller }, bytes)
}

/// `None` if the file cannot be read.
async fn cleaned(file: &Blob) -> Option<Result<Cleaned, PhotoError>> {
    let buffer = JsFuture::from(file.array_buffer()).await.ok()?;
    Some(clean(&Uint8Array::new(buffer.unchecked_ref()).to_vec()))
}

async fn redrawn(drawing: Option<&Drawing>) -> Option<Cleaned> {
    clean(&drawing?.jpeg(QUALITY).await?).ok()
}
