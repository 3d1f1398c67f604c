//! Colour change on drying.
//!
//! Water between the fibres scatters less than air, so wet pulp is darker than dry pulp. The
//! difference depends on the pulp: it is learnt from swatches measured both ways, and without
//! such a pair nothing is predicted.

use super::kubelka_munk::{k_over_s, reflectance};
use super::space::{Lab, Xyz};
use super::whiteness::yellowness;
use crate::message::Message;
use crate::quantity::{Basis, Estimate};
use serde::{Deserialize, Serialize};
use strum::IntoStaticStr;

/// State of a swatch when it was measured.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize, IntoStaticStr,
)]
#[serde(rename_all = "snake_case")]
#[strum(const_into_str, prefix = "colour-dryness-", serialize_all = "snake_case")]
pub enum Dryness {
    Wet,
    Pressed,
    Dried,
}

impl Dryness {
    pub const ALL: [Self; 3] = [Self::Wet, Self::Pressed, Self::Dried];

    /// Locale key.
    pub fn key(self) -> &'static str {
        self.into_str()
    }
}

/// Effect of drying on a batch's pulp: factor on K/S of each linear channel.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DryingShift {
    pub factor: [Estimate<f64>; 3],
    /// Number of pairs that it was learnt from.
    pub pairs: u32,
}

/// Dry colour predicted from a wet one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PredictedDryColour {
    pub lab: Lab,
    pub lightness: Estimate<f64>,
    pub yellowness: Estimate<f64>,
}

/// Message where [`DryingShift::learn`] has no usable pair.
pub fn no_pair_message() -> Message {
    Message::new("colour-shift-none_known")
}

impl DryingShift {
    /// Learns from pairs of one swatch, wet (or pressed) and dried, as corrected linear
    /// sRGB. `None` without a usable pair: the shift of another batch is never used.
    ///
    /// The factor is the geometric mean over the pairs. Its range is two standard
    /// deviations of the pairs, at least a tenth (own judgement: swatches dry to different
    /// thickness); for one pair a quarter either way.
    pub fn learn(pairs: &[([f64; 3], [f64; 3])]) -> Option<Self> {
        let factors: Vec<[f64; 3]> =
            pairs.iter().filter_map(|(wet, dried)| log_factors(*wet, *dried)).collect();
        let count = factors.len() as f64;
        let pairs = u32::try_from(factors.len()).ok().filter(|&n| n > 0)?;
        let factor = [0, 1, 2].map(|c| {
            let mean = factors.iter().map(|f| f[c]).sum::<f64>() / count;
            let squares = factors.iter().map(|f| (f[c] - mean).powi(2)).sum::<f64>();
            let half = if pairs == 1 {
                1.25_f64.ln()
            } else {
                (2.0 * (squares / (count - 1.0)).sqrt()).max(1.1_f64.ln())
            };
            Estimate {
                value: mean.exp(),
                low: (mean - half).exp(),
                high: (mean + half).exp(),
                basis: Basis::OwnRecord,
            }
        });
        Some(Self { factor, pairs })
    }

    /// Dry colour predicted for a wet swatch, given as corrected linear sRGB. `None` if a
    /// channel is not a reflectance.
    pub fn dried(&self, wet: [f64; 3]) -> Option<PredictedDryColour> {
        let k_over_s = channels(wet)?;
        let dried = |factor: fn(&Estimate<f64>) -> f64| -> Option<[f64; 3]> {
            let [r, g, b] = [0, 1, 2].map(|c| reflectance(k_over_s[c] * factor(&self.factor[c])));
            Some([r?, g?, b?])
        };
        let (best, pale, dark) = (dried(|k| k.value)?, dried(|k| k.low)?, dried(|k| k.high)?);
        let yellow = |rgb| yellowness(Xyz::from_linear(rgb)).unwrap_or(0.0);
        let known = |value: f64, one: f64, other: f64| Estimate {
            value,
            low: value.min(one).min(other),
            high: value.max(one).max(other),
            basis: Basis::OwnRecord,
        };
        let lab = Lab::from_linear(best);
        Some(PredictedDryColour {
            lab,
            lightness: known(lab.l, Lab::from_linear(pale).l, Lab::from_linear(dark).l),
            yellowness: known(yellow(best), yellow(pale), yellow(dark)),
        })
    }
}

/// ln of dried over wet K/S.
fn log_factors(wet: [f64; 3], dried: [f64; 3]) -> Option<[f64; 3]> {
    let (wet, dried) = (channels(wet)?, channels(dried)?);
    Some([0, 1, 2].map(|c| (dried[c] / wet[c]).ln()))
}

/// K/S of each channel. Reflectances above [`WHITEST`] are limited to it; `None` at or below
/// black.
fn channels(rgb: [f64; 3]) -> Option<[f64; 3]> {
    let [r, g, b] = rgb.map(|v| k_over_s(v.min(WHITEST)));
    Some([r?, g?, b?])
}

/// Reflectance above which K/S is noise.
const WHITEST: f64 = 0.985;

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    const WET: [f64; 3] = [0.45, 0.36, 0.22];

    fn dry(wet: [f64; 3], factor: f64) -> [f64; 3] {
        wet.map(|v| reflectance(k_over_s(v).unwrap() * factor).unwrap())
    }

    #[test]
    fn no_shift_without_a_usable_pair() {
        assert_eq!(DryingShift::learn(&[]), None);
        assert_eq!(DryingShift::learn(&[(WET, [0.5, 0.4, 0.0])]), None);
    }

    #[test]
    fn prediction_matches_the_learnt_factor() {
        let shift = DryingShift::learn(&[(WET, dry(WET, 0.45)), (WET, dry(WET, 0.55))]).unwrap();
        assert_eq!(shift.pairs, 2);
        let other = [0.6, 0.55, 0.42];
        let predicted = shift.dried(other).unwrap();
        let truth = Lab::from_linear(dry(other, 0.5));
        assert!((predicted.lab.l - truth.l).abs() < 0.2);
        assert!(predicted.lightness.low < truth.l && truth.l < predicted.lightness.high);
        assert!(predicted.lab.l > Lab::from_linear(other).l);
    }

    #[test]
    fn one_pair_has_a_wide_range() {
        let one = DryingShift::learn(&[(WET, dry(WET, 0.5))]).unwrap();
        let many = DryingShift::learn(&[(WET, dry(WET, 0.5)); 4]).unwrap();
        let width = |s: &DryingShift| s.factor[0].high - s.factor[0].low;
        assert!(width(&one) > 2.0 * width(&many));
    }
}
