//! What a bath asks for, and when.

use crate::message::{Field, Message, Value};
use crate::record;

/// When to do what in a bath, in minutes from its start. Nothing is cued
/// after the stop.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Schedule {
    /// Stir every so many minutes.
    pub stir_every_min: Option<f64>,
    /// See whether the bath wants warming every so many minutes.
    pub reheat_every_min: Option<f64>,
    /// Read the pH at these.
    pub ph_at_min: Vec<f64>,
    /// Dip a strip (chlorine or peroxide, by the bath's oxidant) at these.
    pub strip_at_min: Vec<f64>,
    /// Look at the colour, with a photo, at these.
    pub photo_at_min: Vec<f64>,
    /// Stop the bath; none for one that runs until the person says.
    pub stop_at_min: Option<f64>,
}

record!(Schedule {
    stir_every_min,
    reheat_every_min,
    ph_at_min: blank,
    strip_at_min: blank,
    photo_at_min: blank,
    stop_at_min,
});

/// What a cue asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum CueKind {
    Stir,
    Reheat,
    Ph,
    Strip,
    Photo,
    Stop,
}

impl CueKind {
    /// The kind as ids, files and locale keys have it: `"stir"`.
    pub fn key(self) -> &'static str {
        match self {
            CueKind::Stir => "stir",
            CueKind::Reheat => "reheat",
            CueKind::Ph => "ph",
            CueKind::Strip => "strip",
            CueKind::Photo => "photo",
            CueKind::Stop => "stop",
        }
    }
}

/// The shortest interval at which a cue may recur, in minutes.
pub const SHORTEST_EVERY_MIN: f64 = 0.5;

/// The longest time from the start that can be cued: 30 days, in minutes.
const LONGEST_MIN: f64 = 30.0 * 24.0 * 60.0;

impl Schedule {
    /// Whether every interval and instant in it can be kept.
    ///
    /// # Errors
    /// `refusal-cue-every` beside `stir_every` or `reheat_every`, for an
    /// interval under [`SHORTEST_EVERY_MIN`]; `refusal-cue-minute` beside
    /// `ph_at`, `strip_at`, `photo_at` or `stop_at`, for a time that is not
    /// more than nothing and at most 30 days. Values: `least` or `most`.
    pub fn check(&self) -> Result<(), Message> {
        for (field, every) in
            [("stir_every", self.stir_every_min), ("reheat_every", self.reheat_every_min)]
        {
            if every.is_some_and(|m| kept_interval(m).is_none()) {
                return Err(Message::new("refusal-cue-every")
                    .beside(Field(field))
                    .with("least", Value::Minutes(SHORTEST_EVERY_MIN))
                    .with("most", Value::Minutes(LONGEST_MIN)));
            }
        }
        let stop: Vec<f64> = self.stop_at_min.into_iter().collect();
        for (field, minutes) in [
            ("ph_at", &self.ph_at_min),
            ("strip_at", &self.strip_at_min),
            ("photo_at", &self.photo_at_min),
            ("stop_at", &stop),
        ] {
            if minutes.iter().any(|m| kept_second(*m).is_none()) {
                return Err(Message::new("refusal-cue-minute")
                    .beside(Field(field))
                    .with("most", Value::Minutes(LONGEST_MIN)));
            }
        }
        Ok(())
    }

    /// What it cues, and at which second from the start. Cues that recur are
    /// counted out up to the stop; where there is none, up to the first one
    /// after `horizon_s`. What [`Schedule::check`] refuses is left out.
    pub(super) fn seconds(&self, horizon_s: i64) -> Vec<(CueKind, i64)> {
        let stop = self.stop_at_min.and_then(kept_second);
        let mut found = Vec::new();
        for (what, every) in
            [(CueKind::Stir, self.stir_every_min), (CueKind::Reheat, self.reheat_every_min)]
        {
            let Some(every) = every.and_then(kept_interval) else { continue };
            let mut count = 1.0;
            loop {
                let second = (every * 60.0 * count).round() as i64;
                if second > (LONGEST_MIN * 60.0) as i64 {
                    break;
                }
                found.push((what, second));
                if second > stop.unwrap_or(horizon_s) {
                    break;
                }
                count += 1.0;
            }
        }
        for (what, minutes) in [
            (CueKind::Ph, &self.ph_at_min),
            (CueKind::Strip, &self.strip_at_min),
            (CueKind::Photo, &self.photo_at_min),
        ] {
            found.extend(
                minutes.iter().filter_map(|m| kept_second(*m)).map(|second| (what, second)),
            );
        }
        if let Some(stop) = stop {
            // A check may be asked for at the stop itself; stirring then is idle.
            found.retain(|(what, second)| match what {
                CueKind::Stir | CueKind::Reheat => *second < stop,
                _ => *second <= stop,
            });
            found.push((CueKind::Stop, stop));
        }
        found
    }
}

fn kept_interval(minutes: f64) -> Option<f64> {
    (SHORTEST_EVERY_MIN..=LONGEST_MIN).contains(&minutes).then_some(minutes)
}

fn kept_second(minutes: f64) -> Option<i64> {
    (minutes > 0.0 && minutes <= LONGEST_MIN).then(|| (minutes * 60.0).round() as i64)
}
