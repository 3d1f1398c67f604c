//! Responses to messages of the page.

use std::rc::Rc;

use futures::future::LocalBoxFuture;
use wasm_bindgen::JsValue;

use super::{handle::handle, scope};
use crate::worker::protocol::{
    Envelope, OnPart, Payload, STARTED, WorkerRequest, WorkerResponse, transfer_list,
};

/// Responds to a message; `None` at the start.
pub type Responder = fn(Option<JsValue>) -> LocalBoxFuture<'static, ()>;

pub fn respond(message: Option<JsValue>) -> LocalBoxFuture<'static, ()> {
    Box::pin(async move {
        match message {
            None => post(STARTED, WorkerResponse::Started, Vec::new()),
            Some(message) => {
                if let Some(envelope) = Envelope::decode(&message) {
                    respond_to(envelope).await;
                }
            }
        }
    })
}

async fn respond_to(request: Envelope<WorkerRequest>) {
    let Envelope { number, message, payload } = request;
    let on_part: OnPart = Rc::new(move |part, payload| post(number, part, payload));
    match handle(message, payload, Some(on_part)).await {
        Ok((response, payload)) => post(number, response, payload),
        Err(error) => post(number, WorkerResponse::Failed(error), Vec::new()),
    }
}

fn post(number: u32, message: WorkerResponse, payload: Payload) {
    let message = Envelope { number, message, payload }.encode();
    // Fails only for what cannot be transferred; buffers and bitmaps can.
    let _ = scope().post_message_with_transfer(&message, &transfer_list(&message));
}
