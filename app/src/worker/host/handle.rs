//! The handler of requests.

use futures::future::LocalBoxFuture;
use wasm_bindgen::JsCast;
use web_sys::Blob;

use super::{canvas, colour, exchange, forecast, learning, photo};
use crate::worker::protocol::{
    OnPart, Outcome, Payload, WorkerError, WorkerRequest, WorkerResponse, bytes_of, to_buffer,
};

/// Handles a request with its payload; what comes before the response is passed on as soon as
/// it is there.
pub type Handler = fn(WorkerRequest, Payload, Option<OnPart>) -> LocalBoxFuture<'static, Outcome>;

pub fn handle(
    request: WorkerRequest,
    payload: Payload,
    on_part: Option<OnPart>,
) -> LocalBoxFuture<'static, Outcome> {
    if !matches!(request, WorkerRequest::Learning(_)) {
        learning::give_way();
    }
    Box::pin(async move {
        match request {
            WorkerRequest::PreparePhoto { long_side } => {
                photo::prepare(&file_in(&payload)?, long_side, on_part).await
            }
            WorkerRequest::Thumbnail => {
                let bytes = photo::thumbnail(&file_in(&payload)?).await?;
                Ok((WorkerResponse::Thumbnail, vec![to_buffer(bytes)]))
            }
            WorkerRequest::AnalysePhoto { photo } => analyse(photo, &payload).await,
            WorkerRequest::MeasureColour(request) => Ok((
                match colour::measure_held(&request) {
                    Some(result) => WorkerResponse::Colour(Box::new(result)),
                    None => WorkerResponse::NotHeld,
                },
                Vec::new(),
            )),
            WorkerRequest::Teach(request) => Ok((
                match colour::teach_held(&request) {
                    Some(lesson) => WorkerResponse::Lesson(lesson.map(Box::new)),
                    None => WorkerResponse::NotHeld,
                },
                Vec::new(),
            )),
            WorkerRequest::ReadExchangeFile => {
                let file = canvas::file_bytes(&file_in(&payload)?).await?;
                let (contents, photos) = exchange::read_file(&file)?;
                let payload = photos.into_iter().map(to_buffer).collect();
                Ok((WorkerResponse::ExchangeFile(contents), payload))
            }
            WorkerRequest::Forecast(command) => forecast::handle(command, on_part).await,
            WorkerRequest::Learning(command) => learning::handle(command, on_part).await,
            WorkerRequest::WriteExchangeFile { header, entries, unreadable, photos } => {
                let photos = photos.into_iter().zip(payload.iter().filter_map(bytes_of)).collect();
                let (file, left_out) =
                    exchange::write_file(&header, &entries, &unreadable, photos)?;
                Ok((WorkerResponse::Written { left_out }, vec![to_buffer(file)]))
            }
        }
    })
}

async fn analyse(photo: String, payload: &Payload) -> Outcome {
    if let Ok(file) = file_in(payload)
        && !colour::is_held(&photo)
    {
        colour::hold(photo.clone(), canvas::pixels_of(&file).await?);
    }
    let response = match colour::analyse_held(&photo) {
        Some(analysis) => WorkerResponse::Analysis(analysis),
        None => WorkerResponse::NotHeld,
    };
    Ok((response, Vec::new()))
}

fn file_in(payload: &Payload) -> Result<Blob, WorkerError> {
    let file = payload.first().and_then(|part| part.dyn_ref::<Blob>());
    file.cloned().ok_or(WorkerError::Unavailable)
}
