//! Exchange files, as the core reads them, for a message.

use bleachfield_core::exchange::{
    file::{EntryRecord, FileError, Header, Limits, read, write_with},
    photo::{ImageFormat, id_of},
};
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
        unreadable: file.unreadable,
        photos,
        ignored: file.ignored,
    };
    Ok((contents, bytes))
}

/// A file, and the photos that are left out of it: their bytes are damaged, and a file with them
/// would be refused as a whole.
pub fn write_file(
    header: &Header,
    entries: &[Entry],
    unreadable: &[EntryRecord],
    photos: Vec<(PhotoId, Vec<u8>)>,
) -> Result<(Vec<u8>, Vec<PhotoId>), FileError> {
    let (sound, damaged): (Vec<_>, Vec<_>) = photos
        .into_iter()
        .partition(|(id, bytes)| ImageFormat::of(bytes).is_ok() && id_of(bytes) == *id);
    let file = write_with(header, entries, unreadable, sound)?;
    Ok((file, damaged.into_iter().map(|(id, _)| id).collect()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::worker::protocol::{WorkerError, WorkerResponse};
    use bleachfield_core::journal::{Body, DeviceId, EntryWriter, Note, Photo, PulpState, Subject};
    use jiff::Timestamp;

    #[test]
    fn a_file_is_read_as_written_and_survives_the_message() {
        let device = DeviceId::new("here").unwrap();
        let now = Timestamp::UNIX_EPOCH;
        let body = Body::Note(Note { text: "1.0 and ½".into() });
        let entry = EntryWriter::new(device.clone(), None)
            .write(now, 7, "", Subject::Studio, body)
            .unwrap();
        let header = Header { app: "0".into(), exported_at: now, device, demo: false };
        let unreadable = vec![EntryRecord { id: "7".into(), format: 9, text: "{}".into() }];
        let entries = std::slice::from_ref(&entry);
        let (file, left_out) = write_file(&header, entries, &unreadable, Vec::new()).unwrap();
        let (contents, photos) = read_file(&file).unwrap();
        assert!(photos.is_empty() && left_out.is_empty());
        assert_eq!(contents.unreadable, unreadable);
        assert_eq!((&contents.header, contents.entries.as_slice()), (&header, &[entry][..]));

        let text = serde_json::to_string(&WorkerResponse::ExchangeFile(contents)).unwrap();
        let WorkerResponse::ExchangeFile(again) = serde_json::from_str(&text).unwrap() else {
            panic!("{text}")
        };
        assert_eq!(again, read_file(&file).unwrap().0);
    }

    #[test]
    fn damaged_photos_do_not_keep_the_rest_from_being_exported() {
        let device = DeviceId::new("here").unwrap();
        let now = Timestamp::UNIX_EPOCH;
        let mut writer = EntryWriter::new(device.clone(), None);
        let sound = b"\xff\xd8\xff\xe0 not much of a picture".to_vec();
        let ids = [id_of(&sound), id_of(b"as it was"), id_of(b"no picture")];
        let entries: Vec<Entry> = ids
            .iter()
            .zip(1..)
            .map(|(id, n)| {
                let body = Body::Photo(Photo {
                    photo: id.clone(),
                    mime: "image/jpeg".into(),
                    width_px: 1,
                    height_px: 1,
                    bytes: 1,
                    orientation: 1,
                    pulp: PulpState::Wet,
                    bath: None,
                    caption: String::new(),
                });
                writer.write(now, n, "", Subject::Studio, body).unwrap()
            })
            .collect();
        let bytes = [sound.clone(), sound, b"no picture".to_vec()];
        let photos = ids.iter().cloned().zip(bytes).collect();
        let header = Header { app: "0".into(), exported_at: now, device, demo: false };
        let (file, left_out) = write_file(&header, &entries, &[], photos).unwrap();
        assert_eq!(left_out, ids[1..]);
        let (contents, _) = read_file(&file).unwrap();
        assert_eq!((contents.entries, contents.photos.as_slice()), (entries, &ids[..1]));
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
