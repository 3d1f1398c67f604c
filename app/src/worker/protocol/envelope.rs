//! A message as it is posted: an array of its number, its JSON, and its payload. Buffers and
//! bitmaps are transferred, not copied.

use js_sys::{Array, ArrayBuffer, Uint8Array};
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::ImageBitmap;

/// Files, buffers or bitmaps.
pub type Payload = Vec<JsValue>;

/// A request with its number, or a response to the request of that number.
pub struct Envelope<T> {
    pub number: u32,
    pub message: T,
    pub payload: Payload,
}

impl<T: Serialize> Envelope<T> {
    /// The message for `postMessage`.
    pub fn encode(&self) -> Array {
        // Encoding cannot fail: all keys are strings.
        let json = serde_json::to_string(&self.message).unwrap_or_default();
        let head = Array::of2(&self.number.into(), &json.into());
        head.concat(&self.payload.iter().collect())
    }
}

impl<T: DeserializeOwned> Envelope<T> {
    /// `None` if it is not such a message.
    pub fn decode(message: &JsValue) -> Option<Self> {
        let parts = message.dyn_ref::<Array>()?;
        Some(Self {
            number: parts.get(0).as_f64()? as u32,
            message: serde_json::from_str(&parts.get(1).as_string()?).ok()?,
            payload: parts.iter().skip(2).collect(),
        })
    }
}

/// What of an encoded message is to be transferred.
pub fn transfer_list(message: &Array) -> Array {
    let transferable = |part: &JsValue| {
        part.is_instance_of::<ArrayBuffer>() || part.is_instance_of::<ImageBitmap>()
    };
    message.iter().filter(transferable).collect()
}

/// The bytes of a buffer in a payload; `None` if it is something else.
pub fn bytes_of(part: &JsValue) -> Option<Vec<u8>> {
    part.dyn_ref::<ArrayBuffer>().map(|buffer| Uint8Array::new(buffer).to_vec())
}

/// A buffer for a payload.
pub fn to_buffer(bytes: impl AsRef<[u8]>) -> JsValue {
    Uint8Array::from(bytes.as_ref()).buffer().into()
}
