//! Readings of batches over their time in bleach, as a chart of stacked panels and as a table.

use bleachfield_core::{
    derive::{RunOfBatch, RunQuantity, RunReading, RunTime},
    journal::PulpState,
    message::Value,
    quantity::{Measures, Unit},
};
use leptos::prelude::*;

use crate::{
    components::time_chart::{PointShape, TimeChart, TimeCurve, TimePanel, TimePoint},
    i18n::{format_value, t, t_with, with_decimal_mark},
    platform::preferences::fahrenheit,
};

/// The readings of one batch, as a chart draws them.
pub struct RunCurve<'a> {
    pub run: &'a RunOfBatch,
    /// At the ends of its curves.
    pub letter: Option<char>,
    pub dashes: &'static str,
}

/// Decimal places of an axis, and the least distance of its ends.
fn axis(of: RunQuantity) -> (usize, f64) {
    match of {
        RunQuantity::Lightness | RunQuantity::Yellowness => (0, 10.0),
        RunQuantity::Ph => (1, 1.0),
        RunQuantity::Temperature => (0, 5.0),
        RunQuantity::Strip => (0, 100.0),
    }
}

fn name(of: RunQuantity) -> String {
    match of {
        RunQuantity::Lightness => t!("run-lightness"),
        RunQuantity::Yellowness => t!("run-yellowness"),
        RunQuantity::Ph => t!("run-ph"),
        RunQuantity::Temperature if fahrenheit() => t!("run-fahrenheit"),
        RunQuantity::Temperature => t!("run-celsius"),
        RunQuantity::Strip => t!("run-strip"),
    }
}

/// In the reader's unit.
fn shown(of: RunQuantity, value: f64) -> f64 {
    if of == RunQuantity::Temperature && fahrenheit() {
        Unit::Fahrenheit.from_base(value, Measures::default())
    } else {
        value
    }
}

pub fn fixed(value: f64, places: usize) -> String {
    with_decimal_mark(format!("{value:.places$}"))
}

/// The chart of these curves, a panel for each quantity.
pub fn drawing(curves: &[RunCurve<'_>], of: &[RunQuantity], summary: String) -> AnyView {
    let bleached = curves.iter().map(|curve| curve.run.minutes).fold(0.0, f64::max);
    let step = (bleached / 10.0).max(5.0);
    let read = curves.iter().flat_map(|curve| &curve.run.readings).map(|reading| reading.time);
    let after = read.filter_map(|time| match time {
        RunTime::After(nth) => Some(nth),
        _ => None,
    });
    let after = after.max().unwrap_or(0);
    let until = (bleached + step * f64::from(after)).max(1.0);
    let place = |time: RunTime| match time {
        RunTime::Before => 0.0,
        RunTime::InBleach(minutes) => minutes,
        RunTime::After(nth) => bleached + step * f64::from(nth),
    };
    let mut ticks = vec![(0.0, "0".to_owned())];
    if after > 0 && bleached > 0.0 {
        ticks.push((bleached, fixed(bleached, 0)));
    }
    ticks.push((until, if after > 0 { t!("run-after") } else { fixed(until, 0) }));
    let panels = of.iter().map(|of| panel(curves, *of, place)).collect();
    // Of one batch alone its acts are marked; of several the end of the longest bath.
    let marks = match curves {
        [one] => one.run.marks.iter().map(|mark| mark.minutes).collect(),
        _ if after > 0 => vec![bleached],
        _ => Vec::new(),
    };
    let chart = TimeChart {
        summary,
        from: 0.0,
        until,
        ticks,
        unit: t!("run-minutes"),
        marks,
        now: None,
        panels,
    };
    chart.view(fixed)
}

fn panel(curves: &[RunCurve<'_>], of: RunQuantity, place: impl Fn(RunTime) -> f64) -> TimePanel {
    let (places, least_span) = axis(of);
    let mut panel = TimePanel { heading: name(of), least_span, places, ..TimePanel::default() };
    for curve in curves {
        let readings: Vec<&RunReading> = curve.run.of_quantity(of).collect();
        let at = |reading: &RunReading| (place(reading.time), shown(of, reading.figure.value));
        // Wet and dried pulp differ in colour: each has a curve of its own.
        for pulp in [PulpState::Wet, PulpState::Pressed, PulpState::Dried] {
            let points: Vec<(f64, f64)> =
                readings.iter().filter(|r| r.pulp == pulp).map(|r| at(r)).collect();
            if points.len() > 1 {
                panel.curves.push(TimeCurve { points, dashes: curve.dashes });
            }
        }
        if let (Some(letter), Some(last)) = (curve.letter, readings.last()) {
            let (minutes, value) = at(last);
            panel.labels.push((minutes, value, letter.to_string()));
        }
        panel.points.extend(readings.iter().map(|reading| {
            let (minutes, value) = at(reading);
            TimePoint {
                minutes,
                value,
                range: (shown(of, reading.figure.low), shown(of, reading.figure.high)),
                shape: match reading.pulp {
                    PulpState::Wet => PointShape::Dot,
                    PulpState::Pressed => PointShape::Square,
                    PulpState::Dried => PointShape::Ring,
                },
                on_press: None,
            }
        }));
    }
    panel
}

/// What was read first and last, in a sentence for each quantity that was read.
pub fn told(run: &RunOfBatch) -> String {
    let sentence = |of: RunQuantity| {
        let mut read = run.of_quantity(of).map(|reading| reading.figure.value);
        let (places, _) = axis(of);
        let text = |value| fixed(shown(of, value), places);
        let first = text(read.next()?);
        let name = name(of);
        Some(match read.last().map(text) {
            None => t_with!("run-told_one", &[("name", &name), ("value", &first)]),
            Some(last) => t_with!("run-told", &[("name", &name), ("from", &first), ("to", &last)]),
        })
    };
    RunQuantity::ALL.into_iter().filter_map(sentence).collect::<Vec<_>>().join(" ")
}

/// The headings of the table.
pub fn table_heads() -> Vec<String> {
    std::iter::once(t!("run-when")).chain(RunQuantity::ALL.map(name)).collect()
}

/// A row for each time at which something was read.
pub fn table_rows(run: &RunOfBatch) -> Vec<(String, Vec<String>)> {
    let at_one_time = run.readings.chunk_by(|one, other| one.time == other.time);
    at_one_time
        .map(|readings| {
            let cells = RunQuantity::ALL.map(|of| {
                let values = readings.iter().filter(|reading| reading.of == of);
                let (places, _) = axis(of);
                let texts: Vec<String> =
                    values.map(|reading| fixed(shown(of, reading.figure.value), places)).collect();
                if texts.is_empty() { "–".to_owned() } else { texts.join(", ") }
            });
            (when(readings[0].time), cells.to_vec())
        })
        .collect()
}

fn when(time: RunTime) -> String {
    match time {
        RunTime::Before => t!("run-before"),
        RunTime::InBleach(minutes) => format_value(&Value::Minutes(minutes.round())),
        RunTime::After(nth) => t_with!("run-after_nth", &[("n", &nth.to_string())]),
    }
}
