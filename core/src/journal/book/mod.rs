//! The book: the projection of a set of entries into batches, baths, shelf, lots and studio.
//! What is calculated from it (strengths today, wash records, cues) is not here.

mod batch;
mod lot;
mod product;
mod projection;
mod studio;
mod timeline;
mod trial;

pub use batch::{Batch, BatchState, BathView, Stopped};
pub use lot::{Lot, LotOrigin};
pub use product::Product;
pub use projection::Book;
pub use studio::Studio;
pub use timeline::TimelineEntry;
pub use trial::Trial;

#[cfg(test)]
mod tests;
