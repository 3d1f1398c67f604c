//! The page's end of the worker: asks, waits, gets an answer.
//!
//! The worker is this same program, started once more off the page's thread; what
//! only it needs (ZIP archives, hashes, photo files) comes when it does. It starts
//! when it is first asked for, and is let go after a large file so that the
//! phone gets its memory back.

mod look;
mod message;
mod pixels;
mod scaled;
mod serve;
mod take;
mod work;

use std::{cell::RefCell, collections::BTreeMap};

use bleachfield_core::{
    journal::{
        Entry, PhotoId, entries_from_text, entries_to_text,
        file::{Header, Parcel, PhotoFile},
        photo::Kind,
    },
    json::{self, Json},
    message::Message,
};
use js_sys::{Array, ArrayBuffer, Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, MessageEvent, WorkerOptions, WorkerType};

use message::{Answer, Job};
pub use message::{CleanPhoto, ColourAsked, ColourFound, Looked, Mark};

use pixels::Pixels;
pub use serve::serves;
pub use work::{Work, work};

/// The script that starts the worker (public/worker.js).
const SCRIPT: &str = "/worker.js";

/// Starts the worker, if there is none, for it will soon be asked.
pub fn wake() {
    WORKER.with_borrow_mut(|running| {
        if running.is_none() {
            *running = start();
        }
    });
}

/// Takes everything but the picture out of a photo's file.
///
/// # Errors
/// What the core says against the file, or that the worker could not start.
pub async fn clean_photo(file: &Blob) -> Result<(CleanPhoto, Vec<u8>), Message> {
    match ask(&Job::CleanPhoto, vec![file.into()]).await? {
        (Answer::Photo(photo), mut bytes) => Ok((photo, bytes.pop().unwrap_or_default())),
        (Answer::PhotoRefused(refused), _) => Err(refused.message()),
        _ => Err(gone()),
    }
}

/// A photo ready to be kept, or that the page must see to it itself.
#[derive(Debug)]
pub enum Taken {
    Ready {
        clean: CleanPhoto,
        smaller: bool,
        bytes: Vec<u8>,
        thumb: Option<Vec<u8>>,
    },
    /// The worker has no canvas here.
    NoCanvas,
}

/// Gets a photo's file ready to be kept, made smaller if its long side is more than
/// `long_side` pixels.
///
/// # Errors
/// As [`clean_photo`], and that this browser cannot show it.
pub async fn take_photo(file: &Blob, long_side: Option<u32>) -> Result<Taken, Message> {
    match ask(&Job::TakePhoto { long_side }, vec![file.into()]).await? {
        (Answer::Taken { photo: clean, smaller }, bytes) => {
            let mut bytes = bytes.into_iter();
            let first = bytes.next().unwrap_or_default();
            Ok(Taken::Ready { clean, smaller, bytes: first, thumb: bytes.next() })
        }
        (Answer::NoCanvas, _) => Ok(Taken::NoCanvas),
        (Answer::PhotoRefused(refused), _) => Err(refused.message()),
        (Answer::Unseen, _) => Err(unseen()),
        _ => Err(gone()),
    }
}

/// Reads and checks an exchange file: all of it is sound, or none is taken.
///
/// # Errors
/// As [`clean_photo`].
pub async fn read_file(file: &Blob) -> Result<Parcel, Message> {
    let answer = ask(&Job::ReadFile, vec![file.into()]).await;
    let_go();
    let (read, bytes) = match answer? {
        (Answer::File(read), bytes) => (read, bytes),
        (Answer::FileRefused(refused), _) => return Err(refused.message()),
        _ => return Err(gone()),
    };
    let entries = entries_from_text(&read.entries).map_err(|_| gone())?;
    let mut photos = BTreeMap::new();
    for (id, bytes) in read.photos.into_iter().zip(bytes) {
        let id = PhotoId::try_from(id).map_err(|_| gone())?;
        let mime = Kind::of(&bytes).map_err(|refused| refused.message())?.mime();
        photos.insert(id, PhotoFile { mime, bytes });
    }
    Ok(Parcel { header: read.header, format: read.format, entries, photos, ignored: read.ignored })
}

/// Writes an exchange file.
///
/// # Errors
/// As [`clean_photo`].
pub async fn write_file(
    header: Header,
    entries: &[Entry],
    photos: Vec<(PhotoId, Vec<u8>)>,
) -> Result<Vec<u8>, Message> {
    let entries = entries_to_text(entries);
    let (ids, bytes): (Vec<String>, Vec<JsValue>) = photos
        .into_iter()
        .map(|(id, bytes)| (id.into(), Uint8Array::from(bytes.as_slice()).buffer().into()))
        .unzip();
    let answer = ask(&Job::WriteFile { header, entries, photos: ids }, bytes).await;
    let_go();
    match answer? {
        (Answer::Written, mut bytes) => Ok(bytes.pop().unwrap_or_default()),
        (Answer::FileRefused(refused), _) => Err(refused.message()),
        _ => Err(gone()),
    }
}

/// Looks at a photo's file: how large it is to be measured, and where things may be in it.
///
/// # Errors
/// The file cannot be shown here, or as [`clean_photo`].
pub async fn look(photo: &str, file: &Blob) -> Result<Looked, Message> {
    let here = || photo.to_owned();
    let answer = ask(&Job::Look { photo: here() }, vec![file.into()]).await?.0;
    let answer = match answer {
        Answer::NoCanvas => {
            // An older browser: its page has a canvas, its worker has none.
            let pixels = pixels::decoded_on_page(file).await;
            let Pixels { rgba, width, height } = pixels.ok_or_else(unseen)?;
            let rgba = Uint8Array::from(rgba.as_slice()).buffer();
            ask(&Job::LookAt { photo: here(), width, height }, vec![rgba.into()]).await?.0
        }
        answer => answer,
    };
    match answer {
        Answer::Looked(looked) => Ok(looked),
        Answer::Unseen => Err(unseen()),
        _ => Err(gone()),
    }
}

/// What was seen of the photo that the worker looked at last, if it is this one.
pub async fn looked(photo: &str) -> Option<Looked> {
    match ask(&Job::Look { photo: photo.to_owned() }, Vec::new()).await {
        Ok((Answer::Looked(looked), _)) => Some(looked),
        _ => None,
    }
}

/// Measures colours in a photo; `file` is looked at again if the worker forgot it.
///
/// # Errors
/// As [`look`].
pub async fn colour(asked: ColourAsked, file: Option<Blob>) -> Result<ColourFound, Message> {
    let photo = asked.photo.clone();
    let job = Job::Colour(asked);
    let mut answer = ask(&job, Vec::new()).await?.0;
    if matches!(answer, Answer::NotHeld)
        && let Some(file) = file
    {
        look(&photo, &file).await?;
        answer = ask(&job, Vec::new()).await?.0;
    }
    match answer {
        Answer::Colour(found) => Ok(*found),
        _ => Err(gone()),
    }
}

fn unseen() -> Message {
    Message::new("refusal.photo.damaged")
}

/// What is said when there is no worker to ask.
fn gone() -> Message {
    Message::new("refusal.worker.gone")
}

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

/// Hands a job over, starting the worker if there is none, and waits.
async fn ask(job: &Job, payload: Vec<JsValue>) -> Result<(Answer, Vec<Vec<u8>>), Message> {
    let text = json::written(&job.to_json());
    wake();
    let number = WORKER.with_borrow_mut(|running| {
        let worker = running.as_mut()?;
        worker.next += 1;
        Some(worker.next)
    });
    let number = number.ok_or_else(gone)?;
    let message = Array::of2(&number.into(), &text.into());
    payload.iter().for_each(|part| {
        message.push(part);
    });
    let reply = Promise::new(&mut |resolve, _| {
        WORKER.with_borrow_mut(|running| {
            let Some(worker) = running else { return };
            worker.waiting.insert(number, resolve);
            match &mut worker.unsent {
                Some(unsent) => unsent.push(message.clone()),
                None => send(&worker.worker, &message),
            }
        });
    });
    let reply = JsFuture::from(reply).await.map_err(|_| gone())?;
    read(&reply).ok_or_else(gone)
}

/// Lets an idle worker go, with its memory.
fn let_go() {
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
fn hear(message: JsValue) {
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
        wasm_bindgen_futures::spawn_local(async move { drop(dead) });
    }
}

fn send(worker: &web_sys::Worker, message: &Array) {
    let buffers: Array =
        message.iter().skip(2).filter(|part| part.is_instance_of::<ArrayBuffer>()).collect();
    if worker.post_message_with_transfer(message, &buffers).is_err() {
        wasm_bindgen_futures::spawn_local(async { fail() });
    }
}

fn read(reply: &JsValue) -> Option<(Answer, Vec<Vec<u8>>)> {
    let parts = Array::from(reply);
    let answer = json::read(parts.get(1).as_string()?.as_bytes()).ok()?;
    let answer = Answer::from_json(&answer).ok()?;
    let bytes = parts
        .iter()
        .skip(2)
        .map(|part| part.dyn_into::<ArrayBuffer>().map(|b| Uint8Array::new(&b).to_vec()))
        .collect::<Result<_, _>>()
        .ok()?;
    Some((answer, bytes))
}
