//! A photo on its way in: looked at, made smaller if wished, stripped of all
//! that is not the picture, and a small copy made.

use bleachfield_core::message::Message;
use js_sys::{Array, Function, Promise, Uint8Array};
use leptos::prelude::{document, window};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, CanvasRenderingContext2d, HtmlCanvasElement, ImageBitmap};

use super::preferences::PhotoSize;
use crate::i18n::key;
use crate::{
    storage::PhotoBytes,
    worker::{CleanPhoto, QUALITY, SMALL, Taken, clean_photo, is_large, take_photo},
};

/// About the long side of a photo that is kept small, in pixels: more than colour is measured
/// at (1200) and than a phone's screen shows.
const LONG_SIDE: u32 = 1536;

/// A photo ready to be kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Ready {
    pub clean: CleanPhoto,
    pub photo: PhotoBytes,
    pub thumb: Option<PhotoBytes>,
    /// It was made smaller, and so its pixels are not the camera's own.
    pub smaller: bool,
}

/// Gets a picture from the camera or the phone's album ready to be kept.
///
/// The pixels are left alone unless the preference says so and the picture is
/// much larger than that, or it comes in a format that other phones cannot show
/// (then this phone's own decoder turns it into a JPEG). `shown` gets it small as soon as
/// nothing speaks against the picture any more, in most browsers before the rest is done.
///
/// # Errors
/// Why it cannot be taken in.
pub async fn ready(
    file: &Blob,
    size: PhotoSize,
    shown: impl FnOnce(ImageBitmap) + 'static,
) -> Result<Ready, Message> {
    let limit = (size == PhotoSize::Smaller).then_some(LONG_SIDE);
    match take_photo(file, limit, shown).await? {
        Taken::Ready { clean, smaller, bytes, thumb } => {
            let photo = PhotoBytes { mime: clean.mime.clone(), bytes };
            Ok(Ready { clean, photo, thumb: thumb.map(jpeg), smaller })
        }
        Taken::NoCanvas => ready_on_page(file, size).await,
    }
}

/// The same by the page's own canvas, for a browser whose worker has none.
async fn ready_on_page(file: &Blob, size: PhotoSize) -> Result<Ready, Message> {
    let bitmap = decoded(file).await;
    let long = bitmap.as_ref().map_or(0, |b| b.width().max(b.height()));
    let shrink = size == PhotoSize::Smaller && is_large(long, LONG_SIDE);
    let as_it_is = if shrink { None } else { Some(clean_photo(file).await) };
    let (clean, bytes, smaller) = match (as_it_is, &bitmap) {
        (Some(Ok((clean, bytes))), Some(_)) => (clean, bytes, false),
        // Cleaned, but this browser cannot show it: so nobody could see it.
        (Some(Ok(_)), None) => return Err(Message::new(key!("refusal-photo-damaged"))),
        (Some(Err(refused)), Some(bitmap)) if refused.key == key!("refusal-photo-heic") => {
            let (clean, bytes) = redrawn(bitmap).await?;
            (clean, bytes, true)
        }
        (Some(Err(refused)), _) => return Err(refused),
        (None, Some(bitmap)) => {
            let (clean, bytes) = redrawn(bitmap).await?;
            (clean, bytes, true)
        }
        (None, None) => return Err(Message::new(key!("refusal-photo-damaged"))),
    };
    let thumb = match &bitmap {
        Some(bitmap) => drawn(bitmap, SMALL.0, SMALL.1).await,
        None => None,
    };
    if let Some(bitmap) = bitmap {
        bitmap.close();
    }
    let photo = PhotoBytes { mime: clean.mime.clone(), bytes };
    Ok(Ready { clean, photo, thumb: thumb.map(jpeg), smaller })
}

/// A small copy of a photo; `None` if this browser cannot show it.
pub async fn small_copy(photo: &PhotoBytes) -> Option<PhotoBytes> {
    let bitmap = decoded(&blob(photo)?).await?;
    let small = drawn(&bitmap, SMALL.0, SMALL.1).await;
    bitmap.close();
    small.map(jpeg)
}

/// A picture's bytes as the browser takes them.
pub fn blob(photo: &PhotoBytes) -> Option<Blob> {
    let options = BlobPropertyBag::new();
    options.set_type(&photo.mime);
    let parts = Array::of1(&Uint8Array::from(photo.bytes.as_slice()));
    Blob::new_with_u8_array_sequence_and_options(&parts, &options).ok()
}

/// Decoded the right way up, off the page's own thread where the browser can.
async fn decoded(file: &Blob) -> Option<ImageBitmap> {
    let promise = window().create_image_bitmap_with_blob(file).ok()?;
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}

/// As a JPEG of [`LONG_SIDE`] at most, with the id that it will be kept under.
async fn redrawn(bitmap: &ImageBitmap) -> Result<(CleanPhoto, Vec<u8>), Message> {
    let smaller = drawn(bitmap, LONG_SIDE, QUALITY).await;
    let smaller = smaller.ok_or_else(|| Message::new(key!("refusal-photo-no_canvas")))?;
    let blob = blob(&jpeg(smaller)).ok_or_else(|| Message::new(key!("refusal-photo-no_canvas")))?;
    clean_photo(&blob).await
}

/// The picture as JPEG bytes, its long side `long` pixels at most.
async fn drawn(bitmap: &ImageBitmap, long: u32, quality: f64) -> Option<Vec<u8>> {
    let (width, height) = (f64::from(bitmap.width()), f64::from(bitmap.height()));
    let scale = (f64::from(long) / width.max(height)).min(1.0);
    let (width, height) = ((width * scale).round().max(1.0), (height * scale).round().max(1.0));
    let canvas: HtmlCanvasElement = document().create_element("canvas").ok()?.dyn_into().ok()?;
    canvas.set_width(width as u32);
    canvas.set_height(height as u32);
    let pen: CanvasRenderingContext2d = canvas.get_context("2d").ok()??.dyn_into().ok()?;
    pen.draw_image_with_image_bitmap_and_dw_and_dh(bitmap, 0.0, 0.0, width, height).ok()?;
    let blob = JsFuture::from(Promise::new(&mut |resolve: Function, _| {
        let given = Closure::once_into_js(move |blob: JsValue| {
            let _ = resolve.call1(&JsValue::NULL, &blob);
        });
        let _ = canvas.to_blob_with_type_and_encoder_options(
            given.unchecked_ref(),
            "image/jpeg",
            &quality.into(),
        );
    }));
    let blob: Blob = blob.await.ok()?.dyn_into().ok()?;
    // A browser that cannot write JPEG gives PNG without a word.
    if blob.type_() != "image/jpeg" {
        return None;
    }
    let buffer = JsFuture::from(blob.array_buffer()).await.ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}

fn jpeg(bytes: Vec<u8>) -> PhotoBytes {
    PhotoBytes { mime: "image/jpeg".into(), bytes }
}
