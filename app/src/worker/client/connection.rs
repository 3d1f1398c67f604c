//! The running worker, and the requests that wait for a response.

use std::cell::RefCell;
use std::collections::BTreeMap;

use futures::channel::oneshot;
use js_sys::Array;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::{MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::platform::{base, panic};
use crate::worker::protocol::{
    Envelope, OnPart, Outcome, Payload, STARTED, WorkerError, WorkerRequest, WorkerResponse,
    transfer_list,
};

/// The script that starts the worker (public/worker.js).
const SCRIPT: &str = "worker.js";

struct Connection {
    worker: Worker,
    /// Of the last request.
    number: u32,
    pending: BTreeMap<u32, Pending>,
    /// Requests to be sent once the worker has started: earlier ones would be lost.
    queued: Option<Vec<Array>>,
    /// Kept while the worker lives.
    _handlers: [Closure<dyn Fn(JsValue)>; 2],
}

/// A request that waits for its response.
struct Pending {
    respond: oneshot::Sender<Outcome>,
    on_part: Option<OnPart>,
}

thread_local! {
    static CONNECTION: RefCell<Option<Connection>> = const { RefCell::new(None) };
}

/// Starts the worker unless it runs.
pub fn start() {
    CONNECTION.with_borrow_mut(|connection| {
        if connection.is_none() {
            *connection = Connection::open();
        }
    });
}

/// Sends a request, starting the worker if need be, and waits for the response.
///
/// # Errors
/// Those of the worker, and [`WorkerError::Unavailable`].
pub async fn send(request: &WorkerRequest, payload: Payload, on_part: Option<OnPart>) -> Outcome {
    start();
    let (respond, response) = oneshot::channel();
    CONNECTION.with_borrow_mut(|connection| {
        let connection = connection.as_mut()?;
        connection.number += 1;
        let number = connection.number;
        connection.pending.insert(number, Pending { respond, on_part });
        let message = Envelope { number, message: request, payload }.encode();
        match &mut connection.queued {
            Some(queued) => queued.push(message),
            None => connection.post(&message),
        }
        Some(())
    });
    response.await.unwrap_or(Err(WorkerError::Unavailable))
}

/// Terminates an idle worker and frees its memory.
pub fn terminate_idle() {
    let idle = CONNECTION.with_borrow_mut(|connection| {
        connection.take_if(|connection| connection.pending.is_empty())
    });
    if let Some(idle) = idle {
        idle.worker.terminate();
    }
}

impl Connection {
    /// `None` where the browser starts no worker.
    fn open() -> Option<Self> {
        let options = WorkerOptions::new();
        options.set_type(WorkerType::Module);
        let worker = Worker::new_with_options(&base::of_file(SCRIPT), &options).ok()?;
        let received = Closure::<dyn Fn(JsValue)>::new(|event: JsValue| {
            receive(&event.unchecked_into::<MessageEvent>().data());
        });
        let failed = Closure::<dyn Fn(JsValue)>::new(|_| fail());
        worker.set_onmessage(Some(received.as_ref().unchecked_ref()));
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        Some(Self {
            worker,
            number: STARTED,
            pending: BTreeMap::new(),
            queued: Some(Vec::new()),
            _handlers: [received, failed],
        })
    }

    fn post(&self, message: &Array) {
        if self.worker.post_message_with_transfer(message, &transfer_list(message)).is_err() {
            // Not now: the connection is borrowed.
            spawn_local(async { fail() });
        }
    }
}

fn receive(message: &JsValue) {
    if let Some(text) = panic::of_worker(message) {
        panic::keep(text);
        return stop(&WorkerError::Stopped);
    }
    let Some(Envelope { number, message, payload }) = Envelope::decode(message) else {
        return fail();
    };
    match message {
        WorkerResponse::Started => CONNECTION.with_borrow_mut(|connection| {
            let Some(connection) = connection else { return };
            for message in connection.queued.take().unwrap_or_default() {
                connection.post(&message);
            }
        }),
        part @ (WorkerResponse::Preview
        | WorkerResponse::ForecastPart(_)
        | WorkerResponse::LearningPart(_)) => {
            let on_part = with_pending(|pending| pending.get(&number)?.on_part.clone());
            if let Some(on_part) = on_part {
                on_part(part, payload);
            }
        }
        response => {
            let outcome = match response {
                WorkerResponse::Failed(error) => Err(error),
                response => Ok((response, payload)),
            };
            if let Some(pending) = with_pending(|pending| pending.remove(&number)) {
                // Fails only if nobody waits any longer.
                let _ = pending.respond.send(outcome);
            }
        }
    }
}

fn with_pending<T>(
    use_pending: impl FnOnce(&mut BTreeMap<u32, Pending>) -> Option<T>,
) -> Option<T> {
    CONNECTION.with_borrow_mut(|connection| use_pending(&mut connection.as_mut()?.pending))
}

/// Ends a worker that failed, and the next request starts a new one.
fn fail() {
    stop(&WorkerError::Unavailable);
}

/// Ends the worker; what is pending gets this error.
fn stop(why: &WorkerError) {
    if let Some(mut failed) = CONNECTION.with_borrow_mut(Option::take) {
        failed.worker.terminate();
        for (_, pending) in std::mem::take(&mut failed.pending) {
            // Fails only if nobody waits any longer.
            let _ = pending.respond.send(Err(why.clone()));
        }
        // Not now: one of its handlers may be running.
        spawn_local(async move { drop(failed) });
    }
}
