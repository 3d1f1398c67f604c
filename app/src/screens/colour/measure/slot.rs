//! The marks of a photo: five slots, and where their marks start.

use bleachfield_core::{
    colour::PatchRole,
    journal::{Body, ColourReading},
};

use super::MeasureState;
use crate::worker::{PatchMark, PhotoAnalysis};

pub const COUNT: usize = 5;
pub const WHITE: usize = 0;
pub const SECOND_WHITE: usize = 1;
pub const GREY: usize = 2;
pub const PULP: usize = 3;
pub const SECOND_PULP: usize = 4;

const ROLES: [PatchRole; COUNT] =
    [PatchRole::White, PatchRole::SecondWhite, PatchRole::Grey, PatchRole::Pulp, PatchRole::Pulp];

/// Locale keys under `swatch.mark`.
pub const KEYS: [&str; COUNT] = ["white", "second_white", "grey", "pulp", "second_pulp"];

/// Default centres, as fractions of width and height, and half side, as a fraction of the width.
const CENTRES: [(f64, f64); COUNT] = [(0.2, 0.2), (0.8, 0.2), (0.5, 0.2), (0.5, 0.65), (0.8, 0.65)];
const RADIUS: f64 = 0.07;

/// The marks in use.
#[derive(Clone, Copy, Default, PartialEq)]
pub struct Slots(pub [Option<PatchMark>; COUNT]);

impl Slots {
    pub fn marks(&self) -> Vec<PatchMark> {
        self.0.iter().flatten().copied().collect()
    }

    /// The marks found in the photo.
    pub fn detected(analysis: &PhotoAnalysis) -> Self {
        let mut slots = Self::default();
        for mark in &analysis.proposed {
            if let Some(slot) = ROLES.iter().position(|role| *role == mark.place) {
                slots.0[slot] = Some(*mark);
            }
        }
        slots
    }

    /// The marks when the photo opens: those it was measured with before; else those detected,
    /// with the pulp's as last used or at its default.
    pub fn initial(measuring: MeasureState, analysis: &PhotoAnalysis) -> Self {
        if let Some((_, reading)) = measuring.previous_reading() {
            return Self::of_reading(&reading);
        }
        let mut slots = Self::detected(analysis);
        slots.0[PULP] = slots.0[PULP]
            .or_else(|| Self::last_used(measuring)?.0[PULP])
            .or_else(|| Some(default_mark(PULP, analysis)));
        slots
    }

    /// The marks of the last colour reading: of this batch, else of any.
    pub fn last_used(measuring: MeasureState) -> Option<Self> {
        let slots = |body: &Body| match body {
            Body::ColourReading(c) if !c.patches.is_empty() => Some(Self::of_reading(c)),
            _ => None,
        };
        measuring.studio.book_now(|book| {
            let own = book.batches.get(&measuring.batch)?;
            [own].into_iter().chain(book.batches_by_change()).find_map(|batch| {
                batch.visible_entries().rev().find_map(|entry| slots(&entry.body))
            })
        })
    }

    fn of_reading(reading: &ColourReading) -> Self {
        let mut slots = Self::default();
        for patch in &reading.patches {
            let name = patch.role.as_str();
            if let Some(slot) = ROLES.iter().position(|role| <&str>::from(*role) == name) {
                let (x, y, radius) = (patch.centre_x, patch.centre_y, patch.radius);
                slots.0[slot] = Some(PatchMark { place: ROLES[slot], x, y, radius });
            }
        }
        slots
    }
}

/// A slot's first mark: as detected, else at its default place.
pub fn default_mark(slot: usize, analysis: &PhotoAnalysis) -> PatchMark {
    let place = ROLES[slot];
    let detected = analysis.proposed.iter().find(|mark| mark.place == place);
    let (x, y) = CENTRES[slot];
    match detected {
        Some(mark) if slot <= PULP => *mark,
        _ => PatchMark { place, x, y, radius: RADIUS },
    }
}
