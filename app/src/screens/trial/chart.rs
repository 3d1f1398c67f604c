//! Lightness by one factor: the pots as points with their range, the line with its 80 % range.

use bleachfield_core::{
    message::Value,
    trial::{Factor, Response, ResponsePoint},
};
use leptos::prelude::*;

use super::words::factor_name;
use crate::{
    components::chart::{Plot, Scale, tick_label},
    i18n::{format_value, t_with},
};

/// A pot on the chart: its level, L* and the ends of its range.
#[derive(Clone, Copy)]
pub struct ChartPot {
    pub number: u32,
    pub level: f64,
    pub lightness: f64,
    pub low: f64,
    pub high: f64,
}

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 210.0;

/// A level as words: a share, a temperature, a time, or a bleach.
pub fn level_text(factor: Factor, level: f64, bleaches: &[String]) -> String {
    match factor {
        Factor::Charge => format_value(&Value::Share(level / 100.0)),
        Factor::Temperature => format_value(&Value::Celsius(level)),
        Factor::Time => format_value(&Value::Minutes(level)),
        Factor::Bleach => bleaches.get(level as usize).cloned().unwrap_or_default(),
    }
}

pub fn chart(
    factor: Factor,
    pots: &[ChartPot],
    response: Option<&Response>,
    bleaches: &[String],
) -> AnyView {
    let line = response
        .filter(|response| response.varies(factor as usize))
        .map(|response| response.line(factor as usize, 15))
        .unwrap_or_default();
    let plot = plot(pots, &line);
    let mut levels: Vec<f64> = pots.iter().map(|pot| pot.level).collect();
    levels.sort_by(f64::total_cmp);
    levels.dedup();
    let ticks = levels.iter().map(|&level| {
        let text = level_text(factor, level, bleaches);
        tick_label(plot.x.at(level), HEIGHT - 12.0, "middle", text)
    });
    let (low, high) = plot.y.domain;
    let steps = [low, f64::midpoint(low, high), high];
    let marks = steps.map(|l| tick_label(34.0, plot.y.at(l) + 4.0, "end", format!("{l:.0}")));
    let name = factor_name(factor);
    view! {
        <figure class="chart trial-chart">
            <figcaption>{t_with!("trial-chart", &[("factor", &name)])}</figcaption>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img"
                aria-label=t_with!("trial-chart", &[("factor", &name)])>
                {band(plot, &line)}
                {(!line.is_empty()).then(|| {
                    plot.curve(line.iter().map(|point| (point.level, point.lightness)), "")
                })}
                {pots.iter().map(|pot| dot(plot, *pot)).collect_view()}
                {plot.axes()}
                {ticks.collect_view()}
                {marks.into_iter().collect_view()}
            </svg>
        </figure>
    }
    .into_any()
}

fn plot(pots: &[ChartPot], line: &[ResponsePoint]) -> Plot {
    let ends = pots.iter().flat_map(|pot| [pot.low, pot.high]);
    let ends: Vec<f64> =
        ends.chain(line.iter().flat_map(|point| [point.low, point.high])).collect();
    let low = ends.iter().copied().fold(f64::INFINITY, f64::min).max(0.0);
    let high = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max).min(100.0);
    let levels = pots.iter().map(|pot| pot.level);
    let (first, last) = levels.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), level| {
        (low.min(level), high.max(level))
    });
    let margin = 0.12 * (last - first).max(1e-6);
    let tens = |value: f64, up: bool| {
        let fives = value / 5.0;
        5.0 * if up { fives.ceil() } else { fives.floor() }
    };
    let (low, high) = (tens(low, false), tens(high, true));
    Plot {
        left: 40.0,
        x: Scale { domain: (first - margin, last + margin), range: (40.0, WIDTH - 8.0) },
        y: Scale { domain: (low, high.max(low + 5.0)), range: (HEIGHT - 32.0, 10.0) },
    }
}

fn band(plot: Plot, line: &[ResponsePoint]) -> Option<AnyView> {
    if line.is_empty() {
        return None;
    }
    let at = |level: f64, l: f64| format!("{:.1} {:.1}", plot.x.at(level), plot.y.at(l));
    let upper = line.iter().map(|point| at(point.level, point.high));
    let lower = line.iter().rev().map(|point| at(point.level, point.low));
    let d = format!("M{}Z", upper.chain(lower).collect::<Vec<_>>().join("L"));
    Some(view! { <path class="trial-band" d=d /> }.into_any())
}

fn dot(plot: Plot, pot: ChartPot) -> AnyView {
    let (x, y) = (plot.x.at(pot.level), plot.y.at(pot.lightness));
    let d = format!("M{x:.1} {:.1}V{:.1}", plot.y.at(pot.low), plot.y.at(pot.high));
    view! {
        <path class="trial-range" d=d />
        <circle class="trial-dot" cx=format!("{x:.1}") cy=format!("{y:.1}") r="4" />
        {tick_label(x + 7.0, y - 5.0, "start", pot.number.to_string())}
    }
    .into_any()
}
