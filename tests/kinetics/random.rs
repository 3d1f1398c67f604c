//! Random numbers of the simulated studios, by a seed.

use rand_xoshiro::{
    SplitMix64,
    rand_core::{Rng, SeedableRng},
};

/// A stream of random numbers.
pub struct Random(SplitMix64);

impl Random {
    pub fn new(seed: u64) -> Self {
        Self(SplitMix64::seed_from_u64(seed))
    }

    /// From 0 to below 1.
    pub fn share(&mut self) -> f64 {
        (self.0.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    pub fn chance(&mut self, share: f64) -> bool {
        self.share() < share
    }
}
