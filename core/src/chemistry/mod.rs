//! Chemistry of water with solutes: equilibria, strength, decay, titration, dechlorination.
//! Pulp, plans of baths, cautions and records are elsewhere.
//!
//! * [`equilibrium`]: the pH solver; species of a bath; dose that reaches a pH;
//! * [`oxidant`]: the oxidants, and what may be left of them;
//! * [`liquor`]: a liquor from its recipe: pH, species, gas, incompatible ingredients;
//! * [`headspace`]: chlorine gas over a liquor, and the pH below which it exceeds a limit;
//! * [`alkali`]: which alkali, and how much, brings a bath into its pH window; alkali from pH;
//! * [`bottle`] and [`decay`]: strength of hypochlorite today, from the best evidence;
//! * [`titration`]: iodometry, volumes in and strength out;
//! * [`percarbonate`]: active oxygen, what the powder releases, and its loss;
//! * [`dechlorination`], [`acid_dose`], [`alkaline_reserve`]: the end of a bath, in that order;
//! * [`compatibility`]: what must not be mixed; [`household`]: products that people have;
//! * [`exposure_limit`]: limits for the air;
//! * [`substance`], [`water`], [`peroxide_solution`]: molar masses, available chlorine, density.
//!
//! Errors: one enum per subject.

pub mod acid_dose;
pub mod alkali;
pub mod alkaline_reserve;
pub mod bottle;
pub mod compatibility;
pub mod decay;
pub mod dechlorination;
pub mod equilibrium;
pub mod exposure_limit;
pub mod headspace;
pub mod household;
pub(crate) mod hypochlorite_limit;
pub mod liquor;
pub mod oxidant;
pub mod percarbonate;
pub mod peroxide_solution;
mod strength_error;
pub mod substance;
pub mod titration;
pub mod water;

pub use equilibrium::EquilibriumError;
pub use oxidant::{Oxidant, Residual};
pub use strength_error::StrengthError;
