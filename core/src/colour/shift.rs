//! From wet to dry.
//!
//! Water between the fibres scatters less than air, so wet pulp is darker than it
//! will dry. By how much depends on the pulp; a batch learns its own shift from
//! swatches measured both ways, and without such a pair nothing is predicted.

use super::kubelka_munk::{k_over_s, reflectance};
use super::space::{Lab, Xyz};
use super::whiteness::yellowness;
use crate::message::Message;
use crate::quantity::{Basis, Known};
use serde::{Deserialize, Serialize};

/// How dry a swatch was when it was measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Dryness {
    Wet,
    Pressed,
    Dried,
}

impl Dryness {
    pub const ALL: [Self; 3] = [Self::Wet, Self::Pressed, Self::Dried];

    /// Key for the word in the locale files.
    pub fn key(self) -> &'static str {
        match self {
            Self::Wet => "colour-dryness-wet",
            Self::Pressed => "colour-dryness-pressed",
            Self::Dried => "colour-dryness-dried",
        }
    }
}

impl From<crate::journal::PulpState> for Dryness {
    fn from(state: crate::journal::PulpState) -> Self {
        match state {
            crate::journal::PulpState::Wet => Self::Wet,
            crate::journal::PulpState::Pressed => Self::Pressed,
            crate::journal::PulpState::Dried => Self::Dried,
        }
    }
}

/// What drying does to a batch's pulp: for each linear channel, the factor on K/S.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shift {
    pub factor: [Known<f64>; 3],
    /// How many pairs it was learnt from.
    pub pairs: u32,
}

/// A dried colour foreseen from a wet one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Foreseen {
    pub lab: Lab,
    pub lightness: Known<f64>,
    pub yellowness: Known<f64>,
}

/// What to say where [`Shift::learn`] has nothing to learn from.
pub fn none_known() -> Message {
    Message::new("colour-shift-none_known")
}

impl Shift {
    /// Learns from pairs of the same swatch, wet (or pressed) then dried, as
    /// corrected linear sRGB ([`super::measure::Reading::linear`]). `None` without a
    /// usable pair: a batch that has none has no shift, and no other batch's is lent.
    ///
    /// The factor is the geometric mean over the pairs. Its range is two standard
    /// deviations of the pairs, and never less than a tenth (own judgement: swatches
    /// dry to different thickness); one pair alone says nothing of its spread, and
    /// gets a quarter either way.
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
            Known {
                value: mean.exp(),
                low: (mean - half).exp(),
                high: (mean + half).exp(),
                basis: Basis::OwnRecord,
            }
        });
        Some(Self { factor, pairs })
    }

    /// The dried colour to expect of a wet swatch, given as corrected linear sRGB.
    /// `None` for a channel that is no reflectance.
    pub fn dried(&self, wet: [f64; 3]) -> Option<Foreseen> {
        let k_over_s = channels(wet)?;
        let dried = |factor: fn(&Known<f64>) -> f64| -> Option<[f64; 3]> {
            let [r, g, b] = [0, 1, 2].map(|c| reflectance(k_over_s[c] * factor(&self.factor[c])));
            Some([r?, g?, b?])
        };
        let (best, pale, dark) = (dried(|k| k.value)?, dried(|k| k.low)?, dried(|k| k.high)?);
        let yellow = |rgb| yellowness(Xyz::from_linear(rgb)).unwrap_or(0.0);
        let known = |value: f64, one: f64, other: f64| Known {
            value,
            low: value.min(one).min(other),
            high: value.max(one).max(other),
            basis: Basis::OwnRecord,
        };
        let lab = Lab::from_linear(best);
        Some(Foreseen {
            lab,
            lightness: known(lab.l, Lab::from_linear(pale).l, Lab::from_linear(dark).l),
            yellowness: known(yellow(best), yellow(pale), yellow(dark)),
        })
    }
}

/// Logarithms of dried K/S over wet K/S.
fn log_factors(wet: [f64; 3], dried: [f64; 3]) -> Option<[f64; 3]> {
    let (wet, dried) = (channels(wet)?, channels(dried)?);
    Some([0, 1, 2].map(|c| (dried[c] / wet[c]).ln()))
}

/// K/S of each channel. A channel at or a little above white is taken as the whitest
/// that still absorbs; one at or below black has none.
fn channels(rgb: [f64; 3]) -> Option<[f64; 3]> {
    let [r, g, b] = rgb.map(|v| k_over_s(v.min(WHITEST)));
    Some([r?, g?, b?])
}

/// Above this, K/S is all noise.
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
    fn no_pair_no_shift() {
        assert_eq!(Shift::learn(&[]), None);
        assert_eq!(Shift::learn(&[(WET, [0.5, 0.4, 0.0])]), None);
    }

    #[test]
    fn what_was_learnt_is_foretold() {
        let shift = Shift::learn(&[(WET, dry(WET, 0.45)), (WET, dry(WET, 0.55))]).unwrap();
        assert_eq!(shift.pairs, 2);
        let other = [0.6, 0.55, 0.42];
        let foreseen = shift.dried(other).unwrap();
        let truth = Lab::from_linear(dry(other, 0.5));
        assert!((foreseen.lab.l - truth.l).abs() < 0.2);
        assert!(foreseen.lightness.low < truth.l && truth.l < foreseen.lightness.high);
        assert!(foreseen.lab.l > Lab::from_linear(other).l);
    }

    #[test]
    fn one_pair_is_wide() {
        let one = Shift::learn(&[(WET, dry(WET, 0.5))]).unwrap();
        let many = Shift::learn(&[(WET, dry(WET, 0.5)); 4]).unwrap();
        let width = |s: &Shift| s.factor[0].high - s.factor[0].low;
        assert!(width(&one) > 2.0 * width(&many));
    }
}
