//! Charge: grams of active chemical per gram of oven-dry fibre.
//!
//! Active means available chlorine for hypochlorite and H2O2 for peroxide.

use crate::chemistry::Oxidant;
use crate::quantity::{Mass, MassConcentration, Ratio, Volume, in_share, share};

/// Mass of active chemical for `charge` on `oven_dry` fibre.
pub fn active_for(oven_dry: Mass, charge: Ratio) -> Mass {
    oven_dry * in_share(charge)
}

/// Charge of `active` chemical on `oven_dry` fibre; 0 without fibre.
pub fn charge_of(active: Mass, oven_dry: Mass) -> Ratio {
    let ratio = active / oven_dry;
    if in_share(ratio).is_finite() { ratio } else { share(0.0) }
}

/// Volume of a bottle at `strength` that holds `active`. `strength` must be
/// above 0.
pub fn bottle_for(active: Mass, strength: MassConcentration) -> Volume {
    active / strength
}

/// Mass of a powder with `strength` active that holds `active`. `strength`
/// must be above 0.
pub fn powder_for(active: Mass, strength: Ratio) -> Mass {
    active / in_share(strength)
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
    use crate::quantity::{grams, grams_per_litre, in_grams, in_millilitres};

    #[test]
    fn charge_and_active_are_inverse() {
        let active = active_for(grams(200.0), share(0.02));
        assert!((in_grams(active) - 4.0).abs() < 1e-12);
        assert!((in_share(charge_of(active, grams(200.0))) - 0.02).abs() < 1e-15);
        assert_eq!(in_share(charge_of(active, grams(0.0))), 0.0);
    }

    #[test]
    fn the_measured_amount_contains_the_active_mass() {
        let volume = bottle_for(grams(4.0), grams_per_litre(50.0));
        assert!((in_millilitres(volume) - 80.0).abs() < 1e-9);
        assert!((in_grams(powder_for(grams(4.0), share(0.28))) - 14.2857).abs() < 1e-4);
    }
}
