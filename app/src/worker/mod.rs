//! The page's end of the worker: asks, waits, gets an answer.
//!
//! The worker is this same program, started once more off the page's thread; what
//! only it needs (ZIP archives, hashes, photo files) comes when it does. It starts
//! when it is first asked for, and is let go after a large file so that the
//! phone gets its memory back.

mod ahead;
mod ask;
mod jpeg;
mod look;
mod message;
mod pixels;
mod scaled;
mod serve;
mod take;
mod work;

use std::collections::BTreeMap;

use bleachfield_core::{
    journal::{
        Entry, PhotoId, entries_from_text, entries_to_text,
        file::{Header, Parcel, PhotoFile},
        photo::Kind,
    },
    message::Message,
};
use js_sys::{Array, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Blob, ImageBitmap};

use ask::{ask, expect, hear, let_go, next, wake};
use message::{Answer, Job};
pub use message::{CleanPhoto, ColourAsked, ColourFound, Looked, Mark};

use crate::i18n::key;
use pixels::Pixels;
pub use serve::serves;
pub use take::{QUALITY, SMALL};
pub use work::{Work, work};

/// Starts the worker if it is not running: a photo will soon be taken.
pub fn expect_photo() {
    wake();
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

/// Whether a photo's long side is so much more than what is wanted that it is worth making the
/// photo smaller, which costs a little sharpness: more than a third.
pub fn is_large(side: u32, wanted: u32) -> bool {
    side > wanted + wanted / 3
}

/// Gets a photo's file ready to be kept, made smaller if its long side is much more than
/// `long_side` pixels ([`is_large`]). `shown` gets it small, from most browsers, as soon as it is
/// sure that it can be kept.
///
/// # Errors
/// As [`clean_photo`], and that this browser cannot show it.
pub async fn take_photo(
    file: &Blob,
    long_side: Option<u32>,
    shown: impl FnOnce(ImageBitmap) + 'static,
) -> Result<Taken, Message> {
    wake();
    let early = [next().ok_or_else(gone)?, next().ok_or_else(gone)?];
    let [coming, found] = early.map(|number| expect(number, None));
    spawn_local(async move {
        if let Ok(reply) = JsFuture::from(coming).await
            && let Ok(picture) = Array::from(&reply).get(2).dyn_into()
        {
            shown(picture);
        }
    });
    let [shown, measured] = early;
    let likely = ahead::likely();
    let job = Job::TakePhoto { long_side, shown, measured, likely: likely.clone() };
    let taken = ask(&job, vec![file.into()]).await;
    // What is not said by now, or not to come, will not be said: nobody waits any longer.
    let unsaid = |number: u32| hear(Array::of1(&number.into()).into());
    unsaid(shown);
    if !matches!(taken, Ok((Answer::Taken { looked: Some(_), .. }, _))) {
        unsaid(measured);
    }
    match taken? {
        (Answer::Taken { photo: clean, smaller, looked }, bytes) => {
            if let Some(looked) = looked {
                ahead::keep(likely.of(&clean.id, &looked), looked, found);
            }
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
    if let Some(looked) = ahead::looked(photo) {
        return Some(looked);
    }
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
    if let Some(found) = ahead::found(&asked).await {
        return Ok(found);
    }
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
    Message::new(key!("refusal-photo-damaged"))
}

/// What is said when there is no worker to ask.
fn gone() -> Message {
    Message::new(key!("refusal-worker-gone"))
}
