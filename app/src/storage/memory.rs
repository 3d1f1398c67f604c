//! The memory backend: lasts as long as the page.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use async_trait::async_trait;
use bleachfield_core::journal::{DeviceId, PhotoId};

use super::{
    EntryRecord, NewPhoto, PhotoBytes, Snapshot, StorageBackend, StoreError, UnreadablePhoto,
};
use crate::platform::random;

pub(super) struct Memory {
    device: DeviceId,
    records: RefCell<Records>,
}

#[derive(Default)]
struct Records {
    entries: BTreeMap<String, EntryRecord>,
    photos: BTreeMap<PhotoId, PhotoBytes>,
    thumbs: BTreeMap<PhotoId, PhotoBytes>,
}

impl Memory {
    /// An empty store with a new device id.
    pub(super) fn new() -> Self {
        Self { device: DeviceId::from_random(random::bits() as u64), records: RefCell::default() }
    }
}

#[async_trait(?Send)]
impl StorageBackend for Memory {
    async fn load(&self) -> Result<Snapshot, StoreError> {
        let records = self.records.borrow().entries.values().cloned().collect();
        Snapshot::of(self.device.clone(), records).await
    }

    async fn append(&self, entries: &[EntryRecord], photos: &[NewPhoto]) -> Result<(), StoreError> {
        let mut records = self.records.borrow_mut();
        records.entries.extend(entries.iter().map(|entry| (entry.id.clone(), entry.clone())));
        for NewPhoto { id, photo, thumb } in photos {
            records.photos.insert(id.clone(), photo.clone());
            if let Some(thumb) = thumb {
                records.thumbs.insert(id.clone(), thumb.clone());
            }
        }
        Ok(())
    }

    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        Ok(self.records.borrow().photos.get(id).cloned())
    }

    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        Ok(self.records.borrow().thumbs.get(id).cloned())
    }

    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError> {
        self.records.borrow_mut().thumbs.insert(id.clone(), thumb.clone());
        Ok(())
    }

    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError> {
        Ok(self.records.borrow().photos.keys().cloned().collect())
    }

    /// None: nothing here was stored in another shape.
    async fn unreadable_photos(&self) -> Result<Vec<UnreadablePhoto>, StoreError> {
        Ok(Vec::new())
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use bleachfield_core::journal::{Body, EntryWriter, Note, Subject};
    use futures::executor::block_on;
    use jiff::Timestamp;

    fn photo(bytes: &[u8]) -> PhotoBytes {
        PhotoBytes { mime: "image/jpeg".into(), bytes: bytes.into() }
    }

    #[test]
    fn entries_and_photos_are_loaded_as_written() {
        let store = Memory::new();
        let device = block_on(store.load()).unwrap().device;
        let body = Body::Note(Note { text: "1.0 and ½".into() });
        let entry = EntryWriter::new(device.clone(), None)
            .write(Timestamp::UNIX_EPOCH, 7, "", Subject::Studio, body)
            .unwrap();
        let id = PhotoId::try_from("a".repeat(64)).unwrap();
        let new = NewPhoto { id: id.clone(), photo: photo(b"whole"), thumb: None };
        let record = [EntryRecord::of(&entry)];
        block_on(store.append(&record, &[new])).unwrap();
        // A second time replaces the records.
        block_on(store.append(&record, &[])).unwrap();

        let snapshot = block_on(store.load()).unwrap();
        assert_eq!((snapshot.device, snapshot.entries), (device, vec![entry]));
        assert_eq!(block_on(store.photo(&id)), Ok(Some(photo(b"whole"))));
        assert_eq!(block_on(store.thumb(&id)), Ok(None));
        block_on(store.put_thumb(&id, &photo(b"small"))).unwrap();
        assert_eq!(block_on(store.thumb(&id)), Ok(Some(photo(b"small"))));
        assert_eq!(block_on(store.photo_ids()).unwrap().into_iter().collect::<Vec<_>>(), [id]);
    }
    #[test]
    fn entries_that_cannot_be_read_are_kept_as_they_were_written() {
        let store = Memory::new();
        let record = |id: u8, format, text: &str| EntryRecord {
            id: format!("{id:026}"),
            format,
            text: text.into(),
        };
        let newer = record(1, u32::MAX, r#"{"newer": 1.0}"#);
        let damaged = record(2, 1, "{\"id\": \"01");
        block_on(store.append(&[newer.clone(), damaged.clone()], &[])).unwrap();
        let snapshot = block_on(store.load()).unwrap();
        assert_eq!((snapshot.entries, snapshot.unreadable), (vec![], vec![newer, damaged]));
        assert_eq!(block_on(store.unreadable_photos()), Ok(vec![]));
    }
}
