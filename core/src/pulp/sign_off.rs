//! Proof that the pulp is clean, and what it takes to say so.
//!
//! A test is a reading; the reading is judged here, not by the person who
//! wants to go home. A batch is clean when every test that its oxidant calls
//! for has passed after the last thing that could have changed it. A person
//! may still sign without that, but only in writing, and the record keeps both.

use jiff::Timestamp;

use crate::message::{Field, Message, Value};
use crate::quantity::{MassConcentration, in_grams_per_litre};

pub const REASON: Field = Field("sign_off.reason");

/// How far the last rinse may stand from the tap: 0.3 pH (common practice, no
/// source; about what a strip can tell apart).
pub const PH_FROM_TAP: f64 = 0.3;

/// Above this pH the starch–iodide colour is slow or absent, so that no colour
/// proves nothing (from memory; iodine disproportionates in alkali).
pub const STARCH_IODIDE_TOP_PH: f64 = 9.0;

/// The oxidant that the batch was bleached with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Oxidant {
    Hypochlorite,
    Peroxide,
    /// Both, one after the other, with a wash between.
    Both,
    /// None: washed, cooked or sun-bleached only.
    None,
}

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
            Self::ChlorineStrip => "sign_off.test.chlorine_strip",
            Self::PeroxideStrip => "sign_off.test.peroxide_strip",
            Self::StarchIodide => "sign_off.test.starch_iodide",
            Self::RinsePh => "sign_off.test.rinse_ph",
            Self::Feel => "sign_off.test.feel",
        }
    }

    /// Locale keys: what this test can tell, and what it cannot.
    pub fn tells(self) -> (&'static str, &'static str) {
        match self {
            Self::ChlorineStrip => {
                ("sign_off.can.chlorine_strip", "sign_off.cannot.chlorine_strip")
            }
            Self::PeroxideStrip => {
                ("sign_off.can.peroxide_strip", "sign_off.cannot.peroxide_strip")
            }
            Self::StarchIodide => ("sign_off.can.starch_iodide", "sign_off.cannot.starch_iodide"),
            Self::RinsePh => ("sign_off.can.rinse_ph", "sign_off.cannot.rinse_ph"),
            Self::Feel => ("sign_off.can.feel", "sign_off.cannot.feel"),
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

/// A reading and when it was taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Logged {
    pub reading: Reading,
    pub at: Timestamp,
}

/// What one kind of test has to say about a batch now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    Passed,
    Failing,
    /// Read, but the reading proves nothing.
    TellsNothing,
    /// Passed once, but something was done to the batch since.
    Outdated,
    Missing,
}

/// A test that stands between a batch and "clean".
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    pub test: Test,
    pub standing: Standing,
}

impl Gap {
    /// The gap as something to say.
    pub fn message(&self) -> Message {
        let key = match self.standing {
            Standing::Passed => "sign_off.standing.passed",
            Standing::Failing => "sign_off.gap.failing",
            Standing::TellsNothing => "sign_off.gap.tells_nothing",
            Standing::Outdated => "sign_off.gap.outdated",
            Standing::Missing => "sign_off.gap.missing",
        };
        Message::new(key).with("test", Value::Word(self.test.word()))
    }
}

/// A sign-off that may be entered in the log.
#[derive(Clone, Debug, PartialEq)]
pub struct SignOff {
    /// `true` only if nothing was failing or missing.
    pub clean: bool,
    /// What was failing or missing, when it was signed anyway.
    pub gaps: Vec<Gap>,
    /// What the person wrote; empty when clean.
    pub reason: String,
}

/// Why a batch cannot be signed off yet: these tests, and no reason written.
#[derive(Clone, Debug, PartialEq)]
pub struct Missing {
    pub gaps: Vec<Gap>,
}

impl Missing {
    /// The refusal; each gap has a [`Gap::message`] of its own.
    pub fn message(&self) -> Message {
        Message::new("sign_off.refusal.not_clean")
            .beside(REASON)
            .with("count", Value::Count(self.gaps.len() as u64))
    }
}

/// The tests that a batch must pass to be called clean. Peroxide and chlorine
/// each need their own strip: starch–iodide answers to both and cannot tell
/// them apart, so it backs a strip up and never replaces it.
pub fn required(oxidant: Oxidant) -> Vec<Test> {
    let strips: &[Test] = match oxidant {
        Oxidant::Hypochlorite => &[Test::ChlorineStrip],
        Oxidant::Peroxide => &[Test::PeroxideStrip],
        Oxidant::Both => &[Test::ChlorineStrip, Test::PeroxideStrip],
        Oxidant::None => &[],
    };
    strips.iter().copied().chain([Test::RinsePh, Test::Feel]).collect()
}

/// How one kind of test stands, given everything logged and the instant of the
/// last thing that could have changed its answer (oxidant, alkali, acid, pulp
/// added). The latest reading counts.
pub fn standing(test: Test, log: &[Logged], changed: Option<Timestamp>) -> Standing {
    let latest = log.iter().filter(|entry| entry.reading.test() == test).max_by_key(|e| e.at);
    match latest {
        None => Standing::Missing,
        Some(entry) => match entry.reading.outcome() {
            Outcome::Fail => Standing::Failing,
            Outcome::TellsNothing => Standing::TellsNothing,
            Outcome::Pass if changed.is_some_and(|changed| entry.at < changed) => {
                Standing::Outdated
            }
            Outcome::Pass => Standing::Passed,
        },
    }
}

/// What stands between this batch and "clean": each required test that has not
/// passed, and any other test that is failing.
pub fn gaps(oxidant: Oxidant, log: &[Logged], changed: Option<Timestamp>) -> Vec<Gap> {
    let required = required(oxidant);
    Test::ALL
        .into_iter()
        .map(|test| Gap { test, standing: standing(test, log, changed) })
        .filter(|gap| match gap.standing {
            Standing::Passed => false,
            Standing::Failing => true,
            _ => required.contains(&gap.test),
        })
        .collect()
}

/// Signs a batch off: clean if nothing is failing or missing, otherwise only
/// with a reason in the person's own words.
///
/// # Errors
/// [`Missing`] when tests are failing or missing and `reason` has no letter
/// or digit in it.
pub fn sign_off(
    oxidant: Oxidant,
    log: &[Logged],
    changed: Option<Timestamp>,
    reason: &str,
) -> Result<SignOff, Missing> {
    let gaps = gaps(oxidant, log, changed);
    let reason = reason.trim();
    if gaps.is_empty() {
        Ok(SignOff { clean: true, gaps, reason: String::new() })
    } else if reason.chars().any(char::is_alphanumeric) {
        Ok(SignOff { clean: false, gaps, reason: reason.to_owned() })
    } else {
        Err(Missing { gaps })
    }
}

/// Proof that chlorine was tested for and not found, after the last oxidant.
///
/// There is no other way to make one than [`ZeroChlorine::from_log`], and no
/// acid dose without one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ZeroChlorine {
    tested: Timestamp,
}

impl ZeroChlorine {
    /// The proof, if the log holds it.
    ///
    /// A chlorine strip at zero is needed, later than `last_oxidant`, and
    /// nothing since that found oxidant: neither a strip nor starch–iodide.
    ///
    /// # Errors
    /// The standing of the chlorine test otherwise.
    pub fn from_log(log: &[Logged], last_oxidant: Option<Timestamp>) -> Result<Self, Gap> {
        let test = Test::ChlorineStrip;
        let gap = |test, standing| Gap { test, standing };
        match standing(test, log, last_oxidant) {
            Standing::Passed => {}
            other => return Err(gap(test, other)),
        }
        if standing(Test::StarchIodide, log, last_oxidant) == Standing::Failing {
            return Err(gap(Test::StarchIodide, Standing::Failing));
        }
        log.iter()
            .filter(|entry| entry.reading.test() == test)
            .map(|entry| entry.at)
            .max()
            .map(|tested| Self { tested })
            .ok_or_else(|| gap(test, Standing::Missing))
    }

    /// When the strip read zero.
    pub fn tested(&self) -> Timestamp {
        self.tested
    }
}
