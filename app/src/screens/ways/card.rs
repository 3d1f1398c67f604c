//! One way as a card.

use bleachfield_core::{derive::WaysOfBatch, forecast::ways::WayOption};
use leptos::prelude::*;
use ulid::Ulid;

use super::words::{baths, chlorine, cost, kind_name, lightness, odds, risk, time, water, yellows};
use crate::{
    components::Fact,
    i18n::{format_number, t, t_with},
    route::{PlanStart, Route},
};

pub fn card(batch: Ulid, of: &WaysOfBatch, option: &WayOption, recommended: bool) -> AnyView {
    let name = |bleach: usize| of.products.get(bleach).map_or_else(String::new, |p| p.name.clone());
    let lines = baths(option, name);
    let two = lines.len() > 1;
    let percent = |part: f64| format!("{}\u{a0}%", format_number(part * 100.0, 2));
    let loss = t_with!(
        "ways-chain_loss",
        &[("low", &percent(option.chain_loss[0])), ("high", &percent(option.chain_loss[2])),]
    );
    view! {
        <article class="card stack way" class:best=recommended>
            <header>
                {recommended.then(|| view! { <span class="badge">{t!("ways-best")}</span> })}
                <h2>{kind_name(option.kind)}</h2>
            </header>
            <ol class:single=!two>{lines.into_iter().enumerate().map(|(nth, line)| view! {
                {(nth > 0).then(|| view! { <li class="wash">{t!("ways-wash_between")}</li> })}
                <li>{line}</li>
            }).collect_view()}</ol>
            <div class="way-odds"><strong>{odds(option.odds)}</strong></div>
            <dl class="facts">
                <Fact name=t!("ways-fact_lightness") value=lightness(option) />
                <Fact name=t!("ways-fact_risk") value=format!("{} ({loss})", risk(option)) />
                <Fact name=t!("ways-fact_time") value=time(option) />
                <Fact name=t!("ways-fact_water") value=water(option) />
                <Fact name=t!("ways-fact_chlorine") value=chlorine(option) />
                <Fact name=t!("ways-fact_cost") value=cost(of.cost(option)) />
            </dl>
            {yellows(option).then(|| view! { <p class="small">{t!("ways-yellows")}</p> })}
            {two.then(|| view! { <p class="small">{t!("ways-second_later")}</p> })}
            {make(batch, of, option)}
        </article>
    }
    .into_any()
}

/// The link to the plan of its first bath, filled in.
fn make(batch: Ulid, of: &WaysOfBatch, option: &WayOption) -> Option<AnyView> {
    let (bath, minutes) = (option.baths.first()?.bath, option.lengths.first()?);
    let product = of.product(bath.bleach)?;
    let start = PlanStart::new(product, bath.charge, bath.celsius, *minutes, bath.consistency);
    let href = Route::StartPlan { batch, start }.href();
    Some(view! { <a class="button touch" href=href>{t!("ways-make")}</a> }.into_any())
}
