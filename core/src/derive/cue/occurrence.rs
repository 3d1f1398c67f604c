//! Kinds of cue, and at which seconds of a bath a schedule asks for each.

use crate::journal::{LONGEST_CUE_MIN, Schedule, is_valid_instant, is_valid_interval};
use strum::IntoStaticStr;

/// What a cue asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum CueKind {
    Stir,
    /// Check the temperature and reheat.
    Reheat,
    /// Read the pH.
    Ph,
    /// Dip a chlorine or peroxide strip.
    Strip,
    /// Take a colour photo.
    Photo,
    Stop,
}

/// What a person does at the bath to answer cues: those that fall together are answered by one
/// act. The most urgent first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum CueAct {
    Stop,
    Stir,
    /// Readings and a photo, entered in one go.
    Check,
}

impl CueKind {
    pub fn act(self) -> CueAct {
        match self {
            Self::Stop => CueAct::Stop,
            Self::Stir => CueAct::Stir,
            Self::Reheat | Self::Ph | Self::Strip | Self::Photo => CueAct::Check,
        }
    }

    /// The kind as cue ids, files and locale keys have it: `"stir"`.
    pub fn key(self) -> &'static str {
        self.into()
    }
}

/// The cues of `schedule` with their seconds from the start, unordered.
///
/// Recurring cues are listed up to the stop; without a stop, up to the first
/// one after `horizon_s`. Intervals and instants that [`Schedule::check`]
/// refuses are left out.
pub(super) fn occurrences(schedule: &Schedule, horizon_s: i64) -> Vec<(CueKind, i64)> {
    let stop = schedule.stop_at_min.and_then(to_second);
    let mut found = Vec::new();
    for (kind, interval) in
        [(CueKind::Stir, schedule.stir_every_min), (CueKind::Reheat, schedule.reheat_every_min)]
    {
        if let Some(minutes) = interval.filter(|minutes| is_valid_interval(*minutes)) {
            let last = stop.unwrap_or(horizon_s);
            found.extend(recurring(minutes, last).map(|second| (kind, second)));
        }
    }
    for (kind, instants) in [
        (CueKind::Ph, &schedule.ph_at_min),
        (CueKind::Strip, &schedule.strip_at_min),
        (CueKind::Photo, &schedule.photo_at_min),
    ] {
        found.extend(instants.iter().filter_map(|m| to_second(*m)).map(|second| (kind, second)));
    }
    if let Some(stop) = stop {
        // A reading may be asked for at the stop itself; stirring then has no use.
        found.retain(|(kind, second)| match kind {
            CueKind::Stir | CueKind::Reheat => *second < stop,
            _ => *second <= stop,
        });
        found.push((CueKind::Stop, stop));
    }
    found
}

/// Multiples of an interval in seconds, up to and including the first after
/// `last`, and none after [`LONGEST_CUE_MIN`].
fn recurring(interval_min: f64, last: i64) -> impl Iterator<Item = i64> {
    let mut before = None;
    (1_u32..)
        .map(move |n| (interval_min * 60.0 * f64::from(n)).round() as i64)
        .take_while(|second| *second <= (LONGEST_CUE_MIN * 60.0) as i64)
        .take_while(move |second| {
            let is_needed = before.is_none_or(|before| before <= last);
            before = Some(*second);
            is_needed
        })
}

fn to_second(minutes: f64) -> Option<i64> {
    is_valid_instant(minutes).then(|| (minutes * 60.0).round() as i64)
}
