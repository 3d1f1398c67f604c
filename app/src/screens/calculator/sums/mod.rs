//! Sums for the steps before and after the bath: cook, wash, antichlor, sheets.
//!
//! Each is a form with its answer, shown in a batch's forms and, without a batch, in Mix.

mod antichlor;
mod cook;
mod page;
mod recorded_input;
mod sheets;
mod view;
mod wash;

pub use antichlor::AntichlorSum;
pub use cook::CookSum;
pub use page::SumPage;
pub use sheets::SheetsSum;
pub use view::{fields, number_and_unit, pour_out, refusal, remarks, too_little, weigh_out};
pub use wash::WashSum;

/// Temperature of rinse water from a household tap, °C (common practice, no source).
const TAP_CELSIUS: f64 = 15.0;
