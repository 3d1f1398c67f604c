//! The facts of an act, from a row.

use super::word;
use crate::reference::RowInputs;
use bleachfield_core::{
    caution::{BleachInUse, Residual, Situation},
    quantity::{Celsius, Interval, Ph, grams_per_litre, share},
};
use std::fmt::Debug;

/// The situation of a row; what is left out is unknown.
pub fn situation(row: &RowInputs) -> Result<Situation, String> {
    let celsius = |value| Celsius::new(value).map_err(refused);
    let ph = |value| Ph::new(value).map_err(refused);
    Ok(Situation {
        oxidant: match row.optional("oxidant") {
            None => BleachInUse::Unknown,
            Some("none") => BleachInUse::None,
            Some(oxidant) => BleachInUse::Known(word(oxidant)?),
        },
        residual: row.optional("residual").map_or(Ok(Residual::Unknown), word)?,
        temperature: range(row, "celsius")?.map(|range| both(range, celsius)).transpose()?,
        ph: range(row, "ph")?.map(|range| both(range, ph)).transpose()?,
        strength: range(row, "strength")?.map(|range| range.map(grams_per_litre)),
        bottle_strength: range(row, "bottle_strength")?.map(|range| range.map(grams_per_litre)),
        charge: range(row, "charge")?.map(|range| range.map(|percent| share(percent / 100.0))),
        minutes: range(row, "minutes")?,
        closed: answer(row, "closed")?,
        material: row.optional("material").map(word).transpose()?,
        rust: answer(row, "rust")?,
        blender: answer(row, "blender")?.unwrap_or(false),
        sulfite: answer(row, "sulfite")?.unwrap_or(false),
    })
}

/// `low..high`, or one number; `None` if it is not given.
pub fn range(row: &RowInputs, key: &str) -> Result<Option<Interval<f64>>, String> {
    let number = |text: &str| -> Result<f64, String> {
        text.trim().parse().map_err(|_| format!("{key}={text} is not a number"))
    };
    row.optional(key)
        .map(|text| match text.split_once("..") {
            Some((low, high)) => Ok(Interval { low: number(low)?, high: number(high)? }),
            None => Ok(Interval::exact(number(text)?)),
        })
        .transpose()
}

fn both<Q>(
    range: Interval<f64>,
    convert: impl Fn(f64) -> Result<Q, String>,
) -> Result<Interval<Q>, String> {
    Ok(Interval { low: convert(range.low)?, high: convert(range.high)? })
}

fn answer(row: &RowInputs, key: &str) -> Result<Option<bool>, String> {
    match row.optional(key) {
        None => Ok(None),
        Some("yes") => Ok(Some(true)),
        Some("no") => Ok(Some(false)),
        Some(other) => Err(format!("{key}={other} is neither yes nor no")),
    }
}

/// A refusal of the core, as text.
pub fn refused(refusal: impl Debug) -> String {
    format!("{refusal:?}")
}
