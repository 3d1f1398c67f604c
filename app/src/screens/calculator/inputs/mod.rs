//! Forms that several screens share: wet pulp, bleach and its label, other ingredients of the
//! bath, and the alkali for its pH.

mod alkali;
mod bleach;
mod bleach_label;
mod co_solutes;
mod wet_pulp;

pub use alkali::{alkali_choice, dose_text, no_acid};
pub use bleach::{BleachForm, ChosenBleach};
pub use bleach_label::{BleachLabelForm, MissingLabel, assumed_strength};
pub use co_solutes::CoSolutesForm;
pub use wet_pulp::WetPulpForm;
