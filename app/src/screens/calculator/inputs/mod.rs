//! Forms that several screens share: the wet lump, the bleach, what else is in the bath, and
//! what to add for its pH.

mod bleach;
mod company;
mod lump;
mod ph;

pub use bleach::{BleachForm, ChosenBleach};
pub use company::CoSolutesForm;
pub use lump::LumpForm;
pub use ph::{alkali_choice, dose_in_words, no_acid};
