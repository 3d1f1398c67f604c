//! The end tests: what each can tell, what was read, what that amounts to.

use crate::quantity::{MassConcentration, in_grams_per_litre};

/// How far the last rinse may stand from the tap: 0.3 pH (common practice, no
/// source; about what a strip can tell apart).
pub const PH_FROM_TAP: f64 = 0.3;

/// Above this pH the starch–iodide colour is slow or absent, so that no colour
/// proves nothing (from memory; iodine disproportionates in alkali).
pub const STARCH_IODIDE_TOP_PH: f64 = 9.0;

/// A kind of end test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Test {
    ChlorineStrip,
    PeroxideStrip,
    StarchIodide,
    RinsePh,
    Feel,
}

impl Test {
    /// Every test there is.
    pub const ALL: [Self; 5] =
        [Self::ChlorineStrip, Self::PeroxideStrip, Self::StarchIodide, Self::RinsePh, Self::Feel];

    /// Locale key of its name.
    pub fn word(self) -> &'static str {
        match self {
            Self::ChlorineStrip => "sign_off-test-chlorine_strip",
            Self::PeroxideStrip => "sign_off-test-peroxide_strip",
            Self::StarchIodide => "sign_off-test-starch_iodide",
            Self::RinsePh => "sign_off-test-rinse_ph",
            Self::Feel => "sign_off-test-feel",
        }
    }

    /// Locale keys: what this test can tell, and what it cannot.
    pub fn tells(self) -> (&'static str, &'static str) {
        match self {
            Self::ChlorineStrip => {
                ("sign_off-can-chlorine_strip", "sign_off-cannot-chlorine_strip")
            }
            Self::PeroxideStrip => {
                ("sign_off-can-peroxide_strip", "sign_off-cannot-peroxide_strip")
            }
            Self::StarchIodide => ("sign_off-can-starch_iodide", "sign_off-cannot-starch_iodide"),
            Self::RinsePh => ("sign_off-can-rinse_ph", "sign_off-cannot-rinse_ph"),
            Self::Feel => ("sign_off-can-feel", "sign_off-cannot-feel"),
        }
    }
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reading {
    /// Free chlorine on a strip, dipped in liquor squeezed from the pulp.
    ChlorineStrip { chlorine: MassConcentration },
    /// Peroxide on a strip.
    PeroxideStrip { peroxide: MassConcentration },
    /// Starch–iodide paper: did it turn, and the liquor's pH where known.
    StarchIodide { turned: bool, liquor_ph: Option<f64> },
    /// pH of the last rinse and of the tap it was drawn from.
    RinsePh { rinse: f64, tap: f64 },
    /// Between finger and thumb.
    Feel { slippery: bool },
}

/// What a reading amounts to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    Pass,
    Fail,
    /// The reading proves nothing either way.
    TellsNothing,
}

impl Reading {
    /// The test that this is a reading of.
    pub fn test(&self) -> Test {
        match self {
            Self::ChlorineStrip { .. } => Test::ChlorineStrip,
            Self::PeroxideStrip { .. } => Test::PeroxideStrip,
            Self::StarchIodide { .. } => Test::StarchIodide,
            Self::RinsePh { .. } => Test::RinsePh,
            Self::Feel { .. } => Test::Feel,
        }
    }

    /// Pass, fail, or neither. A number that is not one passes nothing.
    pub fn outcome(&self) -> Outcome {
        match *self {
            Self::ChlorineStrip { chlorine: strip } | Self::PeroxideStrip { peroxide: strip } => {
                let grams = in_grams_per_litre(strip);
                if grams == 0.0 {
                    Outcome::Pass
                } else if grams > 0.0 {
                    Outcome::Fail
                } else {
                    Outcome::TellsNothing
                }
            }
            Self::StarchIodide { turned: true, .. } => Outcome::Fail,
            Self::StarchIodide { turned: false, liquor_ph } => match liquor_ph {
                Some(ph) if ph <= STARCH_IODIDE_TOP_PH => Outcome::Pass,
                _ => Outcome::TellsNothing,
            },
            Self::RinsePh { rinse, tap } => {
                let scale = 0.0..=14.0;
                if !scale.contains(&rinse) || !scale.contains(&tap) {
                    Outcome::TellsNothing
                } else if (rinse - tap).abs() <= PH_FROM_TAP + 1e-9 {
                    Outcome::Pass
                } else {
                    Outcome::Fail
                }
            }
            Self::Feel { slippery } => {
                if slippery {
                    Outcome::Fail
                } else {
                    Outcome::Pass
                }
            }
        }
    }
}
