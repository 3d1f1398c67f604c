//! Writing a picture as JPEG on a thread of its own (public/jpeg.js).

use std::cell::RefCell;

use js_sys::{Array, ArrayBuffer, Promise, Uint8Array};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{MessageEvent, Worker};

use super::pixels::Decoded;

const SCRIPT: &str = "/jpeg.js";

/// A thread that writes one picture, and ends when this is dropped.
pub struct Writer(Worker);

thread_local! {
    /// One that was started before it was needed.
    static SPARE: RefCell<Option<Writer>> = const { RefCell::new(None) };
}

impl Writer {
    /// `None` where a worker cannot start another.
    pub fn start() -> Option<Self> {
        SPARE.take().or_else(|| Worker::new(SCRIPT).ok().map(Self))
    }

    /// Starts one for the next photo.
    pub fn start_spare() {
        SPARE.set(Self::start());
    }

    /// Begins at once; the picture is gone then. `None` if it could not be written.
    pub fn jpeg(
        self,
        bitmap: &Decoded,
        quality: f64,
    ) -> impl Future<Output = Option<Vec<u8>>> + use<> {
        let written = Promise::new(&mut |resolve, reject| {
            self.0.set_onmessage(Some(&resolve));
            self.0.set_onerror(Some(&reject));
        });
        let message = Array::of2(bitmap.as_ref(), &quality.into());
        let sent = self.0.post_message_with_transfer(&message, &Array::of1(bitmap.as_ref()));
        async move {
            // Lives until it is done.
            let _writer = self;
            sent.ok()?;
            let heard: MessageEvent = JsFuture::from(written).await.ok()?.dyn_into().ok()?;
            let bytes: ArrayBuffer = heard.data().dyn_into().ok()?;
            Some(Uint8Array::new(&bytes).to_vec())
        }
    }
}

impl Drop for Writer {
    fn drop(&mut self) {
        self.0.terminate();
    }
}
