//! Exchange files, as the core reads them, for a message.

use bleachfield_core::exchange::file::{FileError, Limits, read};

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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::worker::protocol::{WorkerError, WorkerResponse};
    use bleachfield_core::exchange::file::{Header, write};
    use bleachfield_core::journal::{Body, DeviceId, EntryWriter, Note, PhotoId, Subject};
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
        let photos: [(PhotoId, Vec<u8>); 0] = [];
        let file = write(&header, std::slice::from_ref(&entry), photos).unwrap();
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
