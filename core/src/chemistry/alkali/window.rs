//! pH windows of bleach baths.

/// The pH range that a bath should stay in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhWindow {
    pub low: f64,
    pub high: f64,
    /// Target of a dose, inside the range.
    pub aim: f64,
}

impl PhWindow {
    /// Hypochlorite: 9.5-11. Below 9 HOCl attacks cellulose, worst at pH 6-8 (from memory).
    pub const HYPOCHLORITE: Self = Self { low: 9.5, high: 11.0, aim: 10.3 };
    /// Peroxide: 10.3-11.3 (common practice, no source).
    pub const PEROXIDE: Self = Self { low: 10.3, high: 11.3, aim: 10.7 };
}
