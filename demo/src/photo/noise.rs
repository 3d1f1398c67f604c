//! Deterministic noise: a pseudo-random stream and smooth value noise over the plane.

use rand_xoshiro::SplitMix64;
use rand_xoshiro::rand_core::{Rng, SeedableRng};

/// A pseudo-random stream that is the same for the same seed.
#[derive(Clone, Debug)]
pub struct RandomStream(SplitMix64);

impl RandomStream {
    /// Neighbouring seeds give unrelated streams.
    pub fn new(seed: u64) -> Self {
        let scrambled = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03;
        Self(SplitMix64::seed_from_u64(scrambled))
    }

    pub fn bits(&mut self) -> u64 {
        self.0.next_u64()
    }

    /// Uniform from 0 up to 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Uniform from `low` up to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Mean 0, standard deviation 1: the sum of four uniform numbers, near enough to
    /// normal for sensor noise.
    pub fn normal(&mut self) -> f32 {
        let bits = self.bits();
        let sum: u64 = (0..4).map(|i| (bits >> (16 * i)) & 0xFFFF).sum();
        (sum as f32 / 65535.0 - 2.0) * 1.732_050_8
    }
}

/// Smooth noise from -1 to 1 over the plane, with features about one unit wide.
pub fn value_noise(seed: u64, x: f64, y: f64) -> f64 {
    let (column, row) = (x.floor(), y.floor());
    let smoothstep = |t: f64| t * t * (3.0 - 2.0 * t);
    let (tx, ty) = (smoothstep(x - column), smoothstep(y - row));
    let corner = |dx: f64, dy: f64| {
        let (cx, cy) = ((column + dx) as i64 as u64, (row + dy) as i64 as u64);
        let hash = mix(seed ^ mix(cx.wrapping_mul(0x9E37_79B9) ^ mix(cy)));
        (hash >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    };
    let top = corner(0.0, 0.0) + tx * (corner(1.0, 0.0) - corner(0.0, 0.0));
    let bottom = corner(0.0, 1.0) + tx * (corner(1.0, 1.0) - corner(0.0, 1.0));
    top + ty * (bottom - top)
}

/// A 64-bit hash: the finalizer of SplitMix64, Steele, Lea and Flood (2014).
fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First outputs of SplitMix64 from state 0 (reference implementation, Vigna 2015).
    #[test]
    fn the_stream_is_splitmix64() {
        let mut stream = RandomStream(SplitMix64::seed_from_u64(0));
        assert_eq!(stream.bits(), 0xE220_A839_7B1D_CDAF);
        assert_eq!(stream.bits(), 0x6E78_9E6A_A1B9_65F4);
    }
}
