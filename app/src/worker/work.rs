//! The worker's jobs, done by the core. Nothing here knows of a browser.

use bleachfield_core::journal::{
    PhotoId, entries_from_text, entries_to_text,
    file::{Limits, read, write},
    photo::clean,
};

use super::message::{Answer, CleanPhoto, Job, ReadFile};

/// How a job is done.
pub type Work = fn(Job, Vec<Vec<u8>>) -> (Answer, Vec<Vec<u8>>);

/// Does one job on the bytes that came with it; the answer, and the bytes
/// that go with that.
pub fn work(job: Job, bytes: Vec<Vec<u8>>) -> (Answer, Vec<Vec<u8>>) {
    let first = || bytes.first().map(Vec::as_slice).unwrap_or_default();
    match job {
        Job::CleanPhoto => match clean(first()) {
            Ok(photo) => {
                let answer = CleanPhoto {
                    id: photo.id.into(),
                    mime: photo.mime.into(),
                    width_px: photo.width_px,
                    height_px: photo.height_px,
                    orientation: photo.orientation,
                };
                (Answer::Photo(answer), vec![photo.bytes])
            }
            Err(refused) => (Answer::PhotoRefused(refused), Vec::new()),
        },
        Job::ReadFile => match read(first(), Limits::default()) {
            Ok(parcel) => {
                let (photos, bytes) = parcel
                    .photos
                    .into_iter()
                    .map(|(id, photo)| (String::from(id), photo.bytes))
                    .unzip();
                let answer = ReadFile {
                    header: parcel.header,
                    format: parcel.format,
                    entries: entries_to_text(&parcel.entries),
                    photos,
                    ignored: parcel.ignored,
                };
                (Answer::File(answer), bytes)
            }
            Err(refused) => (Answer::FileRefused(refused), Vec::new()),
        },
        Job::WriteFile { header, entries, photos } => {
            let Ok(entries) = entries_from_text(&entries) else {
                return (Answer::Unread, Vec::new());
            };
            let ids: Result<Vec<PhotoId>, _> = photos.into_iter().map(PhotoId::try_from).collect();
            let Ok(ids) = ids else { return (Answer::Unread, Vec::new()) };
            match write(&header, &entries, ids.into_iter().zip(bytes)) {
                Ok(file) => (Answer::Written, vec![file]),
                Err(refused) => (Answer::FileRefused(refused), Vec::new()),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::{
        Body, Device, Note, Pen, Subject,
        file::{FileError, Header},
    };
    use jiff::Timestamp;

    #[test]
    fn a_file_comes_apart_as_it_was_put_together() {
        let device = Device::new("here").unwrap();
        let now = Timestamp::UNIX_EPOCH;
        let body = Body::Note(Note { text: "1.0 and ½".into() });
        let entry =
            Pen::new(device.clone(), None).write(now, 7, "", Subject::Studio, body).unwrap();
        let header = Header { app: "0".into(), exported_at: now, device };
        let entries = entries_to_text(std::slice::from_ref(&entry));
        let (answer, file) =
            work(Job::WriteFile { header, entries, photos: Vec::new() }, Vec::new());
        assert!(matches!(answer, Answer::Written));
        let (answer, photos) = work(Job::ReadFile, file);
        let Answer::File(read) = answer else { panic!("{answer:?}") };
        assert!(photos.is_empty());
        assert_eq!(entries_from_text(&read.entries).unwrap(), [entry]);
    }

    #[test]
    fn refusals_come_back_as_they_are() {
        let (answer, _) = work(Job::ReadFile, vec![b"hello".to_vec()]);
        assert!(matches!(answer, Answer::FileRefused(FileError::NotOurs)));
        let (answer, _) = work(Job::CleanPhoto, Vec::new());
        assert!(matches!(answer, Answer::PhotoRefused(_)));
    }
}
