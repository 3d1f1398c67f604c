//! The bodies of entries: one record type for each kind of event, and one for kinds unknown here.
//! What follows from the records is worked out in `journal::book` and elsewhere, not here.

mod batch;
mod bath;
mod camera;
mod common;
mod kinds;
mod lot;
mod observation;
mod photo_id;
mod plan;
mod schedule;
mod shelf;
mod studio;
mod treatment;
mod trial;

pub use batch::*;
pub use bath::*;
pub use camera::*;
pub use common::*;
pub use kinds::*;
pub use lot::*;
pub use observation::*;
pub use photo_id::*;
pub use plan::*;
pub use schedule::*;
pub use shelf::*;
pub use studio::*;
pub use treatment::*;
pub use trial::*;
