//! The journal: entries, the clock that orders them, the book projected from them, and merging.
//! What is calculated from the book lives in `derive`, files that carry entries in `exchange`.
//!
//! A batch **is** its log. An [`Entry`] is immutable; corrections and
//! withdrawals are further entries. Screens show a [`Book`]: a projection of a
//! set of entries that does not depend on the order in which they arrived.
//! Merging two devices' entries is set union, so it loses nothing and can be
//! repeated.
//!
//! ```
//! use bleachfield_core::journal::*;
//!
//! let mut writer = EntryWriter::new(DeviceId::new("k7m2").expect("valid"), None);
//! let now = jiff::Timestamp::from_second(1_777_800_000).expect("in range");
//! let batch = ulid_at(now, 1);
//! let started = BatchStarted { name: "Cattail, May".into(), fibre: "cattail leaf".into(), ..Default::default() };
//! let entry = writer
//!     .write(now, 2, "Europe/Lisbon", Subject::Batch(batch), Body::BatchStarted(started))
//!     .expect("all figures are finite");
//!
//! let book = Book::of([entry]);
//! assert_eq!(book.batches[&batch].name, "Cattail, May");
//! ```

mod body;
mod book;
mod clock;
mod entry;
mod merge;
#[cfg(test)]
pub(crate) mod sample;
mod shift;
mod writer;

pub use body::*;
pub use book::{
    Batch, BatchState, BathView, Book, Lot, LotOrigin, Product, Stopped, Studio, TimelineEntry,
    Trial,
};
pub use clock::{ClockError, ClockSkew, DeviceId, HlcTimestamp, HybridLogicalClock, MAX_AHEAD_MS};
pub use entry::{Entry, EntryError, Subject};
pub use merge::{Conflict, Merged, merge};
pub use writer::{EntryWriter, NewEntry, ulid_at};
