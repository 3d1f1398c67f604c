//! The shared controls. Each takes signals and words, and knows no chemistry.

mod ask;
mod caution;
mod choice;
mod field;
mod figure;
mod frame;
pub mod icon;
mod picture;
mod rise;
mod update;

pub use ask::{NumberField, NumberInput};
pub use caution::{CautionCard, CautionList};
pub use choice::RadioGroup;
pub use field::{TextField, ValueField, to_first_wrong};
pub use figure::{Assumed, Fact, Figure};
pub use frame::{Notice, Page, Places, notify};
pub use picture::Picture;
pub use rise::BottomSheet;
pub use update::UpdateOffer;
