//! Colour readings of a batch: over time, wet beside dried, fresh beside aged.
//! Not here: the record of one reading, which is `colour_reading`.

use crate::colour::difference::{ColourDifference, unrelated};
use crate::colour::reversion::{Ageing, post_colour_number};
use crate::colour::shift::DryingShift;
use crate::journal::{
    Batch, Body, ColourReading, ColourTarget, DeviceId, Figure, PhotoId, PulpState, TimelineEntry,
};
use crate::quantity::Estimate;
use jiff::{SignedDuration, Timestamp};
use ulid::Ulid;

/// A colour reading of a batch.
#[derive(Clone, Debug, PartialEq)]
pub struct Swatch {
    /// Its entry.
    pub entry: Ulid,
    /// When its photo was taken; when it was measured, if the book has no such photo.
    pub at: Timestamp,
    /// Minutes from the start of its bath, if it was taken in one.
    pub minutes: Option<f64>,
    pub reading: ColourReading,
    /// The device that measured it.
    pub device: DeviceId,
}

impl Swatch {
    /// L*, a*, b* with their ranges.
    pub fn figures(&self) -> [Figure; 3] {
        [self.reading.lightness, self.reading.a, self.reading.b]
    }

    /// The difference of a later swatch from this one: with the smaller ± of one camera only if
    /// one device measured both.
    pub fn difference_to(&self, later: &Self) -> ColourDifference {
        if self.device == later.device {
            self.reading.difference_to(&later.reading)
        } else {
            unrelated(self.figures(), later.figures())
        }
    }

    /// The photo that it was measured from.
    pub fn photo(&self) -> Option<&PhotoId> {
        self.reading.photo.as_ref()
    }
}

/// The colour readings of a batch, oldest first.
pub fn swatches(batch: &Batch) -> Vec<Swatch> {
    let taken = |photo: &PhotoId| {
        batch
            .visible_entries()
            .find(|entry| entry.body.photo() == Some(photo))
            .map(|entry| entry.at)
    };
    let swatch = |entry: &TimelineEntry| {
        let Body::ColourReading(reading) = &entry.body else { return None };
        let bath = reading.bath.and_then(|id| batch.baths.iter().find(|bath| bath.id == id));
        let at = reading.photo.as_ref().and_then(taken).unwrap_or(entry.at);
        Some(Swatch {
            entry: entry.entry.id,
            at,
            minutes: bath.map(|bath| at.duration_since(bath.started).as_secs_f64() / 60.0),
            reading: (**reading).clone(),
            device: entry.entry.device.clone(),
        })
    };
    let mut all: Vec<Swatch> = batch.visible_entries().filter_map(swatch).collect();
    all.sort_by_key(|swatch| swatch.at);
    all
}

/// The colour that the batch is bleached towards, if one was chosen.
pub fn colour_target(batch: &Batch) -> Option<ColourTarget> {
    batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::ColourTarget(target) => Some((**target).clone()),
        _ => None,
    })
}

/// The batch's own shift from wet to dried, fitted to dried readings that name the
/// wet or pressed reading of the same swatch. `None` if there is no such pair.
pub fn drying_shift(swatches: &[Swatch]) -> Option<DryingShift> {
    let linear = |swatch: &Swatch| swatch.reading.lab().to_xyz().to_linear();
    let pairs: Vec<_> = swatches
        .iter()
        .filter(|swatch| swatch.reading.pulp == PulpState::Dried)
        .filter_map(|dried| {
            let wet = earlier(swatches, dried)?;
            (wet.reading.pulp != PulpState::Dried).then(|| (linear(wet), linear(dried)))
        })
        .collect();
    DryingShift::learn(&pairs)
}

/// The reading that this one names as the earlier one of the same swatch.
fn earlier<'a>(swatches: &'a [Swatch], of: &Swatch) -> Option<&'a Swatch> {
    let id = of.reading.earlier?;
    swatches.iter().find(|swatch| swatch.entry == id)
}

/// A swatch measured again after ageing.
#[derive(Clone, Debug, PartialEq)]
pub struct AgedSwatch {
    pub fresh: Swatch,
    pub now: Swatch,
    pub ageing: Ageing,
    /// Days from the fresh reading to this one.
    pub days: f64,
    /// See [`post_colour_number`].
    pub post_colour: Option<f64>,
    /// CIEDE2000 since it was fresh.
    pub since_made: Estimate<f64>,
}

/// The swatches that were measured again after ageing, oldest first.
pub fn aged_swatches(swatches: &[Swatch]) -> Vec<AgedSwatch> {
    let blue = |swatch: &Swatch| swatch.reading.blue_index.map(|blue| blue.value / 100.0);
    swatches
        .iter()
        .filter_map(|now| {
            let fresh = earlier(swatches, now)?;
            Some(AgedSwatch {
                ageing: now.reading.ageing?,
                days: now.at.duration_since(fresh.at).as_hours() as f64 / 24.0,
                post_colour: blue(fresh).zip(blue(now)).and_then(|(b, a)| post_colour_number(b, a)),
                since_made: fresh.difference_to(now).delta_e00,
                fresh: fresh.clone(),
                now: now.clone(),
            })
        })
        .collect()
}

/// Days after its first dried reading at which a swatch is measured again: a week, a
/// month, three months, a year. Common practice, no source.
pub const RECHECK_DAYS: [i64; 4] = [7, 30, 90, 365];

/// When the batch's sheet should be measured again: the first of [`RECHECK_DAYS`] after
/// the first dried reading for which there is no later dried reading. `None` without a
/// dried reading, or if none is open.
pub fn next_recheck(swatches: &[Swatch]) -> Option<Timestamp> {
    let mut dried = swatches.iter().filter(|swatch| swatch.reading.pulp == PulpState::Dried);
    let fresh = dried.next()?.at;
    let last = dried.next_back().map_or(fresh, |swatch| swatch.at);
    RECHECK_DAYS
        .iter()
        .map(|days| fresh + SignedDuration::from_hours(24 * days))
        // A reading one day early counts.
        .find(|due| *due - SignedDuration::from_hours(24) > last)
}

#[cfg(test)]
mod tests;
