//! Wet fibre before, in and after the bath: fibre, consistency, cook, wash, sheet.

pub mod cook;
pub mod sheet;
pub mod sign_off;
pub mod store;
pub mod wash;
