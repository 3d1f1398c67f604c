//! Sums on wet fibre before, in and after the bath: consistency, cook, wash, storage, sheets.
//! Not here: any record; what the book says of a batch is taken from it in `derive`.

mod consistency;
pub mod cook;
pub mod disposal;
mod error;
mod fibre;
pub mod sheet;
pub mod sign_off;
pub mod storage;
pub mod wash;

pub use consistency::{
    AIR_DRY, ASSUMED_DRYNESS, CELLULOSE_DENSITY, ConsistencyReadings, DRYNESS, DryingMethod,
    DrynessSource, LIQUOR_MASS, PRESSED_AT_MOST, SAMPLE_DRIED, SAMPLE_WET, SQUEEZED_AT_MOST,
    WET_MASS, WetPulp, consistency, oven_dry_raw, readings, slurry_mass,
};
pub use error::PulpError;
pub use fibre::{DataQuality, FIBRES, Fibre, FibreDataSource, PlantPart, TypicalRange, fibre};
