//! On the sheet for a reheated bath: when it leaves its range, how much hot water or how long in a
//! water bath brings it back, and what that does to it.

use bleachfield_core::{
    bath::{HeatError, HotWaterAdded, LONGEST_HOURS, WaterBathWarming, water_volume},
    derive::BathWarmth,
    message::{Field, Value},
    quantity::{Celsius, Estimate, QuantityKind, Unit, grams, in_millilitres, in_share},
};
use leptos::prelude::*;

use super::{SinkForecast, vessel_form::VesselForm, words::range};
use crate::{
    components::{NumberField, NumberInput},
    i18n::{fixed, format_number, format_value, render, t, t_with, volume_text},
    screens::sink::running_bath::RunningBath,
};

const HOT: Field = Field("kettle_celsius");
const OUTSIDE: Field = Field("water_bath_volume");
const OUTSIDE_CELSIUS: Field = Field("water_bath_celsius");

/// A kettle a minute after the boil, and a sink of hot tap water: assumed until changed.
const KETTLE: f64 = 95.0;
const HOT_TAP: f64 = 55.0;
const SINK_LITRES: f64 = 10.0;

pub fn warming(running: RunningBath) -> AnyView {
    let shown: SinkForecast = expect_context();
    let warmth = Memo::new(move |_| {
        let made = shown.made.get()?;
        let now = shown.update.with(|update| update.as_ref()?.advice.celsius);
        let celsius = now.unwrap_or(made.request.celsius.value);
        running.state.book(|book| BathWarmth::of(book, running.bath, &made, celsius))
    });
    let celsius = |field, value| {
        NumberInput::new(field, QuantityKind::Temperature).between(20.0, 100.0).filled(value)
    };
    let hot = celsius(HOT, KETTLE);
    let outside_celsius = celsius(OUTSIDE_CELSIUS, HOT_TAP);
    let outside = NumberInput::new(OUTSIDE, QuantityKind::Volume)
        .unit(Unit::Litre)
        .between(100.0, 200_000.0)
        .filled(SINK_LITRES);
    let is_cool = Memo::new(move |_| {
        warmth.with(|warmth| warmth.as_ref().is_some_and(|one| one.now < one.range.high))
    });
    let with_hot = move || {
        let hot = Celsius::new(hot.base()?).ok()?;
        warmth.with(|warmth| Some((warmth.as_ref()?.hot_water(hot)?, hot)))
    };
    let in_bath = move || {
        let at = Celsius::new(outside_celsius.base()?).ok()?;
        // 1 mL of water is taken as 1 g.
        let water = grams(outside.base()?);
        warmth.with(|warmth| Some(warmth.as_ref()?.water_bath(water, at)))
    };
    view! {
        <section class="stack warming" aria-label=t!("warming-title")>
            <p>{move || warmth.with(|warmth| warmth.as_ref().map(stays_warm))}</p>
            <Show when=move || is_cool.get()>
                <details class="more">
                    <summary>{t!("warming-hot_water")}</summary>
                    <div class="inside stack">
                        <NumberField ask=hot />
                        <p role="status">{move || with_hot().map(|(added, hot)| hot_water(added, hot))}</p>
                    </div>
                </details>
                <details class="more">
                    <summary>{t!("warming-water_bath")}</summary>
                    <div class="inside stack">
                        <div class="plan-grid">
                            <NumberField ask=outside />
                            <NumberField ask=outside_celsius />
                        </div>
                        <p role="status">{move || in_bath().map(water_bath)}</p>
                    </div>
                </details>
            </Show>
            <VesselForm running />
        </section>
    }
    .into_any()
}

/// "About 37 °C now. Below 35 °C in about 25 min (15–50)."
fn stays_warm(warmth: &BathWarmth) -> String {
    let celsius = |at: Celsius| format_value(&Value::Celsius(at.get().round()));
    let now = t_with!("warming-now", &[("now", &celsius(warmth.now))]);
    let (low, high) = (celsius(warmth.range.low), celsius(warmth.range.high));
    let then = if warmth.now < warmth.range.low {
        t_with!("warming-below", &[("low", &low), ("high", &high)])
    } else {
        match warmth.leaves_range() {
            Some(minutes) => {
                t_with!("warming-leaves", &[("low", &low), ("minutes", &minutes_text(minutes))])
            }
            None => t_with!("warming-stays", &[("low", &low)]),
        }
    };
    let learnt = if warmth.pairs > 0 { t!("warming-learnt") } else { t!("warming-not_learnt") };
    format!("{now} {then} {learnt}")
}

/// "25 min (15–50)"; hours where they are many.
fn minutes_text(minutes: Estimate<f64>) -> String {
    let hours = minutes.value >= 180.0;
    let (scale, places) = if hours { (60.0, 1) } else { (1.0, 0) };
    let end = |value: f64| value.min(60.0 * LONGEST_HOURS) / scale;
    let value = fixed(end(minutes.value), places);
    let ends = range(end(minutes.low), end(minutes.high), places);
    if hours {
        t_with!("warming-hours", &[("value", &value), ("range", &ends)])
    } else {
        t_with!("warming-minutes", &[("value", &value), ("range", &ends)])
    }
}

fn hot_water(added: Result<HotWaterAdded, HeatError>, hot: Celsius) -> String {
    match added {
        Ok(added) => {
            let volume = in_millilitres(water_volume(added.hot, hot));
            t_with!(
                "warming-add",
                &[
                    ("water", &volume_text(rounded(volume))),
                    ("hot", &format_value(&Value::Celsius(hot.get()))),
                    ("reaches", &format_value(&Value::Celsius(added.reaches.get().round()))),
                    ("consistency", &format_number(100.0 * in_share(added.consistency), 2)),
                    ("strength", &format_number(100.0 * added.strength_factor, 2)),
                ],
            )
        }
        Err(error) => render(&error.message()),
    }
}

fn water_bath(warming: Result<WaterBathWarming, HeatError>) -> String {
    match warming {
        Ok(warming) => {
            let stays = t_with!("warming-in_bath", &[("minutes", &minutes_text(warming.minutes))],);
            let out = warming.take_out_before.map(|minutes| {
                t_with!("warming-take_out", &[("minutes", &fixed(minutes.floor(), 0))])
            });
            [Some(stays), out].into_iter().flatten().collect::<Vec<_>>().join(" ")
        }
        Err(error) => render(&error.message()),
    }
}

/// To what a jug shows.
fn rounded(ml: f64) -> f64 {
    let step = if ml >= 1000.0 { 50.0 } else { 10.0 };
    // Never above the range: downwards.
    (ml / step).floor() * step
}
