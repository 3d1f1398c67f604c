//! A running bath: how long, what next, and what is to be done about it.

use bleachfield_core::{
    derive::cue::CueKind,
    journal::{Body, Oxidant, Stirred},
};
use jiff::SignedDuration;
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    adding::Adding,
    cues::Cues,
    latest::{LatestReading, LatestReadings},
    reading::ReadingSheet,
    reheat::ReheatSheet,
    running::RunningBath,
    stop::StopSheet,
    times::TimesSheet,
};
use crate::{
    components::{CautionCard, CautionList, icon},
    i18n::{format_duration, format_elapsed, format_number, key, t, t_with},
    platform::clock,
    route::{BatchForm, Route},
};

/// The sheets that a card can raise.
#[derive(Clone, Copy)]
pub struct CardSheets {
    pub reading: RwSignal<bool>,
    pub reheat: RwSignal<bool>,
    pub adding: RwSignal<bool>,
    pub times: RwSignal<bool>,
    pub stop: RwSignal<bool>,
}

/// The card of a running bath.
#[component]
pub fn BathCard(bath: Ulid) -> Option<impl IntoView> {
    let running = RunningBath::find(bath)?;
    let closed = || RwSignal::new(false);
    let sheets = CardSheets {
        reading: closed(),
        reheat: closed(),
        adding: closed(),
        times: closed(),
        stop: closed(),
    };
    let label = format!("bath-{bath}");
    let labelled = label.clone();
    let latest = Memo::new(move |_| running.studio.book(|book| LatestReadings::of(book, bath)));
    Some(view! {
        <section class="card bath stack" aria-labelledby=labelled>
            <Head running stop=sheets.stop label />
            <Cues running sheets />
            <Times running />
            <ReadingsLine running latest />
            <Doings running sheets />
            <CautionList cautions=Signal::derive(move || latest.with(LatestReadings::lesser)) />
            <ReadingSheet running open=sheets.reading />
            <ReheatSheet running open=sheets.reheat />
            <Adding running open=sheets.adding />
            <TimesSheet running open=sheets.times />
            <StopSheet running open=sheets.stop />
        </section>
    })
}

/// Whose bath, for how long, and the stop beside it: at the top of the card, so
/// that it is in sight whatever else the card has to say.
#[component]
fn Head(running: RunningBath, stop: RwSignal<bool>, label: String) -> impl IntoView {
    let elapsed = move || {
        let now = running.studio.now();
        let run = running.studio.book(|book| book.bath(running.bath).map(|b| b.elapsed(now)));
        format_elapsed(run.unwrap_or_default())
    };
    let oxidant = t(&format!("sink-oxidant-{}", oxidant_key(running)));
    let since = t_with!("sink-since", &[("time", &clock::local_time(running.started))]);
    view! {
        <div>
            <h2 id=label>
                <a href=Route::batch(running.batch).href()>{move || running.name()}</a>
            </h2>
            <p class="soft">{oxidant}" · "{since}</p>
        </div>
        <div class="clock-row">
            <span class="elapsed" role="timer" aria-live="off" aria-label=t!("sink-elapsed")>
                {elapsed}
            </span>
            <button class="button stop touch" on:click=move |_| stop.set(true)>
                <icon::Hand />{t!("sink-stop-press")}
            </button>
        </div>
    }
}

/// When it is to stop, and what comes before that.
#[component]
fn Times(running: RunningBath) -> impl IntoView {
    let stop = move || {
        let now = running.studio.now();
        match running.stop_due.get() {
            None => t!("sink-no_stop"),
            Some(due) => {
                let left = due.duration_since(now);
                let (key, by) = if left.is_negative() {
                    (key!("sink-over"), left.abs())
                } else {
                    (key!("sink-left"), up_to_minute(left))
                };
                t_with(key, &[("by", &format_duration(by)), ("time", &clock::local_time(due))])
            }
        }
    };
    let next = move || {
        let next = running.next.get()?;
        let left = up_to_minute(next.due.duration_since(running.studio.now()));
        let what = t(&format!("sink-cue-{}", next.what.key()));
        let gaps = [
            ("what", &*what),
            ("time", &*clock::local_time(next.due)),
            ("by", &*format_duration(left)),
        ];
        Some(t_with!("sink-next", &gaps))
    };
    view! {
        <div class="times">
            <p><strong>{stop}</strong></p>
            <p>{next}</p>
        </div>
    }
}

/// What was last read, with what there is to say about it right beside.
#[component]
fn ReadingsLine(running: RunningBath, latest: Memo<LatestReadings>) -> impl IntoView {
    let line = move |name: &'static str, unit: &'static str, read: Option<LatestReading>| {
        let value = match read {
            Some(read) => view! {
                {format_number(read.figure.value, 3)}{unit}
                <span class="soft small">" · "{clock::local_time(read.at)}</span>
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
            <div class="stack" role="status">
                {latest.foremost().into_iter().map(|caution| view! { <CautionCard caution /> }).collect_view()}
            </div>
        })}
    }
}

/// The large buttons.
#[component]
fn Doings(running: RunningBath, sheets: CardSheets) -> impl IntoView {
    let raise = |sheet: RwSignal<bool>, key: &'static str| {
        view! {
            <button class="button soft touch" on:click=move |_| sheet.set(true)>{t(key)}</button>
        }
    };
    view! {
        <div class="doings">
            <button class="button soft touch" on:click=move |_| stirred(running)>
                {t!("sink-do-stirred")}
            </button>
            {raise(sheets.reading, key!("sink-do-reading"))}
            <a href=Route::form(running.batch, BatchForm::Photo).href() class="button soft touch">
                <icon::Camera />{t!("sink-do-photo")}
            </a>
            {raise(sheets.reheat, key!("sink-do-reheated"))}
            {raise(sheets.adding, key!("sink-do-add"))}
            {raise(sheets.times, key!("sink-do-times"))}
        </div>
    }
}

/// Writes that the pulp was stirred, which answers what waits for stirring.
pub fn stirred(running: RunningBath) {
    let mut bodies = vec![Body::Stirred(Stirred { bath: running.bath })];
    bodies.extend(running.answers(CueKind::Stir));
    running.write(bodies, t!("sink-said-stirred"), None);
}

/// Time left is told in whole minutes, counted up: "1 min" until it is over.
fn up_to_minute(left: SignedDuration) -> SignedDuration {
    if left < SignedDuration::from_mins(1) {
        return left;
    }
    SignedDuration::from_mins((left.as_secs() + 59) / 60)
}

fn oxidant_key(running: RunningBath) -> &'static str {
    match running.oxidant {
        Oxidant::Hypochlorite => "hypochlorite",
        Oxidant::Percarbonate => "percarbonate",
        Oxidant::Peroxide => "peroxide",
    }
}
