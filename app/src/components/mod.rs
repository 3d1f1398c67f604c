//! Controls that screens share. They take signals and texts and do no chemistry.

mod bottom_sheet;
mod caution;
pub mod chart;
mod draft_note;
mod drawing;
mod field;
mod figure;
mod frame;
pub mod icon;
mod notice;
mod number_input;
mod picture;
mod radio_group;
mod recorded_input;
mod term;
pub mod time_chart;
mod update;

pub use bottom_sheet::BottomSheet;
pub use caution::{CautionCard, CautionList};
pub use draft_note::{DraftNote, FormReset};
pub use drawing::{PhotoSetup, Staircase, StripReading};
pub use field::{ChoiceError, FieldError, TextField, ValueField, keep_text, to_first_wrong};
pub use figure::{Assumed, Fact, Figure, FigureTable, WideTable};
pub use frame::{Page, Places};
pub use notice::{Notice, notify, notify_failure};
pub use number_input::{NumberField, NumberInput};
pub use picture::Picture;
pub use radio_group::RadioGroup;
pub use recorded_input::RecordedInput;
pub use term::{Explain, Term};
pub use update::UpdateOffer;
