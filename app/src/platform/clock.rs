//! The clock of this device, and dates and times as its person writes them.
//! Formats come from the browser's Intl, which has the time zones.

use jiff::Timestamp;
use jiff::civil::Date;
use leptos::{ev, prelude::*};
use leptos_use::{use_event_listener, use_interval_fn};
use wasm_bindgen::{JsCast, JsValue};

/// The present instant, to the millisecond.
pub fn now() -> Timestamp {
    Timestamp::from_millisecond(js_sys::Date::now() as i64).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// Milliseconds of the monotonic clock since the page was opened: for durations, not for times.
pub fn monotonic_ms() -> f64 {
    window().performance().map_or(0.0, |performance| performance.now())
}

/// The present instant as a signal, updated every second and whenever the page becomes
/// visible. Readers compare instants; nothing is counted.
pub fn use_now() -> Signal<Timestamp> {
    let time = RwSignal::new(now());
    let update = move || time.set(now());
    use_interval_fn(update, 1000_u64);
    let _ = use_event_listener(document(), ev::visibilitychange, move |_| update());
    let _ = use_event_listener(window(), ev::pageshow, move |_| update());
    let _ = use_event_listener(window(), ev::focus, move |_| update());
    time.into()
}

/// IANA name of the time zone of this device; empty if the browser does not say.
pub fn zone() -> String {
    let options = js_sys::Intl::DateTimeFormat::default().resolved_options();
    js_sys::Reflect::get(&options, &"timeZone".into())
        .ok()
        .and_then(|zone| zone.as_string())
        .unwrap_or_default()
}

/// Date and time, such as "3 May 2026, 14:05".
pub fn local(at: Timestamp) -> String {
    format_local(at, &[("dateStyle", "medium"), ("timeStyle", "short")])
}

/// The time alone, such as "14:05".
pub fn local_time(at: Timestamp) -> String {
    format_local(at, &[("timeStyle", "short")])
}

/// The date alone, such as "3 May 2026".
pub fn local_date(at: Timestamp) -> String {
    format_local(at, &[("dateStyle", "medium")])
}

/// Date and time in another zone, such as "3 May 2026, 14:05"; `None` if the browser does not
/// know the zone.
pub fn local_in(at: Timestamp, zone: &str) -> Option<String> {
    let options = options(&[("dateStyle", "medium"), ("timeStyle", "short"), ("timeZone", zone)]);
    let date = js_date(at);
    // By name: an unknown zone throws, and js-sys does not catch it.
    let format = js_sys::Reflect::get(&date, &"toLocaleString".into()).ok()?;
    let format: &js_sys::Function = format.dyn_ref()?;
    format.call2(&date, &JsValue::UNDEFINED, &options).ok()?.as_string()
}

/// A day of the calendar, such as "3 May 2026".
pub fn local_day(day: Date) -> String {
    let noon = js_sys::Date::new_with_year_month_day_hr(
        day.year().max(0) as u32,
        i32::from(day.month()) - 1,
        i32::from(day.day()),
        12,
    );
    noon.to_locale_date_string("default", &options(&[("dateStyle", "medium")])).into()
}

/// Today in the zone of this device.
pub fn today() -> Date {
    let date = js_sys::Date::new_0();
    Date::new(date.get_full_year() as i16, date.get_month() as i8 + 1, date.get_date() as i8)
        .unwrap_or_default()
}

/// The value of an `<input type="datetime-local">`: local, to the minute.
pub fn to_field(at: Timestamp) -> String {
    let date = js_date(at);
    let minutes = at.as_millisecond() as f64 / 60_000.0 - date.get_timezone_offset();
    let shifted = js_sys::Date::new(&(minutes * 60_000.0).into());
    String::from(shifted.to_iso_string()).chars().take(16).collect()
}

/// The instant of an `<input type="datetime-local">`.
pub fn from_field(text: &str) -> Option<Timestamp> {
    let millis = js_sys::Date::new(&text.into()).get_time();
    millis.is_finite().then(|| Timestamp::from_millisecond(millis as i64).ok()).flatten()
}

fn format_local(at: Timestamp, style: &[(&str, &str)]) -> String {
    js_date(at).to_locale_string("default", &options(style)).into()
}

fn js_date(at: Timestamp) -> js_sys::Date {
    js_sys::Date::new(&(at.as_millisecond() as f64).into())
}

fn options(members: &[(&str, &str)]) -> js_sys::Object {
    let options = js_sys::Object::new();
    for (name, value) in members {
        let _ = js_sys::Reflect::set(&options, &(*name).into(), &(*value).into());
    }
    options
}
