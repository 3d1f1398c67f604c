//! What happens if the bath is left on: bands of colour, oxidant, pH, temperature and damage
//! over the coming hours, from many simulations over the ranges of what is known; readings
//! weigh the simulations. Equations are in `bath::kinetics`; no records, no clock, and no
//! randomness but the seed handed in.
//!
//! * `request`: the bath as known; `bath_inputs`: its course for one value of each input;
//!   `draw`: quasi-random points; `proposal`: where they are dense;
//! * `forecast`: samples, weights, bands; `quantity`: what is forecast; `reading`: what weighs;
//! * `advice`: what to do; `worth`: which reading would narrow the forecast most;
//! * `ways`: ways to a target colour, with their odds.

mod advice;
mod band;
pub(crate) mod bath_inputs;
mod draw;
#[allow(clippy::module_inception)]
mod forecast;
mod proposal;
pub(crate) mod quantity;
pub(crate) mod reading;
mod request;
pub mod ways;
mod worth;

pub use advice::{
    Advice, AdviceGoal, AdviceWithReason, DAMAGE_RISK, StopReason, TimeRange, advise,
};
pub use band::Band;
pub use forecast::{FEWEST_EFFECTIVE, Forecast, ForecastSupport, dimensions};
pub use quantity::{ForecastQuantity, k_over_s_of_lightness, lightness};
pub use reading::ForecastReading;
pub use request::{
    DISSOLVING_MINUTES, FORECAST_CONSISTENCY, FORECAST_LIGHTNESS, FORECAST_PARAMETER,
    FORECAST_STRENGTH, FORECAST_TIME, ForecastError, ForecastRequest, LONGEST_FORECAST,
    usual_minutes,
};
pub use worth::{ReadingKind, most_telling, worth};
