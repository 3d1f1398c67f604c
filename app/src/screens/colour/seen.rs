//! A batch's swatches as its colour screens speak of them.

use bleachfield_core::{
    colour::shift::Dryness,
    derive::{Swatch, swatches},
    journal::Batch,
};
use jiff::Timestamp;

use super::figures::plain;
use crate::{
    i18n::{key, t, t_with},
    platform::clock,
};

/// A swatch and how long the pulp had been in bleach by then.
#[derive(Clone, PartialEq)]
pub struct TimedSwatch {
    pub swatch: Swatch,
    /// Minutes in all baths up to then; `None` where there was none, and after the last.
    pub minutes: Option<f64>,
}

/// The swatches of a batch, oldest first.
pub fn all(batch: &Batch) -> Vec<TimedSwatch> {
    let seen = |swatch: Swatch| TimedSwatch { minutes: bleached(batch, swatch.at), swatch };
    swatches(batch).into_iter().map(seen).collect()
}

/// Minutes in all baths up to an instant; `None` where the last of them was over by then.
fn bleached(batch: &Batch, at: Timestamp) -> Option<f64> {
    let last = batch.baths.last()?;
    if last.stopped.is_some_and(|stopped| stopped.at < at) {
        return None;
    }
    let begun = batch.baths.iter().filter(|bath| bath.started <= at);
    Some(
        begun
            .map(|bath| bath.elapsed(at).min(at.duration_since(bath.started)).as_secs_f64() / 60.0)
            .sum(),
    )
}

impl TimedSwatch {
    pub fn dryness(&self) -> Dryness {
        self.swatch.reading.pulp.into()
    }

    /// When it was, short: minutes in the bath, or the date.
    pub fn when(&self) -> String {
        match self.minutes {
            Some(0.0) => t!("swatch-before"),
            Some(minutes) => t_with!("swatch-minutes", &[("n", &plain(minutes, 0))]),
            None => clock::local_date(self.swatch.at),
        }
    }

    /// All of it in a short line, for a list to choose from.
    pub fn line(&self) -> String {
        let reading = &self.swatch.reading;
        let lightness = plain(reading.lightness.value, 0);
        let state = t(self.dryness().key());
        let aged = reading.ageing.map(|ageing| format!(", {}", t(ageing.key())));
        format!("{} · {state}{} · L* {lightness}", self.when(), aged.unwrap_or_default())
    }
}

/// When a dried swatch is to be looked at again.
pub fn look_told(due: Timestamp, now: Timestamp) -> String {
    let key = if due <= now { key!("swatch-ageing-due") } else { key!("swatch-ageing-next") };
    t_with(key, &[("day", &clock::local_date(due))])
}
