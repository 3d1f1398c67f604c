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

use super::{figures::plus_minus, timed_swatch::TimedSwatch};
use crate::{
    components::{
        FigureTable,
        time_chart::{PointShape, TimeChart, TimeCurve, TimePanel, TimePoint},
    },
    i18n::{fixed, t, t_with},
};

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
    let entries: Vec<Ulid> = all.iter().map(|one| one.swatch.entry).collect();
    let panel = |key: &str, figure: fn(&ProgressPoint) -> Option<Figure>, aim: Option<f64>| {
        figure_panel(&points, &entries, key, figure, (aim, show))
    };
    let aims = target.map(|lab| (lab.l, yellowness(lab.to_xyz()).unwrap_or(0.0)));
    let mut panels = vec![
        panel("lightness", |point| Some(point.lightness), aims.map(|aim| aim.0)),
        panel("yellowness", |point| point.yellowness, aims.map(|aim| aim.1)),
    ];
    if target.is_some() {
        panels.push(panel("to_target", |point| point.to_target, Some(0.0)));
    }
    let summary = summary(&points);
    let unit =
        if bleached > 0.0 { t!("swatch-chart-minutes") } else { t!("swatch-chart-in_order") };
    let last_tick = if after { t!("swatch-chart-after") } else { fixed(end, 0) };
    let end_of_bleach = after.then_some(bleached);
    let mut ticks = vec![(0.0, "0".to_owned())];
    ticks.extend(end_of_bleach.map(|minutes| (minutes, fixed(minutes, 0))));
    ticks.push((end, last_tick));
    let chart = TimeChart {
        summary: summary.clone(),
        from: 0.0,
        until: end,
        ticks,
        unit,
        marks: end_of_bleach.into_iter().collect(),
        now: None,
        panels,
    };
    view! {
        <figure class="picture">
            {chart.view(fixed)}
            <figcaption class="small">
                <p>{summary}</p>
                <p class="soft">{t!("swatch-chart-key")}</p>
            </figcaption>
        </figure>
        <details class="more">
            <summary>{t!("swatch-chart-table")}</summary>
            <div class="inside">{table(all, &points)}</div>
        </details>
    }
    .into_any()
}

/// One figure over time, with its ranges and its target: a filled dot if wet, a square if pressed,
/// a ring if dried.
fn figure_panel(
    points: &[ProgressPoint],
    entries: &[Ulid],
    key: &str,
    figure: fn(&ProgressPoint) -> Option<Figure>,
    (aim, show): (Option<f64>, Callback<Ulid>),
) -> TimePanel {
    let known: Vec<(&ProgressPoint, Figure)> =
        points.iter().filter_map(|point| Some((point, figure(point)?))).collect();
    let curves = Dryness::ALL.into_iter().filter_map(|dryness| {
        let of_dryness = known.iter().filter(|(point, _)| point.dryness == dryness);
        let points: Vec<(f64, f64)> = of_dryness.map(|(p, f)| (p.minutes, f.value)).collect();
        let dashes = if dryness == Dryness::Dried { "5 4" } else { "" };
        (points.len() > 1).then_some(TimeCurve { points, dashes })
    });
    let point = |(point, figure): &(&ProgressPoint, Figure)| {
        let entry = entries[point.nth];
        TimePoint {
            minutes: point.minutes,
            value: figure.value,
            range: (figure.low, figure.high),
            shape: match point.dryness {
                Dryness::Wet => PointShape::Dot,
                Dryness::Pressed => PointShape::Square,
                Dryness::Dried => PointShape::Ring,
            },
            on_press: Some(Callback::new(move |()| show.run(entry))),
        }
    };
    TimePanel {
        heading: t(&format!("swatch-chart-{key}")),
        bands: Vec::new(),
        curves: curves.collect(),
        points: known.iter().map(point).collect(),
        labels: Vec::new(),
        aim,
        least_span: LEAST_SPAN,
        places: 0,
    }
}

/// Small changes look small.
const LEAST_SPAN: f64 = 10.0;

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
