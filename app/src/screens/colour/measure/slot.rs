//! The five things that can be marked, and where their marks begin.

use bleachfield_core::{
    colour::PatchRole,
    journal::{Body, ColourReading},
};

use super::MeasureState;
use crate::worker::{PatchMark, PhotoAnalysis};

/// How many things can be marked.
pub const COUNT: usize = 5;
/// The two that are marked in every photo.
pub const WHITE: usize = 0;
pub const PULP: usize = 3;
pub const SECOND_WHITE: usize = 1;
pub const GREY: usize = 2;
pub const SECOND_PULP: usize = 4;

/// What each slot marks.
const PLACES: [PatchRole; COUNT] =
    [PatchRole::White, PatchRole::SecondWhite, PatchRole::Grey, PatchRole::Pulp, PatchRole::Pulp];

/// Locale keys under `swatch.mark`.
pub const KEYS: [&str; COUNT] = ["white", "second_white", "grey", "pulp", "second_pulp"];

/// Where marks lie when nothing tells better.
const DEFAULT: [(f64, f64); COUNT] = [(0.2, 0.2), (0.8, 0.2), (0.5, 0.2), (0.5, 0.65), (0.8, 0.65)];
const RADIUS: f64 = 0.07;
/// A thirtieth of the long side is the least that is measured.
pub const LEAST: f64 = 0.025;
pub const MOST: f64 = 0.3;

/// The marks that there are.
#[derive(Clone, Copy, Default, PartialEq)]
pub struct Slots(pub [Option<PatchMark>; COUNT]);

impl Slots {
    /// All marks, for the worker.
    pub fn marks(&self) -> Vec<PatchMark> {
        self.0.iter().flatten().copied().collect()
    }
}

/// Where a slot's mark begins: as proposed, else in the middle of its own region.
pub fn begin(slot: usize, looked: &PhotoAnalysis) -> PatchMark {
    let place = PLACES[slot];
    let proposed = looked.proposed.iter().find(|mark| mark.place == place);
    let (x, y) = DEFAULT[slot];
    match proposed {
        Some(mark) if slot <= PULP => *mark,
        _ => PatchMark { place, x, y, radius: RADIUS },
    }
}

/// The marks as they are when the photo opens: where it was measured before, as it was
/// then; else what was found; else, where a white was found at all, as in the last photo.
pub fn first(measuring: MeasureState, looked: &PhotoAnalysis) -> Slots {
    if let Some((_, reading)) = measuring.before() {
        return of_reading(&reading);
    }
    let mut slots = found(looked);
    if slots.0[PULP].is_none() {
        slots.0[PULP] = last(measuring).and_then(|last| last.0[PULP]);
    }
    if slots.0[PULP].is_none() {
        slots.0[PULP] = Some(begin(PULP, looked));
    }
    slots
}

/// What was found in the photo.
pub fn found(looked: &PhotoAnalysis) -> Slots {
    let mut slots = Slots::default();
    for mark in &looked.proposed {
        if let Some(slot) = PLACES.iter().position(|place| *place == mark.place) {
            slots.0[slot] = Some(*mark);
        }
    }
    slots
}

/// The marks of the colour last measured, in this batch or any.
pub fn last(measuring: MeasureState) -> Option<Slots> {
    let reading = |body: &Body| match body {
        Body::ColourReading(c) if !c.patches.is_empty() => Some(of_reading(c)),
        _ => None,
    };
    measuring.studio.book_now(|book| {
        let own = book.batches.get(&measuring.batch)?;
        own.visible_entries().rev().find_map(|told| reading(&told.body)).or_else(|| {
            let batches = book.batches_by_change();
            batches
                .iter()
                .find_map(|b| b.visible_entries().rev().find_map(|told| reading(&told.body)))
        })
    })
}

/// The marks that a reading was made with.
fn of_reading(reading: &ColourReading) -> Slots {
    let mut slots = Slots::default();
    for patch in &reading.patches {
        let role = patch.role.as_str();
        if let Some(slot) = PLACES.iter().position(|place| <&str>::from(*place) == role) {
            let (x, y, radius) = (patch.centre_x, patch.centre_y, patch.radius);
            slots.0[slot] = Some(PatchMark { place: PLACES[slot], x, y, radius });
        }
    }
    slots
}
