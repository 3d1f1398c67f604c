//! What is kept on this phone: entries, photos, and the device's own id.
//!
//! One small interface, [`Keep`], and two that fulfil it: [`disk`] in
//! IndexedDB, and [`memory`] for when the browser gives us no disk (private
//! browsing, a full phone). Which of the two is at work is never hidden: see
//! [`Kept`].
//!
//! Whatever is written together is there together or not at all, and a write
//! that comes back `Ok` is on disk: the transaction has told that it was
//! committed, and was asked to wait for the disk itself (see [`disk`]).

mod convert;
mod disk;
mod error;
mod memory;

pub use error::StoreError;

use bleachfield_core::journal::{DeviceId, Entry, PhotoId};
use std::collections::BTreeSet;
use std::rc::Rc;

/// A picture's bytes as the store holds them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PhotoBytes {
    /// `image/jpeg`, `image/png` or `image/webp`.
    pub mime: String,
    pub bytes: Vec<u8>,
}

/// A photo to be stored with the entries that name it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NewPhoto {
    pub id: PhotoId,
    pub photo: PhotoBytes,
    /// A small copy for lists, if there is one yet.
    pub thumb: Option<PhotoBytes>,
}

/// Everything but the photos, as read when the book is opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Contents {
    /// This device's own id; made when the store was.
    pub device: DeviceId,
    pub entries: Vec<Entry>,
    /// Ids of records that could not be read. They stay where they are.
    pub unreadable: Vec<String>,
}

/// Where what is written goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    OnDisk,
    /// Nowhere: gone when the page closes. The reason why.
    InMemory(StoreError),
}

/// The store that was opened, and what is in it.
pub struct Opened {
    pub store: Store,
    pub contents: Contents,
}

/// What a store does.
trait Keep {
    /// Reads everything but the photos.
    async fn contents(&self) -> Result<Contents, StoreError>;

    /// Writes all of it or nothing. An entry or photo that is here already
    /// under its id is written over; equal ids mean equal contents, but for
    /// entries by which a conflict was settled.
    async fn append(&self, entries: &[Entry], photos: &[NewPhoto]) -> Result<(), StoreError>;

    async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError>;

    async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError>;

    /// The ids of all photos here, without their bytes.
    async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError>;
}

/// A handle on the store; copies are the same store.
#[derive(Clone)]
pub struct Store(Rc<Place>);

enum Place {
    Disk(disk::Disk),
    Memory(memory::Memory, StoreError),
}

/// Hands a call on to whichever store is at work.
macro_rules! either {
    ($self:ident, $store:ident => $call:expr) => {
        match &*$self.0 {
            Place::Disk($store) => $call,
            Place::Memory($store, _) => $call,
        }
    };
}

impl Store {
    /// Opens the store on disk and reads it. If the browser gives us none,
    /// opens one in memory instead; [`Store::kept`] then says so.
    ///
    /// # Errors
    /// [`StoreError::VersionTooNew`] and [`StoreError::ClosedByOtherTab`]:
    /// there *is* a book on disk, and to start an empty one beside it would
    /// mislead.
    pub async fn open() -> Result<Opened, StoreError> {
        let opened = match disk::Disk::open().await {
            Ok(disk) => disk.contents().await.map(|contents| (disk, contents)),
            Err(error) => Err(error),
        };
        match opened {
            Ok((disk, contents)) => {
                Ok(Opened { store: Store(Rc::new(Place::Disk(disk))), contents })
            }
            Err(error @ (StoreError::VersionTooNew | StoreError::ClosedByOtherTab)) => Err(error),
            Err(error) => Self::in_memory(error).await,
        }
    }

    /// A store that lasts as long as the page, because of `why`.
    ///
    /// # Errors
    /// None in truth: memory does not refuse.
    pub async fn in_memory(why: StoreError) -> Result<Opened, StoreError> {
        let memory = memory::Memory::new();
        let contents = memory.contents().await?;
        Ok(Opened { store: Store(Rc::new(Place::Memory(memory, why))), contents })
    }

    /// Where what is written goes.
    pub fn kept(&self) -> Kept {
        match &*self.0 {
            Place::Disk(_) => Kept::OnDisk,
            Place::Memory(_, why) => Kept::InMemory(*why),
        }
    }

    /// Reads everything but the photos again, for instance after another tab
    /// has written.
    ///
    /// # Errors
    /// A [`StoreError`] if it cannot be read.
    pub async fn contents(&self) -> Result<Contents, StoreError> {
        either!(self, store => store.contents().await)
    }

    /// Writes entries and their photos, all or nothing. `Ok` means on disk.
    /// Taking in an exchange file is one such call.
    ///
    /// # Errors
    /// A [`StoreError`]; then nothing was written.
    pub async fn append(&self, entries: &[Entry], photos: &[NewPhoto]) -> Result<(), StoreError> {
        either!(self, store => store.append(entries, photos).await)
    }

    /// A photo's bytes; none if they are not here.
    ///
    /// # Errors
    /// A [`StoreError`] if it cannot be read.
    pub async fn photo(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        either!(self, store => store.photo(id).await)
    }

    /// The small copy of a photo; none if none was made yet.
    ///
    /// # Errors
    /// A [`StoreError`] if it cannot be read.
    pub async fn thumb(&self, id: &PhotoId) -> Result<Option<PhotoBytes>, StoreError> {
        either!(self, store => store.thumb(id).await)
    }

    /// Keeps a small copy that was made afterwards.
    ///
    /// # Errors
    /// A [`StoreError`] if it cannot be written.
    pub async fn put_thumb(&self, id: &PhotoId, thumb: &PhotoBytes) -> Result<(), StoreError> {
        either!(self, store => store.put_thumb(id, thumb).await)
    }

    /// The ids of all photos here, without their bytes.
    ///
    /// # Errors
    /// A [`StoreError`] if they cannot be read.
    pub async fn photo_ids(&self) -> Result<BTreeSet<PhotoId>, StoreError> {
        either!(self, store => store.photo_ids().await)
    }
}
