//! The pixels of a photo, the right way up and small enough to measure quickly.
//!
//! What decodes is the browser; that the worker has its functions too is told to the
//! compiler here by hand, for they are few.

use bleachfield_core::exchange::photo::{self, JpegHeader};
use js_sys::{ArrayBuffer, Object, Promise, Reflect, Uint8Array};
use leptos::prelude::document;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

use super::{is_large, scaled::Scaled};

/// The long side that colours are measured at, in pixels: a mark of a thirtieth of it is
/// just large enough, and noise is averaged away.
pub const LONG_SIDE: u32 = 1200;

/// Bytes of a file that in most tell what picture it holds.
const BEGINNING: u32 = 1 << 17;

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
    fn create_image_bitmap(of: &JsValue, options: &Object) -> Result<Promise, JsValue>;

    /// An `ImageBitmap` or a `VideoFrame`: what there is of it differs.
    pub type Decoded;
    #[wasm_bindgen(method, getter)]
    fn width(this: &Decoded) -> u32;
    #[wasm_bindgen(method, getter)]
    fn height(this: &Decoded) -> u32;
    #[wasm_bindgen(method, getter, js_name = displayWidth)]
    pub fn display_width(this: &Decoded) -> u32;
    #[wasm_bindgen(method, getter, js_name = displayHeight)]
    pub fn display_height(this: &Decoded) -> u32;
    #[wasm_bindgen(method, getter)]
    pub fn rotation(this: &Decoded) -> Option<f64>;
    #[wasm_bindgen(method, getter)]
    pub fn flip(this: &Decoded) -> Option<bool>;
    #[wasm_bindgen(method)]
    pub fn close(this: &Decoded);

    type OffscreenCanvas;
    #[wasm_bindgen(constructor, catch)]
    fn new(width: u32, height: u32) -> Result<OffscreenCanvas, JsValue>;

    /// A canvas of either kind.
    type Canvas;
    #[wasm_bindgen(method, js_name = getContext, catch)]
    fn context(this: &Canvas, kind: &str, options: &Object) -> Result<Option<Pen>, JsValue>;
    #[wasm_bindgen(method, js_name = convertToBlob, catch)]
    fn to_blob(this: &Canvas, options: &Object) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, js_name = transferToImageBitmap, catch)]
    fn to_bitmap(this: &Canvas) -> Result<Decoded, JsValue>;
    #[wasm_bindgen(method, getter)]
    fn width(this: &Canvas) -> u32;
    #[wasm_bindgen(method, getter)]
    fn height(this: &Canvas) -> u32;
    #[wasm_bindgen(method, setter)]
    fn set_width(this: &Canvas, width: u32);
    #[wasm_bindgen(method, setter)]
    fn set_height(this: &Canvas, height: u32);

    type Pen;
    #[wasm_bindgen(method, setter, js_name = imageSmoothingQuality)]
    fn set_smoothing(this: &Pen, quality: &str);
    #[wasm_bindgen(method, setter, js_name = fillStyle)]
    fn set_colour(this: &Pen, colour: &str);
    #[wasm_bindgen(method, js_name = fillRect)]
    fn fill(this: &Pen, x: f64, y: f64, width: f64, height: f64);
    #[wasm_bindgen(method, js_name = drawImage, catch)]
    fn draw(
        this: &Pen,
        picture: &JsValue,
        x: u32,
        y: u32,
        width: u32,
        height: u32,
    ) -> Result<(), JsValue>;
    #[wasm_bindgen(method, js_name = getImageData, catch)]
    fn image_data(this: &Pen, x: u32, y: u32, width: u32, height: u32) -> Result<JsValue, JsValue>;
}

/// A picture that the browser decoded, the way the camera was held.
pub struct Picture {
    pub decoded: Decoded,
    /// Of what was decoded, which may be less than the whole.
    pub size: (u32, u32),
    /// The long side of the whole picture.
    pub long_side: u32,
    /// The EXIF orientation that the browser turned a scaled picture by.
    pub turned: Option<u8>,
}

impl Picture {
    fn of_bitmap(decoded: Decoded) -> Self {
        let size = (decoded.width(), decoded.height());
        Self { decoded, size, long_side: size.0.max(size.1), turned: None }
    }

    /// The pixels as they are stored, in the colours that they are stored in, without drawing
    /// them: of a picture that came in its size, upright or on its side (then the file that is
    /// made of it shows by its size whether it was turned).
    pub async fn as_stored(&self, long: u32) -> Option<Decoded> {
        let fits = !is_large(self.size.0.max(self.size.1), long) && self.size.0 != self.size.1;
        self.turned.filter(|turned| fits && matches!(turned, 1 | 6 | 8))?;
        let bitmap = create_image_bitmap(self.decoded.as_ref(), &Object::new()).ok()?;
        Some(JsFuture::from(bitmap).await.ok()?.unchecked_into())
    }

    /// Drawn with its long side `long` at most.
    pub fn drawn(&self, long: u32) -> Option<Drawing> {
        Drawing::of(offscreen().ok()?, self.decoded.as_ref(), self.size, long)
    }
}

impl Drop for Picture {
    fn drop(&mut self) {
        self.decoded.close();
    }
}

/// A picture that the browser is decoding, on a thread of its own.
pub struct Coming {
    scaled: Option<Scaled>,
    file: Blob,
}

impl Coming {
    /// Begins at once. What is no larger than `wanted` need not be decoded finer than that.
    ///
    /// # Errors
    /// `NoCanvas` where there is none to draw on, before anything is decoded.
    pub fn of(
        file: &Blob,
        bytes: &ArrayBuffer,
        frame: Option<JpegHeader>,
        wanted: u32,
    ) -> Result<Self, Undecoded> {
        offscreen()?;
        let scaled = frame.and_then(|frame| Scaled::of(bytes, frame, wanted));
        Ok(Self { scaled, file: file.clone() })
    }

    /// It is being decoded at a part of its size.
    pub fn is_scaled(&self) -> bool {
        self.scaled.is_some()
    }

    /// `None` if the browser cannot decode it.
    pub async fn picture(self) -> Option<Picture> {
        let scaled = match self.scaled {
            Some(scaled) => scaled.picture().await,
            None => None,
        };
        match scaled {
            None => bitmap(&self.file).await.map(Picture::of_bitmap),
            scaled => scaled,
        }
    }
}

/// A picture on a canvas.
pub struct Drawing {
    canvas: Canvas,
    pen: Pen,
}

impl Drawing {
    fn of(canvas: Canvas, picture: &JsValue, (wide, high): (u32, u32), long: u32) -> Option<Self> {
        let scale = (f64::from(long) / f64::from(wide.max(high))).min(1.0);
        let [width, height] =
            [wide, high].map(|side| (f64::from(side) * scale).round().max(1.0) as u32);
        canvas.set_width(width);
        canvas.set_height(height);
        // Read back soon: kept in plain memory, not on the graphics chip.
        let pen = canvas.context("2d", &with("willReadFrequently", &true.into())).ok()??;
        // To half the size, four neighbours are all there is; below it takes more, and longer.
        pen.set_smoothing(if scale < 0.5 { "medium" } else { "low" });
        pen.draw(picture, 0, 0, width, height).ok()?;
        Some(Self { canvas, pen })
    }

    /// Rectangles (left, top, width, height) in their colours on a ground.
    pub fn of_things(
        (width, height): (u32, u32),
        ground: &str,
        things: &[(&str, [f64; 4])],
    ) -> Option<Self> {
        let canvas = offscreen().ok()?;
        canvas.set_width(width);
        canvas.set_height(height);
        let pen = canvas.context("2d", &Object::new()).ok()??;
        let all = [0.0, 0.0, f64::from(width), f64::from(height)];
        for (colour, [x, y, width, height]) in [(ground, all)].iter().chain(things) {
            pen.set_colour(colour);
            pen.fill(*x, *y, *width, *height);
        }
        Some(Self { canvas, pen })
    }

    /// The drawing once more, smaller.
    pub fn drawn(&self, long: u32) -> Option<Self> {
        let size = (self.canvas.width(), self.canvas.height());
        Self::of(offscreen().ok()?, self.canvas.as_ref(), size, long)
    }

    pub fn pixels(&self) -> Option<Pixels> {
        let (width, height) = (self.canvas.width(), self.canvas.height());
        let data = self.pen.image_data(0, 0, width, height).ok()?;
        let data = Reflect::get(&data, &"data".into()).ok()?;
        // Its bytes themselves: an array of another kind would be copied twice.
        let bytes = Reflect::get(&data, &"buffer".into()).ok()?;
        Some(Pixels { rgba: Uint8Array::new(&bytes).to_vec(), width, height })
    }

    /// To be shown elsewhere.
    pub fn bitmap(self) -> Option<Decoded> {
        self.canvas.to_bitmap().ok()
    }

    /// As JPEG, begun at once, which may hold up what else runs here; `None` from a browser
    /// that cannot write it and gives another kind.
    pub fn jpeg(&self, quality: f64) -> impl Future<Output = Option<Vec<u8>>> + use<> {
        let blob = self.blob(quality);
        async {
            let bytes = buffer(&blob.await?).await?;
            Some(Uint8Array::new(&bytes).to_vec())
        }
    }

    /// The same as the browser's own file.
    pub fn blob(&self, quality: f64) -> impl Future<Output = Option<Blob>> + use<> {
        let options = with("type", &"image/jpeg".into());
        let _ = Reflect::set(&options, &"quality".into(), &quality.into());
        let blob = self.canvas.to_blob(&options);
        async {
            let blob: Blob = JsFuture::from(blob.ok()?).await.ok()?.dyn_into().ok()?;
            (blob.type_() == "image/jpeg").then_some(blob)
        }
    }
}

/// Decodes in the worker.
pub async fn decoded(file: &Blob) -> Result<Pixels, Undecoded> {
    let Some(buffer) = buffer(file).await else { return Err(Undecoded::NoPicture) };
    let coming = Coming::of(file, &buffer, frame(&buffer), LONG_SIDE)?;
    let picture = coming.picture().await.ok_or(Undecoded::NoPicture)?;
    picture.drawn(LONG_SIDE).and_then(|drawing| drawing.pixels()).ok_or(Undecoded::NoCanvas)
}

/// Decodes in the page, for a browser whose worker cannot.
pub async fn decoded_on_page(file: &Blob) -> Option<Pixels> {
    let picture = Picture::of_bitmap(bitmap(file).await?);
    let canvas: Canvas = document().create_element("canvas").ok()?.unchecked_into();
    Drawing::of(canvas, picture.decoded.as_ref(), picture.size, LONG_SIDE)?.pixels()
}

/// A file's bytes, still the browser's.
pub async fn buffer(file: &Blob) -> Option<ArrayBuffer> {
    JsFuture::from(file.array_buffer()).await.ok()?.dyn_into().ok()
}

/// What the beginning of a file says of its picture, or else the whole: some cameras put much
/// before it.
pub fn frame(file: &ArrayBuffer) -> Option<JpegHeader> {
    let bytes = Uint8Array::new(file);
    let of = |length: u32| photo::jpeg_header(&bytes.subarray(0, length).to_vec());
    of(BEGINNING).or_else(|| of(bytes.length()))
}

fn offscreen() -> Result<Canvas, Undecoded> {
    let canvas = OffscreenCanvas::new(1, 1).map_err(|_| Undecoded::NoCanvas)?;
    Ok(canvas.unchecked_into())
}

async fn bitmap(file: &Blob) -> Option<Decoded> {
    let options = with("imageOrientation", &"from-image".into());
    // A browser that does not know the option refuses it, and turns the picture anyway.
    let promise = create_image_bitmap(file, &options)
        .or_else(|_| create_image_bitmap(file, &Object::new()))
        .ok()?;
    Some(JsFuture::from(promise).await.ok()?.unchecked_into())
}

pub fn with(name: &str, value: &JsValue) -> Object {
    let options = Object::new();
    let _ = Reflect::set(&options, &name.into(), value);
    options
}
