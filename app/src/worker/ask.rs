//! Asking the worker: numbered messages, and who waits for which.

use std::{cell::RefCell, collections::BTreeMap};

use bleachfield_core::message::Message;
use js_sys::{Array, ArrayBuffer, Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{MessageEvent, WorkerOptions, WorkerType};

use super::{
    gone,
    message::{Answer, Job},
};

/// The script that starts the worker (public/worker.js).
const SCRIPT: &str = "/worker.js";

/// A running worker and those who wait for it.
struct Worker {
    worker: web_sys::Worker,
    next: u32,
    /// Who waits for which message.
    waiting: BTreeMap<u32, Function>,
    /// What is to be sent once it has started.
    unsent: Option<Vec<Array>>,
    /// Kept while the worker lives.
    _listeners: [Closure<dyn Fn(JsValue)>; 2],
}

thread_local! {
    static WORKER: RefCell<Option<Worker>> = const { RefCell::new(None) };
}

/// Starts the worker, if there is none, for it will soon be asked.
pub fn wake() {
    WORKER.with_borrow_mut(|running| {
        if running.is_none() {
            *running = start();
        }
    });
}

/// Hands a job over, starting the worker if there is none, and waits.
pub async fn ask(job: &Job, payload: Vec<JsValue>) -> Result<(Answer, Vec<Vec<u8>>), Message> {
    let text = serde_json::to_string(job).unwrap_or_default();
    wake();
    let number = next().ok_or_else(gone)?;
    let message = Array::of2(&number.into(), &text.into());
    payload.iter().for_each(|part| {
        message.push(part);
    });
    heard(expect(number, Some(message))).await
}

/// The number of the next message.
pub fn next() -> Option<u32> {
    WORKER.with_borrow_mut(|running| {
        let worker = running.as_mut()?;
        worker.next += 1;
        Some(worker.next)
    })
}

/// Settles when an answer of that number comes, to the message if there is one.
pub fn expect(number: u32, message: Option<Array>) -> Promise {
    Promise::new(&mut |resolve, _| {
        WORKER.with_borrow_mut(|running| {
            let Some(worker) = running else { return };
            worker.waiting.insert(number, resolve);
            let Some(message) = message.clone() else { return };
            match &mut worker.unsent {
                Some(unsent) => unsent.push(message),
                None => send(&worker.worker, &message),
            }
        });
    })
}

pub async fn heard(reply: Promise) -> Result<(Answer, Vec<Vec<u8>>), Message> {
    let reply = JsFuture::from(reply).await.map_err(|_| gone())?;
    read(&reply).ok_or_else(gone)
}

/// Lets an idle worker go, with its memory.
pub fn let_go() {
    WORKER.with_borrow_mut(|running| {
        if running.as_ref().is_some_and(|worker| worker.waiting.is_empty())
            && let Some(idle) = running.take()
        {
            idle.worker.terminate();
        }
    });
}

fn start() -> Option<Worker> {
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let worker = web_sys::Worker::new_with_options(SCRIPT, &options).ok()?;
    let heard = Closure::<dyn Fn(JsValue)>::new(|event: JsValue| {
        hear(event.unchecked_into::<MessageEvent>().data());
    });
    let failed = Closure::<dyn Fn(JsValue)>::new(|_| fail());
    worker.set_onmessage(Some(heard.as_ref().unchecked_ref()));
    worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
    Some(Worker {
        worker,
        next: 0,
        waiting: BTreeMap::new(),
        unsent: Some(Vec::new()),
        _listeners: [heard, failed],
    })
}

/// The worker said something: that it is ready, or an answer.
pub fn hear(message: JsValue) {
    let number = Array::from(&message).get(0).as_f64().unwrap_or_default() as u32;
    let waiting = WORKER.with_borrow_mut(|running| {
        let worker = running.as_mut()?;
        if number == 0 {
            for message in worker.unsent.take().unwrap_or_default() {
                send(&worker.worker, &message);
            }
        }
        worker.waiting.remove(&number)
    });
    if let Some(resolve) = waiting {
        let _ = resolve.call1(&JsValue::NULL, &message);
    }
}

/// The worker is dead: everyone who waits gets nothing, and the next to ask
/// starts a new one.
fn fail() {
    let dead = WORKER.with_borrow_mut(Option::take);
    if let Some(dead) = dead {
        dead.worker.terminate();
        for resolve in dead.waiting.values() {
            let _ = resolve.call0(&JsValue::NULL);
        }
        // Its error listener is running now: let go of it later.
        spawn_local(async move { drop(dead) });
    }
}

fn send(worker: &web_sys::Worker, message: &Array) {
    let buffers: Array =
        message.iter().skip(2).filter(|part| part.is_instance_of::<ArrayBuffer>()).collect();
    if worker.post_message_with_transfer(message, &buffers).is_err() {
        spawn_local(async { fail() });
    }
}

fn read(reply: &JsValue) -> Option<(Answer, Vec<Vec<u8>>)> {
    let parts = Array::from(reply);
    let answer = serde_json::from_str(&parts.get(1).as_string()?).ok()?;
    let bytes = parts
        .iter()
        .skip(2)
        .map(|part| part.dyn_into::<ArrayBuffer>().map(|b| Uint8Array::new(&b).to_vec()))
        .collect::<Result<_, _>>()
        .ok()?;
    Some((answer, bytes))
}
