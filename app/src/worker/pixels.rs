//! The pixels of a photo, the right way up and small enough to measure quickly.
//!
//! What decodes is the browser; that the worker has its functions too is told to the
//! compiler here by hand, for they are few.

use js_sys::{Object, Promise, Reflect, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, ImageBitmap};

/// The long side that colours are measured at, in pixels: a mark of a thirtieth of it is
/// just large enough, and noise is averaged away.
const LONG_SIDE: f64 = 1200.0;

/// RGBA, 8 bits each, rows from the top.
pub struct Pixels {
    pub rgba: Vec<u8>,
    pub width: u32,
    pub height: u32,
}

/// Why there are no pixels.
pub enum Undecoded {
    /// The browser cannot decode the file.
    NoPicture,
    /// There is no canvas where this runs.
    NoCanvas,
}

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_name = createImageBitmap, catch)]
    fn create_image_bitmap(file: &Blob, options: &Object) -> Result<Promise, JsValue>;

    type OffscreenCanvas;
    #[wasm_bindgen(constructor, catch)]
    fn new(width: u32, height: u32) -> Result<OffscreenCanvas, JsValue>;

    /// A canvas of either kind.
    type Canvas;
    #[wasm_bindgen(method, js_name = getContext, catch)]
    fn context(this: &Canvas, kind: &str, options: &Object) -> Result<Option<Pen>, JsValue>;
    #[wasm_bindgen(method, setter)]
    fn set_width(this: &Canvas, width: u32);
    #[wasm_bindgen(method, setter)]
    fn set_height(this: &Canvas, height: u32);

    type Pen;
    #[wasm_bindgen(method, setter, js_name = imageSmoothingQuality)]
    fn set_smoothing(this: &Pen, quality: &str);
    #[wasm_bindgen(method, js_name = drawImage, catch)]
    fn draw(
        this: &Pen,
        picture: &ImageBitmap,
        x: u32,
        y: u32,
        width: u32,
        height: u32,
    ) -> Result<(), JsValue>;
    #[wasm_bindgen(method, js_name = getImageData, catch)]
    fn image_data(this: &Pen, x: u32, y: u32, width: u32, height: u32) -> Result<JsValue, JsValue>;
}

/// Decodes in the worker.
pub async fn decoded(file: &Blob) -> Result<Pixels, Undecoded> {
    let canvas = OffscreenCanvas::new(1, 1).map_err(|_| Undecoded::NoCanvas)?;
    drawn(file, canvas.unchecked_into()).await
}

/// Decodes in the page, for a browser whose worker cannot.
pub async fn decoded_on_page(file: &Blob) -> Option<Pixels> {
    let canvas = document().create_element("canvas").ok()?;
    drawn(file, canvas.unchecked_into()).await.ok()
}

async fn drawn(file: &Blob, canvas: Canvas) -> Result<Pixels, Undecoded> {
    let picture = bitmap(file).await.ok_or(Undecoded::NoPicture)?;
    let (wide, high) = (f64::from(picture.width()), f64::from(picture.height()));
    let scale = (LONG_SIDE / wide.max(high)).min(1.0);
    let [width, height] = [wide, high].map(|side| (side * scale).round().max(1.0) as u32);
    canvas.set_width(width);
    canvas.set_height(height);
    let pixels = read(&canvas, &picture, width, height);
    picture.close();
    let rgba = pixels.ok_or(Undecoded::NoCanvas)?;
    Ok(Pixels { rgba, width, height })
}

/// The picture as the camera was held.
async fn bitmap(file: &Blob) -> Option<ImageBitmap> {
    let options = with("imageOrientation", &"from-image".into());
    // A browser that does not know the option refuses it, and turns the picture anyway.
    let promise = create_image_bitmap(file, &options)
        .or_else(|_| create_image_bitmap(file, &Object::new()))
        .ok()?;
    JsFuture::from(promise).await.ok()?.dyn_into().ok()
}

fn read(canvas: &Canvas, picture: &ImageBitmap, width: u32, height: u32) -> Option<Vec<u8>> {
    // Read back once: kept in plain memory, not on the graphics chip.
    let pen = canvas.context("2d", &with("willReadFrequently", &true.into())).ok()??;
    pen.set_smoothing("medium");
    pen.draw(picture, 0, 0, width, height).ok()?;
    let data = pen.image_data(0, 0, width, height).ok()?;
    let data = Reflect::get(&data, &"data".into()).ok()?;
    Some(Uint8Array::new(&data).to_vec())
}

fn with(name: &str, value: &JsValue) -> Object {
    let options = Object::new();
    let _ = Reflect::set(&options, &name.into(), value);
    options
}
