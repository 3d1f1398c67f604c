//! A batch's swatches as its colour screens speak of them.

use bleachfield_core::{
    colour::shift::Dryness,
    journal::{Batch, Swatch, swatches},
};
use jiff::Timestamp;

use super::figures::plain;
use crate::{
    device::clock,
    locale::{word, words},
    screen::batches::name_of,
};

/// A swatch and how long the pulp had been in bleach by then.
#[derive(Clone, PartialEq)]
pub struct Seen {
    pub swatch: Swatch,
    /// Minutes in all baths up to then; `None` before the first or after the last.
    pub minutes: Option<f64>,
}

/// The swatches of a batch, oldest first.
pub fn all(batch: &Batch) -> Vec<Seen> {
    let now = clock::now();
    let before = |id: ulid::Ulid| {
        let earlier = batch.baths.iter().take_while(|bath| bath.id != id);
        earlier.map(|bath| bath.elapsed(now).as_secs_f64() / 60.0).sum::<f64>()
    };
    let seen = |swatch: Swatch| {
        let minutes =
            swatch.reading.bath.zip(swatch.minutes).map(|(bath, minutes)| before(bath) + minutes);
        Seen { swatch, minutes }
    };
    swatches(batch).into_iter().map(seen).collect()
}

impl Seen {
    pub fn dryness(&self) -> Dryness {
        self.swatch.reading.pulp.into()
    }

    /// When it was, short: minutes in the bath, or the date.
    pub fn when(&self) -> String {
        match self.minutes {
            Some(minutes) => words("swatch.minutes", &[("n", &plain(minutes, 0))]),
            None => day(self.swatch.at),
        }
    }

    /// All of it in a line, for a list to choose from.
    pub fn line(&self) -> String {
        let reading = &self.swatch.reading;
        let state = name_of("pulp_state", &reading.pulp);
        let lightness = plain(reading.lightness.value, 0);
        let when = clock::local(self.swatch.at);
        let state = reading.ageing.map_or(state.clone(), |a| format!("{state}, {}", word(a.key())));
        format!("{when} · {state} · L* {lightness}")
    }
}

fn day(at: Timestamp) -> String {
    clock::local_date(at)
}
