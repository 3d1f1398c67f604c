//! The end tests: what each can show, what was read, and the verdict of a reading.
//! Not here: which tests a batch needs, which is `requirement`.

use jiff::Timestamp;

use crate::quantity::{MassConcentration, in_grams_per_litre};

/// Largest difference between the last rinse and the tap: 0.3 pH (common
/// practice, no source; about the resolution of a strip).
pub const PH_FROM_TAP: f64 = 0.3;

/// Above this pH the starch–iodide colour is slow or absent, so that its absence
/// is inconclusive (from memory; iodine disproportionates in alkali).
pub const STARCH_IODIDE_TOP_PH: f64 = 9.0;

/// A kind of end test.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum EndTestKind {
    ChlorineStrip,
    PeroxideStrip,
    StarchIodide,
    RinsePh,
    Feel,
}

impl EndTestKind {
    /// Every kind.
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

    /// Locale keys: what this test can show, and what it cannot.
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

/// The reading of an end test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EndTestReading {
    /// Free chlorine on a strip, dipped in liquor squeezed from the pulp.
    ChlorineStrip { chlorine: MassConcentration },
    /// Peroxide on a strip.
    PeroxideStrip { peroxide: MassConcentration },
    /// Starch–iodide paper: whether it turned, and the liquor's pH where known.
    StarchIodide { turned: bool, liquor_ph: Option<f64> },
    /// pH of the last rinse and of its tap water.
    RinsePh { rinse: f64, tap: f64 },
    /// Between finger and thumb.
    Feel { slippery: bool },
}

/// The verdict of a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndTestVerdict {
    Pass,
    Fail,
    /// The reading proves nothing either way.
    Inconclusive,
}

impl EndTestVerdict {
    fn of(passes: bool) -> Self {
        if passes { Self::Pass } else { Self::Fail }
    }
}

impl EndTestReading {
    /// The test that it is a reading of.
    pub fn test(&self) -> EndTestKind {
        match self {
            Self::ChlorineStrip { .. } => EndTestKind::ChlorineStrip,
            Self::PeroxideStrip { .. } => EndTestKind::PeroxideStrip,
            Self::StarchIodide { .. } => EndTestKind::StarchIodide,
            Self::RinsePh { .. } => EndTestKind::RinsePh,
            Self::Feel { .. } => EndTestKind::Feel,
        }
    }

    /// Pass, fail, or neither. A NaN passes nothing.
    pub fn verdict(&self) -> EndTestVerdict {
        match *self {
            Self::ChlorineStrip { chlorine: strip } | Self::PeroxideStrip { peroxide: strip } => {
                let grams = in_grams_per_litre(strip);
                if grams >= 0.0 {
                    EndTestVerdict::of(grams == 0.0)
                } else {
                    EndTestVerdict::Inconclusive
                }
            }
            Self::StarchIodide { turned: true, .. } => EndTestVerdict::Fail,
            Self::StarchIodide { turned: false, liquor_ph } => match liquor_ph {
                Some(ph) if ph <= STARCH_IODIDE_TOP_PH => EndTestVerdict::Pass,
                _ => EndTestVerdict::Inconclusive,
            },
            Self::RinsePh { rinse, tap } => {
                let scale = 0.0..=14.0;
                if scale.contains(&rinse) && scale.contains(&tap) {
                    EndTestVerdict::of((rinse - tap).abs() <= PH_FROM_TAP + 1e-9)
                } else {
                    EndTestVerdict::Inconclusive
                }
            }
            Self::Feel { slippery } => EndTestVerdict::of(!slippery),
        }
    }
}

/// An end test with its verdict and its instant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct EndTestResult {
    pub test: EndTestKind,
    pub verdict: EndTestVerdict,
    pub at: Timestamp,
}

impl EndTestResult {
    /// The result of a reading.
    pub fn of(reading: EndTestReading, at: Timestamp) -> Self {
        Self { test: reading.test(), verdict: reading.verdict(), at }
    }
}
