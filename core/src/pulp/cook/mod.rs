//! The cook before the bath: alkali on dry fibre, liquor, pot, temperature, yield.
//! Not here: the cooks in a book, which `derive::cook_history` collects.

mod alkali;
mod cook_yield;
mod error;
mod request;
mod rinse_ph;
mod severity;

pub use alkali::{CookAlkali, equivalent};
pub use cook_yield::{ASSUMED_YIELD, PastCook, expected_yield};
pub use error::{CHARGE, CookError, FIBRE, LIQUOR, LIQUOR_PH, POT, PURITY, TEMPERATURE, TIME};
pub use request::{
    CookPlan, CookRequest, FILL, USUAL_CELSIUS, USUAL_CHARGE, USUAL_MINUTES, USUAL_RATIO,
};
pub use rinse_ph::{RinsedPh, rinse_to_window};
pub use severity::{HeatPoint, boiling_point, relative_rate, severity};
