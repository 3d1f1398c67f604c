//! All ways side by side, on request.

use bleachfield_core::{derive::RouteOfBatch, forecast::route::RouteOption};
use leptos::prelude::*;

use super::words::{chlorine, cost, kind_name, lightness, odds, risk, time, water};
use crate::{components::FigureTable, i18n::t};

pub fn table(of: &RouteOfBatch, options: &[RouteOption]) -> AnyView {
    let heads = vec![
        t!("route-way"),
        t!("route-fact_odds"),
        t!("route-fact_lightness"),
        t!("route-fact_risk"),
        t!("route-fact_time"),
        t!("route-fact_water"),
        t!("route-fact_chlorine"),
        t!("route-fact_cost"),
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
    view! { <div class="trial-wide"><FigureTable heads rows=rows.collect() /></div> }.into_any()
}
