//! Words for a way: what it is, its odds, what it takes.

use bleachfield_core::{
    bath::Oxidant,
    forecast::ways::{WayKind, WayOption},
    message::Value,
};
use jiff::SignedDuration;

use crate::i18n::{format_duration, format_number, format_value, t, t_with};

pub fn kind_name(kind: WayKind) -> String {
    match kind {
        WayKind::OneHypochlorite => t!("ways-kind-one_hypochlorite"),
        WayKind::OnePeroxide => t!("ways-kind-one_peroxide"),
        WayKind::TwoHypochlorite => t!("ways-kind-two_hypochlorite"),
        WayKind::TwoPeroxide => t!("ways-kind-two_peroxide"),
        WayKind::PeroxideAfterHypochlorite => t!("ways-kind-peroxide_after"),
    }
}

/// Odds in words, in tenths: what some hundred draws can tell.
pub fn odds(odds: f64) -> String {
    let tenths = (odds * 10.0).round();
    if odds < 0.05 {
        t!("ways-odds_hardly")
    } else if odds > 0.95 {
        t!("ways-odds_nearly")
    } else {
        t_with!("ways-odds", &[("n", &format!("{:.0}", tenths.clamp(1.0, 9.0)))])
    }
}

/// Fibre risk in words.
pub fn risk(option: &WayOption) -> String {
    let loss = option.chain_loss[2];
    if loss < 0.15 {
        t!("ways-risk_low")
    } else if loss < 0.35 {
        t!("ways-risk_some")
    } else {
        t!("ways-risk_high")
    }
}

/// "L* 78 (70 – 84)".
pub fn lightness(option: &WayOption) -> String {
    let [low, middle, high] = option.lightness.map(|l| format!("{l:.0}"));
    t_with!("ways-lightness", &[("middle", &middle), ("low", &low), ("high", &high)])
}

pub fn duration(minutes: f64) -> String {
    // To a quarter of an hour: nothing here is known better.
    let minutes = (minutes / 15.0).round() * 15.0;
    format_duration(SignedDuration::from_secs_f64(60.0 * minutes))
}

pub fn time(option: &WayOption) -> String {
    option.minutes.map_or_else(|| t!("ways-time_unknown"), duration)
}

pub fn water(option: &WayOption) -> String {
    option.water_l.map_or_else(
        || t!("ways-water_unknown"),
        |litres| format!("{}\u{a0}L", format_number(litres, 2)),
    )
}

pub fn chlorine(option: &WayOption) -> String {
    let grams = option.chlorine_g;
    if grams.high <= 0.0 {
        return t!("ways-no_chlorine");
    }
    let [low, high] = [grams.low, grams.high].map(|g| format_number(g.max(0.0), 1));
    t_with!("ways-chlorine", &[("low", &low), ("high", &high)])
}

pub fn cost(cost: Option<f64>) -> String {
    cost.map_or_else(|| t!("ways-no_price"), |cost| format_number(cost, 2))
}

/// The baths, one line each: "2 % · 37 °C · 60 min".
pub fn baths(option: &WayOption, name: impl Fn(usize) -> String) -> Vec<String> {
    option
        .baths
        .iter()
        .zip(&option.lengths)
        .map(|(bath, minutes)| {
            let bath = bath.bath;
            let charge = format_value(&Value::Share(bath.charge));
            let celsius = format_value(&Value::Celsius(bath.celsius));
            let minutes = format_value(&Value::Minutes(*minutes));
            format!("{} · {charge} · {celsius} · {minutes}", name(bath.bleach))
        })
        .collect()
}

/// Whether what comes last is a hypochlorite, after which sheets yellow more.
pub fn yellows(option: &WayOption) -> bool {
    option.baths.last().is_some_and(|bath| bath.bath.oxidant == Oxidant::Hypochlorite)
}
