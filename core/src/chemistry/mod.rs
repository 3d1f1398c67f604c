//! Water with things dissolved in it: equilibria, strength, decay, titration, dechlorination.

pub mod dechlorination;
pub mod equilibrium;
pub mod refusal;
pub mod substance;
pub mod water;

pub use refusal::Refusal;
