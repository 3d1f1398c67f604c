//! Values to begin a plan with: nobody measured them, and a person may change each.

use crate::{
    chemistry::Oxidant,
    quantity::{Celsius, Ratio, share},
};

/// A set of starting values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, strum::VariantArray)]
pub enum PresetKind {
    Usual,
    /// Less bleach, cooler and shorter: for weak or precious fibre, or a first of two baths.
    Gentle,
}

/// The values of a preset.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Preset {
    /// Active per oven-dry fibre.
    pub charge: Ratio,
    /// Oven-dry fibre per total mass.
    pub consistency: Ratio,
    /// °C
    pub celsius: f64,
    pub minutes: f64,
    pub source: &'static str,
}

impl Preset {
    /// The temperature as a bounded type.
    pub fn temperature(&self) -> Option<Celsius> {
        Celsius::new(self.celsius).ok()
    }
}

/// The preset for an oxidant.
///
/// Charge, temperature and time lie within what studios do
/// ([`guide`](super::guide), [`customary`](super::customary)); "usual" also lies within the
/// literature's temperatures. Consistency: 5 % stirs by hand, 4 % more easily.
pub fn preset(kind: PresetKind, oxidant: Oxidant) -> Preset {
    let of = |charge, consistency, celsius, minutes| Preset {
        charge: share(charge),
        consistency: share(consistency),
        celsius,
        minutes,
        source: "common practice, no source; chosen within the ranges of practice",
    };
    match (oxidant, kind) {
        (Oxidant::Hypochlorite, PresetKind::Usual) => of(0.02, 0.05, 38.0, 60.0),
        (Oxidant::Hypochlorite, PresetKind::Gentle) => of(0.01, 0.04, 35.0, 40.0),
        (Oxidant::Percarbonate | Oxidant::Peroxide, PresetKind::Usual) => {
            of(0.02, 0.05, 45.0, 90.0)
        }
        (Oxidant::Percarbonate | Oxidant::Peroxide, PresetKind::Gentle) => {
            of(0.01, 0.04, 40.0, 60.0)
        }
    }
}

#[cfg(test)]
mod tests {
    use strum::VariantArray;

    use super::*;
    use crate::{
        bath::{by_thermometer, customary, guide},
        chemistry::bath_limit::bath_limits,
        quantity::in_share,
    };

    #[test]
    fn every_preset_is_within_practice_and_harmless() {
        for oxidant in [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide] {
            for kind in PresetKind::VARIANTS {
                let preset = preset(*kind, oxidant);
                let (guide, charge) = (guide(oxidant), customary(oxidant));
                let within = |value: f64, (low, high): (f64, f64)| low <= value && value <= high;
                assert!(within(in_share(preset.charge), (charge.low, charge.high)), "{preset:?}");
                assert!(within(preset.celsius, guide.temperature.practice), "{preset:?}");
                assert!(within(preset.celsius, guide.temperature.literature), "{preset:?}");
                assert!(within(preset.minutes, guide.minutes.practice), "{preset:?}");
                let warmest = by_thermometer(preset.celsius).high;
                assert!(warmest <= bath_limits(oxidant).celsius.care, "{preset:?}");
                assert!(preset.temperature().is_some());
            }
        }
    }

    #[test]
    fn gentle_is_milder_in_each_value() {
        for oxidant in [Oxidant::Hypochlorite, Oxidant::Percarbonate, Oxidant::Peroxide] {
            let [usual, gentle] =
                [PresetKind::Usual, PresetKind::Gentle].map(|kind| preset(kind, oxidant));
            assert!(gentle.charge < usual.charge && gentle.consistency < usual.consistency);
            assert!(gentle.celsius < usual.celsius && gentle.minutes < usual.minutes);
        }
    }
}
