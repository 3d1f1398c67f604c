//! The worker's jobs, done by the core.

use std::{future::Future, pin::Pin};

use bleachfield_core::exchange::{
    file::{Limits, read, write},
    photo::clean,
};
use js_sys::{ArrayBuffer, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::Blob;

use super::{
    look,
    message::{Answer, CleanPhoto, Job, ReadFile},
    pixels::{self, Pixels, Undecoded},
    take::take,
};

/// An answer, and the bytes that go with it.
type Done = (Answer, Vec<Vec<u8>>);

/// How a job is done on what came with it.
pub type Work = fn(Job, Vec<JsValue>) -> Pin<Box<dyn Future<Output = Done>>>;

/// Does one job.
pub fn work(job: Job, parts: Vec<JsValue>) -> Pin<Box<dyn Future<Output = Done>>> {
    Box::pin(async move {
        match job {
            Job::Look { photo } => return (look_at(photo, parts).await, Vec::new()),
            Job::TakePhoto { long_side, shown, measured, likely } => {
                return match file_of(parts) {
                    Some(file) => take(&file, long_side, [shown, measured], likely).await,
                    None => (Answer::Unread, Vec::new()),
                };
            }
            _ => {}
        }
        let mut bytes = Vec::new();
        for part in parts {
            match bytes_of(part).await {
                Some(part) => bytes.push(part),
                None => return (Answer::Unread, Vec::new()),
            }
        }
        on_bytes(job, bytes)
    })
}

/// Decodes a photo's file and looks at it.
async fn look_at(photo: String, parts: Vec<JsValue>) -> Answer {
    if let Some(answer) = look::look_again(&photo) {
        return answer;
    }
    let Some(file) = file_of(parts) else { return Answer::Unread };
    match pixels::decoded(&file).await {
        Ok(pixels) => look::look(photo, pixels),
        Err(Undecoded::NoPicture) => Answer::Unseen,
        Err(Undecoded::NoCanvas) => Answer::NoCanvas,
    }
}

fn file_of(parts: Vec<JsValue>) -> Option<Blob> {
    parts.into_iter().next()?.dyn_into().ok()
}

/// The bytes of a file or of a buffer.
async fn bytes_of(part: JsValue) -> Option<Vec<u8>> {
    let buffer = match part.dyn_into::<Blob>() {
        Ok(blob) => JsFuture::from(blob.array_buffer()).await.ok()?,
        Err(buffer) => buffer,
    };
    let buffer: ArrayBuffer = buffer.dyn_into().ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}

/// Does a job that needs no browser.
fn on_bytes(job: Job, bytes: Vec<Vec<u8>>) -> Done {
    let first = || bytes.first().map(Vec::as_slice).unwrap_or_default();
    match job {
        Job::CleanPhoto => match clean(first()) {
            Ok(photo) => (Answer::Photo(CleanPhoto::of(&photo, photo.id())), vec![photo.bytes]),
            Err(refused) => (Answer::Refused(refused.into()), Vec::new()),
        },
        Job::ReadFile => match read(first(), Limits::default()) {
            Ok(file) => {
                let (photos, bytes) =
                    file.photos.into_iter().map(|(id, photo)| (id, photo.bytes)).unzip();
                let answer = ReadFile {
                    header: file.header,
                    format: file.format,
                    entries: file.entries,
                    photos,
                    ignored: file.ignored,
                };
                (Answer::File(answer), bytes)
            }
            Err(refused) => (Answer::Refused(refused.into()), Vec::new()),
        },
        Job::WriteFile { header, entries, photos } => {
            match write(&header, &entries, photos.into_iter().zip(bytes)) {
                Ok(file) => (Answer::Written, vec![file]),
                Err(refused) => (Answer::Refused(refused.into()), Vec::new()),
            }
        }
        Job::LookAt { photo, width, height } => {
            let rgba = bytes.into_iter().next().unwrap_or_default();
            (look::look(photo, Pixels { rgba, width, height }), Vec::new())
        }
        Job::Colour(asked) => (look::colour(&asked), Vec::new()),
        // Needs the browser's decoder: done above.
        Job::Look { .. } | Job::TakePhoto { .. } => (Answer::Unread, Vec::new()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::exchange::{
        ExchangeError,
        file::{FileError, Header},
    };
    use bleachfield_core::journal::{Body, DeviceId, EntryWriter, Note, Subject};
    use jiff::Timestamp;

    #[test]
    fn a_file_is_read_as_it_was_written() {
        let device = DeviceId::new("here").unwrap();
        let now = Timestamp::UNIX_EPOCH;
        let mut writer = EntryWriter::new(device.clone(), None);
        let unknown = serde_json::from_str(r#"{"kind":"hummed_to","float":1.0,"none":null}"#);
        let entries: Vec<_> =
            [Body::Note(Note { text: "1.0 and ½".into() }), Body::Unknown(unknown.unwrap())]
                .into_iter()
                .zip(1..)
                .map(|(body, random)| writer.write(now, random, "", Subject::Studio, body).unwrap())
                .collect();
        let header = Header { app: "0".into(), exported_at: now, device };
        let job = Job::WriteFile { header, entries: entries.clone(), photos: Vec::new() };
        // As messages carry them.
        let job = serde_json::from_str(&serde_json::to_string(&job).unwrap()).unwrap();
        let (answer, file) = on_bytes(job, Vec::new());
        assert!(matches!(answer, Answer::Written));
        let (answer, photos) = on_bytes(Job::ReadFile, file);
        let answer = serde_json::from_str(&serde_json::to_string(&answer).unwrap()).unwrap();
        let Answer::File(read) = answer else { panic!("{answer:?}") };
        assert!(photos.is_empty());
        assert_eq!(read.entries, entries);
    }

    #[test]
    fn errors_are_answered() {
        let (answer, _) = on_bytes(Job::ReadFile, vec![b"hello".to_vec()]);
        let not_ours = ExchangeError::File(FileError::NotOurs);
        assert!(matches!(answer, Answer::Refused(error) if error == not_ours));
        let (answer, _) = on_bytes(Job::CleanPhoto, Vec::new());
        assert!(matches!(answer, Answer::Refused(ExchangeError::Photo(_))));
    }
}
