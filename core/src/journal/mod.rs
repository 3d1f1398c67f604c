//! Entries, batches as a projection of their entries, merge, the file format,
//! migrations.
//!
//! A batch **is** its log. An [`Entry`] is written once and never altered;
//! correcting and withdrawing append further entries. What a screen shows is
//! a [`Book`]: a fold over a set of entries that comes out the same in
//! whatever order they arrived. Two devices' entries come together by set
//! union, so merging cannot lose anything and may be done as often as one
//! likes.
//!
//! ```
//! use bleachfield_core::journal::*;
//!
//! let mut pen = Pen::new(Device::new("k7m2").expect("valid"), None);
//! let now = jiff::Timestamp::from_second(1_777_800_000).expect("in range");
//! let batch = ulid_at(now, 1);
//! let started = BatchStarted { name: "Cattail, May".into(), fibre: "cattail leaf".into(), ..Default::default() };
//! let entry = pen
//!     .write(now, 2, "Europe/Lisbon", Subject::Batch(batch), Body::BatchStarted(started))
//!     .expect("nothing in it is not a number");
//!
//! let book = Book::of([entry]);
//! assert_eq!(book.batches[&batch].name, "Cattail, May");
//! ```

mod body;
mod book;
mod check_sum;
mod entry;
pub mod file;
mod merge;
pub mod photo;
#[cfg(test)]
mod sample;
mod stamp;

pub use body::*;
pub use book::{
    Batch, BatchState, BathView, Book, Lot, LotOrigin, Product, Stopped, Studio, TimelineEntry,
};
pub use entry::{
    Entry, EntryError, EntryWriter, Subject, entries_from_text, entries_to_text, ulid_at,
};
pub use merge::{Conflict, Merged, merge};
pub use stamp::{Clock, ClockError, ClockSkew, DeviceId, HlcTimestamp, MAX_AHEAD_MS};
