//! Readings of a bath as a forecast weighs them, each with its time and the error of its method.

use jiff::Timestamp;
use strum::IntoStaticStr;
use ulid::Ulid;

use super::{start::Start, substance};
use crate::{
    bath,
    derive::{Swatch, swatches},
    forecast::{ForecastQuantity, ForecastReading},
    journal::{Batch, BathView, Body, Figure, PulpState, Reading, ReadingOf},
    quantity::{Basis, Estimate},
};

/// A reading with where it is from.
#[derive(Clone, Debug, PartialEq)]
pub struct BathReading {
    pub entry: Ulid,
    pub at: Timestamp,
    pub by: ReadBy,
    pub reading: ForecastReading,
}

/// How a reading was taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum ReadBy {
    Strip,
    Meter,
    Thermometer,
    Photo,
    /// The colour of starch-iodide paper, by eye.
    Eye,
}

/// Oxidant that starch-iodide paper without colour leaves, mol/L: about 2 mg/L of available
/// chlorine at most (own estimate).
const NO_COLOUR: f64 = 3e-5;

/// The readings of a bath in the order of their times.
pub(super) fn of(batch: &Batch, view: &BathView, start: &Start) -> Vec<BathReading> {
    let entries = batch.visible_entries().filter(|entry| entry.body.bath() == Some(view.id));
    let mut readings: Vec<BathReading> = entries
        .filter_map(|entry| {
            let minutes = entry.at.duration_since(view.started).as_secs_f64() / 60.0;
            let Body::Reading(reading) = &entry.body else { return None };
            let (by, of, value) = weighed(reading, view.oxidant.into(), start.cooled_by)?;
            let reading = ForecastReading { minutes, of, value };
            Some(BathReading { entry: entry.entry.id, at: entry.at, by, reading })
        })
        .filter(|reading| reading.reading.minutes >= 0.0)
        .collect();
    let of_bath = swatches(batch).into_iter().filter(|swatch| swatch.reading.bath == Some(view.id));
    readings.extend(of_bath.filter_map(photographed));
    if let Some(wet) = start.wet_swatch.clone().filter(|wet| wet.minutes.is_none_or(|m| m < 0.0)) {
        readings.extend(photographed(Swatch { minutes: Some(0.0), ..wet }));
    }
    readings.sort_by(|one, other| one.reading.minutes.total_cmp(&other.reading.minutes));
    readings
}

/// What a reading says, in the unit of its quantity.
fn weighed(
    reading: &Reading,
    oxidant: bath::Oxidant,
    cooled_by: f64,
) -> Option<(ReadBy, ForecastQuantity, Estimate<f64>)> {
    let figure = reading.figure?;
    let molar = |read: Figure| read.map(|mg| mg / 1000.0 / substance(oxidant).grams_per_mole);
    Some(match reading.what {
        ReadingOf::Ph if figure.basis == Basis::Strip => {
            (ReadBy::Strip, ForecastQuantity::CooledPh, figure)
        }
        ReadingOf::Ph => (ReadBy::Meter, ForecastQuantity::CooledPh, by_meter(figure, cooled_by)),
        ReadingOf::AvailableChlorineMgPerL if !oxidant.is_peroxide() => {
            (ReadBy::Strip, ForecastQuantity::OxidantLeft, molar(figure))
        }
        ReadingOf::PeroxideMgPerL if oxidant.is_peroxide() => {
            (ReadBy::Strip, ForecastQuantity::OxidantLeft, molar(figure))
        }
        ReadingOf::Celsius => (ReadBy::Thermometer, ForecastQuantity::Celsius, figure),
        // Colour says only that there is some.
        ReadingOf::StarchIodide if figure.value < 0.5 => {
            let value = Estimate { value: 0.0, low: 0.0, high: NO_COLOUR, basis: figure.basis };
            (ReadBy::Eye, ForecastQuantity::OxidantLeft, value)
        }
        _ => return None,
    })
}

/// A meter may have been held into the warm bath or into a cooled sample: the value is between
/// both, and the range holds both.
fn by_meter(figure: Figure, cooled_by: f64) -> Figure {
    let (lower, higher) = (cooled_by.min(0.0), cooled_by.max(0.0));
    Estimate {
        value: figure.value + 0.5 * cooled_by,
        low: figure.low + lower,
        high: figure.high + higher,
        basis: figure.basis,
    }
}

/// Pressed pulp is neither wet nor dry, and not compared.
fn photographed(swatch: Swatch) -> Option<BathReading> {
    let of = match swatch.reading.pulp {
        PulpState::Wet => ForecastQuantity::WetLightness,
        PulpState::Dried => ForecastQuantity::DryLightness,
        PulpState::Pressed => return None,
    };
    let minutes = swatch.minutes.filter(|minutes| *minutes >= 0.0)?;
    let reading = ForecastReading { minutes, of, value: swatch.reading.lightness };
    (swatch.reading.ageing.is_none()).then_some(BathReading {
        entry: swatch.entry,
        at: swatch.at,
        by: ReadBy::Photo,
        reading,
    })
}
