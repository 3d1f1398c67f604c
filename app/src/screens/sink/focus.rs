//! One running bath fills the screen: the ring, the latest readings, the next act as the largest
//! thing to press, and the stop. In landscape the ring is left and the acts are right.

use bleachfield_core::derive::cue::CueAct;
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    acts::{LargeAct, MissedCues, NextAct, StopAct},
    forecast::forecast_part,
    latest_readings::LatestReading,
    ring::Ring,
    running_bath::RunningBath,
    screen_cautions::UrgentCautions,
    sheets::SheetKind,
    wet_touch::WetTouch,
};
use crate::{
    components::icon,
    i18n::{format_duration, format_number, t, t_with},
    platform::clock,
    route::{BatchForm, Route},
    screens::station_bar::StationBar,
};

#[component]
pub fn Focus(bath: Ulid) -> Option<impl IntoView> {
    let running = RunningBath::find(bath)?;
    let large = LargeAct::of(running);
    Some(view! {
        <section class="focus" aria-label=move || running.batch_name()>
            <div class="dial">
                <Ring running />
                <ReadingsLine running />
                <div class="outlook-place">{forecast_part(running, |parts| parts.line)}</div>
            </div>
            <div class="stack acts">
                <UrgentCautions running />
                <NextAct running large />
                <SmallActs running large />
                <StopAct running />
                <MissedCues running />
                <Links running />
            </div>
        </section>
    })
}

/// "pH 10.1 · 800 mg/L · 39 °C", each with its age.
#[component]
fn ReadingsLine(running: RunningBath) -> impl IntoView {
    let latest = running.latest_readings();
    // Ages change each minute.
    let minute = Memo::new(move |_| running.elapsed().as_mins());
    let part = move |before: &'static str, unit: &'static str, read: Option<LatestReading>| {
        let read = read?;
        let age = clock::now().duration_since(read.at);
        Some(view! {
            <span class="reading">
                <strong>{before}{format_number(read.figure.value, 3)}{unit}</strong>
                " "<span class="soft small">{format_duration(age)}</span>
            </span>
        })
    };
    let line = move || {
        minute.get();
        latest.with(|latest| {
            let parts = [
                part("pH ", "", latest.ph),
                part("", " mg/L", latest.strip),
                part("", " °C", latest.celsius),
            ];
            if parts.iter().all(Option::is_none) {
                return view! { <span class="soft">{t!("sink-not_read")}</span> }.into_any();
            }
            parts.into_iter().flatten().collect_view().into_any()
        })
    };
    view! { <p class="readings">{line}</p> }
}

/// What can be done beside the next act; each keeps its place. The first is the act that is not
/// the large one.
#[component]
fn SmallActs(running: RunningBath, large: LargeAct) -> impl IntoView {
    let touch: WetTouch = expect_context();
    let open = move |kind| running.sheets.open(running.bath, kind);
    let first = move || match large.act.get() {
        CueAct::Stir => {
            let check = move || {
                if large.is_press(touch, "check") {
                    open(SheetKind::Check);
                }
            };
            small_act(STRIP, t!("sink-do-check"), check)
        }
        _ => {
            let stir = move || {
                if large.is_press(touch, "stir") {
                    running.write_stirred();
                }
            };
            small_act(PADDLE, t!("sink-do-stirred"), stir)
        }
    };
    let opens = move |kind: SheetKind, act: &'static str, drawing: &'static str, name: String| {
        let press = move || {
            if touch.is_press(act) {
                open(kind);
            }
        };
        small_act(drawing, name, press)
    };
    view! {
        <div class="small-acts">
            {first}
            {opens(SheetKind::Addition, "add", PLUS, t!("sink-do-add"))}
            {opens(SheetKind::Reheat, "reheat", THERMOMETER, t!("sink-do-reheated"))}
            {opens(SheetKind::Schedule, "times", CLOCK, t!("sink-do-times"))}
        </div>
    }
}

fn small_act(drawing: &'static str, name: String, press: impl Fn() + 'static) -> AnyView {
    view! {
        <button class="button soft small-act" on:click=move |_| press()>
            {icon::drawing(drawing)}<span>{name}</span>
        </button>
    }
    .into_any()
}

/// What the bath is, its page, and a photo whose colour is measured.
#[component]
fn Links(running: RunningBath) -> impl IntoView {
    let oxidant = t(&format!("sink-oxidant-{}", <&str>::from(running.oxidant)));
    let since = t_with!("sink-since", &[("time", &clock::local_time(running.started))]);
    view! {
        <StationBar batch=running.batch />
        <p class="soft">{oxidant}" · "{since}</p>
        <div class="row even">
            <a href=Route::form(running.batch, BatchForm::Photo).href() class="button plain">
                <icon::Camera />{t!("sink-do-photo")}
            </a>
            <a href=Route::batch(running.batch).href() class="button plain">
                <icon::Batches />{t!("sink-do-batch")}
            </a>
        </div>
    }
}

/// A paddle in a tub.
const PADDLE: &str = "M17 2l-6 11M11 13c-2 0-4 1.500-4 4l3 1.500c1.500-1 2-3 1-5.500M3 12h3M15 12h6l-1.500 9h-15L3 12";
/// A test strip with its squares.
const STRIP: &str = "M8 2h8v20H8zM8 7h8M8 12h8M8 17h8";
const PLUS: &str = "M12 4v16M4 12h16";
const THERMOMETER: &str = "M10 4a2 2 0 0 1 4 0v9.500a4.500 4.500 0 1 1-4 0zM12 9v8";
const CLOCK: &str = "M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18zM12 7v5l3.500 2";
