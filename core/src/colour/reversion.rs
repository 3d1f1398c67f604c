//! Brightness reversion: yellowing of the sheet with age.

use super::kubelka_munk::k_over_s;
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// How a swatch was aged between two measurements.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, IntoStaticStr)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-ageing-", serialize_all = "snake_case")]
pub enum Ageing {
    /// On a bright window sill.
    Window,
    /// In a warm oven.
    WarmOven,
    /// In a closed drawer, as sheets are stored.
    Dark,
}

impl Ageing {
    pub const ALL: [Self; 3] = [Self::Window, Self::WarmOven, Self::Dark];

    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// Post-colour number: 100 times the rise of K/S in the blue, from the blue
/// reflectances before and after ageing (each 0 < r <= 1). `None` outside.
///
/// Giertz (1945), formula from memory; used under this name in the pulping
/// literature. Unlike a loss of reflectance it is proportional to the chromophores
/// formed, whatever the initial colour. Negative if the swatch became paler.
pub fn post_colour_number(before: f64, after: f64) -> Option<f64> {
    Some(100.0 * (k_over_s(after)? - k_over_s(before)?))
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn post_colour_number_of_worked_examples() {
        for (before, after, expected) in
            [(0.80, 0.75, 1.667), (0.85, 0.82, 0.652), (0.90, 0.88, 0.263), (0.70, 0.65, 2.995)]
        {
            let found = post_colour_number(before, after).unwrap();
            assert!((found - expected).abs() < 0.003, "{found} is not {expected}");
        }
        assert_eq!(post_colour_number(0.8, 0.0), None);
    }
}
