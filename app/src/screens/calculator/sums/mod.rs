//! Sums for the steps before and after the bath: cook, wash, antichlor, sheets.
//!
//! Each is a form with its answer, shown in a batch's forms and, without a batch, in Mix, where
//! the answer stands in a bar.

mod antichlor;
mod cook;
mod page;
mod sheets;
mod view;
mod wash;

pub use antichlor::AntichlorSum;
pub use cook::{CookSum, no_alkali};
pub use page::SumPage;
pub use sheets::SheetsSum;
pub use view::{
    fields, folded, number_and_unit, pour_out, refusal, remarks, too_little, weigh_out,
};
pub use wash::WashSum;
