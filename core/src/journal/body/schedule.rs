//! The schedule of a bath, as it is stored with the bath and with each change of times.

use crate::message::{Field, Message, Value};
use serde::{Deserialize, Serialize};
use serde_with::{As, DefaultOnNull, skip_serializing_none};

/// When to do what in a bath, in minutes from its start. Nothing is cued
/// after the stop.
#[skip_serializing_none]
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Schedule {
    /// Interval between stirs.
    pub stir_every_min: Option<f64>,
    /// Interval between temperature checks.
    pub reheat_every_min: Option<f64>,
    /// Instants of pH readings.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub ph_at_min: Vec<f64>,
    /// Instants of strip readings: chlorine or peroxide, by the bath's oxidant.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub strip_at_min: Vec<f64>,
    /// Instants of colour photos.
    #[serde(default, with = "As::<DefaultOnNull>", skip_serializing_if = "Vec::is_empty")]
    pub photo_at_min: Vec<f64>,
    /// Stop of the bath; `None` for a bath that runs until the person stops it.
    pub stop_at_min: Option<f64>,
}

/// Shortest interval of a recurring cue, in minutes.
pub const SHORTEST_INTERVAL_MIN: f64 = 0.5;

/// Longest time from the start that can be cued: 30 days, in minutes.
pub const LONGEST_CUE_MIN: f64 = 30.0 * 24.0 * 60.0;

/// Why a schedule cannot be followed. The field is the one of the form:
/// `stir_every`, `reheat_every`, `ph_at`, `strip_at`, `photo_at` or `stop_at`.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ScheduleError {
    #[error(
        "`{}`: an interval of {minutes} min; {SHORTEST_INTERVAL_MIN} to {LONGEST_CUE_MIN} min is accepted",
        .field.0
    )]
    Interval { field: Field, minutes: f64 },
    #[error("`{}`: {minutes} min from the start; more than 0 and at most {LONGEST_CUE_MIN} min is accepted", .field.0)]
    Instant { field: Field, minutes: f64 },
}

impl ScheduleError {
    /// The message for the locale, beside its field.
    pub fn message(&self) -> Message {
        match *self {
            Self::Interval { field, .. } => Message::new("refusal-cue-every")
                .beside(field)
                .with("least", Value::Minutes(SHORTEST_INTERVAL_MIN))
                .with("most", Value::Minutes(LONGEST_CUE_MIN)),
            Self::Instant { field, .. } => Message::new("refusal-cue-minute")
                .beside(field)
                .with("most", Value::Minutes(LONGEST_CUE_MIN)),
        }
    }
}

impl Schedule {
    /// Whether every interval and instant can be kept.
    ///
    /// # Errors
    /// [`ScheduleError`] for the first interval outside
    /// [`SHORTEST_INTERVAL_MIN`] to [`LONGEST_CUE_MIN`], or the first instant
    /// that is not after the start or is later than [`LONGEST_CUE_MIN`].
    pub fn check(&self) -> Result<(), ScheduleError> {
        for (field, interval) in
            [("stir_every", self.stir_every_min), ("reheat_every", self.reheat_every_min)]
        {
            if let Some(minutes) = interval
                && !is_valid_interval(minutes)
            {
                return Err(ScheduleError::Interval { field: Field(field), minutes });
            }
        }
        for (field, instants) in [
            ("ph_at", self.ph_at_min.as_slice()),
            ("strip_at", &self.strip_at_min),
            ("photo_at", &self.photo_at_min),
            ("stop_at", self.stop_at_min.as_slice()),
        ] {
            if let Some(minutes) = instants.iter().copied().find(|m| !is_valid_instant(*m)) {
                return Err(ScheduleError::Instant { field: Field(field), minutes });
            }
        }
        Ok(())
    }
}

/// Whether a cue may recur at this interval.
pub(crate) fn is_valid_interval(minutes: f64) -> bool {
    (SHORTEST_INTERVAL_MIN..=LONGEST_CUE_MIN).contains(&minutes)
}

/// Whether a cue may fall at this time from the start.
pub(crate) fn is_valid_instant(minutes: f64) -> bool {
    minutes > 0.0 && minutes <= LONGEST_CUE_MIN
}
