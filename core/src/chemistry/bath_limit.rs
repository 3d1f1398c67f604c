//! Where a bath begins to harm fibre or people: temperature, strength, time, pH.
//! The windows that a bath should stay in are in `alkali` and in `bath::plan`; the customary
//! charge is in `bath`.

use super::Oxidant;

/// Care above the first value, danger above the second.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    pub care: f64,
    pub danger: f64,
}

/// Limits of a bath with one oxidant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BathLimits {
    pub celsius: Limit,
    /// Active in the liquor, g/L: available chlorine or H2O2.
    pub strength: Limit,
    /// `None` where a longer bath does no more harm.
    pub minutes: Option<Limit>,
}

/// Limits of a bath with this oxidant.
pub const fn bath_limits(oxidant: Oxidant) -> BathLimits {
    match oxidant {
        Oxidant::Hypochlorite => HYPOCHLORITE,
        Oxidant::Percarbonate | Oxidant::Peroxide => PEROXIDE,
    }
}

/// Temperature: decomposition and fibre damage accelerate above 40 °C (Smook; Rydholm; from
/// memory); 60 °C is an own estimate.
/// Strength: baths have 0.5 to 4 g/L (common practice, no source); 10 g/L is an own estimate.
/// Time: one to three hours are usual (Smook; Rydholm; from memory); 4 and 8 hours are own
/// estimates.
const HYPOCHLORITE: BathLimits = BathLimits {
    celsius: Limit { care: 40.0, danger: 60.0 },
    strength: Limit { care: 4.0, danger: 10.0 },
    minutes: Some(Limit { care: 240.0, danger: 480.0 }),
};

/// Temperature: percarbonate decomposes with self-acceleration above 50 °C (producer's safety
/// and handling sheet, read); 60 °C is an own estimate.
/// Strength: irritates eyes from 5 % and damages them from 8 % (CLP Annex VI, specific
/// concentration limits of hydrogen peroxide, from memory).
const PEROXIDE: BathLimits = BathLimits {
    celsius: Limit { care: 50.0, danger: 60.0 },
    strength: Limit { care: 50.0, danger: 80.0 },
    minutes: None,
};

/// pH range in which hypochlorite attacks cellulose most (Clibbens and Ridge 1927; Rydholm;
/// Dence and Reeve; from memory).
pub const HYPOCHLORITE_ATTACK_PH: (f64, f64) = (6.0, HYPOCHLORITE_DANGER_PH);

/// pH of a hypochlorite bath below which it is stopped: HOCl attacks cellulose (Clibbens &
/// Ridge 1927, from memory), and strong liquors release chlorine. 8.5 is an own estimate.
pub const HYPOCHLORITE_DANGER_PH: f64 = 8.5;

/// pH above which a liquor burns skin and eyes and swells cellulose (pH above 11.5 counts as
/// corrosive without other evidence, CLP 3.2 and 3.3; swelling; both from memory). 12 is an own
/// estimate.
pub const ALKALI_DANGER_PH: f64 = 12.0;
