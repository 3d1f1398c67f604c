//! Lightness, yellowness and the way left to the target over the time in bleach: three
//! panels over one another, the same in words, and as a table.

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
    figures::{plain, ranged},
    seen::TimedSwatch,
};
use crate::i18n::{t, t_with};

const WIDTH: f64 = 340.0;
const LEFT: f64 = 36.0;
const RIGHT: f64 = 12.0;
const PANEL: f64 = 104.0;
const TOP: f64 = 20.0;
const FOOT: f64 = 20.0;

/// The swatches as the core's chart takes them: what came after the bleach stands after
/// its end, in order.
pub fn taken(all: &[TimedSwatch]) -> Vec<ProgressReading> {
    let last = all.iter().filter_map(|one| one.minutes).fold(0.0, f64::max);
    let gap = (last / 10.0).max(5.0);
    let mut after = last;
    all.iter()
        .map(|one| {
            let minutes = one.minutes.unwrap_or_else(|| {
                after += gap;
                after
            });
            let reading = &one.swatch.reading;
            ProgressReading {
                minutes,
                dryness: one.dryness(),
                lab: one.swatch.figures(),
                yellowness: reading.yellowness,
            }
        })
        .collect()
}

/// The chart of at least one swatch.
pub fn view(all: &[TimedSwatch], target: Option<Lab>, show: Callback<Ulid>) -> AnyView {
    let steps = series(&taken(all), target);
    let end = steps.iter().map(|step| step.minutes).fold(1.0, f64::max);
    let bleach = all.iter().filter_map(|one| one.minutes).fold(0.0, f64::max);
    let after = all.iter().any(|one| one.minutes.is_none()) && bleach > 0.0;
    let chart =
        Chart { entries: all.iter().map(|one| one.swatch.entry).collect(), steps, end, show };
    let aims = target.map(|lab| (lab.l, yellowness(lab.to_xyz()).unwrap_or(0.0)));
    let mut panels = vec![
        chart.panel(0, "lightness", |step| Some(step.lightness), aims.map(|aim| aim.0)),
        chart.panel(1, "yellowness", |step| step.yellowness, aims.map(|aim| aim.1)),
    ];
    if target.is_some() {
        panels.push(chart.panel(2, "to_target", |step| step.to_target, Some(0.0)));
    }
    let high = PANEL * panels.len() as f64 + FOOT;
    let told = told(&chart.steps);
    let over = after.then(|| {
        let x = chart.x(bleach) + 4.0;
        view! {
            <path class="axis" stroke-dasharray="2 3" d=format!("M{x:.1} {TOP}V{}", high - FOOT) />
            <text x=x y=high - 4.0 text-anchor="middle">{plain(bleach, 0)}</text>
        }
    });
    let unit = if bleach > 0.0 { t!("swatch-chart-minutes") } else { t!("swatch-chart-in_order") };
    view! {
        <figure class="picture">
            <svg class="chart colours" viewBox=format!("0 0 {WIDTH} {high}") role="img" aria-label=told.clone()>
                {panels}
                {over}
                <text x=LEFT y=high - 4.0>{"0"}</text>
                <text x=WIDTH - RIGHT y=high - 4.0 text-anchor="end">
                    {if after { t!("swatch-chart-after") } else { plain(end, 0) }}
                </text>
                <text x=LEFT + 20.0 y=high - 4.0>{unit}</text>
            </svg>
            <figcaption class="small">
                <p>{told}</p>
                <p class="soft">{t!("swatch-chart-key")}</p>
            </figcaption>
        </figure>
        <details class="more">
            <summary>{t!("swatch-chart-table")}</summary>
            <div class="inside">{table(all, &chart.steps)}</div>
        </details>
    }
    .into_any()
}

struct Chart {
    entries: Vec<Ulid>,
    steps: Vec<ProgressPoint>,
    /// Minutes at the right edge.
    end: f64,
    show: Callback<Ulid>,
}

impl Chart {
    fn x(&self, minutes: f64) -> f64 {
        // A little off the axis, so that the first dot does not lie on its figures.
        LEFT + 8.0 + minutes.max(0.0) / self.end * (WIDTH - LEFT - 8.0 - RIGHT)
    }

    /// One figure over time, with its ranges and what is aimed at.
    fn panel(
        &self,
        nth: usize,
        key: &str,
        of: fn(&ProgressPoint) -> Option<Figure>,
        aim: Option<f64>,
    ) -> AnyView {
        let known: Vec<(&ProgressPoint, Figure)> =
            self.steps.iter().filter_map(|step| Some((step, of(step)?))).collect();
        let ends = known.iter().flat_map(|(_, f)| [f.low, f.high]).chain(aim);
        let (low, high) = ends.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        if known.is_empty() {
            return ().into_any();
        }
        // Never less than ten units high: small steps must not look like leaps.
        let room = ((10.0 - (high - low)) / 2.0).max(0.0);
        let (low, high) = ((low - room).floor(), (high + room).ceil());
        let top = PANEL * nth as f64 + TOP;
        let tall = PANEL - TOP - 8.0;
        let y = |value: f64| top + tall * (1.0 - (value - low) / (high - low));
        let mut drawn: Vec<AnyView> = Vec::new();
        for dryness in Dryness::ALL {
            let points: Vec<String> = known
                .iter()
                .filter(|(step, _)| step.dryness == dryness)
                .map(|(step, f)| format!("{:.1} {:.1}", self.x(step.minutes), y(f.value)))
                .collect();
            if points.len() > 1 {
                let dash = if dryness == Dryness::Dried { "5 4" } else { "" };
                let path = format!("M{}", points.join("L"));
                drawn.push(
                    view! { <path class="species" d=path stroke-dasharray=dash /> }.into_any(),
                );
            }
        }
        for (step, figure) in &known {
            drawn.push(self.point(step, y(figure.value), y(figure.low), y(figure.high)));
        }
        let line = aim.map(|aim| {
            view! { <path class="here" stroke-dasharray="7 4" d=format!("M{LEFT} {:.1}H{}", y(aim), WIDTH - RIGHT) /> }
        });
        view! {
            <text x="4" y=top - 6.0 class="here-words">{t(&format!("swatch-chart-{key}"))}</text>
            <path class="axis" d=format!("M{LEFT} {top}V{:.1}H{}", top + tall, WIDTH - RIGHT) />
            <text x=LEFT - 5.0 y=top + 9.0 text-anchor="end">{plain(high, 0)}</text>
            <text x=LEFT - 5.0 y=top + tall text-anchor="end">{plain(low, 0)}</text>
            {line}
            {drawn}
        }
        .into_any()
    }

    /// A swatch: a full dot is wet, a square pressed, a ring dried; its range a line.
    fn point(&self, step: &ProgressPoint, y: f64, low: f64, high: f64) -> AnyView {
        let x = self.x(step.minutes);
        let class = match step.dryness {
            Dryness::Wet => "point wet",
            Dryness::Pressed => "point pressed",
            Dryness::Dried => "point dried",
        };
        let (entry, show) = (self.entries[step.nth], self.show);
        let round = if step.dryness == Dryness::Pressed { 0.0 } else { 4.5 };
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

/// The chart in one sentence: the first and the last of the dryness with most swatches.
fn told(steps: &[ProgressPoint]) -> String {
    let count = |dryness| steps.iter().filter(|step| step.dryness == dryness).count();
    let most = Dryness::ALL.into_iter().max_by_key(|dryness| count(*dryness));
    let mut of = steps.iter().filter(|step| Some(step.dryness) == most);
    let Some(first) = of.next() else { return String::new() };
    let state = t(first.dryness.key());
    let Some(last) = of.next_back() else {
        let lightness = ranged(first.lightness, 0);
        return t_with!("swatch-chart-told_one", &[("state", &state), ("lightness", &lightness)]);
    };
    let yellow = |step: &ProgressPoint| step.yellowness.map_or("–".into(), |y| plain(y.value, 0));
    t_with!(
        "swatch-chart-told",
        &[
            ("state", &state),
            ("minutes", &plain(last.minutes - first.minutes, 0)),
            ("from", &plain(first.lightness.value, 0)),
            ("to", &plain(last.lightness.value, 0)),
            ("yellow_from", &yellow(first)),
            ("yellow_to", &yellow(last)),
        ],
    )
}

fn table(all: &[TimedSwatch], steps: &[ProgressPoint]) -> AnyView {
    let mut by_time: Vec<&ProgressPoint> = steps.iter().collect();
    by_time.sort_by_key(|step| step.nth);
    let maybe = |figure: Option<Figure>| figure.map_or("–".into(), |f| ranged(f, 1));
    let rows: Vec<AnyView> = by_time
        .into_iter()
        .map(|step| {
            let one = &all[step.nth];
            view! {
                <tr>
                    <th scope="row">{one.when()}", "{t(step.dryness.key())}</th>
                    <td>{ranged(step.lightness, 1)}</td>
                    <td>{maybe(step.yellowness)}</td>
                    <td>{maybe(step.to_target)}</td>
                </tr>
            }
            .into_any()
        })
        .collect();
    let heads = ["when", "lightness", "yellowness", "to_target"]
        .map(|key| view! { <th scope="col">{t(&format!("swatch-chart-{key}"))}</th> });
    view! {
        <table class="loads">
            <thead><tr>{heads.into_iter().collect_view()}</tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
    .into_any()
}
