//! The strength of a bottle over time: as a curve in its range with the tests as marks, in one
//! sentence, and as a table.

use bleachfield_core::{
    chemistry::bottle::EvidenceKind,
    derive::{StrengthCourse, StrengthPoint},
    journal::Product,
    quantity::Estimate,
};
use jiff::{SignedDuration, Timestamp};
use leptos::prelude::*;

use crate::{
    components::{
        FigureTable,
        chart::{Plot, Scale, tick_label},
    },
    i18n::{format_number, key, t, t_with},
    platform::clock,
};

/// Size of the drawing and its margins.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 170.0;
const LEFT: f64 = 34.0;
const RIGHT: f64 = 10.0;
const TOP: f64 = 22.0;
const FOOT: f64 = 24.0;

/// Days after now that the table shows.
const AHEAD: [f64; 3] = [30.0, 60.0, 180.0];

/// The drawing of a hypochlorite bottle; `None` for any other product, or one without a strength.
pub fn strength_chart(product: &Product, now: Timestamp) -> Option<AnyView> {
    let course = product.strength_course(now).ok()?;
    let (first, last) = (*course.points.first()?, *course.points.last()?);
    let most = course.points.iter().map(|point| point.chlorine.high);
    let most = most.chain(course.marks.iter().map(|mark| mark.point.chlorine.high));
    let top = (most.fold(1.0, f64::max) / 10.0).ceil() * 10.0;
    let plot = Plot {
        left: LEFT,
        x: Scale { domain: (first.days, last.days), range: (LEFT, WIDTH - RIGHT) },
        y: Scale { domain: (0.0, top), range: (HEIGHT - FOOT, TOP) },
    };
    let summary = summary(&course, first);
    let here = plot.x.at(0.0);
    let marks = course.marks.iter().map(|mark| {
        let Estimate { value, low, high, .. } = mark.point.chlorine;
        let (x, y) = (plot.x.at(mark.point.days), plot.y.at(value));
        let (low, high) = (plot.y.at(low), plot.y.at(high));
        // A ring for the label, a filled dot for a test.
        let class = if mark.kind == EvidenceKind::Label { "point dried" } else { "point wet" };
        view! {
            <g class=class>
                <path d=format!("M{x:.1} {high:.1}V{low:.1}") />
                <rect x=x - 4.5 y=y - 4.5 width="9" height="9" rx="4.5" />
            </g>
        }
    });
    let curve =
        plot.curve(course.points.iter().map(|point| (point.days, point.chlorine.value)), "");
    let base = HEIGHT - 8.0;
    let date = |days: f64| clock::local_date(at(now, days));
    // The days at the ends are left out where today would meet them.
    let middle = here > LEFT + 90.0 && here < WIDTH - RIGHT - 90.0;
    let view = view! {
        <figure class="picture">
            <svg class="chart colours" viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img"
                aria-label=summary.clone()>
                <path class="band window" d=band(&course.points, plot) />
                {plot.axes()}
                {plot.mark_x(0.0)}
                {curve}
                {marks.collect_view()}
                <text x="4" y=TOP - 8.0 class="here-words">{t!("shelf-curve-axis")}</text>
                {tick_label(LEFT - 5.0, TOP + 9.0, "end", format_number(top, 3))}
                {tick_label(LEFT - 5.0, HEIGHT - FOOT, "end", "0")}
                {middle.then(|| tick_label(here, base, "middle", t!("shelf-curve-today")))}
                {tick_label(LEFT, base, "start", date(first.days))}
                {tick_label(WIDTH - RIGHT, base, "end", date(last.days))}
            </svg>
            <figcaption class="small">
                <p>{summary}</p>
                <p class="soft">{t!("shelf-curve-key")}</p>
            </figcaption>
        </figure>
        <details class="more">
            <summary>{t!("shelf-curve-table")}</summary>
            <div class="inside">{table(&course, now)}</div>
        </details>
    };
    Some(view.into_any())
}

fn at(now: Timestamp, days: f64) -> Timestamp {
    now + SignedDuration::from_secs((days * 86_400.0).round() as i64)
}

/// The area between the ends of the ranges.
fn band(points: &[StrengthPoint], plot: Plot) -> String {
    let place = |days: f64, value: f64| format!("{:.1} {:.1}", plot.x.at(days), plot.y.at(value));
    let high = points.iter().map(|point| place(point.days, point.chlorine.high));
    let low = points.iter().rev().map(|point| place(point.days, point.chlorine.low));
    format!("M{}Z", high.chain(low).collect::<Vec<_>>().join("L"))
}

/// Figures in the sentence: as many as a bottle's range allows.
fn text(g_per_l: f64) -> String {
    format_number(g_per_l, 2)
}

fn nearest(points: &[StrengthPoint], days: f64) -> Option<&StrengthPoint> {
    let off = |point: &&StrengthPoint| ((point.days - days).abs() * 1e3) as i64;
    points.iter().min_by_key(off)
}

/// "From 50 g/L on 4 Jan to 42 g/L today; 36 g/L in 60 days."
fn summary(course: &StrengthCourse, first: StrengthPoint) -> String {
    let of = |days| nearest(&course.points, days).map_or(0.0, |point| point.chlorine.value);
    t_with!(
        "shelf-curve-summary",
        &[
            ("first", &text(first.chlorine.value)),
            ("ago", &format_number(-first.days, 3)),
            ("now", &text(of(0.0))),
            ("later", &text(of(AHEAD[1]))),
            ("days", &format_number(AHEAD[1], 3)),
        ]
    )
}

fn table(course: &StrengthCourse, now: Timestamp) -> impl IntoView + use<> {
    let cells = |chlorine: Estimate<f64>| {
        vec![text(chlorine.value), format!("{} – {}", text(chlorine.low), text(chlorine.high))]
    };
    let marks = course.marks.iter().map(|mark| {
        let by = match mark.kind {
            EvidenceKind::Titration => key!("shelf-curve-by_titration"),
            EvidenceKind::Strip => key!("shelf-curve-by_strip"),
            EvidenceKind::Label => key!("shelf-curve-by_label"),
        };
        let head = format!("{}, {}", clock::local_date(at(now, mark.point.days)), t(by));
        (head, cells(mark.point.chlorine))
    });
    let last = course.points.last().map_or(0.0, |point| point.days);
    let ahead = [0.0].into_iter().chain(AHEAD).filter(|days| *days <= last);
    let ahead = ahead.filter_map(|days| {
        let point = nearest(&course.points, days)?;
        let head = if days == 0.0 {
            t!("shelf-curve-today")
        } else {
            t_with!("shelf-curve-in_days", &[("days", &format_number(days, 3))])
        };
        Some((head, cells(point.chlorine)))
    });
    let rows: Vec<_> = marks.chain(ahead).collect();
    let heads = vec![t!("shelf-curve-when"), t!("shelf-curve-axis"), t!("shelf-curve-range")];
    view! { <FigureTable heads rows /> }
}
