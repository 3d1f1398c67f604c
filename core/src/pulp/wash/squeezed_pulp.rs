//! Squeezed pulp: its mass, its dryness, and the water that it holds.
//! Not here: pulp of any wetness on its way into a bath, which is `pulp::WetPulp`.

use crate::quantity::{Basis, Estimate, Mass, Ratio, grams, in_grams, in_share, share};

/// Highest dryness by hand or by a small press: 45 % solids. Hydraulically
/// pressed posts of sheets reach 30–45 % (from memory, no print seen); loose
/// pulp does not exceed them.
pub const DRIEST_SQUEEZE: f64 = 0.45;

/// Pulp as squeezed before the first rinse and after each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SqueezedPulp {
    /// Mass as squeezed before the first rinse.
    pub wet_mass: Estimate<Mass>,
    /// Oven-dry mass over wet mass after a squeeze, the same each time.
    pub dryness: Estimate<Ratio>,
}

impl SqueezedPulp {
    /// Oven-dry fibre.
    pub fn dry_fibre(&self) -> Estimate<Mass> {
        let (wet, dry) = (self.wet_mass, self.dryness);
        let fibre = |wet: Mass, dry: Ratio| grams(in_grams(wet) * in_share(dry));
        Estimate {
            value: fibre(wet.value, dry.value),
            low: fibre(wet.low, dry.low),
            high: fibre(wet.high, dry.high),
            basis: wet.basis.max(dry.basis),
        }
    }

    /// Water held after each squeeze. The high end is that of the heaviest
    /// pulp at its wettest.
    pub fn held(&self) -> Estimate<Mass> {
        let (wet, dry) = (self.wet_mass, self.dryness);
        let water = |wet: Mass, dry: Ratio| grams(in_grams(wet) * (1.0 - in_share(dry)));
        Estimate {
            value: water(wet.value, dry.value),
            low: water(wet.low, dry.high),
            high: water(wet.high, dry.low),
            basis: wet.basis.max(dry.basis),
        }
    }
}

/// A dryness that a person typed as their own: ±10 % of itself (own estimate;
/// squeezes differ).
pub fn own_dryness(dryness: Ratio) -> Estimate<Ratio> {
    Estimate::within(dryness, 0.1, Basis::OwnRecord)
}

/// This studio's own dryness, a share, with the range that was recorded; that of [`own_dryness`]
/// where none was.
pub fn recorded_dryness(recorded: Estimate<f64>) -> Estimate<Ratio> {
    if recorded.low < recorded.high {
        return recorded.map(share);
    }
    Estimate { basis: recorded.basis, ..own_dryness(share(recorded.value)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_recorded_dryness_keeps_its_range_and_an_exact_one_gets_the_usual() {
        let narrow = Estimate { value: 0.2, low: 0.19, high: 0.21, basis: Basis::OwnRecord };
        assert_eq!(recorded_dryness(narrow), narrow.map(share));
        let exact = recorded_dryness(Estimate::exact(0.2, Basis::OwnRecord)).map(in_share);
        assert!((exact.low - 0.18).abs() < 1e-9 && (exact.high - 0.22).abs() < 1e-9);
    }
}
