//! The card of a running bath: elapsed time, next cue, readings, and what can be done.

use bleachfield_core::journal::Oxidant;
use jiff::SignedDuration;
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    addition::AdditionForm,
    latest_readings::{LatestReading, LatestReadings},
    pending_cues::PendingCues,
    reading::{FieldCautions, ReadingForm},
    reheat::ReheatForm,
    running_bath::{RunningBath, cue_name},
    schedule::ScheduleForm,
    stop::StopForm,
};
use crate::{
    components::{BottomSheet, CautionList, icon},
    i18n::{format_duration, format_elapsed, format_number, key, t, t_with},
    platform::clock,
    route::{BatchForm, Route},
};

#[component]
pub fn BathCard(bath: Ulid) -> Option<impl IntoView> {
    let running = RunningBath::find(bath)?;
    let sheets = running.sheets;
    let latest = running.latest_readings();
    Some(view! {
        <section class="card bath stack" aria-labelledby=format!("bath-{bath}")>
            <CardHead running />
            <PendingCues running />
            <Times running />
            <Readings running latest />
            <Actions running />
            <CautionList cautions=Signal::derive(move || latest.with(LatestReadings::other_cautions)) />
            <BottomSheet open=sheets.reading title=t!("sink-reading-title")>
                <ReadingForm running />
            </BottomSheet>
            <BottomSheet open=sheets.reheat title=t!("sink-reheat-title")>
                <ReheatForm running />
            </BottomSheet>
            <BottomSheet open=sheets.addition title=t!("sink-add-title")>
                <AdditionForm running />
            </BottomSheet>
            <BottomSheet open=sheets.schedule title=t!("sink-times-title")>
                <ScheduleForm running />
            </BottomSheet>
            <BottomSheet open=sheets.stop title=t!("sink-stop-title")>
                <StopForm running />
            </BottomSheet>
        </section>
    })
}

/// Batch, elapsed time and the stop button: first, so that the stop is always in sight.
#[component]
fn CardHead(running: RunningBath) -> impl IntoView {
    let oxidant = t(&format!("sink-oxidant-{}", <&str>::from(running.oxidant)));
    let since = t_with!("sink-since", &[("time", &clock::local_time(running.started))]);
    view! {
        <div>
            <h2 id=format!("bath-{}", running.bath)>
                <a href=Route::batch(running.batch).href()>{move || running.batch_name()}</a>
            </h2>
            <p class="soft">{oxidant}" · "{since}</p>
        </div>
        <div class="clock-row">
            <span class="elapsed" role="timer" aria-live="off" aria-label=t!("sink-elapsed")>
                {move || format_elapsed(running.elapsed())}
            </span>
            <button class="button stop touch" on:click=move |_| running.sheets.stop.set(true)>
                <icon::Hand />{t!("sink-stop-press")}
            </button>
        </div>
    }
}

/// Time left until the stop, and the next cue.
#[component]
fn Times(running: RunningBath) -> impl IntoView {
    let stop = move || {
        let now = running.state.now();
        let Some(due) = running.stop_due.get() else { return t!("sink-no_stop") };
        let left = due.duration_since(now);
        let key = if left.is_negative() { key!("sink-over") } else { key!("sink-left") };
        let by = format_duration(up_to_minute(left).abs());
        t_with(key, &[("by", &by), ("time", &clock::local_time(due))])
    };
    let next = move || {
        let next = running.next.get()?;
        let left = up_to_minute(next.due.duration_since(running.state.now()));
        Some(t_with!(
            "sink-next",
            &[
                ("what", &cue_name(next.what)),
                ("time", &clock::local_time(next.due)),
                ("by", &format_duration(left)),
            ]
        ))
    };
    view! {
        <div class="times">
            <p><strong>{stop}</strong></p>
            <p>{next}</p>
        </div>
    }
}

/// The latest readings, and the cautions that must stand beside them.
#[component]
fn Readings(running: RunningBath, latest: Memo<LatestReadings>) -> impl IntoView {
    let line = move |name: &'static str, unit: &'static str, reading: Option<LatestReading>| {
        let value = match reading {
            Some(reading) => view! {
                {format_number(reading.figure.value, 3)}{unit}
                <span class="soft small">" · "{clock::local_time(reading.at)}</span>
            }
            .into_any(),
            None => view! { <span class="soft">{t!("sink-not_read")}</span> }.into_any(),
        };
        view! { <dt>{t(name)}</dt><dd>{value}</dd> }
    };
    let strip = if running.oxidant == Oxidant::Hypochlorite {
        key!("sink-chlorine_strip")
    } else {
        key!("sink-peroxide_strip")
    };
    view! {
        {move || latest.with(|latest| view! {
            <dl class="facts">
                {line(key!("sink-ph"), "", latest.ph)}
                {line(strip, " mg/L", latest.strip)}
                {line(key!("sink-temperature"), " °C", latest.celsius)}
            </dl>
        })}
        <FieldCautions cautions=Signal::derive(move || latest.with(LatestReadings::urgent_cautions)) />
    }
}

#[component]
fn Actions(running: RunningBath) -> impl IntoView {
    let sheets = running.sheets;
    let opens = |sheet: RwSignal<bool>, key: &'static str| {
        view! {
            <button class="button soft touch" on:click=move |_| sheet.set(true)>{t(key)}</button>
        }
    };
    view! {
        <div class="doings">
            <button class="button soft touch" on:click=move |_| running.write_stirred()>
                {t!("sink-do-stirred")}
            </button>
            {opens(sheets.reading, key!("sink-do-reading"))}
            <a href=Route::form(running.batch, BatchForm::Photo).href() class="button soft touch">
                <icon::Camera />{t!("sink-do-photo")}
            </a>
            {opens(sheets.reheat, key!("sink-do-reheated"))}
            {opens(sheets.addition, key!("sink-do-add"))}
            {opens(sheets.schedule, key!("sink-do-times"))}
        </div>
    }
}

/// Rounded up to whole minutes; in the last minute, and once it is over, unchanged.
fn up_to_minute(left: SignedDuration) -> SignedDuration {
    if left < SignedDuration::from_mins(1) {
        return left;
    }
    SignedDuration::from_mins((left.as_secs() + 59) / 60)
}
