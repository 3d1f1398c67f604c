//! A batch's swatches with their time in bleach.

use bleachfield_core::{
    colour::shift::Dryness,
    derive::{Swatch, swatches},
    journal::Batch,
};
use jiff::Timestamp;

use crate::{
    i18n::{fixed, key, t, t_with},
    platform::clock,
};

#[derive(Clone, PartialEq)]
pub struct TimedSwatch {
    pub swatch: Swatch,
    /// Minutes in all baths before it; `None` without a bath and after the last.
    pub minutes: Option<f64>,
}

impl TimedSwatch {
    /// The swatches of a batch, oldest first.
    pub fn all_of(batch: &Batch) -> Vec<Self> {
        let timed = |swatch: Swatch| Self { minutes: minutes_in_bleach(batch, swatch.at), swatch };
        swatches(batch).into_iter().map(timed).collect()
    }

    pub fn dryness(&self) -> Dryness {
        self.swatch.reading.pulp.into()
    }

    /// Minutes in bleach, or the date.
    pub fn when(&self) -> String {
        match self.minutes {
            Some(0.0) => t!("swatch-before"),
            Some(minutes) => t_with!("swatch-minutes", &[("n", &fixed(minutes, 0))]),
            None => clock::local_date(self.swatch.at),
        }
    }

    /// One line.
    pub fn line(&self) -> String {
        let aged = self.swatch.reading.ageing.map(|ageing| format!(", {}", t(ageing.key())));
        self.line_of(&format!("{}{}", t(self.dryness().key()), aged.unwrap_or_default()))
    }

    /// One short line, for a list whose choice is cut where it is too long.
    pub fn short_line(&self) -> String {
        let is_aged = self.swatch.reading.ageing.is_some();
        self.line_of(&if is_aged { t!("swatch-aged") } else { t(self.dryness().key()) })
    }

    fn line_of(&self, state: &str) -> String {
        let lightness = fixed(self.swatch.reading.lightness.value, 0);
        format!("{} · {state} · L* {lightness}", self.when())
    }
}

/// Minutes in all baths up to `at`; `None` if the last had ended by then.
fn minutes_in_bleach(batch: &Batch, at: Timestamp) -> Option<f64> {
    let last = batch.baths.last()?;
    if last.stopped.is_some_and(|stopped| stopped.at < at) {
        return None;
    }
    let started = batch.baths.iter().filter(|bath| bath.started <= at);
    let minutes = started
        .map(|bath| bath.elapsed(at).min(at.duration_since(bath.started)).as_secs_f64() / 60.0);
    Some(minutes.sum())
}

/// When a dried swatch is to be measured again.
pub fn recheck_text(due: Timestamp, now: Timestamp) -> String {
    let key = if due <= now { key!("swatch-ageing-due") } else { key!("swatch-ageing-next") };
    t_with(key, &[("day", &clock::local_date(due))])
}
