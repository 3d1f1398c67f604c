//! What time it is here, and a little randomness for ids.

use std::time::Duration;

use jiff::Timestamp;
use leptos::prelude::*;

/// The present instant, to the millisecond.
pub fn now() -> Timestamp {
    Timestamp::from_millisecond(js_sys::Date::now() as i64).unwrap_or(Timestamp::UNIX_EPOCH)
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
pub fn ticking() -> ReadSignal<Timestamp> {
    let (seen, set) = signal(now());
    let renew = move || set.set(now());
    let _ = set_interval_with_handle(renew, Duration::from_secs(1));
    for event in ["visibilitychange", "pageshow", "focus"] {
        let _ = window_event_listener_untyped(event, move |_| renew());
    }
    seen
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

fn format_local(at: Timestamp, style: &[(&str, &str)]) -> String {
    let options = js_sys::Object::new();
    for (name, value) in style {
        let _ = js_sys::Reflect::set(&options, &(*name).into(), &(*value).into());
    }
    let date = js_sys::Date::new(&(at.as_millisecond() as f64).into());
    date.to_locale_string("default", &options).into()
}
