//! Decoding, drawing and encoding pictures, by the browser.

use js_sys::{ArrayBuffer, Promise, Reflect, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{
    Blob, ContextAttributes2d, HtmlCanvasElement, ImageBitmap, ImageBitmapOptions,
    ImageEncodeOptions, ImageOrientation, OffscreenCanvas, OffscreenCanvasRenderingContext2d,
};

use crate::worker::protocol::WorkerError;

/// The long side at which colours are measured, in pixels: a mark of a thirtieth of it is just
/// large enough, and noise is averaged.
pub const MEASURED_LONG_SIDE: u32 = 1200;

const JPEG: &str = "image/jpeg";

#[wasm_bindgen]
extern "C" {
    /// Of the page or the worker, whichever this runs in.
    #[wasm_bindgen(js_name = createImageBitmap, catch)]
    fn create_image_bitmap(source: &JsValue) -> Result<Promise, JsValue>;
    #[wasm_bindgen(js_name = createImageBitmap, catch)]
    fn create_image_bitmap_with_options(
        source: &JsValue,
        options: &ImageBitmapOptions,
    ) -> Result<Promise, JsValue>;
}

/// Pixels, 8 bits each of red, green, blue and alpha, in rows from the top.
pub struct Pixels {
    pub rgba: Vec<u8>,
    pub width: u32,
    pub height: u32,
}

/// A decoded picture, upright. Its memory is freed on drop.
pub struct Picture(ImageBitmap);

impl Picture {
    /// `None` if the browser cannot decode the file.
    pub async fn decode(file: &Blob) -> Option<Self> {
        let options = ImageBitmapOptions::new();
        options.set_image_orientation(ImageOrientation::FromImage);
        // Older browsers refuse the option, and apply the orientation without it.
        let decoded = create_image_bitmap_with_options(file, &options)
            .or_else(|_| create_image_bitmap(file))
            .ok()?;
        Some(Self(JsFuture::from(decoded).await.ok()?.unchecked_into()))
    }

    pub fn long_side(&self) -> u32 {
        self.0.width().max(self.0.height())
    }

    /// Draws it with a long side of at most `long_side` pixels.
    pub fn draw(&self, long_side: u32) -> Result<Canvas, WorkerError> {
        let scale = (f64::from(long_side) / f64::from(self.long_side())).min(1.0);
        let [width, height] = [self.0.width(), self.0.height()]
            .map(|side| (f64::from(side) * scale).round().max(1.0) as u32);
        let canvas = Canvas::new(width, height).ok_or(WorkerError::NoCanvas)?;
        // Low quality averages four pixels: enough down to half the size.
        let quality = if scale < 0.5 { "medium" } else { "low" };
        let _ = Reflect::set(&canvas.context, &"imageSmoothingQuality".into(), &quality.into());
        let (width, height) = (f64::from(width), f64::from(height));
        canvas
            .context
            .draw_image_with_image_bitmap_and_dw_and_dh(&self.0, 0.0, 0.0, width, height)
            .map_err(|_| WorkerError::NoCanvas)?;
        Ok(canvas)
    }
}

impl Drop for Picture {
    fn drop(&mut self) {
        self.0.close();
    }
}

/// A picture on a canvas: of the page where there is one, else of the worker.
pub struct Canvas {
    canvas: JsValue,
    /// That of the page has the same methods.
    context: OffscreenCanvasRenderingContext2d,
    width: u32,
    height: u32,
}

impl Canvas {
    fn new(width: u32, height: u32) -> Option<Self> {
        // Pixels are read back: kept in main memory, not by the graphics processor.
        let attributes = ContextAttributes2d::new();
        attributes.set_will_read_frequently(true);
        let (canvas, context) = match web_sys::window() {
            Some(window) => {
                let canvas = window.document()?.create_element("canvas").ok()?;
                let canvas: HtmlCanvasElement = canvas.unchecked_into();
                canvas.set_width(width);
                canvas.set_height(height);
                let context = canvas.get_context_with_context_options("2d", &attributes);
                (canvas.into(), context)
            }
            None => {
                let canvas = OffscreenCanvas::new(width, height).ok()?;
                let context = canvas.get_context_with_context_options("2d", &attributes);
                (canvas.into(), context)
            }
        };
        Some(Self { canvas, context: context.ok()??.unchecked_into(), width, height })
    }

    pub fn pixels(&self) -> Option<Pixels> {
        let (width, height) = (self.width, self.height);
        let data =
            self.context.get_image_data(0.0, 0.0, f64::from(width), f64::from(height)).ok()?;
        Some(Pixels { rgba: data.data().0, width, height })
    }

    /// A copy to be shown elsewhere.
    pub async fn bitmap(&self) -> Option<ImageBitmap> {
        let bitmap = create_image_bitmap(&self.canvas).ok()?;
        Some(JsFuture::from(bitmap).await.ok()?.unchecked_into())
    }

    /// Encodes it as JPEG.
    ///
    /// # Errors
    /// [`WorkerError::NoCanvas`] if the browser cannot: it then encodes another format.
    pub async fn jpeg(&self, quality: f64) -> Result<Vec<u8>, WorkerError> {
        let encoded = match self.canvas.dyn_ref::<HtmlCanvasElement>() {
            Some(canvas) => Promise::new(&mut |resolve, _| {
                let _ =
                    canvas.to_blob_with_type_and_encoder_options(&resolve, JPEG, &quality.into());
            }),
            None => {
                let options = ImageEncodeOptions::new();
                options.set_type(JPEG);
                options.set_quality(quality);
                let canvas: &OffscreenCanvas = self.canvas.unchecked_ref();
                canvas.convert_to_blob_with_options(&options).map_err(|_| WorkerError::NoCanvas)?
            }
        };
        let encoded = JsFuture::from(encoded).await.and_then(|blob| blob.dyn_into::<Blob>());
        match encoded {
            Ok(blob) if blob.type_() == JPEG => file_bytes(&blob).await,
            _ => Err(WorkerError::NoCanvas),
        }
    }
}

/// The pixels of a file at the size at which it is measured.
///
/// # Errors
/// [`WorkerError::Undecodable`] and [`WorkerError::NoCanvas`].
pub async fn pixels_of(file: &Blob) -> Result<Pixels, WorkerError> {
    let picture = Picture::decode(file).await.ok_or(WorkerError::Undecodable)?;
    picture.draw(MEASURED_LONG_SIDE)?.pixels().ok_or(WorkerError::NoCanvas)
}

/// The bytes of a file.
///
/// # Errors
/// [`WorkerError::Undecodable`] if it cannot be read: it was moved or deleted meanwhile.
pub async fn file_bytes(file: &Blob) -> Result<Vec<u8>, WorkerError> {
    let buffer = JsFuture::from(file.array_buffer()).await;
    let buffer = buffer.and_then(|buffer| buffer.dyn_into::<ArrayBuffer>());
    buffer.map(|b| Uint8Array::new(&b).to_vec()).map_err(|_| WorkerError::Undecodable)
}
