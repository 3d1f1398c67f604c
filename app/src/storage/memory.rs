//! A store that lasts as long as the page.

use super::{Contents, Keep, NewPhoto, PhotoBytes, StoreError};
use crate::platform::clock;
use bleachfield_core::journal::{DeviceId, Entry, PhotoId};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use ulid::Ulid;

/// Everything in maps.
pub(super) struct Memory {
    device: DeviceId,
    held: RefCell<Held>,
}

#[derive(Default)]
struct Held {
    entries: BTreeMap<Ulid, Entry>,
    photos: BTreeMap<PhotoId, PhotoBytes>,
    thumbs: BTreeMap<PhotoId, PhotoBytes>,
}

impl Memory {
    /// An empty store with a fresh device id.
    pub(super) fn new() -> Self {
        Self { device: DeviceId::from_random(clock::random() as u64), held: RefCell::default() }
    }
}

impl Keep for Memory {
    async fn contents(&self) -> Result<Contents, StoreError> {
        let entries = self.held.borrow().entries.values().cloned().collect();
        Ok(Contents { device: self.device.clone(), entries, unreadable: Vec::new() })
    }

    async fn append(&self, entries: &[Entry], photos: &[NewPhoto]) -> Result<(), StoreError> {
        let mut held = self.held.borrow_mut();
        held.entries.extend(entries.iter().map(|entry| (entry.id, entry.clone())));
        for new in photos {
            held.photos.insert(new.id.clone(), new.photo.clone());
            if let Some(thumb) = &new.thumb {
                held.thumbs.insert(new.id.clone(), thumb.clone());
            }
        }
        Ok(())
    }

    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        Ok(self.held.borrow().photos.get(id).cloned())
    }

    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        Ok(self.held.borrow().thumbs.get(id).cloned())
    }

    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError> {
        self.held.borrow_mut().thumbs.insert(id.clone(), thumb.clone());
        Ok(())
    }

    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError> {
        Ok(self.held.borrow().photos.keys().cloned().collect())
    }
}
