//! Wet fibre before, in and after the bath: fibre, consistency, cook, wash, sheet.

mod consistency;
pub mod cook;
pub mod drain;
mod fibre;
pub mod lot;
pub mod sheet;
pub mod sign_off;
pub mod store;
pub mod wash;

pub use consistency::{
    AIR_DRY, ASSUMED_DRYNESS, CELLULOSE_DENSITY, DRYNESS, Dried, DrynessFrom, LIQUOR_MASS,
    PRESSED_AT_MOST, Readings, SAMPLE_DRIED, SAMPLE_WET, SQUEEZED_AT_MOST, WET_MASS, WetPulp,
    consistency, readings, slurry_mass,
};
pub use fibre::{FIBRES, Fibre, Grade, Part, Range, Source, fibre};
