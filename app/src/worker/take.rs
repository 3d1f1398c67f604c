//! Getting a photo ready to be kept, decoded once: clean, smaller if wished, with a small
//! copy for lists, and looked at in case its colour is measured next.
//!
//! The browser decodes and encodes on threads of its own; what can be done meanwhile is.

use bleachfield_core::journal::{
    PhotoId,
    photo::{self, Cleaned, clean, clean_turned},
};
use js_sys::{Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::Blob;

use super::{
    look,
    message::{Answer, CleanPhoto},
    pixels::{self, Coming, Drawing, Picture},
};

/// JPEG quality of a photo made smaller: high, for its colour may be measured.
const QUALITY: f64 = 0.92;

/// The long side a foreign format is redrawn with where no limit was asked for.
const REDRAWN: u32 = 4096;

/// Long side and quality of the small copy.
const SMALL: (u32, f64) = (320, 0.8);

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = ["crypto", "subtle"], catch)]
    fn digest(kind: &str, bytes: &[u8]) -> Result<Promise, JsValue>;
}

/// The pixels are left alone unless the picture is larger than `long_side`, or comes in a
/// format that other phones cannot show.
pub async fn take(file: &Blob, long_side: Option<u32>) -> (Answer, Vec<Vec<u8>>) {
    let none = |answer| (answer, Vec::new());
    let Some(buffer) = pixels::buffer(file).await else { return none(Answer::Unseen) };
    let bytes = Uint8Array::new(&buffer).to_vec();
    let frame = photo::frame(&bytes);
    let too_large = |side: u32| long_side.is_some_and(|most| side > most);
    let shrinks = frame.is_some_and(|f| too_large(f.width_px.max(f.height_px)));
    let wanted = long_side.filter(|_| shrinks).unwrap_or(pixels::LONG_SIDE);
    let Ok(coming) = Coming::of(file, &buffer, frame, wanted) else {
        return none(Answer::NoCanvas);
    };
    let cleaned = if shrinks { None } else { Some(clean(&bytes)) };
    let Some(picture) = coming.picture().await else {
        // Why, if the file itself tells.
        return none(match cleaned.unwrap_or_else(|| clean(&bytes)) {
            Err(refused) => Answer::PhotoRefused(refused),
            Ok(_) => Answer::Unseen,
        });
    };
    let smaller = too_large(picture.long_side);
    let as_it_is = match cleaned {
        Some(Err(refused)) if !smaller && refused.message().key != "refusal.photo.heic" => {
            return none(Answer::PhotoRefused(refused));
        }
        Some(Ok(cleaned)) if !smaller => Some(cleaned),
        _ => None,
    };
    let long = long_side.unwrap_or(REDRAWN);
    let handed_over = match as_it_is {
        Some(_) => None,
        None => picture.handed_over(long).await,
    };
    let drawing = match (&as_it_is, &handed_over) {
        (None, None) => picture.drawn(long),
        _ => None,
    };
    let redrawn = handed_over.as_ref().or(drawing.as_ref()).map(|drawing| drawing.jpeg(QUALITY));
    let thumb = shrunk(drawing.as_ref(), &picture, SMALL.0).map(|small| small.jpeg(SMALL.1));
    // A picture that was not drawn is turned by what its file says.
    let on_its_side = picture.turned.filter(|turned| handed_over.is_some() && *turned != 1);
    let upright = picture.size;
    let smaller = as_it_is.is_none();
    let kept = match (as_it_is, redrawn) {
        (Some(kept), _) => Some(kept),
        (None, Some(redrawn)) => redrawn.await.and_then(|bytes| {
            let turned = on_its_side.filter(|_| {
                photo::frame(&bytes).is_some_and(|f| (f.height_px, f.width_px) == upright)
            });
            clean_turned(&bytes, turned).ok()
        }),
        (None, None) => None,
    };
    let Some(kept) = kept else { return none(Answer::NoCanvas) };
    let (photo, bytes) = named(kept).await;
    let thumb = match thumb {
        Some(thumb) => thumb.await,
        None => None,
    };
    let id = photo.id.clone();
    // After the answer: its colour is asked for once it is saved, if at all.
    spawn_local(async move {
        let measured = shrunk(drawing.as_ref(), &picture, pixels::LONG_SIDE);
        if let Some(seen) = measured.and_then(|drawing| look::see(drawing.pixels()?)) {
            look::hold(id, seen);
        }
    });
    let bytes = [Some(bytes), thumb].into_iter().flatten().collect();
    (Answer::Taken { photo, smaller }, bytes)
}

/// From what was drawn already, or else from the picture itself.
fn shrunk(drawing: Option<&Drawing>, picture: &Picture, long: u32) -> Option<Drawing> {
    drawing.map_or_else(|| picture.drawn(long), |drawing| drawing.drawn(long))
}

/// A clean photo with its id: hashed by the browser, or by our own program, which is made
/// for size and not for speed, where the browser offers none.
async fn named(cleaned: Cleaned) -> (CleanPhoto, Vec<u8>) {
    let hashed = match digest("SHA-256", &cleaned.bytes) {
        Ok(coming) => JsFuture::from(coming).await.ok(),
        Err(_) => None,
    };
    let hashed = hashed.and_then(|hash| Uint8Array::new(&hash).to_vec().try_into().ok());
    let id = hashed.map_or_else(|| cleaned.id(), PhotoId::of_digest);
    (CleanPhoto::of(&cleaned, id), cleaned.bytes)
}
