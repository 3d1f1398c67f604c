//! Water with things dissolved in it: equilibria, strength, decay, titration, dechlorination.

pub mod dechlorination;
