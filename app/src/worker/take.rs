//! Getting a photo ready to be kept, decoded once: clean, smaller if wished, with a small
//! copy for lists, and looked at in case its colour is measured next.
//!
//! The browser decodes on a thread of its own, and another writes (`jpeg`); what can be done
//! meanwhile is: the page gets the picture small at once, to show it, and the photo is looked
//! at.

use bleachfield_core::journal::{
    PhotoId,
    photo::{self, Cleaned, clean, clean_turned},
};
use js_sys::{Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::Blob;

use super::{
    is_large,
    jpeg::Writer,
    look::{self, Seen},
    message::{Answer, CleanPhoto, ColourAsked},
    pixels::{self, Coming, Drawing, Picture},
    serve,
};
use crate::i18n::key;

/// JPEG quality of a photo made smaller: what it moves the mean of a patch by, half a code at
/// most, is far below what a measured colour is sure to.
pub const QUALITY: f64 = 0.85;

/// The long side a foreign format is redrawn with where no limit was asked for.
const REDRAWN: u32 = 4096;

/// Long side in pixels and JPEG quality of the small copy for lists.
pub const SMALL: (u32, f64) = (320, 0.8);

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = ["crypto", "subtle"], catch)]
    fn digest(kind: &str, bytes: &[u8]) -> Result<Promise, JsValue>;
}

/// A photo ready to be kept.
pub struct Kept {
    photo: CleanPhoto,
    smaller: bool,
    bytes: Vec<u8>,
    thumb: Option<Vec<u8>>,
    pub seen: Option<Seen>,
}

/// Gets a photo ready, while the page waits for message `early[0]` to show it. What was seen
/// of it is held, and measured at once as is `likely` to be asked: message `early[1]`.
pub async fn take(
    file: &Blob,
    long_side: Option<u32>,
    early: [u32; 2],
    likely: ColourAsked,
) -> (Answer, Vec<Vec<u8>>) {
    let [shown, measured] = early;
    let Kept { photo, smaller, bytes, thumb, seen } = match kept(file, long_side, Some(shown)).await
    {
        Ok(kept) => kept,
        Err(answer) => return (answer, Vec::new()),
    };
    let looked = seen.map(|seen| look::hold(photo.id.clone(), seen));
    if let Some(looked) = &looked {
        let asked = likely.of(&photo.id, looked);
        // Once the page has what it waits for: that is on its way when this has returned.
        spawn_local(async move {
            serve::answer(&measured.into(), &look::colour(&asked), Vec::new());
        });
    }
    let bytes = [Some(bytes), thumb].into_iter().flatten().collect();
    (Answer::Taken { photo, smaller, looked }, bytes)
}

/// The pixels are left alone unless the picture is much larger than `long_side`, or comes in a
/// format that other phones cannot show. Once nothing speaks against it any more, it goes to
/// the page as it looks, small, as message `shown`, if somebody waits for that.
///
/// # Errors
/// What there is to answer instead.
pub async fn kept(file: &Blob, long_side: Option<u32>, shown: Option<u32>) -> Result<Kept, Answer> {
    let Some(buffer) = pixels::buffer(file).await else { return Err(Answer::Unseen) };
    let frame = pixels::frame(&buffer);
    let too_large = |side: u32| long_side.is_some_and(|wanted| is_large(side, wanted));
    let shrinks = frame.is_some_and(|f| too_large(f.width_px.max(f.height_px)));
    let wanted = long_side.filter(|_| shrinks).unwrap_or(pixels::LONG_SIDE);
    let bytes = if shrinks { None } else { Some(Uint8Array::new(&buffer).to_vec()) };
    let Ok(coming) = Coming::of(file, &buffer, frame, wanted) else {
        return Err(Answer::NoCanvas);
    };
    let writer = if shrinks && coming.is_scaled() { Writer::start() } else { None };
    let cleaned = bytes.map(|bytes| clean(&bytes));
    let Some(picture) = coming.picture().await else {
        // Why, if the file itself tells.
        let cleaned = match cleaned {
            None => pixels::buffer(file).await.map(|b| clean(&Uint8Array::new(&b).to_vec())),
            cleaned => cleaned,
        };
        return Err(match cleaned {
            Some(Err(refused)) => Answer::PhotoRefused(refused),
            _ => Answer::Unseen,
        });
    };
    let smaller = too_large(picture.long_side);
    let as_it_is = match cleaned {
        Some(Err(refused)) if !smaller && refused.message().key != key!("refusal-photo-heic") => {
            return Err(Answer::PhotoRefused(refused));
        }
        Some(Ok(cleaned)) if !smaller => Some(cleaned),
        _ => None,
    };
    let long = long_side.unwrap_or(REDRAWN);
    let smaller = as_it_is.is_none();
    let written = match writer {
        Some(writer) if smaller => {
            picture.as_stored(long).await.map(|bitmap| writer.jpeg(&bitmap, QUALITY))
        }
        _ => None,
    };
    let drawing = if smaller && written.is_none() { picture.drawn(long) } else { None };
    let redrawn = drawing.as_ref().map(|drawing| drawing.jpeg(QUALITY));
    let measured = shrunk(drawing.as_ref(), &picture, pixels::LONG_SIDE);
    let small = |measured: &Drawing| measured.drawn(SMALL.0);
    if let Some(shown) = shown
        && let Some(small) = measured.as_ref().and_then(small).and_then(|small| small.bitmap())
    {
        serve::show(shown, &small);
    }
    let thumb = measured.as_ref().and_then(small).map(|small| small.jpeg(SMALL.1));
    let seen = measured.and_then(|measured| look::see(measured.pixels()?));
    let thumb = match thumb {
        Some(thumb) => thumb.await,
        None => None,
    };
    let kept = match (as_it_is, written) {
        (Some(kept), _) => Some(kept),
        (None, Some(written)) => {
            let written = written.await;
            written.and_then(|bytes| as_told(&bytes, &picture))
        }
        (None, None) => match redrawn {
            Some(redrawn) => redrawn.await.and_then(|bytes| clean(&bytes).ok()),
            None => None,
        },
    };
    let kept = match kept {
        // What the other thread could not do is done here.
        None if smaller && drawing.is_none() => match picture.drawn(long) {
            Some(drawing) => drawing.jpeg(QUALITY).await.and_then(|bytes| clean(&bytes).ok()),
            None => None,
        },
        kept => kept,
    };
    let Some(kept) = kept else { return Err(Answer::NoCanvas) };
    let (photo, bytes) = named(kept).await;
    Ok(Kept { photo, smaller, bytes, thumb, seen })
}

/// Cleans a file that was written without drawing: it is turned by what the first file says,
/// unless it shows by its size that it was turned already.
fn as_told(bytes: &[u8], picture: &Picture) -> Option<Cleaned> {
    let turned = picture.turned.filter(|turned| {
        *turned != 1
            && photo::frame(bytes).is_some_and(|f| (f.height_px, f.width_px) == picture.size)
    });
    clean_turned(bytes, turned).ok()
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
