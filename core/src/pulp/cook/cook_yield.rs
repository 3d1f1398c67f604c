//! The yield of a cook: by the studio's own cooks first, by a table second.
//! Not here: the cooks in a book, which `derive::cook_history` collects.

use crate::quantity::{Basis, Estimate, Mass, Ratio, in_grams, in_share, share};

/// A cook of the past: oven-dry fibre in, oven-dry pulp out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PastCook {
    pub raw: Mass,
    pub pulp: Mass,
}

impl PastCook {
    /// Pulp over raw fibre; `None` without raw fibre, or with more pulp than that.
    pub fn yield_share(&self) -> Option<Ratio> {
        let (raw, pulp) = (in_grams(self.raw), in_grams(self.pulp));
        (raw.is_finite() && raw > 0.0 && pulp > 0.0 && pulp <= raw).then(|| share(pulp / raw))
    }
}

/// Yield that a rinse is planned with when none is known (own estimate, no source; the fibre
/// table runs from about 0.3 to 0.7).
pub const ASSUMED_YIELD: f64 = 0.5;

/// The yield to expect: by this studio's own cooks of the same fibre, else by
/// the table; `None` without either.
///
/// One own cook is taken as ± 15 % of itself (own estimate, no source), two or
/// more give their median and their whole range.
pub fn expected_yield(own: &[PastCook], table: Option<Estimate<Ratio>>) -> Option<Estimate<Ratio>> {
    let mut past: Vec<f64> =
        own.iter().filter_map(|cook| cook.yield_share().map(in_share)).collect();
    past.sort_unstable_by(f64::total_cmp);
    let half = past.len() / 2;
    match past.as_slice() {
        [] => table,
        [one] => {
            let about = Estimate::within(share(*one), 0.15, Basis::OwnRecord);
            Some(Estimate { high: about.high.min(share(1.0)), ..about })
        }
        [least, .., most] => {
            let median = if past.len() % 2 == 1 {
                past[half]
            } else {
                f64::midpoint(past[half - 1], past[half])
            };
            Some(Estimate {
                value: share(median),
                low: share(*least),
                high: share(*most),
                basis: Basis::OwnRecord,
            })
        }
    }
}
