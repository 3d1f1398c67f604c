//! Exchange files, read and written by the core.

use bleachfield_core::exchange::file::{FileError, Header, Limits, read, write};
use bleachfield_core::journal::{Entry, PhotoId};

use crate::worker::protocol::ExchangeContents;

/// The contents of a file, and the bytes of its photos in their order.
pub fn read_file(bytes: &[u8]) -> Result<(ExchangeContents, Vec<Vec<u8>>), FileError> {
    let file = read(bytes, Limits::default())?;
    let (photos, bytes) = file.photos.into_iter().map(|(id, photo)| (id, photo.bytes)).unzip();
    let contents = ExchangeContents {
        header: file.header,
        format: file.format,
        entries: file.entries,
        photos,
        ignored: file.ignored,
    };
    Ok((contents, bytes))
}

/// The bytes of a file.
pub fn write_file(
    header: &Header,
    entries: &[Entry],
    photos: impl IntoIterator<Item = (PhotoId, Vec<u8>)>,
) -> Result<Vec<u8>, FileError> {
    write(header, entries, photos)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::worker::protocol::{WorkerError, WorkerResponse};
    use bleachfield_core::journal::{Body, DeviceId, EntryWriter, Note, Subject};
    use jiff::Timestamp;

    #[test]
    fn a_file_is_read_as_written_and_survives_the_message() {
        let device = DeviceId::new("here").unwrap();
        let now = Timestamp::UNIX_EPOCH;
        let body = Body::Note(Note { text: "1.0 and ½".into() });
        let entry = EntryWriter::new(device.clone(), None)
            .write(now, 7, "", Subject::Studio, body)
            .unwrap();
        let header = Header { app: "0".into(), exported_at: now, device };
        let file = write_file(&header, std::slice::from_ref(&entry), []).unwrap();
        let (contents, photos) = read_file(&file).unwrap();
        assert!(photos.is_empty());
        assert_eq!((&contents.header, contents.entries.as_slice()), (&header, &[entry][..]));

        let text = serde_json::to_string(&WorkerResponse::ExchangeFile(contents)).unwrap();
        let WorkerResponse::ExchangeFile(again) = serde_json::from_str(&text).unwrap() else {
            panic!("{text}")
        };
        assert_eq!(again, read_file(&file).unwrap().0);
    }

    #[test]
    fn a_refusal_survives_the_message() {
        let error = WorkerError::from(read_file(b"hello").unwrap_err());
        let text = serde_json::to_string(&WorkerResponse::Failed(error)).unwrap();
        let WorkerResponse::Failed(again) = serde_json::from_str(&text).unwrap() else {
            panic!("{text}")
        };
        assert_eq!(again, FileError::NotOurs.into());
    }
}
