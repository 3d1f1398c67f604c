//! What time it is here, and a little randomness for ids.

use std::time::Duration;

use jiff::Timestamp;
use leptos::prelude::*;
use wasm_bindgen::{JsCast, JsValue};

/// The present instant, to the millisecond.
pub fn now() -> Timestamp {
    Timestamp::from_millisecond(js_sys::Date::now() as i64).unwrap_or(Timestamp::UNIX_EPOCH)
}

/// Milliseconds on the browser's steady clock, which nobody can set. It tells
/// how long something took, not what time it is.
pub fn steady() -> f64 {
    window().performance().map_or(0.0, |performance| performance.now())
}

/// The time zone that the person sees, by IANA name; empty if the browser
/// will not say.
pub fn zone() -> String {
    let options = js_sys::Intl::DateTimeFormat::default().resolved_options();
    js_sys::Reflect::get(&options, &"timeZone".into())
        .ok()
        .and_then(|zone| zone.as_string())
        .unwrap_or_default()
}

/// 128 random bits from the browser. If it has none to give, the clock's
/// digits stand in: an id must be unlikely to repeat, not unguessable.
pub fn random() -> u128 {
    let mut bytes = [0; 16];
    match getrandom::fill(&mut bytes) {
        Ok(()) => u128::from_le_bytes(bytes),
        Err(_) => (js_sys::Math::random() * 1e18) as u128 ^ js_sys::Date::now() as u128,
    }
}

/// The present instant as a signal, renewed each second and whenever the page
/// comes back into view. Nothing is ever counted down: readers compare instants.
pub fn ticking() -> Signal<Timestamp> {
    let seen = RwSignal::new(now());
    let renew = move || seen.set(now());
    let _ = set_interval_with_handle(renew, Duration::from_secs(1));
    for event in ["visibilitychange", "pageshow", "focus"] {
        let _ = window_event_listener_untyped(event, move |_| renew());
    }
    seen.into()
}

/// A moment as this person's calendar and clock write it, such as
/// "3 May 2026, 14:05".
pub fn local(at: Timestamp) -> String {
    format_local(at, &[("dateStyle", "medium"), ("timeStyle", "short")])
}

/// Only the clock part, such as "14:05".
pub fn local_time(at: Timestamp) -> String {
    format_local(at, &[("timeStyle", "short")])
}

/// Only the date part, such as "3 May 2026".
pub fn local_date(at: Timestamp) -> String {
    format_local(at, &[("dateStyle", "medium")])
}

/// A moment as the clocks of another zone show it, such as "3 May 2026,
/// 14:05"; `None` if the browser does not know the zone.
pub fn local_in(at: Timestamp, zone: &str) -> Option<String> {
    let options = options(&[("dateStyle", "medium"), ("timeStyle", "short"), ("timeZone", zone)]);
    let date = date_of(at);
    // Called by name: an unknown zone throws, and this way it can be caught.
    let write = js_sys::Reflect::get(&date, &"toLocaleString".into()).ok()?;
    let write: &js_sys::Function = write.dyn_ref()?;
    write.call2(&date, &JsValue::UNDEFINED, &options).ok()?.as_string()
}

/// A day of the calendar, such as "3 May 2026".
pub fn local_day(day: jiff::civil::Date) -> String {
    let noon = js_sys::Date::new_with_year_month_day_hr(
        day.year().max(0) as u32,
        i32::from(day.month()) - 1,
        i32::from(day.day()),
        12,
    );
    noon.to_locale_date_string("default", &options(&[("dateStyle", "medium")])).into()
}

/// Today, by this person's calendar.
pub fn today() -> jiff::civil::Date {
    let date = js_sys::Date::new_0();
    jiff::civil::Date::new(
        date.get_full_year() as i16,
        date.get_month() as i8 + 1,
        date.get_date() as i8,
    )
    .unwrap_or_default()
}

/// A moment as a date-and-time field holds it: local, to the minute.
pub fn to_field(at: Timestamp) -> String {
    let date = date_of(at);
    let minutes = at.as_millisecond() as f64 / 60_000.0 - date.get_timezone_offset();
    let shifted = js_sys::Date::new(&(minutes * 60_000.0).into());
    String::from(shifted.to_iso_string()).chars().take(16).collect()
}

/// The moment that a date-and-time field means.
pub fn from_field(text: &str) -> Option<Timestamp> {
    let millis = js_sys::Date::new(&text.into()).get_time();
    millis.is_finite().then(|| Timestamp::from_millisecond(millis as i64).ok()).flatten()
}

fn format_local(at: Timestamp, style: &[(&str, &str)]) -> String {
    date_of(at).to_locale_string("default", &options(style)).into()
}

fn date_of(at: Timestamp) -> js_sys::Date {
    js_sys::Date::new(&(at.as_millisecond() as f64).into())
}

fn options(members: &[(&str, &str)]) -> js_sys::Object {
    let options = js_sys::Object::new();
    for (name, value) in members {
        let _ = js_sys::Reflect::set(&options, &(*name).into(), &(*value).into());
    }
    options
}
