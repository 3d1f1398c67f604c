//! How the literature's range of a parameter divides into what is common to a studio, to a
//! fibre, and to one batch.

use super::pooling::Hierarchy;
use crate::bath::kinetics::{Parameter, Prior};

/// Shares of the variance of a parameter's coordinate between fibres, and between batches of
/// one fibre; the rest is between studios. All are own estimates: no study of the variation
/// between batches at a sink was found. A share between batches of 0.1 is a coefficient of
/// variation of about 20 % for the pools and 30 % for the rate constants; it is itself scaled by
/// what the batches show (`pooling`).
fn shares(parameter: Parameter) -> [f64; 2] {
    use Parameter::*;
    match parameter {
        // Fibre and cook.
        FastConsumers | SlowConsumers => [0.55, 0.15],
        ColourRate | ColourFloor | StartPolymerization => [0.6, 0.1],
        FastRate | SlowRatio | ScissionRate => [0.5, 0.06],
        // Chemistry, with what of it was measured on another fibre.
        BleachEnergy
        | AcidSpeedup
        | AcidYield
        | ScissionEnergy
        | ScissionAcidRatio
        | ScissionTogetherRatio => [0.4, 0.04],
        ScissionAcidEnergy | MetalEnergy | DecayFactor => [0.05, 0.02],
        // Water and vessel; powder.
        MetalLoss => [0.2, 0.2],
        DissolvingTime => [0.05, 0.2],
    }
}

/// The levels for the rows of a table of priors.
pub(super) fn hierarchy(priors: &[Prior]) -> Hierarchy {
    let each = |share: fn([f64; 2]) -> f64| {
        priors.iter().map(|prior| share(shares(prior.parameter))).collect()
    };
    Hierarchy {
        studio: each(|[fibre, batch]| 1.0 - fibre - batch),
        fibre: each(|[fibre, _]| fibre),
        batch: each(|[_, batch]| batch),
    }
}

/// Scales of the spread between batches, with prior weights (own choice: the shares above are
/// right within a factor of about 3 in variance).
pub(super) const SCALES: [(f64, f64); 5] =
    [(0.1, 0.1), (0.3, 0.25), (1.0, 0.35), (3.0, 0.25), (6.0, 0.05)];

/// Whether any reading of a bath says something of a parameter. Damage is never read, the
/// range of its own activation energies is not seen in colour or oxidant.
pub(super) fn can_be_read(parameter: Parameter) -> bool {
    use Parameter::*;
    matches!(
        parameter,
        FastConsumers
            | SlowConsumers
            | FastRate
            | SlowRatio
            | ColourRate
            | ColourFloor
            | BleachEnergy
            | AcidSpeedup
            | AcidYield
            | MetalLoss
            | DissolvingTime
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bath::kinetics::priors;
    use crate::chemistry::Oxidant;

    #[test]
    fn the_levels_add_up_to_the_literature() {
        for oxidant in [Oxidant::Hypochlorite, Oxidant::Percarbonate] {
            let levels = hierarchy(priors(oxidant));
            for row in 0..levels.studio.len() {
                let sum = levels.studio[row] + levels.fibre[row] + levels.batch[row];
                assert!((sum - 1.0).abs() < 1e-12 && levels.studio[row] > 0.0);
            }
        }
        assert!((SCALES.iter().map(|(_, weight)| weight).sum::<f64>() - 1.0).abs() < 1e-12);
    }
}
