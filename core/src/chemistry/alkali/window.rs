//! pH windows of bleach baths.

use crate::chemistry::Oxidant;

/// Temperature that pH windows are for, °C: published windows are of cooled samples, and a
/// strip or a meter without temperature correction is made for 20 to 25 °C (from memory). The
/// pH of a warm alkaline bath is lower than that of its cooled sample, at the same alkali:
/// water and the weak acids dissociate more.
pub const WINDOW_CELSIUS: f64 = 25.0;

/// The pH range that a bath should stay in, for a sample at [`WINDOW_CELSIUS`].
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
    /// Peroxide: 10.3-11.3, from the pH of pure percarbonate to the middle of the range of
    /// published stages, 10.5-11.5 (common practice, no source).
    pub const PEROXIDE: Self = Self { low: 10.3, high: 11.3, aim: 10.7 };

    /// The window of an oxidant's bath.
    pub fn of(oxidant: Oxidant) -> Self {
        match oxidant {
            Oxidant::Hypochlorite => Self::HYPOCHLORITE,
            Oxidant::Percarbonate | Oxidant::Peroxide => Self::PEROXIDE,
        }
    }
}
