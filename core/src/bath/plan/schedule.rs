//! What is usual for a bath: temperature, time, pH, and when to look at it.

use super::{super::Oxidant, PlanRequest};
use crate::quantity::Celsius;

/// What practice and the literature say, in their own terms.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guide {
    pub temperature: RecommendedRange,
    pub minutes: RecommendedRange,
    pub ph: RecommendedRange,
}

/// A usual range, and what the literature prefers where it differs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RecommendedRange {
    pub practice: (f64, f64),
    pub practice_source: &'static str,
    pub literature: (f64, f64),
    pub literature_source: &'static str,
}

/// The guide for an oxidant: °C, minutes, pH.
pub fn guide(oxidant: Oxidant) -> Guide {
    const PRACTICE: &str = "common practice, no source";
    let window = |practice, literature, literature_source| RecommendedRange {
        practice,
        practice_source: PRACTICE,
        literature,
        literature_source,
    };
    match oxidant {
        // Loss and damage speed up above 45 °C.
        Oxidant::Hypochlorite => {
            let source = "Smook; Rydholm (from memory)";
            Guide {
                temperature: window((35.0, 70.0), (30.0, 45.0), source),
                minutes: window((30.0, 90.0), (60.0, 180.0), source),
                ph: window((9.5, 11.0), (10.5, 11.5), source),
            }
        }
        Oxidant::Percarbonate | Oxidant::Peroxide => {
            let source = "interpolated from published peroxide stages (from memory)";
            Guide {
                temperature: window((35.0, 70.0), (40.0, 60.0), source),
                minutes: window((30.0, 90.0), (120.0, 360.0), source),
                ph: window((9.5, 11.0), (10.5, 11.0), source),
            }
        }
    }
}

/// When to do what, counted from the start of the bath. A suggestion.
#[derive(Clone, Debug, PartialEq)]
pub struct Schedule {
    pub minutes: f64,
    /// In order of time; the last is the stop.
    pub cues: Vec<Cue>,
    /// The bath falls below this before it is reheated.
    pub reheat_below: Celsius,
}

/// One thing to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cue {
    pub minute: f64,
    pub kind: CueKind,
}

/// What a cue asks for, in the order they are given when they fall together.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CueKind {
    Stir,
    /// Colour, strip, pH.
    Check,
    Reheat,
    Stop,
}

impl Schedule {
    pub(super) fn suggest(oxidant: Oxidant, at: Celsius, request: &PlanRequest) -> Self {
        let minutes = request.minutes.unwrap_or(60.0);
        // Common practice, no source: stir every ten minutes and look at every
        // second stir; an hour or more apart for baths of many hours.
        let stir = if minutes <= 180.0 { 10.0 } else { 30.0 };
        let look = match oxidant {
            Oxidant::Hypochlorite => 2.0 * stir,
            Oxidant::Percarbonate | Oxidant::Peroxide => 3.0 * stir,
        };
        let reheat_below = reheat_below(oxidant, at);
        let mut cues = Vec::with_capacity((minutes / stir) as usize * 2 + 4);
        every(stir, minutes, CueKind::Stir, &mut cues);
        every(look, minutes, CueKind::Check, &mut cues);
        if let Some(cooling) = &request.cooling
            && let Some(hours) = cooling.hours_until_below(at, reheat_below)
            && hours.value > 1.0 / 12.0
        {
            every(hours.value * 60.0, minutes, CueKind::Reheat, &mut cues);
        }
        cues.sort_by(|a, b| a.minute.total_cmp(&b.minute).then(a.kind.cmp(&b.kind)));
        cues.push(Cue { minute: minutes, kind: CueKind::Stop });
        Self { minutes, cues, reheat_below }
    }
}

/// Five degrees below what was asked, but not below the lower end of what is
/// usual.
fn reheat_below(oxidant: Oxidant, at: Celsius) -> Celsius {
    let least = guide(oxidant).temperature.literature.0;
    let below = (at.get() - 5.0).max(least.min(at.get() - 1.0)).max(0.0);
    Celsius::new(below).unwrap_or(at)
}

fn every(step: f64, minutes: f64, kind: CueKind, cues: &mut Vec<Cue>) {
    let mut n = 1.0;
    while step * n < minutes - 0.5 {
        cues.push(Cue { minute: step * n, kind });
        n += 1.0;
    }
}
