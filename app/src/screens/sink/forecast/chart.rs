//! The bands of the coming hours with the readings, as a chart, in a sentence and as a table.

use bleachfield_core::{
    chemistry::substance::{CHLORINE, HYDROGEN_PEROXIDE},
    derive::{BathForecast, cue},
    forecast::{Band, ForecastQuantity, ForecastReading},
    journal::Oxidant,
    quantity::{Measures, Unit},
};
use leptos::prelude::*;

use super::words::{at, damage_words, range};
use crate::{
    components::{
        FigureTable,
        time_chart::{PointShape, TimeBand, TimeChart, TimePanel, TimePoint},
    },
    i18n::{fixed, t, t_with},
    platform::{clock, preferences::fahrenheit},
    screens::sink::running_bath::RunningBath,
    worker::ForecastUpdate,
};

/// A quantity as it is shown.
struct Shown {
    of: ForecastQuantity,
    key: &'static str,
    /// From the unit of the forecast.
    scale: fn(f64, Oxidant) -> f64,
    places: usize,
    least_span: f64,
}

const SHOWN: [Shown; 6] = [
    shown(ForecastQuantity::DryLightness, "lightness", |l, _| l, 0, 10.0),
    shown(ForecastQuantity::DryYellowness, "yellowness", |y, _| y, 0, 10.0),
    shown(ForecastQuantity::OxidantLeft, "oxidant", milligrams, 0, 100.0),
    shown(ForecastQuantity::CooledPh, "ph", |ph, _| ph, 1, 1.0),
    shown(ForecastQuantity::Celsius, "celsius", |celsius, _| degrees(celsius), 0, 5.0),
    shown(ForecastQuantity::ChainLoss, "damage", |loss, _| 100.0 * loss, 0, 20.0),
];

const fn shown(
    of: ForecastQuantity,
    key: &'static str,
    scale: fn(f64, Oxidant) -> f64,
    places: usize,
    least_span: f64,
) -> Shown {
    Shown { of, key, scale, places, least_span }
}

/// mg/L of available chlorine or of H2O2, as a strip shows it.
fn milligrams(moles_per_litre: f64, oxidant: Oxidant) -> f64 {
    let active = if oxidant == Oxidant::Hypochlorite { CHLORINE } else { HYDROGEN_PEROXIDE };
    1000.0 * moles_per_litre * active.grams_per_mole
}

fn degrees(celsius: f64) -> f64 {
    if fahrenheit() { Unit::Fahrenheit.from_base(celsius, Measures::default()) } else { celsius }
}

/// The chart, its sentence and its key.
pub fn chart(running: RunningBath, update: &ForecastUpdate, made: &BathForecast) -> AnyView {
    let until = update.bands(ForecastQuantity::DryLightness).last().map_or(0.0, |b| b.minutes);
    let summary = summary(running, update);
    let tick = |minutes: f64| (minutes, clock::local_time(at(running, minutes)));
    let chart = TimeChart {
        summary: summary.clone(),
        from: 0.0,
        until,
        ticks: vec![tick(0.0), tick(until)],
        unit: String::new(),
        marks: marks(running, made, until),
        now: Some(update.view.now),
        panels: SHOWN.iter().map(|shown| panel(shown, running.oxidant, update, made)).collect(),
    };
    view! {
        <figure class="picture">
            {chart.view(fixed)}
            <figcaption class="small">
                <p>{summary}</p>
                <p class="soft">{t!("forecast-chart-key")}</p>
            </figcaption>
        </figure>
    }
    .into_any()
}

/// Checks, the stop, additions and reheats, minutes.
fn marks(running: RunningBath, made: &BathForecast, until: f64) -> Vec<f64> {
    let now = running.state.now();
    let cues = running.view(|view| cue::cues(view, now)).unwrap_or_default();
    let minutes = |due: jiff::Timestamp| due.duration_since(running.started).as_secs_f64() / 60.0;
    let due = cues.iter().filter(|cue| cue.what.act() != cue::CueAct::Stir);
    let mut marks: Vec<f64> = due.map(|cue| minutes(cue.due)).collect();
    marks.extend(made.request.events.iter().map(|event| event.minutes));
    marks.retain(|minutes| (0.0..=until).contains(minutes));
    marks.sort_by(f64::total_cmp);
    marks.dedup();
    marks
}

fn panel(
    shown: &Shown,
    oxidant: Oxidant,
    update: &ForecastUpdate,
    made: &BathForecast,
) -> TimePanel {
    let scaled = |value: f64| (shown.scale)(value, oxidant);
    let band = |band: &Band| TimeBand {
        minutes: band.minutes,
        outer: (scaled(band.low_80), scaled(band.high_80)),
        inner: (scaled(band.low_50), scaled(band.high_50)),
        middle: scaled(band.median),
    };
    let points = made.readings.iter().filter_map(|known| {
        let reading = &known.reading;
        let dry = reading.of == ForecastQuantity::WetLightness
            && shown.of == ForecastQuantity::DryLightness;
        if !dry && reading.of != shown.of {
            return None;
        }
        let [value, low, high] = if dry {
            as_dry(reading, update)?
        } else {
            [reading.value.value, reading.value.low, reading.value.high]
        };
        Some(TimePoint {
            minutes: reading.minutes,
            value: scaled(value),
            range: (scaled(low), scaled(high)),
            shape: if reading.of == ForecastQuantity::DryLightness {
                PointShape::Ring
            } else {
                PointShape::Dot
            },
            on_press: None,
        })
    });
    let target = made.goal.lightness.filter(|_| shown.of == ForecastQuantity::DryLightness);
    let most = (shown.of == ForecastQuantity::ChainLoss).then_some(made.goal.most_chain_loss);
    TimePanel {
        heading: heading(shown, oxidant),
        bands: update.bands(shown.of).iter().map(band).collect(),
        curves: Vec::new(),
        points: points.collect(),
        labels: Vec::new(),
        aim: target.or(most).map(scaled),
        least_span: shown.least_span,
        places: shown.places,
    }
}

/// A wet reading as it would dry: as far from the dry band's middle as it is from the wet one's.
fn as_dry(reading: &ForecastReading, update: &ForecastUpdate) -> Option<[f64; 3]> {
    let wet = update.at(ForecastQuantity::WetLightness, reading.minutes)?.median;
    let dry = update.at(ForecastQuantity::DryLightness, reading.minutes)?.median;
    let value = reading.value;
    Some([value.value, value.low, value.high].map(|read| dry + read - wet))
}

fn heading(shown: &Shown, oxidant: Oxidant) -> String {
    match (shown.of, oxidant) {
        (ForecastQuantity::OxidantLeft, Oxidant::Hypochlorite) => t!("forecast-chart-chlorine"),
        (ForecastQuantity::OxidantLeft, _) => t!("forecast-chart-peroxide"),
        (ForecastQuantity::Celsius, _) if fahrenheit() => t!("forecast-chart-fahrenheit"),
        _ => t(&format!("forecast-chart-{}", shown.key)),
    }
}

fn summary(running: RunningBath, update: &ForecastUpdate) -> String {
    let stop = update.view.goal.until.max(update.view.now);
    let (Some(lightness), Some(damage)) = (
        update.at(ForecastQuantity::DryLightness, stop),
        update.at(ForecastQuantity::ChainLoss, stop),
    ) else {
        return t!("forecast-cannot_tell-contradict");
    };
    t_with!(
        "forecast-chart-summary",
        &[
            ("time", &clock::local_time(at(running, stop))),
            ("lightness", &range(lightness.low_80, lightness.high_80, 0)),
            ("damage", &damage_words(&damage)),
        ],
    )
}

/// Minutes ahead of the columns of the table.
const COLUMNS: [f64; 4] = [0.0, 30.0, 60.0, 120.0];

/// The 80 % ranges at some times ahead.
pub fn table(running: RunningBath, update: &ForecastUpdate, _: &BathForecast) -> AnyView {
    let now = update.view.now;
    let mut heads = vec![t!("forecast-table-what")];
    heads.extend(COLUMNS.map(|ahead| clock::local_time(at(running, now + ahead))));
    let row = |shown: &Shown| {
        let cells = COLUMNS.map(|ahead| {
            let band = update.at(shown.of, now + ahead);
            band.map_or_else(
                || "–".to_owned(),
                |band| {
                    let scaled = |value| (shown.scale)(value, running.oxidant);
                    range(scaled(band.low_80), scaled(band.high_80), shown.places)
                },
            )
        });
        (heading(shown, running.oxidant), cells.to_vec())
    };
    let rows = SHOWN.iter().map(row).collect();
    view! { <FigureTable heads rows /> }.into_any()
}
