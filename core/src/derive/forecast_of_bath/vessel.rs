//! The vessel of a bath, the room, and the heat that it loses: as described, as learnt from pairs
//! of thermometer readings, else assumed with a wide range.

use super::{AssumedInput, events::BathVolume, plan_of_bath};
use crate::{
    bath::{
        BathCover, CoolingBath, HeatVessel, LossFactors, RoomAir, VesselMaterial, VesselShape,
        heat_capacity,
    },
    journal::{Batch, BathView, Body, Book, OwnFigureOf, ReadingOf, VesselDescribed},
    quantity::{Basis, Celsius, Estimate, grams, millilitres},
};

/// A room that nobody measured, °C, ±5 (own estimate).
const ROOM: f64 = 20.0;
/// How much the loss of a bath may differ more where its vessel, and its room, are assumed: a
/// metal pot in a cold shed, a plastic tub in a warm kitchen (own estimates).
const OTHER_VESSEL: f64 = 0.3;
const OTHER_ROOM: f64 = 0.25;
/// Under what cover it is where nobody said: from a lid to none (own estimate).
const ANY_COVER: LossFactors<Estimate<f64>> = LossFactors {
    evaporation: Estimate { value: 0.5, low: 0.03, high: 1.3, basis: Basis::Assumed },
    dry: Estimate { value: 0.9, low: 0.5, high: 1.4, basis: Basis::Assumed },
};
/// Volume of a bath of unknown size, mL.
const UNKNOWN_VOLUME: f64 = 6000.0;

/// The vessel as described for this bath, else for the last described one before: the second is an
/// assumption.
pub fn vessel_of_bath<'a>(
    book: &'a Book,
    view: &'a BathView,
) -> Option<(&'a VesselDescribed, Basis)> {
    if let Some(own) = &view.vessel {
        return Some((own, Basis::Measured));
    }
    let baths = book.batches.values().flat_map(|batch| &batch.baths);
    let earlier = baths.filter(|bath| bath.started < view.started && bath.vessel.is_some());
    let last = earlier.max_by_key(|bath| bath.started)?;
    Some((last.vessel.as_ref()?, Basis::Assumed))
}

/// The bath as it cools.
pub(super) fn cooling(
    book: &Book,
    view: &BathView,
    volume: &BathVolume,
    assumed: &mut Vec<AssumedInput>,
) -> CoolingBath {
    let described = vessel_of_bath(book, view);
    let of = |part: fn(&VesselDescribed) -> bool| {
        described.is_some_and(|(vessel, basis)| basis == Basis::Measured && part(vessel))
    };
    let is_described = of(|v| v.shape.is_some() && v.material.is_some() && v.cover.is_some());
    let mut bath = cooling_of(book, described.map(|(vessel, _)| vessel), volume);
    if !is_described {
        assumed.push(AssumedInput::Vessel);
        widen(&mut bath.factors, OTHER_VESSEL);
    }
    let room_known = of(|v| v.room_celsius.is_some())
        || book.studio.figures.contains_key(&OwnFigureOf::RoomCelsius);
    if !room_known {
        assumed.push(AssumedInput::Room);
        widen(&mut bath.factors, OTHER_ROOM);
    }
    if let Some(learnt) = learnt_losses(book, view) {
        bath.factors = learnt;
    }
    bath
}

/// A vessel with its usual losses.
fn cooling_of(book: &Book, vessel: Option<&VesselDescribed>, volume: &BathVolume) -> CoolingBath {
    let liquor = volume.liquor_ml.map_or(UNKNOWN_VOLUME, |liquor| liquor.value) / volume.vessels;
    let fibre = volume.dry_fibre_g.map_or(0.0, |fibre| fibre.value) / volume.vessels;
    let cover = vessel.and_then(|vessel| vessel.cover);
    let shape = vessel.and_then(|vessel| vessel.shape).unwrap_or(VesselShape::Bucket);
    let material = vessel.and_then(|vessel| vessel.material).unwrap_or(VesselMaterial::Plastic);
    let room = vessel.and_then(|vessel| vessel.room_celsius).map(|room| room.value);
    let own_room = book.studio.figures.get(&OwnFigureOf::RoomCelsius);
    let room = room.or(own_room.map(|(figure, _)| figure.value)).unwrap_or(ROOM);
    // Fibre takes up about two thirds of its mass.
    let size = millilitres((liquor + 0.67 * fibre).max(100.0));
    CoolingBath {
        capacity: heat_capacity(grams(fibre), grams(liquor.max(100.0))),
        vessel: HeatVessel::preset(size, shape, material, cover.unwrap_or(BathCover::Open)),
        air: RoomAir::still(room.clamp(-10.0, 45.0)),
        factors: cover.map_or(ANY_COVER, LossFactors::assumed),
    }
}

/// Wider by a share, both ways.
fn widen(factors: &mut LossFactors<Estimate<f64>>, by: f64) {
    for factor in [&mut factors.evaporation, &mut factors.dry] {
        factor.low /= 1.0 + by;
        factor.high *= 1.0 + by;
    }
}

/// Loss factors from earlier baths in the same kind of vessel, learnt from pairs of thermometer
/// readings between which nothing was done; those of this bath weigh its samples instead. `None`
/// without a usable pair, or if this vessel is not described.
pub fn learnt_losses(book: &Book, view: &BathView) -> Option<LossFactors<Estimate<f64>>> {
    let own = view.vessel.as_ref()?;
    let same = |other: &VesselDescribed| {
        (other.shape, other.material, other.cover) == (own.shape, own.material, own.cover)
    };
    let mut factors = Vec::new();
    for batch in book.batches.values() {
        let before = |other: &&BathView| {
            other.started < view.started && other.vessel.as_ref().is_some_and(same)
        };
        for other in batch.baths.iter().filter(before) {
            let volume = BathVolume::of(plan_of_bath(book, other));
            let its = cooling_of(book, other.vessel.as_ref(), &volume);
            factors.extend(learnt_in(batch, other, &its).iter().map(|factors| factors.dry));
        }
    }
    // A pair says nothing of how the loss is divided.
    joined(&factors).map(|learnt| LossFactors { evaporation: learnt, dry: learnt })
}

/// What each undisturbed pair of readings of a bath says.
pub(crate) fn learnt_in(
    batch: &Batch,
    view: &BathView,
    bath: &CoolingBath,
) -> Vec<LossFactors<Estimate<f64>>> {
    let mut learnt = Vec::new();
    let mut before: Option<(f64, Celsius)> = None;
    for entry in batch.visible_entries().filter(|entry| entry.body.bath() == Some(view.id)) {
        let hours = entry.at.duration_since(view.started).as_secs_f64() / 3600.0;
        match &entry.body {
            Body::Reading(reading) if reading.what == ReadingOf::Celsius => {
                let read = reading.figure.and_then(|figure| Celsius::new(figure.value).ok());
                if let (Some((then, from)), Some(to)) = (before, read)
                    && hours - then >= SHORTEST_PAIR
                {
                    learnt.extend(bath.learn(from, to, hours - then));
                }
                before = read.map(|read| (hours, read)).or(before);
            }
            Body::Reheated(reheated) => {
                let to = reheated.to_celsius.and_then(|to| Celsius::new(to.value).ok());
                before = to.map(|to| (hours, to));
            }
            Body::Added(_) => before = None,
            _ => {}
        }
    }
    learnt
}

/// Shortest time between two readings that say something of the loss, hours.
const SHORTEST_PAIR: f64 = 0.15;

/// The geometric mean of several pairs; each is one draw of the same error.
pub(crate) fn joined(factors: &[Estimate<f64>]) -> Option<Estimate<f64>> {
    let count = factors.len() as f64;
    if factors.is_empty() {
        return None;
    }
    let mean = |of: fn(&Estimate<f64>) -> f64| {
        (factors.iter().map(|factor| of(factor).max(1e-3).ln()).sum::<f64>() / count).exp()
    };
    let value = mean(|factor| factor.value);
    let narrower = |end: f64| value * (end / value).powf(1.0 / count.sqrt());
    Some(Estimate {
        value,
        low: narrower(mean(|factor| factor.low)),
        high: narrower(mean(|factor| factor.high)),
        basis: Basis::OwnRecord,
    })
}
