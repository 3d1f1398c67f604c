//! The readings of a batch over its time in bleach, for a chart of the whole run.
//! Not here: what is predicted, which is `forecast_of_bath`.

use jiff::Timestamp;
use ulid::Ulid;

use super::swatch::swatches;
use crate::journal::{Batch, Body, EndTestOf, Figure, PulpState, ReadingOf};

/// Readings and acts of a batch, in the order of time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RunOfBatch {
    pub readings: Vec<RunReading>,
    /// Acts in its baths.
    pub marks: Vec<RunMark>,
    /// Minutes in all its baths, until the last was stopped or until now.
    pub minutes: f64,
}

/// A quantity that is followed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RunQuantity {
    Lightness,
    Yellowness,
    Ph,
    /// °C.
    Temperature,
    /// Chlorine or peroxide by strip, mg/L.
    Strip,
}

impl RunQuantity {
    pub const ALL: [Self; 5] =
        [Self::Lightness, Self::Yellowness, Self::Ph, Self::Temperature, Self::Strip];
}

#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunReading {
    pub of: RunQuantity,
    pub time: RunTime,
    pub figure: Figure,
    /// Of a colour.
    pub pulp: PulpState,
    /// Its entry.
    pub entry: Ulid,
}

/// When something was read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunTime {
    Before,
    /// Minutes in all baths up to then; between two baths, those of the ones before.
    InBleach(f64),
    /// After the last bath: its place among what was read then, from 1.
    After(u32),
}

/// An act in a bath.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunMark {
    pub minutes: f64,
    pub act: RunAct,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RunAct {
    Stirred,
    Reheated,
    Added,
    Stopped,
}

impl RunOfBatch {
    pub fn of(batch: &Batch, now: Timestamp) -> Self {
        let clock = BathClock { batch };
        let mut raw = readings(batch);
        raw.sort_by_key(|(at, ..)| *at);
        let (mut after, mut last) = (0, None);
        let readings = raw.into_iter().map(|(at, of, figure, pulp, entry)| {
            let time = clock.time(at, || {
                // What was read in one act stands at one place.
                if last != Some(at) {
                    (after, last) = (after + 1, Some(at));
                }
                after
            });
            RunReading { of, time, figure, pulp, entry }
        });
        Self {
            readings: readings.collect(),
            marks: marks(batch, &clock),
            minutes: clock.minutes(now),
        }
    }

    /// The readings of a quantity.
    pub fn of_quantity(&self, of: RunQuantity) -> impl Iterator<Item = &RunReading> {
        self.readings.iter().filter(move |reading| reading.of == of)
    }
}

struct BathClock<'a> {
    batch: &'a Batch,
}

impl BathClock<'_> {
    /// Minutes in all baths up to an instant.
    fn minutes(&self, at: Timestamp) -> f64 {
        let started = self.batch.baths.iter().filter(|bath| bath.started <= at);
        let minutes = started
            .map(|bath| bath.elapsed(at).min(at.duration_since(bath.started)).as_secs_f64() / 60.0);
        minutes.sum()
    }

    fn time(&self, at: Timestamp, after: impl FnOnce() -> u32) -> RunTime {
        let baths = &self.batch.baths;
        if baths.iter().all(|bath| at < bath.started) {
            return RunTime::Before;
        }
        // A photo of the end is taken a moment after the stop.
        let ended = baths.last().and_then(|bath| bath.stopped).is_some_and(|stop| stop.at < at);
        if ended { RunTime::After(after()) } else { RunTime::InBleach(self.minutes(at)) }
    }
}

type RawReading = (Timestamp, RunQuantity, Figure, PulpState, Ulid);

fn readings(batch: &Batch) -> Vec<RawReading> {
    let mut found = Vec::new();
    for swatch in swatches(batch).into_iter().filter(|swatch| swatch.reading.ageing.is_none()) {
        let pulp = swatch.reading.pulp;
        let mut add = |of, figure| found.push((swatch.at, of, figure, pulp, swatch.entry));
        add(RunQuantity::Lightness, swatch.reading.lightness);
        if let Some(yellowness) = swatch.reading.yellowness {
            add(RunQuantity::Yellowness, yellowness);
        }
    }
    for entry in batch.visible_entries() {
        let mut add = |of, figure: Option<Figure>| {
            let figure = figure.map(|f| (entry.at, of, f, PulpState::Wet, entry.entry.id));
            found.extend(figure);
        };
        match &entry.body {
            Body::Reading(reading) => match reading.what {
                ReadingOf::Ph => add(RunQuantity::Ph, reading.figure),
                ReadingOf::Celsius => add(RunQuantity::Temperature, reading.figure),
                ReadingOf::AvailableChlorineMgPerL | ReadingOf::PeroxideMgPerL => {
                    add(RunQuantity::Strip, reading.figure);
                }
                _ => {}
            },
            Body::BathStarted(started) => add(RunQuantity::Temperature, started.celsius),
            Body::Reheated(reheated) => add(RunQuantity::Temperature, reheated.to_celsius),
            Body::Rinsed(rinse) => {
                add(RunQuantity::Ph, rinse.ph);
                add(RunQuantity::Strip, rinse.strip_mg_per_l);
            }
            Body::Antichlored(antichlor) => add(RunQuantity::Strip, antichlor.strip_mg_per_l),
            Body::AcidFinished(acid) => add(RunQuantity::Ph, acid.ph_after),
            Body::EndTest(test) => match test.test {
                EndTestOf::ChlorineStrip | EndTestOf::PeroxideStrip => {
                    add(RunQuantity::Strip, test.figure);
                }
                EndTestOf::LastRinsePh => add(RunQuantity::Ph, test.figure),
                _ => {}
            },
            _ => {}
        }
    }
    found
}

fn marks(batch: &Batch, clock: &BathClock<'_>) -> Vec<RunMark> {
    let marks = batch.visible_entries().filter_map(|entry| {
        let act = match &entry.body {
            Body::Stirred(_) => RunAct::Stirred,
            Body::Reheated(_) => RunAct::Reheated,
            Body::Added(added) if added.bath.is_some() => RunAct::Added,
            Body::BathStopped(_) => RunAct::Stopped,
            _ => return None,
        };
        Some(RunMark { minutes: clock.minutes(entry.at), act })
    });
    marks.collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::derive::sample::{book, exact, reading};
    use crate::journal::sample::bath_started;
    use crate::journal::{BathStopped, Oxidant, Stirred, StopReason};

    const BATH: Ulid = Ulid(7);

    /// One entry a minute.
    fn run(bodies: Vec<Body>) -> RunOfBatch {
        let book = book(bodies);
        let batch = book.batches.values().next().unwrap();
        RunOfBatch::of(batch, batch.changed)
    }

    fn start() -> Body {
        Body::BathStarted(bath_started(BATH, Oxidant::Hypochlorite))
    }

    fn stop() -> Body {
        let why = StopReason::TimeUp;
        Body::BathStopped(BathStopped { bath: BATH, why, note: String::new() })
    }

    fn ph(value: f64) -> Body {
        reading(ReadingOf::Ph, exact(value))
    }

    #[test]
    fn readings_stand_at_their_minutes_in_bleach() {
        let stir = Body::Stirred(Stirred { bath: BATH });
        let run = run(vec![ph(9.0), start(), ph(10.5), stir, stop(), ph(8.0), ph(7.5)]);
        let times: Vec<RunTime> = run.of_quantity(RunQuantity::Ph).map(|r| r.time).collect();
        use RunTime::{After, Before, InBleach};
        assert_eq!(times, [Before, InBleach(1.0), After(1), After(2)]);
        let stirred = RunMark { minutes: 2.0, act: RunAct::Stirred };
        assert_eq!(run.marks, [stirred, RunMark { minutes: 3.0, act: RunAct::Stopped }]);
        assert!((run.minutes - 3.0).abs() < 1e-9);
    }

    #[test]
    fn a_batch_without_a_bath_has_only_what_was_before() {
        let run = run(vec![ph(9.0)]);
        assert_eq!(run.readings[0].time, RunTime::Before);
        assert_eq!((run.minutes, run.marks.len()), (0.0, 0));
    }
}
