//! Recommended temperature, time and pH of a bath, and the suggested schedule.

use super::request::PlanRequest;
use crate::{chemistry::Oxidant, quantity::Celsius};

/// Hottest hypochlorite bath, °C: above it the caution is a danger, so that no window may end
/// higher (own estimate; decomposition and fibre damage accelerate above 45 °C).
pub const HYPOCHLORITE_HOTTEST: f64 = 60.0;

/// Recommendations of practice and literature for one oxidant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guide {
    pub temperature: RecommendedRange,
    pub minutes: RecommendedRange,
}

/// The customary range, and that of the literature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RecommendedRange {
    pub practice: (f64, f64),
    pub practice_source: &'static str,
    pub literature: (f64, f64),
    pub literature_source: &'static str,
}

/// The recommendations for an oxidant: °C and minutes. That for pH is
/// [`PhWindow`](crate::chemistry::alkali::PhWindow).
pub fn guide(oxidant: Oxidant) -> Guide {
    const PRACTICE: &str = "common practice, no source";
    let window = |practice, literature, literature_source| RecommendedRange {
        practice,
        practice_source: PRACTICE,
        literature,
        literature_source,
    };
    match oxidant {
        // Studios go to 70 °C (common practice); cut at the limit of the caution.
        Oxidant::Hypochlorite => {
            let source = "Smook; Rydholm (from memory)";
            Guide {
                temperature: window((35.0, HYPOCHLORITE_HOTTEST), (30.0, 45.0), source),
                minutes: window((30.0, 90.0), (60.0, 180.0), source),
            }
        }
        Oxidant::Percarbonate | Oxidant::Peroxide => {
            let source = "interpolated from published peroxide stages (from memory)";
            Guide {
                temperature: window((35.0, 70.0), (40.0, 60.0), source),
                minutes: window((30.0, 90.0), (120.0, 360.0), source),
            }
        }
    }
}

/// The suggested schedule, in minutes from the start of the bath.
#[derive(Clone, Debug, PartialEq)]
pub struct SuggestedSchedule {
    pub minutes: f64,
    /// In order of time; the last is the stop.
    pub cues: Vec<SuggestedCue>,
    /// The bath is reheated when it is colder than this.
    pub reheat_below: Celsius,
}

/// One cue.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SuggestedCue {
    pub minute: f64,
    pub task: CueTask,
}

/// The task of a cue, in the order of tasks at the same time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CueTask {
    Stir,
    /// Colour, strip, pH.
    Check,
    Reheat,
    Stop,
}

impl SuggestedSchedule {
    pub(super) fn new(request: &PlanRequest) -> Self {
        let (oxidant, at) = (request.bleach.oxidant(), request.temperature);
        let minutes = request.minutes.unwrap_or(60.0);
        // Common practice, no source: stir every ten minutes and check at every
        // second or third stir; every half hour in baths of many hours.
        let stir = if minutes <= 180.0 { 10.0 } else { 30.0 };
        let check = match oxidant {
            Oxidant::Hypochlorite => 2.0 * stir,
            Oxidant::Percarbonate | Oxidant::Peroxide => 3.0 * stir,
        };
        let reheat_below = reheat_below(oxidant, at);
        let mut cues = Vec::new();
        cues.extend(every(stir, minutes, CueTask::Stir));
        cues.extend(every(check, minutes, CueTask::Check));
        if let Some(cooling) = &request.cooling
            && let Some(hours) = cooling.hours_until_below(at, reheat_below)
            && hours.value > 1.0 / 12.0
        {
            cues.extend(every(hours.value * 60.0, minutes, CueTask::Reheat));
        }
        cues.sort_by(|a, b| a.minute.total_cmp(&b.minute).then(a.task.cmp(&b.task)));
        cues.push(SuggestedCue { minute: minutes, task: CueTask::Stop });
        Self { minutes, cues, reheat_below }
    }
}

/// Largest and smallest fall before a bath is reheated, °C: 5 is common practice (no source);
/// less than 3 is within the error of a kitchen thermometer.
const REHEAT_AFTER: (f64, f64) = (5.0, 3.0);

/// The temperature below which a bath planned at `at` is reheated: 5 °C below it; at the literature's minimum, if that is reached before.
pub fn reheat_below(oxidant: Oxidant, at: Celsius) -> Celsius {
    let least = guide(oxidant).temperature.literature.0;
    let (most, few) = REHEAT_AFTER;
    let below = (at.get() - most).max(least.min(at.get() - few)).max(0.0);
    Celsius::new(below).unwrap_or(at)
}

/// Cues every `step` minutes, up to half a minute before the end.
fn every(step: f64, minutes: f64, task: CueTask) -> impl Iterator<Item = SuggestedCue> {
    (1u32..)
        .map(move |n| SuggestedCue { minute: step * f64::from(n), task })
        .take_while(move |cue| cue.minute < minutes - 0.5)
}
