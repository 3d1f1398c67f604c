//! Numbers that look like chance and are always the same.

/// A stream of them, from a seed: SplitMix64, Steele, Lea and Flood (2014).
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0xD1B5_4A32_D192_ED03)
    }

    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        mix(self.0)
    }

    /// From 0 up to 1.
    pub fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Mean 0, standard deviation 1: the sum of four evenly spread numbers, near
    /// enough to normal for a picture's noise.
    pub fn normal(&mut self) -> f32 {
        let bits = self.bits();
        let sum: u64 = (0..4).map(|i| (bits >> (16 * i)) & 0xFFFF).sum();
        (sum as f32 / 65535.0 - 2.0) * 1.732_050_8
    }
}

/// Smooth noise from -1 to 1 over the plane, with bumps about one unit wide.
pub fn clouds(seed: u64, x: f64, y: f64) -> f64 {
    let (column, row) = (x.floor(), y.floor());
    let ease = |t: f64| t * t * (3.0 - 2.0 * t);
    let (tx, ty) = (ease(x - column), ease(y - row));
    let corner = |dx: f64, dy: f64| {
        let (cx, cy) = ((column + dx) as i64 as u64, (row + dy) as i64 as u64);
        let hash = mix(seed ^ mix(cx.wrapping_mul(0x9E37_79B9) ^ mix(cy)));
        (hash >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    };
    let top = corner(0.0, 0.0) + tx * (corner(1.0, 0.0) - corner(0.0, 0.0));
    let bottom = corner(0.0, 1.0) + tx * (corner(1.0, 1.0) - corner(0.0, 1.0));
    top + ty * (bottom - top)
}

fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}
