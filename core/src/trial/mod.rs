//! A ladder trial: 4 to 12 small pots from one lump that differ in bleach, charge, temperature
//! and time, to see what this pulp does. Pure sums; the records are in `journal` and `derive`.
//!
//! * `design`: which pots, in what random order; `stagger`: when each starts and stops;
//! * `doses`: what a syringe and a scale can measure for such small pots, or a stock solution;
//! * `response`: what the pots show, with its uncertainty; `scale_up`: what a bucket changes.

mod design;
mod doses;
mod response;
mod scale_up;
mod stagger;

pub use design::{DesignError, DesignPoint, FEWEST_POTS, Factor, LevelCounts, MOST_POTS, design};
pub use doses::{DoseError, PotDose, PotNeed, SmallDose, Stock, TrialDoses, trial_doses};
pub use response::{PotResponse, Response, ResponsePoint, best_pot};
pub use scale_up::{ScaleLimit, scale_limits};
pub use stagger::{StaggeredPot, stagger};
