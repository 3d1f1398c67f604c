//! What to measure out: stock solutions once, then each pot; and labels to print.

use bleachfield_core::{
    bath::BleachAmount,
    derive::{PotStatus, TrialStatus},
    journal::Oxidant,
    message::Value,
    quantity::grams,
    trial::{DoseError, Stock},
};
use leptos::prelude::*;

use super::words::{bleach_name, dose_lines, millilitres, pot_title, treatment};
use crate::{
    components::CautionList,
    i18n::{format_value, t, t_with},
    platform::print,
    screens::trial::run::trial_cautions,
};

#[component]
pub fn Measure(status: TrialStatus) -> impl IntoView {
    let cautions = trial_cautions(&status);
    let stocks = match &status.doses {
        Ok(doses) => doses.stocks.iter().map(|stock| stock_card(&status, stock)).collect_view(),
        Err(DoseError::PotTooSmall { .. }) => Vec::new(),
    };
    let unmeasurable = status.doses.is_err().then(|| {
        view! { <p class="caution care" role="note">{t!("refusal-trial_too_small")}</p> }
    });
    let pots = status.pots.iter().enumerate().map(|(nth, pot)| pot_card(&status, nth, pot));
    let labels = status.pots.iter().map(label);
    view! {
        <div class="no-print stack">
            <CautionList cautions=Signal::stored(cautions) />
            {unmeasurable}
            {(!stocks.is_empty()).then(|| view! { <h2>{t!("trial-stock_head")}</h2> })}
            {stocks}
            <h2>{t!("trial-pots_head")}</h2>
            <p class="small soft">{t!("trial-measure_how")}</p>
            <ol class="trial-doses">{pots.collect_view()}</ol>
            <button class="button plain" on:click=move |_| print::page()>
                {t!("trial-print")}
            </button>
        </div>
        <section aria-label=t!("trial-labels")>
            <h2 class="no-print">{t!("trial-labels")}</h2>
            <div class="trial-labels">{labels.collect_view()}</div>
        </section>
    }
}

fn stock_card(status: &TrialStatus, stock: &Stock) -> AnyView {
    let of = stock.of_bleach.and_then(|nth| status.pots.iter().find(|pot| pot.of_bleach == nth));
    let name = of.map_or_else(
        || t!("trial-soda_ash"),
        |pot| bleach_name(&pot.record.product.name, pot.record.oxidant),
    );
    let active = match stock.active {
        BleachAmount::Bottle(volume) => millilitres(volume),
        BleachAmount::Powder(_) => format_value(&stock.active.value()),
    };
    let makes = millilitres(stock.makes);
    let text = match stock.active {
        BleachAmount::Bottle(_) => t_with!(
            "trial-stock_bottle",
            &[
                ("active", &active),
                ("name", &name),
                ("water", &millilitres(stock.water)),
                ("makes", &makes),
            ]
        ),
        BleachAmount::Powder(_) => t_with!(
            "trial-stock_powder",
            &[("active", &active), ("name", &name), ("makes", &makes)]
        ),
    };
    let peroxide = of.is_some_and(|pot| pot.record.oxidant != Oxidant::Hypochlorite);
    view! {
        <section class="card stack tight">
            <h3>{t_with!("trial-stock_of", &[("name", &name)])}</h3>
            <p>{text}</p>
            {peroxide.then(|| view! { <p class="small">{t!("trial-stock_fresh")}</p> })}
        </section>
    }
    .into_any()
}

fn pot_card(status: &TrialStatus, nth: usize, pot: &PotStatus) -> AnyView {
    let lines = status.dose(nth).map(|dose| dose_lines(pot, dose)).unwrap_or_default();
    let pulp = format_value(&Value::Mass(grams(pot.record.wet_mass_g.value)));
    view! {
        <li class="card">
            <h3>{pot_title(pot.number)}</h3>
            <p class="small">{treatment(&pot.record)}</p>
            <ul>
                <li>{t_with!("trial-dose_pulp", &[("amount", &pulp)])}</li>
                {lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view()}
            </ul>
        </li>
    }
    .into_any()
}

/// The label of a pot: its number to be read from afar, what is in it, and that it is harmful.
fn label(pot: &PotStatus) -> AnyView {
    let hazard = match pot.record.oxidant {
        Oxidant::Hypochlorite => t!("trial-label_chlorine"),
        Oxidant::Percarbonate | Oxidant::Peroxide => t!("trial-label_peroxide"),
    };
    let bleach = bleach_name(&pot.record.product.name, pot.record.oxidant);
    view! {
        <article class="trial-label">
            <b>{pot.number}</b>
            <div>
                <strong>{treatment(&pot.record)}</strong>
                <span>{bleach}</span>
                <span>{hazard}</span>
            </div>
        </article>
    }
    .into_any()
}
