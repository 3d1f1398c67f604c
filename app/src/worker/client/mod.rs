//! The page's side of the worker: a function for each request.
//! The worker starts at the first request, and ends after a large file to free its memory.

mod connection;
mod forecast;
mod learning;

use std::cell::Cell;
use std::collections::BTreeMap;
use std::rc::Rc;

use bleachfield_core::colour::ColourError;
use bleachfield_core::exchange::{
    file::{EntryRecord, ExchangeFile, Header, PhotoFile},
    photo::ImageFormat,
};
use bleachfield_core::journal::{CameraTaught, Entry, PhotoId};
use bleachfield_core::message::Message;
use wasm_bindgen::JsCast;
use web_sys::{Blob, ImageBitmap};

use super::host;
use super::protocol::{
    CleanPhoto, ColourRequest, ColourResult, ExchangeContents, OnPart, Outcome, Payload,
    PhotoAnalysis, TeachRequest, WorkerError, WorkerRequest, WorkerResponse, bytes_of, to_buffer,
};
use crate::platform::preferences::PhotoSize;
use crate::storage::PhotoBytes;
use connection::{send, terminate_idle};

pub use connection::start;
pub use forecast::{ForecastStart, HeldForecast};
pub use learning::{learn, stop_learning};

/// About the long side of a reduced photo, in pixels: more than colour is measured at (1200)
/// and than the screen of a phone shows.
const REDUCED_LONG_SIDE: u32 = 1536;

thread_local! {
    /// The worker has no canvas: the page handles photos itself.
    static PHOTOS_ON_PAGE: Cell<bool> = const { Cell::new(false) };
}

/// A photo ready to be stored.
#[derive(Clone, Debug, PartialEq)]
pub struct PreparedPhoto {
    pub clean: CleanPhoto,
    pub photo: PhotoBytes,
    pub thumb: Option<PhotoBytes>,
    /// It was drawn again, so its pixels are not the camera's own.
    pub smaller: bool,
}

/// Prepares a photo for storage. Its pixels are left unchanged unless `size` says so and it is
/// much larger, or it is in a format that other devices cannot show: it becomes a JPEG then.
/// `on_preview` is called with a small copy as soon as the photo is accepted.
///
/// # Errors
/// The reason why it cannot be stored.
pub async fn prepare_photo(
    file: &Blob,
    size: PhotoSize,
    on_preview: impl Fn(ImageBitmap) + 'static,
) -> Result<PreparedPhoto, Message> {
    let long_side = (size == PhotoSize::Smaller).then_some(REDUCED_LONG_SIDE);
    let request = WorkerRequest::PreparePhoto { long_side };
    let on_part: OnPart = Rc::new(move |_, payload: Payload| {
        if let Some(preview) = payload.into_iter().next().and_then(|p| p.dyn_into().ok()) {
            on_preview(preview);
        }
    });
    let outcome = photo_request(request, vec![file.into()], Some(on_part)).await;
    let (clean, smaller, payload) = expect(outcome, |response, payload| match response {
        WorkerResponse::Photo { photo, reduced } => Some((photo, reduced, payload)),
        _ => None,
    })?;
    let mut pictures = payload.iter().filter_map(bytes_of);
    let bytes = pictures.next().ok_or_else(unavailable)?;
    let photo = PhotoBytes { mime: clean.mime.clone(), bytes };
    let thumb = pictures.next().map(jpeg);
    Ok(PreparedPhoto { clean, photo, thumb, smaller })
}

/// The small copy of a photo for lists; `None` if this browser cannot show it.
pub async fn thumbnail(photo: &PhotoBytes) -> Option<PhotoBytes> {
    let file = photo.to_blob()?;
    match photo_request(WorkerRequest::Thumbnail, vec![file.into()], None).await {
        Ok((WorkerResponse::Thumbnail, payload)) => payload.first().and_then(bytes_of).map(jpeg),
        _ => None,
    }
}

/// Analyses a photo, which is held for [`measure_colour`].
///
/// # Errors
/// This browser cannot decode it.
pub async fn analyse(photo: &str, file: &Blob) -> Result<PhotoAnalysis, Message> {
    analysis(photo, vec![file.into()]).await
}

/// The analysis of a photo if it is held, as one just prepared is.
pub async fn held_analysis(photo: &str) -> Option<PhotoAnalysis> {
    analysis(photo, Vec::new()).await.ok()
}

async fn analysis(photo: &str, payload: Payload) -> Result<PhotoAnalysis, Message> {
    let request = WorkerRequest::AnalysePhoto { photo: photo.to_owned() };
    expect(photo_request(request, payload, None).await, |response, _| match response {
        WorkerResponse::Analysis(analysis) => Some(analysis),
        _ => None,
    })
}

/// Measures colours in a photo; `file` is analysed again if it is no longer held.
///
/// # Errors
/// As [`analyse`].
pub async fn measure_colour(
    request: ColourRequest,
    file: Option<Blob>,
) -> Result<ColourResult, Message> {
    let photo = request.photo.clone();
    let request = WorkerRequest::MeasureColour(request);
    expect(of_held(&photo, request, file).await?, |response, _| match response {
        WorkerResponse::Colour(result) => Some(*result),
        _ => None,
    })
}

/// Teaches the camera by a photo, which is analysed again if it is no longer held.
///
/// # Errors
/// As [`analyse`].
pub async fn teach(
    request: TeachRequest,
    file: Option<Blob>,
) -> Result<Result<CameraTaught, Vec<ColourError>>, Message> {
    let photo = request.photo.clone();
    let request = WorkerRequest::Teach(request);
    expect(of_held(&photo, request, file).await?, |response, _| match response {
        WorkerResponse::Lesson(lesson) => Some(lesson.map(|lesson| *lesson)),
        _ => None,
    })
}

/// The outcome of a request about the photo that is held; `file` is analysed again if it is no
/// longer held.
async fn of_held(
    photo: &str,
    request: WorkerRequest,
    file: Option<Blob>,
) -> Result<Outcome, Message> {
    let mut outcome = photo_request(request.clone(), Vec::new(), None).await;
    if let (Ok((WorkerResponse::NotHeld, _)), Some(file)) = (&outcome, file) {
        analyse(photo, &file).await?;
        outcome = photo_request(request, Vec::new(), None).await;
    }
    Ok(outcome)
}

/// Reads and checks an exchange file: all of it is sound, or none is used.
///
/// # Errors
/// What is wrong with the file.
pub async fn read_exchange_file(file: &Blob) -> Result<ExchangeFile, Message> {
    let outcome = send(&WorkerRequest::ReadExchangeFile, vec![file.into()], None).await;
    terminate_idle();
    let (contents, payload) = expect(outcome, |response, payload| match response {
        WorkerResponse::ExchangeFile(contents) => Some((contents, payload)),
        _ => None,
    })?;
    joined(contents, &payload).map_err(|error| error.message())
}

/// Writes an exchange file. Photos that are damaged are left out of it, and returned.
///
/// # Errors
/// What cannot be written.
pub async fn write_exchange_file(
    header: Header,
    entries: &[Entry],
    unreadable: Vec<EntryRecord>,
    photos: Vec<(PhotoId, Vec<u8>)>,
) -> Result<(Vec<u8>, Vec<PhotoId>), Message> {
    let (photos, payload) = photos.into_iter().map(|(id, bytes)| (id, to_buffer(bytes))).unzip();
    let entries = entries.to_vec();
    let request = WorkerRequest::WriteExchangeFile { header, entries, unreadable, photos };
    let outcome = send(&request, payload, None).await;
    terminate_idle();
    expect(outcome, |response, payload| match response {
        WorkerResponse::Written { left_out } => {
            Some((payload.first().and_then(bytes_of)?, left_out))
        }
        _ => None,
    })
}

/// What `pick` takes of a response; another response counts as no worker.
fn expect<T>(
    outcome: Outcome,
    pick: impl FnOnce(WorkerResponse, Payload) -> Option<T>,
) -> Result<T, Message> {
    let (response, payload) = outcome.map_err(|error| error.message())?;
    pick(response, payload).ok_or_else(unavailable)
}

/// Sends a request about a photo; handles it on the page where the worker has no canvas.
async fn photo_request(
    request: WorkerRequest,
    payload: Payload,
    on_part: Option<OnPart>,
) -> Outcome {
    if !PHOTOS_ON_PAGE.get() {
        match send(&request, payload.clone(), on_part.clone()).await {
            Err(WorkerError::NoCanvas) => PHOTOS_ON_PAGE.set(true),
            outcome => return outcome,
        }
    }
    let handle = host::load_handler().await.map_err(|_| WorkerError::Unavailable)?;
    handle(request, payload, on_part).await
}

fn joined(contents: ExchangeContents, payload: &Payload) -> Result<ExchangeFile, WorkerError> {
    let ExchangeContents { header, format, entries, unreadable, photos: ids, ignored } = contents;
    let mut photos = BTreeMap::new();
    for (id, part) in ids.into_iter().zip(payload) {
        let bytes = bytes_of(part).ok_or(WorkerError::Unavailable)?;
        let mime = ImageFormat::of(&bytes)?.mime();
        photos.insert(id, PhotoFile { mime, bytes });
    }
    Ok(ExchangeFile { header, format, entries, unreadable, photos, ignored })
}

fn jpeg(bytes: Vec<u8>) -> PhotoBytes {
    PhotoBytes { mime: "image/jpeg".into(), bytes }
}

fn unavailable() -> Message {
    WorkerError::Unavailable.message()
}
