//! All ways side by side, on request.

use bleachfield_core::{derive::WaysOfBatch, forecast::ways::WayOption};
use leptos::prelude::*;

use super::words::{chlorine, cost, kind_name, lightness, odds, risk, time, water};
use crate::{components::WideTable, i18n::t};

pub fn table(of: &WaysOfBatch, options: &[WayOption]) -> AnyView {
    let heads = vec![
        t!("ways-way"),
        t!("ways-fact_odds"),
        t!("ways-fact_lightness"),
        t!("ways-fact_risk"),
        t!("ways-fact_time"),
        t!("ways-fact_water"),
        t!("ways-fact_chlorine"),
        t!("ways-fact_cost"),
    ];
    let rows = options.iter().map(|option| {
        let cells = vec![
            odds(option.odds),
            lightness(option),
            risk(option),
            time(option),
            water(option),
            chlorine(option),
            cost(of.cost(option)),
        ];
        (kind_name(option.kind), cells)
    });
    view! { <WideTable label=t!("ways-side_by_side") heads rows=rows.collect() /> }.into_any()
}
