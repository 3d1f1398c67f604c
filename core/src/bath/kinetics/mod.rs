//! What goes on in a bleach bath, as differential equations: oxidant, pH, temperature, colour
//! and damage over time, for one set of parameters. Ranges and readings are in `forecast`.
//!
//! * `parameter`, `prior_table`: every rate constant and pool with range and source;
//!   `distribution`: what they are drawn from;
//! * `law`: rate forms; `system`: the equations; `cooling_table`: heat;
//! * `integrator`: the stiff integrator; `simulate`: a bath with its events.
//!
//! Left out: gas over the bath, chlorite and chlorate, adsorption, dissolved lignin that
//! colours the liquor, differences inside a lump that is not stirred.

mod cooling_table;
mod distribution;
mod integrator;
mod law;
mod parameter;
mod prior_table;
mod simulate;
mod system;

pub use cooling_table::CoolingTable;
pub use distribution::{
    NormalCoordinates, ParameterDistribution, normal_probability, normal_quantile,
};
pub use integrator::{AutonomousSystem, Integrated, IntegrationError, Tolerance, integrate};
pub use law::*;
pub use parameter::{
    Parameter, ParameterValues, Prior, PriorQuality, PriorScale, priors, quantile,
    reference_celsius,
};
pub use simulate::{BathEvent, BathModel, BathPoint, BathStart, SimulationError};
