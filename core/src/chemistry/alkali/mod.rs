//! Alkali of a bath and of rinsed pulp: doses into a pH window, and strength from pH.
//! Acid is in [`acid_dose`](super::acid_dose), the solver in [`equilibrium`](super::equilibrium).

mod advice;
mod liquor_alkali;
mod reagent;
mod tap_water;
mod window;

pub use advice::{Advice, BATH_VOLUME, from_reading, from_recipe};
pub use liquor_alkali::{Alkali, METER_PH, STRIP_PH, meter_ph, strip_ph};
pub use reagent::AlkaliReagent;
pub use tap_water::{BICARBONATE, WATER_BICARBONATE};
pub use window::PhWindow;
