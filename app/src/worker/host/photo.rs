//! Preparing a photo for storage: without metadata, reduced if wanted, with a small copy.

use bleachfield_core::exchange::photo::{Cleaned, PhotoError, clean};
use web_sys::Blob;

use super::canvas::{self, MEASURED_LONG_SIDE, Picture};
use super::colour;
use crate::worker::protocol::{
    CleanPhoto, OnPart, Outcome, WorkerError, WorkerResponse, to_buffer,
};

/// JPEG quality of a photo that is drawn again. It shifts the mean of a patch by half a code
/// value at most, far less than the uncertainty of a measured colour.
const QUALITY: f64 = 0.85;

/// Long side of a photo in a foreign format, where no limit is set, in pixels.
const REDRAWN_LONG_SIDE: u32 = 4096;

/// Long side of the small copy, in pixels.
const THUMB_LONG_SIDE: u32 = 320;
/// JPEG quality of the small copy.
const THUMB_QUALITY: f64 = 0.8;

/// Prepares a photo. Its pixels are left unchanged unless it is much larger than `long_side`,
/// or in a format that other devices cannot show. They are held, to be measured next.
pub async fn prepare(file: &Blob, long_side: Option<u32>, on_part: Option<OnPart>) -> Outcome {
    let Some(picture) = Picture::decode(file).await else {
        return Err(why_undecodable(file).await);
    };
    let reduce = long_side.is_some_and(|limit| is_much_larger(picture.long_side(), limit));
    let unchanged = if reduce { None } else { unchanged(file).await? };
    let small = picture.draw(THUMB_LONG_SIDE)?;
    if let (Some(on_part), Some(preview)) = (on_part, small.bitmap().await) {
        on_part(WorkerResponse::Preview, vec![preview.into()]);
    }
    let pixels = picture.draw(MEASURED_LONG_SIDE)?.pixels().ok_or(WorkerError::NoCanvas)?;
    let reduced = unchanged.is_none();
    let cleaned = match unchanged {
        Some(cleaned) => cleaned,
        None => {
            let drawn = picture.draw(long_side.unwrap_or(REDRAWN_LONG_SIDE))?;
            drop(picture); // the largest piece of memory
            clean(&drawn.jpeg(QUALITY).await?)?
        }
    };
    let photo = CleanPhoto::of(&cleaned);
    let thumb = small.jpeg(THUMB_QUALITY).await.ok();
    colour::hold(photo.id.to_string(), pixels);
    let pictures = [Some(cleaned.bytes), thumb].into_iter().flatten();
    Ok((WorkerResponse::Photo { photo, reduced }, pictures.map(to_buffer).collect()))
}

/// The small copy of a photo, as JPEG.
pub async fn thumbnail(file: &Blob) -> Result<Vec<u8>, WorkerError> {
    let picture = Picture::decode(file).await.ok_or(WorkerError::Undecodable)?;
    picture.draw(THUMB_LONG_SIDE)?.jpeg(THUMB_QUALITY).await
}

/// The file without metadata; `None` if other devices cannot show its format.
async fn unchanged(file: &Blob) -> Result<Option<Cleaned>, WorkerError> {
    match clean(&canvas::file_bytes(file).await?) {
        Ok(cleaned) => Ok(Some(cleaned)),
        Err(PhotoError::Heic) => Ok(None),
        Err(error) => Err(error.into()),
    }
}

/// Why a file cannot be decoded: the reason of the core, if it has one.
async fn why_undecodable(file: &Blob) -> WorkerError {
    match canvas::file_bytes(file).await {
        Ok(bytes) => clean(&bytes).err().map_or(WorkerError::Undecodable, Into::into),
        Err(error) => error,
    }
}

/// Whether a long side exceeds a limit by more than a third: less is not worth the loss of
/// sharpness.
fn is_much_larger(side: u32, limit: u32) -> bool {
    side > limit + limit / 3
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_photo_little_larger_than_the_limit_is_not_reduced() {
        assert!(!is_much_larger(1536, 1536));
        assert!(!is_much_larger(2048, 1536));
        assert!(is_much_larger(2049, 1536));
    }
}
