//! Water with things dissolved in it: equilibria, strength, decay, titration, dechlorination.
//!
//! * [`equilibrium`]: pH and species of a bath, and how much of a thing reaches a pH;
//! * [`liquor`]: a liquor by its recipe: pH, forms, gas, and what else it must not meet;
//! * [`oxidant`]: the oxidants, and what may be left of them;
//! * [`headspace`]: chlorine over the liquor, and the pH below which it passes a limit;
//! * [`alkali`]: which alkali and how much brings a bath into its window, and what the cook's
//!   alkali carried in the pulp is worth;
//! * [`bottle`] and [`decay`]: how strong hypochlorite is by now, from the best evidence;
//! * [`titration`]: iodometry, volumes in and strength out;
//! * [`percarbonate`]: active oxygen, what the powder gives, and how it is lost;
//! * [`dechlorination`], [`acid_dose`], [`alkaline_reserve`]: ending a bath, in that order;
//! * [`compatibility`]: what must never meet;
//! * [`substance`], [`water`], [`refusal`]: molar masses, the solvent, and the errors.

pub mod acid_dose;
pub mod alkali;
pub mod alkaline_reserve;
pub mod bottle;
pub mod compatibility;
pub mod decay;
pub mod dechlorination;
pub mod equilibrium;
pub mod headspace;
pub mod liquor;
pub mod oxidant;
pub mod percarbonate;
pub mod refusal;
pub mod substance;
pub mod titration;
pub mod water;

pub use oxidant::{Oxidant, Residual};
pub use refusal::Refusal;
