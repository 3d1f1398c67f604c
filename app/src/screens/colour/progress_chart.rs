//! Lightness, yellowness and distance to the target over the time in bleach: as a chart of
//! stacked panels, in one sentence, and as a table.

use bleachfield_core::{
    colour::{
        progress::{ProgressPoint, ProgressReading, series},
        shift::Dryness,
        space::Lab,
        whiteness::yellowness,
    },
    journal::Figure,
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    figures::{fixed, plus_minus},
    timed_swatch::TimedSwatch,
};
use crate::{
    components::{
        FigureTable,
        chart::{Plot, Scale, tick_label},
    },
    i18n::{t, t_with},
};

/// Size of the drawing and its margins.
const WIDTH: f64 = 340.0;
const LEFT: f64 = 36.0;
const RIGHT: f64 = 12.0;
/// Room of the word at the end of the axis.
const LAST_WORD: f64 = 36.0;
const TOP: f64 = 20.0;
const FOOT: f64 = 20.0;

/// Height of a panel with its heading, and of the plot in it.
const PANEL: f64 = 104.0;
const PLOT: f64 = PANEL - TOP - 8.0;

/// Free space between the vertical axis and the first point.
const INSET: f64 = 8.0;

/// Readings for the core's series. Those after the last bath follow its end, in order.
pub fn progress_readings(all: &[TimedSwatch]) -> Vec<ProgressReading> {
    let last = minutes_in_bleach(all);
    let gap = (last / 10.0).max(5.0);
    let mut after = last;
    let reading = |one: &TimedSwatch| {
        let minutes = one.minutes.unwrap_or_else(|| {
            after += gap;
            after
        });
        ProgressReading {
            minutes,
            dryness: one.dryness(),
            lab: one.swatch.figures(),
            yellowness: one.swatch.reading.yellowness,
        }
    };
    all.iter().map(reading).collect()
}

fn minutes_in_bleach(all: &[TimedSwatch]) -> f64 {
    all.iter().filter_map(|one| one.minutes).fold(0.0, f64::max)
}

/// The chart of at least one swatch; a press on a point shows its swatch.
pub fn progress_chart(all: &[TimedSwatch], target: Option<Lab>, show: Callback<Ulid>) -> AnyView {
    let points = series(&progress_readings(all), target);
    let end = points.iter().map(|point| point.minutes).fold(1.0, f64::max);
    let bleached = minutes_in_bleach(all);
    let after = all.iter().any(|one| one.minutes.is_none()) && bleached > 0.0;
    let x = Scale { domain: (0.0, end), range: (LEFT + INSET, WIDTH - RIGHT) };
    let entries = all.iter().map(|one| one.swatch.entry).collect();
    let chart = ProgressChart { entries, points, x, show };
    let aims = target.map(|lab| (lab.l, yellowness(lab.to_xyz()).unwrap_or(0.0)));
    let mut panels = vec![
        chart.panel(0, "lightness", |point| Some(point.lightness), aims.map(|aim| aim.0)),
        chart.panel(1, "yellowness", |point| point.yellowness, aims.map(|aim| aim.1)),
    ];
    if target.is_some() {
        panels.push(chart.panel(2, "to_target", |point| point.to_target, Some(0.0)));
    }
    let height = PANEL * panels.len() as f64 + FOOT;
    let base = height - 4.0;
    let summary = summary(&chart.points);
    let end_of_bleach = after.then(|| {
        let x = x.at(bleached) + 4.0;
        let d = format!("M{x:.1} {TOP}V{}", height - FOOT);
        view! {
            <path class="axis" stroke-dasharray="2 3" d=d />
            {tick_label((x + 7.0).min(WIDTH - RIGHT - LAST_WORD), base, "end", fixed(bleached, 0))}
        }
    });
    let unit =
        if bleached > 0.0 { t!("swatch-chart-minutes") } else { t!("swatch-chart-in_order") };
    let last_tick = if after { t!("swatch-chart-after") } else { fixed(end, 0) };
    view! {
        <figure class="picture">
            <svg class="chart colours" viewBox=format!("0 0 {WIDTH} {height}") role="img" aria-label=summary.clone()>
                {panels}
                {end_of_bleach}
                {tick_label(LEFT, base, "start", "0")}
                {tick_label(WIDTH - RIGHT, base, "end", last_tick)}
                {tick_label(LEFT + 20.0, base, "start", unit)}
            </svg>
            <figcaption class="small">
                <p>{summary}</p>
                <p class="soft">{t!("swatch-chart-key")}</p>
            </figcaption>
        </figure>
        <details class="more">
            <summary>{t!("swatch-chart-table")}</summary>
            <div class="inside">{table(all, &chart.points)}</div>
        </details>
    }
    .into_any()
}

struct ProgressChart {
    entries: Vec<Ulid>,
    points: Vec<ProgressPoint>,
    x: Scale,
    show: Callback<Ulid>,
}

impl ProgressChart {
    /// One figure over time, with its ranges and its target.
    fn panel(
        &self,
        nth: usize,
        key: &str,
        figure: fn(&ProgressPoint) -> Option<Figure>,
        aim: Option<f64>,
    ) -> AnyView {
        let known: Vec<(&ProgressPoint, Figure)> =
            self.points.iter().filter_map(|point| Some((point, figure(point)?))).collect();
        if known.is_empty() {
            return ().into_any();
        }
        let top = PANEL * nth as f64 + TOP;
        let (low, high) = span(known.iter().flat_map(|(_, f)| [f.low, f.high]).chain(aim));
        let y = Scale { domain: (low, high), range: (top + PLOT, top) };
        let plot = Plot { left: LEFT, x: self.x, y };
        let curves = Dryness::ALL.into_iter().filter_map(|dryness| {
            let of_dryness = known.iter().filter(|(point, _)| point.dryness == dryness);
            let points: Vec<(f64, f64)> = of_dryness.map(|(p, f)| (p.minutes, f.value)).collect();
            let dashes = if dryness == Dryness::Dried { "5 4" } else { "" };
            (points.len() > 1).then(|| plot.curve(points, dashes))
        });
        view! {
            <text x="4" y=top - 6.0 class="here-words">{t(&format!("swatch-chart-{key}"))}</text>
            {plot.axes()}
            {tick_label(LEFT - 5.0, top + 9.0, "end", fixed(high, 0))}
            {tick_label(LEFT - 5.0, top + PLOT, "end", fixed(low, 0))}
            {aim.map(|aim| plot.mark_y(aim))}
            {curves.collect_view()}
            {known.iter().map(|(point, figure)| self.point(point, *figure, y)).collect_view()}
        }
        .into_any()
    }

    /// A swatch with its range: a filled dot if wet, a square if pressed, a ring if dried.
    fn point(&self, point: &ProgressPoint, figure: Figure, scale: Scale) -> AnyView {
        let (x, y) = (self.x.at(point.minutes), scale.at(figure.value));
        let (low, high) = (scale.at(figure.low), scale.at(figure.high));
        let class = match point.dryness {
            Dryness::Wet => "point wet",
            Dryness::Pressed => "point pressed",
            Dryness::Dried => "point dried",
        };
        let (entry, show) = (self.entries[point.nth], self.show);
        let round = if point.dryness == Dryness::Pressed { 0.0 } else { 4.5 };
        view! {
            <g class=class on:click=move |_| show.run(entry)>
                <path d=format!("M{x:.1} {high:.1}V{low:.1}") />
                <rect x=x - 4.5 y=y - 4.5 width="9" height="9" rx=round />
                <rect class="reach" x=x - 14.0 y=y - 14.0 width="28" height="28" />
            </g>
        }
        .into_any()
    }
}

/// Whole numbers around all values, at least ten apart, so that small changes look small.
fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (low, high) = values.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
    let room = ((10.0 - (high - low)) / 2.0).max(0.0);
    ((low - room).floor(), (high + room).ceil())
}

/// The first and the last point of the dryness with most points, in one sentence.
fn summary(points: &[ProgressPoint]) -> String {
    let count = |dryness| points.iter().filter(|point| point.dryness == dryness).count();
    let most = Dryness::ALL.into_iter().max_by_key(|dryness| count(*dryness));
    let mut of_most = points.iter().filter(|point| Some(point.dryness) == most);
    let Some(first) = of_most.next() else { return String::new() };
    let state = t(first.dryness.key());
    let Some(last) = of_most.next_back() else {
        let lightness = plus_minus(first.lightness, 0);
        return t_with!("swatch-chart-told_one", &[("state", &state), ("lightness", &lightness)]);
    };
    let yellow = |point: &ProgressPoint| or_dash(point.yellowness, |y| fixed(y.value, 0));
    t_with!(
        "swatch-chart-told",
        &[
            ("state", &state),
            ("minutes", &fixed(last.minutes - first.minutes, 0)),
            ("from", &fixed(first.lightness.value, 0)),
            ("to", &fixed(last.lightness.value, 0)),
            ("yellow_from", &yellow(first)),
            ("yellow_to", &yellow(last)),
        ],
    )
}

fn table(all: &[TimedSwatch], points: &[ProgressPoint]) -> impl IntoView + use<> {
    let mut in_order: Vec<&ProgressPoint> = points.iter().collect();
    in_order.sort_by_key(|point| point.nth);
    let row = |point: &ProgressPoint| {
        let head = format!("{}, {}", all[point.nth].when(), t(point.dryness.key()));
        let figures = [Some(point.lightness), point.yellowness, point.to_target];
        (head, figures.map(|figure| or_dash(figure, |f| plus_minus(f, 1))).to_vec())
    };
    let rows = in_order.into_iter().map(row).collect();
    let heads = ["when", "lightness", "yellowness", "to_target"]
        .map(|key| t(&format!("swatch-chart-{key}")))
        .to_vec();
    view! { <FigureTable heads rows /> }
}

fn or_dash(figure: Option<Figure>, text: impl FnOnce(Figure) -> String) -> String {
    figure.map_or_else(|| "–".to_owned(), text)
}
