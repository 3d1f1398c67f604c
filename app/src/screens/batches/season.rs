//! A season's baths together: what went in against what came of it, as a chart and a table; what
//! a kilogram of pulp took.

use bleachfield_core::{
    derive::season::{
        SeasonBatch, SeasonBy, SeasonMark, SeasonResult, marks, mean_per_kilogram, season,
    },
    message::Value,
};
use leptos::prelude::*;

use super::run_chart::fixed;
use crate::{
    components::{
        FigureTable, Page, RadioGroup,
        chart::{Plot, Scale, tick_label},
    },
    i18n::{format_value, t, t_count, t_with},
    platform::print,
    route::Route,
    state::app_state,
};

/// `/batches/season`.
#[component]
pub fn Season() -> impl IntoView {
    let batches = Memo::new(move |_| app_state().book(season));
    let by = RwSignal::new(SeasonBy::Charge);
    let of = RwSignal::new(SeasonResult::LightnessGained);
    let bys = [SeasonBy::Charge, SeasonBy::Time, SeasonBy::Temperature, SeasonBy::Fibre];
    let ofs = [SeasonResult::LightnessGained, SeasonResult::Kept];
    let bys = bys.map(|by| (by, by_name(by))).to_vec();
    let ofs = ofs.map(|of| (of, of_name(of))).to_vec();
    view! {
        <Page title=t!("season-title") back=Route::Batches>
            <div class="stack wide">
                <p>{move || t_count!("season-count", batches.with(Vec::len))}</p>
                <RadioGroup label=t!("season-by") value=by options=bys />
                <RadioGroup label=t!("season-of") value=of options=ofs />
                {move || batches.with(|batches| results(batches, by.get(), of.get()))}
                {move || batches.with(|batches| per_kilogram(batches))}
                <button class="button bare no-print" on:click=move |_| print::page()>
                    {t!("batch-print")}
                </button>
            </div>
        </Page>
    }
}

fn by_name(by: SeasonBy) -> String {
    t(&format!("season-by-{}", <&str>::from(by)))
}

fn of_name(of: SeasonResult) -> String {
    t(&format!("season-of-{}", <&str>::from(of)))
}

fn result_text(of: SeasonResult, value: f64) -> String {
    match of {
        SeasonResult::LightnessGained => fixed(value, 1),
        SeasonResult::Kept => format_value(&Value::Share(value)),
    }
}

fn results(batches: &[SeasonBatch], by: SeasonBy, of: SeasonResult) -> AnyView {
    let marks = marks(batches, by, of);
    if marks.is_empty() {
        return view! { <p>{t!("season-none")}</p> }.into_any();
    }
    let summary = summary(&marks, of);
    let rows = marks.iter().map(|mark| {
        let range = if mark.count > 1 {
            t_with!(
                "figure_range",
                &[("low", &result_text(of, mark.lowest)), ("high", &result_text(of, mark.highest)),]
            )
        } else {
            "–".to_owned()
        };
        let cells = vec![mark.count.to_string(), result_text(of, mark.mean), range];
        (format_value(&mark.group), cells)
    });
    let heads = vec![by_name(by), t!("season-batches"), of_name(of), t!("season-range")];
    let rows = rows.collect();
    view! {
        <figure class="picture">
            {drawing(&marks, by, of, summary.clone())}
            <figcaption class="small">
                <p>{summary}</p>
                <p class="soft">{t!("season-key")}</p>
            </figcaption>
        </figure>
        <FigureTable heads rows />
    }
    .into_any()
}

/// Which group did best, and on how many batches that rests.
fn summary(marks: &[SeasonMark], of: SeasonResult) -> String {
    let best = marks.iter().max_by(|one, other| one.mean.total_cmp(&other.mean));
    let Some(best) = best else { return String::new() };
    let values = [
        ("group", format_value(&best.group)),
        ("result", result_text(of, best.mean)),
        ("n", best.count.to_string()),
    ];
    let values: Vec<(&str, &str)> = values.iter().map(|(name, text)| (*name, &**text)).collect();
    match of {
        SeasonResult::LightnessGained => t_with!("season-most_light", &values),
        SeasonResult::Kept => t_with!("season-most_kept", &values),
    }
}

/// Size of the drawing and its margins, in its own units.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 190.0;
const LEFT: f64 = 40.0;
const RIGHT: f64 = 24.0;
const TOP: f64 = 24.0;
const FOOT: f64 = 26.0;

/// A mark for each group: its mean, a line from the lowest to the highest, and the number of
/// batches beside it.
fn drawing(marks: &[SeasonMark], by: SeasonBy, of: SeasonResult, summary: String) -> AnyView {
    let ends = |values: Vec<f64>, room: f64| {
        let low = values.iter().copied().fold(f64::INFINITY, f64::min);
        let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let room = ((room - (high - low)) / 2.0).max(0.0);
        (low - room, high + room)
    };
    let (least_x, least_y) = match (by, of) {
        (SeasonBy::Charge, _) => (0.01, of),
        (SeasonBy::Time, _) => (60.0, of),
        (SeasonBy::Temperature, _) => (10.0, of),
        (SeasonBy::Fibre, _) => (1.0, of),
    };
    let least_y = if least_y == SeasonResult::Kept { 0.1 } else { 10.0 };
    let xs = ends(marks.iter().map(|mark| mark.place).collect(), least_x);
    let ys = ends(marks.iter().flat_map(|mark| [mark.lowest, mark.highest]).collect(), least_y);
    let plot = Plot {
        left: LEFT,
        x: Scale { domain: xs, range: (LEFT + 16.0, WIDTH - RIGHT) },
        y: Scale { domain: ys, range: (HEIGHT - FOOT, TOP) },
    };
    let last = marks.len() - 1;
    let view_of = |(nth, mark): (usize, &SeasonMark)| {
        let (x, y) = (plot.x.at(mark.place), plot.y.at(mark.mean));
        let (low, high) = (plot.y.at(mark.lowest), plot.y.at(mark.highest));
        // Left of a mark at the right edge.
        let (beside, anchor) = if x > WIDTH - 50.0 { (x - 8.0, "end") } else { (x + 8.0, "start") };
        // Names that would run into each other are left to the table.
        let tick = (nth == 0 || nth == last || marks.len() < 5)
            .then(|| tick_label(x, HEIGHT - 8.0, tick_anchor(nth, last), short(mark)));
        view! {
            <g class="point fixed">
                <path d=format!("M{x:.1} {high:.1}V{low:.1}") />
                <rect x=x - 4.5 y=y - 4.5 width="9" height="9" rx="4.5" />
            </g>
            <text x=beside y=y + 4.0 text-anchor=anchor class="here-words">
                {format!("n = {}", mark.count)}
            </text>
            {tick}
        }
    };
    let places = |value: f64| match of {
        SeasonResult::LightnessGained => fixed(value, 0),
        SeasonResult::Kept => fixed(value * 100.0, 0),
    };
    let heading = match of {
        SeasonResult::LightnessGained => t!("season-of-lightness_gained"),
        SeasonResult::Kept => t!("season-axis_kept"),
    };
    view! {
        <svg class="chart times" viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=summary>
            <text x="4" y="14" class="here-words">{heading}</text>
            {plot.axes()}
            {tick_label(LEFT - 5.0, TOP + 9.0, "end", places(ys.1))}
            {tick_label(LEFT - 5.0, HEIGHT - FOOT, "end", places(ys.0))}
            {marks.iter().enumerate().map(view_of).collect_view()}
        </svg>
    }
    .into_any()
}

fn tick_anchor(nth: usize, last: usize) -> &'static str {
    match nth {
        0 if last > 0 => "start",
        nth if nth == last && last > 0 => "end",
        _ => "middle",
    }
}

/// A name that fits under the axis.
fn short(mark: &SeasonMark) -> String {
    let text = format_value(&mark.group);
    if text.chars().count() > 14 { text.chars().take(13).chain(['…']).collect() } else { text }
}

fn per_kilogram(batches: &[SeasonBatch]) -> Option<AnyView> {
    let names = [t!("season-active"), t!("season-water"), t!("season-cost")];
    let rows = names
        .into_iter()
        .zip(mean_per_kilogram(batches))
        .filter_map(|(name, (mean, n))| Some((name, vec![format_value(&mean?), n.to_string()])));
    let rows: Vec<_> = rows.collect();
    (!rows.is_empty()).then(|| {
        let heads = vec![t!("season-used"), t!("season-mean"), t!("season-batches")];
        view! {
            <h2>{t!("season-per_kg")}</h2>
            <FigureTable heads rows />
            <p class="small soft">{t!("season-per_kg_how")}</p>
        }
        .into_any()
    })
}
