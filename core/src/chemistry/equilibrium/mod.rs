//! pH and species of a bath: the pH solver. Oxidation, kinetics and gas over the liquor are
//! elsewhere.
//!
//! ```
//! use bleachfield_core::chemistry::{equilibrium::Mix, substance::moles_per_litre};
//!
//! let bath = Mix::new(25.0)?.with_bleach(moles_per_litre(0.0282));
//! assert!((bath.solve()?.ph() - 9.9).abs() < 0.1);
//! # Ok::<(), bleachfield_core::chemistry::EquilibriumError>(())
//! ```
//!
//! From contents to pH, in the order of a call:
//!
//! 1. `mix`: [`Mix`], the contents, made of each [`Reagent`]; `totals`: their totals;
//! 2. `solution`: [`Mix::solve`] and its result, [`Solution`];
//! 3. `solver`: root finding, over `balance` (proton balance), `conditional` and `activity`
//!    (with `interaction`);
//! 4. `speciate`: all [`Species`] at the root; `speciation`: the oxidants against pH;
//! 5. `dose`: the inverse, [`Mix::dose`]; `constants`: every constant with its source;
//! 6. `course`: the pH of one bath while it changes, for integrations.
//!
//! Model: complete mixing, the acids of [`Constants`], activity coefficients by SIT (the
//! solution says so above I = 1.5 mol/kg, to which it was compared with Pitzer's model, and is
//! refused above 3.0), no ion pairs, no oxidation. [`model_error`] is the error that this leaves. Hypochlorite and peroxide together are refused: their reaction is not
//! an equilibrium. pH is `-log10` of the hydrogen ion *activity*, as a meter reads it.

mod activity;
mod balance;
mod conditional;
mod constants;
mod course;
mod dose;
mod error;
pub mod interaction;
mod mix;
mod reagent;
mod solution;
mod solver;
mod speciate;
mod speciation;
mod species;
mod totals;

pub use activity::{Electrolyte, MAX_IONIC_STRENGTH, STRONG_IN_SALTS, model_error};
pub use constants::{COLDEST, Constants, HOTTEST, MORRIS_HOTTEST};
pub use course::{BathChange, BathEquilibrium, ConstantsTable, OxidantForms};
pub use error::EquilibriumError;
pub use mix::{Air, CARBON_DIOXIDE, Mix, OUTDOOR_CARBON_DIOXIDE};
pub use reagent::Reagent;
pub use solution::{Solution, Validity};
pub(in crate::chemistry) use speciate::dissolved_chlorine;
pub use speciation::{OxidantShares, Speciation, species_curve};
pub use species::Species;

#[cfg(test)]
mod tests;
