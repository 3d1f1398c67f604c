//! What a cook leaves of the fibre: own history first, a table second.

use crate::quantity::{Basis, Estimate, Mass, Ratio, in_grams, in_share, share};

/// A cook of the past: oven-dry fibre in, oven-dry pulp out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooked {
    pub raw: Mass,
    pub pulp: Mass,
}

impl Cooked {
    /// Pulp over raw; `None` if nothing went in or more came out than went in.
    pub fn yielded(&self) -> Option<Ratio> {
        let (raw, pulp) = (in_grams(self.raw), in_grams(self.pulp));
        (raw.is_finite() && raw > 0.0 && pulp > 0.0 && pulp <= raw).then(|| share(pulp / raw))
    }
}

/// The yield to expect, from this studio's own cooks of the same fibre if it
/// has any, else from the table; `None` if neither says.
///
/// One own cook is taken as ± 15 % of itself (own estimate, no source), two or
/// more give their median and their whole range.
pub fn expected_yield(own: &[Cooked], table: Option<Estimate<Ratio>>) -> Option<Estimate<Ratio>> {
    let mut past: Vec<f64> = own.iter().filter_map(|cook| cook.yielded().map(in_share)).collect();
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
