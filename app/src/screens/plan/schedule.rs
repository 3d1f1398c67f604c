//! When to do what while the bath runs.

use bleachfield_core::{journal::Schedule, message::Value, quantity::Celsius};
use leptos::prelude::*;

use crate::i18n::{format_value, t, t_with};

pub fn view(schedule: &Schedule, reheat_below: Option<Celsius>) -> AnyView {
    let minutes = |minutes: f64| format_value(&Value::Minutes(minutes));
    let lines = [
        schedule.stir_every_min.map(|m| t_with!("plan-stir_every", &[("time", &minutes(m))])),
        schedule.ph_at_min.first().map(|m| t_with!("plan-check_at", &[("time", &minutes(*m))])),
        reheat_below.map(|at| {
            let at = format_value(&Value::Celsius(at.get()));
            t_with!("plan-reheat_below", &[("temperature", &at)])
        }),
        schedule.stop_at_min.map(|m| t_with!("plan-stop_at", &[("time", &minutes(m))])),
    ];
    view! {
        <h3>{t!("plan-schedule_head")}</h3>
        <ul>{lines.into_iter().flatten().map(|line| view! { <li>{line}</li> }).collect_view()}</ul>
    }
    .into_any()
}
