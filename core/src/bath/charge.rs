//! Charge: grams of active chemical per gram of oven-dry fibre.
//!
//! Active means available chlorine for hypochlorite and H2O2 for peroxide.

use crate::chemistry::Oxidant;
use crate::quantity::{Mass, MassConcentration, Volume};

/// Volume of a bottle at `strength` that holds `active`. `strength` must be
/// above 0.
pub fn bottle_for(active: Mass, strength: MassConcentration) -> Volume {
    active / strength
}

/// Customary range of a charge, as shares of oven-dry fibre.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Customary {
    pub low: f64,
    pub high: f64,
    /// Above this the fibre is damaged.
    pub limit: f64,
    pub source: &'static str,
}

/// Customary charge in one stage.
///
/// Hypochlorite: 0.5 to 2 % available chlorine as one stage among several, 3 to
/// 8 % alone on an easy non-wood pulp. Peroxide: 1 to 3 % H2O2; published
/// trials use up to 4.5 %, so the limit is twice the customary maximum.
pub fn customary(oxidant: Oxidant) -> Customary {
    match oxidant {
        Oxidant::Hypochlorite => Customary {
            low: 0.005,
            high: 0.08,
            limit: 0.12,
            source: "Rydholm; Dence & Reeve; Smook (from memory)",
        },
        Oxidant::Percarbonate | Oxidant::Peroxide => Customary {
            low: 0.005,
            high: 0.03,
            limit: 0.06,
            source: "Hosseinpour et al. 2014; Behrooz et al. 2012; Law et al. 1993",
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{grams, grams_per_litre, in_millilitres};

    #[test]
    fn the_measured_amount_contains_the_active_mass() {
        let volume = bottle_for(grams(4.0), grams_per_litre(50.0));
        assert!((in_millilitres(volume) - 80.0).abs() < 1e-9);
    }
}
