//! The sound and vibration of each kind of cue: they differ, so that one knows across the room
//! what is due.

use bleachfield_core::derive::cue::CueKind;

use crate::platform::sound::Tone;

/// By urgency; the last is the loudest.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum CueTone {
    Check,
    Stir,
    Reheat,
    Stop,
}

impl CueTone {
    pub fn of(what: CueKind) -> Self {
        match what {
            CueKind::Stir => Self::Stir,
            CueKind::Reheat => Self::Reheat,
            CueKind::Ph | CueKind::Strip | CueKind::Photo => Self::Check,
            CueKind::Stop => Self::Stop,
        }
    }

    /// Stir: two rising tones, twice. Check: three even tones. Reheat: one long rising run. Stop:
    /// high and low in turn, longer.
    pub fn tones(self) -> &'static [Tone] {
        const E5: Tone = Tone { hertz: 660.0, seconds: 0.18, rest: 0.04 };
        const A5: Tone = Tone { hertz: 880.0, seconds: 0.3, rest: 0.4 };
        const C5: Tone = Tone { hertz: 523.0, seconds: 0.14, rest: 0.12 };
        const RUN: Tone = Tone { hertz: 392.0, seconds: 0.22, rest: 0.0 };
        const HIGH: Tone = Tone { hertz: 988.0, seconds: 0.3, rest: 0.05 };
        const LOW: Tone = Tone { hertz: 740.0, ..HIGH };
        match self {
            Self::Stir => &[E5, A5, E5, Tone { rest: 0.0, ..A5 }],
            Self::Check => &[C5, C5, C5],
            Self::Reheat => &[
                RUN,
                Tone { hertz: 494.0, ..RUN },
                Tone { hertz: 587.0, ..RUN },
                Tone { hertz: 784.0, seconds: 0.5, ..RUN },
            ],
            Self::Stop => &[HIGH, LOW, HIGH, LOW, HIGH, Tone { seconds: 0.5, rest: 0.0, ..LOW }],
        }
    }

    /// Vibration and pause in turn, ms.
    pub fn vibration_ms(self) -> &'static [u32] {
        match self {
            Self::Stir => &[200, 100, 200],
            Self::Check => &[120, 80, 120, 80, 120],
            Self::Reheat => &[600],
            Self::Stop => &[500, 150, 500, 150, 500],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_two_kinds_sound_or_feel_alike() {
        let all = [CueTone::Check, CueTone::Stir, CueTone::Reheat, CueTone::Stop];
        let heard = |tone: CueTone| -> Vec<(f32, f64)> {
            tone.tones().iter().map(|t| (t.hertz, t.seconds)).collect()
        };
        for (nth, one) in all.iter().enumerate() {
            for other in &all[nth + 1..] {
                assert_ne!(heard(*one), heard(*other), "{one:?} {other:?}");
                assert_ne!(one.vibration_ms(), other.vibration_ms(), "{one:?} {other:?}");
            }
        }
    }
}
