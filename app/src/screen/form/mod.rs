//! Forms that several screens share: the wet lump and the bleach.

mod bleach;
mod lump;

pub use bleach::{BleachForm, Chosen};
pub use lump::LumpForm;
