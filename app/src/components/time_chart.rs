//! A chart of stacked panels over one axis of time: bands, curves, points with their ranges, and
//! marks. Words and a table stand beside it (`components::FigureTable`).

use leptos::prelude::*;

use super::chart::{Plot, Scale, tick_label};

/// Size of the drawing and its margins, in its own units.
const WIDTH: f64 = 340.0;
const LEFT: f64 = 36.0;
const RIGHT: f64 = 12.0;
const TOP: f64 = 20.0;
const FOOT: f64 = 20.0;

/// Height of a panel with its heading, and of the plot in it.
const PANEL: f64 = 104.0;
const PLOT: f64 = PANEL - TOP - 8.0;

/// About the width of a letter under the axis.
const LETTER: f64 = 6.5;
/// About the width of a text.
fn width(text: &str) -> f64 {
    LETTER * text.chars().count() as f64
}

/// Where the unit of the axis begins: right of the first tick's text.
const UNIT_AT: f64 = LEFT + 20.0;

/// Free space between the vertical axis and the first point.
const INSET: f64 = 8.0;

/// The whole chart. Times are minutes.
pub struct TimeChart {
    /// What it shows, in words.
    pub summary: String,
    pub from: f64,
    pub until: f64,
    /// Texts under the axis, each at its time.
    pub ticks: Vec<(f64, String)>,
    /// The unit of the axis, beside its first tick.
    pub unit: String,
    /// Thin dotted lines: cues, additions, the end of the bath.
    pub marks: Vec<f64>,
    /// The present.
    pub now: Option<f64>,
    pub panels: Vec<TimePanel>,
}

/// One quantity over time.
#[derive(Default)]
pub struct TimePanel {
    pub heading: String,
    pub bands: Vec<TimeBand>,
    pub curves: Vec<TimeCurve>,
    pub points: Vec<TimePoint>,
    /// Minutes, value and text: names of curves, beside their ends.
    pub labels: Vec<(f64, f64, String)>,
    /// A value to reach.
    pub aim: Option<f64>,
    /// Least distance of the ends of the axis, so that small changes look small.
    pub least_span: f64,
    /// Decimal places of its ends.
    pub places: usize,
}

/// The inner 80 and 50 % and the middle at one time.
#[derive(Clone, Copy)]
pub struct TimeBand {
    pub minutes: f64,
    pub outer: (f64, f64),
    pub inner: (f64, f64),
    pub middle: f64,
}

pub struct TimeCurve {
    pub points: Vec<(f64, f64)>,
    /// Tell curves apart without colour.
    pub dashes: &'static str,
}

/// A measured value with its range.
pub struct TimePoint {
    pub minutes: f64,
    pub value: f64,
    pub range: (f64, f64),
    pub shape: PointShape,
    pub on_press: Option<Callback<()>>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum PointShape {
    /// A filled dot.
    Dot,
    Square,
    Ring,
}

impl TimeChart {
    /// The drawing; `text` writes a value of an axis with so many places.
    pub fn view(self, text: fn(f64, usize) -> String) -> AnyView {
        let until = self.until.max(self.from + 1.0);
        let x = Scale { domain: (self.from, until), range: (LEFT + INSET, WIDTH - RIGHT) };
        let height = PANEL * self.panels.len() as f64 + FOOT;
        let base = height - 4.0;
        let vertical = |minutes: f64, dashes: &'static str| {
            let d = format!("M{:.1} {TOP}V{}", x.at(minutes), height - FOOT);
            view! { <path class="axis" stroke-dasharray=dashes d=d /> }
        };
        let last = self.ticks.len().saturating_sub(1);
        let unit_end = UNIT_AT + width(&self.unit);
        let last_begin = WIDTH - RIGHT - self.ticks.last().map_or(0.0, |(_, text)| width(text));
        let ticks = self.ticks.iter().enumerate().filter_map(|(nth, (minutes, text))| {
            let (at, anchor) = match nth {
                0 => (LEFT, "start"),
                nth if nth == last => (WIDTH - RIGHT, "end"),
                _ => (x.at(*minutes), "middle"),
            };
            // A text that would lie on another is left out.
            let half = width(text) / 2.0 + LETTER;
            let has_room = anchor != "middle" || unit_end < at - half && at + half < last_begin;
            has_room.then(|| tick_label(at, base, anchor, text.clone()))
        });
        let ticks = ticks.collect_view();
        let marks = self.marks.iter().map(|minutes| vertical(*minutes, "2 3")).collect_view();
        let now = self.now.map(|minutes| {
            let d = format!("M{:.1} {TOP}V{}", x.at(minutes), height - FOOT);
            view! { <path class="here" d=d /> }
        });
        let panels = self.panels.into_iter().enumerate();
        let panels = panels.map(|(nth, panel)| panel.view(nth, x, text)).collect_view();
        view! {
            <svg class="chart times" viewBox=format!("0 0 {WIDTH} {height}") role="img"
                aria-label=self.summary>
                {marks}
                {panels}
                {now}
                {ticks}
                {tick_label(UNIT_AT, base, "start", self.unit)}
            </svg>
        }
        .into_any()
    }
}

impl TimePanel {
    fn is_empty(&self) -> bool {
        self.bands.is_empty() && self.points.is_empty()
    }

    fn view(self, nth: usize, x: Scale, text: fn(f64, usize) -> String) -> AnyView {
        if self.is_empty() {
            return ().into_any();
        }
        let top = PANEL * nth as f64 + TOP;
        let (low, high) = self.span();
        let y = Scale { domain: (low, high), range: (top + PLOT, top) };
        let plot = Plot { left: LEFT, x, y };
        let outer = self.area(plot, |band| band.outer);
        let inner = self.area(plot, |band| band.inner);
        let middle = (self.bands.len() > 1)
            .then(|| plot.curve(self.bands.iter().map(|band| (band.minutes, band.middle)), ""));
        let curves = self.curves.into_iter().map(|curve| plot.curve(curve.points, curve.dashes));
        let curves = curves.collect_view();
        let points = self.points.into_iter().map(|point| point.view(plot)).collect_view();
        let labels = self
            .labels
            .into_iter()
            .map(|(at, value, text)| (plot.x.at(at), plot.y.at(value), text));
        let labels = joined(labels).into_iter().map(|(x, y, text)| {
            // Left of its point, where there is no room at the right edge.
            let room = WIDTH - RIGHT - x;
            let (x, anchor) =
                if width(&text) > room { (x - 8.0, "end") } else { (x + 8.0, "start") };
            view! { <text x=x y=y - 5.0 text-anchor=anchor class="here-words">{text}</text> }
        });
        let labels = labels.collect_view();
        view! {
            <text x="4" y=top - 6.0 class="here-words">{self.heading}</text>
            {outer.map(|d| view! { <path class="band-80" d=d /> })}
            {inner.map(|d| view! { <path class="band-50" d=d /> })}
            {plot.axes()}
            {tick_label(LEFT - 5.0, top + 9.0, "end", text(high, self.places))}
            {tick_label(LEFT - 5.0, top + PLOT, "end", text(low, self.places))}
            {self.aim.map(|aim| plot.mark_y(aim))}
            {middle}
            {curves}
            {points}
            {labels}
        }
        .into_any()
    }

    /// The outline of the bands' lower and upper ends.
    fn area(&self, plot: Plot, ends: impl Fn(&TimeBand) -> (f64, f64)) -> Option<String> {
        if self.bands.len() < 2 {
            return None;
        }
        let point =
            |minutes: f64, value: f64| format!("{:.1} {:.1}", plot.x.at(minutes), plot.y.at(value));
        let upper = self.bands.iter().map(|band| point(band.minutes, ends(band).1));
        let lower = self.bands.iter().rev().map(|band| point(band.minutes, ends(band).0));
        Some(format!("M{}Z", upper.chain(lower).collect::<Vec<_>>().join("L")))
    }

    /// Rounded ends around all values, at least `least_span` apart.
    fn span(&self) -> (f64, f64) {
        let points = self.points.iter().flat_map(|point| [point.range.0, point.range.1]);
        let bands = self.bands.iter().flat_map(|band| [band.outer.0, band.outer.1]);
        let all = points.chain(bands).chain(self.aim).filter(|value| value.is_finite());
        let (low, high) = all.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        let room = ((self.least_span - (high - low)) / 2.0).max(0.0);
        let scale = 10_f64.powi(self.places as i32);
        let down = |value: f64| (value * scale).floor() / scale;
        let up = |value: f64| (value * scale).ceil() / scale;
        // A quantity that is never negative keeps its axis so.
        let least = if low >= 0.0 { 0.0 } else { f64::MIN };
        (down((low - room).max(least)), up(high + room))
    }
}

/// Labels that would lie on each other become one: of x, y and text.
fn joined(labels: impl Iterator<Item = (f64, f64, String)>) -> Vec<(f64, f64, String)> {
    /// Least distance of two texts of a letter or two, one of which may stand left of its point.
    const APART: (f64, f64) = (34.0, 14.0);
    let mut apart: Vec<(f64, f64, String)> = Vec::new();
    for (x, y, text) in labels {
        let near = |other: &&mut (f64, f64, String)| {
            (other.0 - x).abs() < APART.0 && (other.1 - y).abs() < APART.1
        };
        match apart.iter_mut().find(near) {
            Some((_, _, together)) => *together = format!("{together} {text}"),
            None => apart.push((x, y, text)),
        }
    }
    apart
}

impl TimePoint {
    fn view(self, plot: Plot) -> AnyView {
        let (x, y) = (plot.x.at(self.minutes), plot.y.at(self.value));
        let (low, high) = (plot.y.at(self.range.0), plot.y.at(self.range.1));
        let class = match self.shape {
            PointShape::Dot => "point wet",
            PointShape::Square => "point pressed",
            PointShape::Ring => "point dried",
        };
        let round = if self.shape == PointShape::Square { 0.0 } else { 4.5 };
        let on_press = self.on_press;
        view! {
            <g class=class class:fixed=on_press.is_none() on:click=move |_| {
                if let Some(on_press) = on_press {
                    on_press.run(());
                }
            }>
                <path d=format!("M{x:.1} {high:.1}V{low:.1}") />
                <rect x=x - 4.5 y=y - 4.5 width="9" height="9" rx=round />
                <rect class="reach" x=x - 14.0 y=y - 14.0 width="28" height="28" />
            </g>
        }
        .into_any()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel(ends: &[(f64, f64)], least_span: f64, places: usize) -> TimePanel {
        let band = |(nth, &outer): (usize, &(f64, f64))| TimeBand {
            minutes: nth as f64,
            outer,
            inner: outer,
            middle: f64::midpoint(outer.0, outer.1),
        };
        let bands = ends.iter().enumerate().map(band).collect();
        TimePanel { bands, least_span, places, ..TimePanel::default() }
    }

    #[test]
    fn labels_that_would_lie_on_each_other_are_one() {
        let labels =
            [(100.0, 40.0, "A"), (220.0, 41.0, "B"), (104.0, 50.0, "C"), (100.0, 80.0, "D")];
        let found = joined(labels.map(|(x, y, text)| (x, y, text.to_owned())).into_iter());
        let texts: Vec<&str> = found.iter().map(|(_, _, text)| text.as_str()).collect();
        assert_eq!(texts, ["A C", "B", "D"]);
    }

    #[test]
    fn the_axis_holds_all_values_and_small_changes_look_small() {
        assert_eq!(panel(&[(62.3, 65.1), (66.0, 71.2)], 10.0, 0).span(), (61.0, 72.0));
        assert_eq!(panel(&[(9.82, 9.91)], 1.0, 1).span(), (9.3, 10.4));
        assert_eq!(panel(&[(0.0, 3.0)], 10.0, 0).span(), (0.0, 7.0));
        let aimed = TimePanel { aim: Some(90.0), ..panel(&[(62.0, 70.0)], 10.0, 0) };
        assert_eq!(aimed.span(), (62.0, 90.0));
    }
}
