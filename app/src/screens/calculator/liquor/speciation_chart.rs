//! The forms of the oxidant against pH, as a speciation, in words, and as a table.

use std::fmt::Write;

use bleachfield_core::{
    bath::Oxidant,
    chemistry::{
        alkali::PhWindow,
        equilibrium::{OxidantShares, Speciation},
        headspace::GasRegion,
    },
    message::Value,
};
use leptos::prelude::*;

use web_sys::HtmlDetailsElement;

use crate::i18n::{format_number, format_value, t, t_with};

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 190.0;
const LEFT: f64 = 30.0;
const BOTTOM: f64 = 26.0;
const TOP: f64 = 22.0;
const FROM: f64 = 2.0;
const TO: f64 = 13.0;
const POINTS: usize = 72;

/// Where cellulose is attacked worst by hypochlorite (from memory: Clibbens and
/// Ridge 1927; Rydholm; Dence and Reeve).
const ATTACK: (f64, f64) = (6.0, 8.5);

#[component]
pub fn SpeciationChart(
    speciation: Speciation,
    ph: f64,
    oxidant: Oxidant,
    window: PhWindow,
    gas: Option<GasRegion>,
    /// Whether the table stands open.
    as_table: RwSignal<bool>,
) -> impl IntoView {
    let chlorine = oxidant == Oxidant::Hypochlorite;
    let points: Vec<OxidantShares> = speciation.curve(FROM, TO, POINTS).collect();
    let line = |share: &dyn Fn(&OxidantShares) -> f64| {
        let mut path = String::with_capacity(POINTS * 12);
        for (i, point) in points.iter().enumerate() {
            let _ = write!(
                path,
                "{}{:.1} {:.1}",
                if i == 0 { 'M' } else { 'L' },
                x(point.ph),
                y(share(point))
            );
        }
        path
    };
    // A dash tells the lines apart without colour.
    let lines: Vec<(&str, String, &str)> = if chlorine {
        vec![
            ("Cl₂", line(&|s| s.chlorine), "2 4"),
            ("HOCl", line(&|s| s.hypochlorous_acid), "9 4"),
            ("OCl⁻", line(&|s| s.hypochlorite), ""),
        ]
    } else {
        vec![
            ("H₂O₂", line(&|s| s.hydrogen_peroxide), "9 4"),
            ("HO₂⁻", line(&|s| s.perhydroxyl), ""),
        ]
    };
    let key = lines.iter().enumerate().map(|(i, (name, _, dash))| {
        let at = LEFT + 6.0 + 78.0 * i as f64;
        view! {
            <path d=format!("M{at} 10h22") class="species" stroke-dasharray=*dash />
            <text x=at + 27.0 y="14">{*name}</text>
        }
    });
    let key: Vec<_> = key.collect();
    let band = |low: f64, high: f64, class: &'static str| {
        view! {
            <rect x=x(low) y=TOP width=(x(high) - x(low)).max(0.0) height=HEIGHT - TOP - BOTTOM class=class />
        }
    };
    let gas_to = gas.and_then(|gas| gas.exposure_limit);
    let ticks = (2..=12).step_by(2).map(|tick| {
        view! {
            <text x=x(f64::from(tick)) y=HEIGHT - 8.0 text-anchor="middle">{tick}</text>
        }
    });
    let ticks: Vec<_> = ticks.collect();
    let told = told(&speciation, ph, chlorine);
    let anchor = if ph > 9.0 { "end" } else { "start" };
    view! {
        <figure class="picture">
            <svg class="chart" viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=told.clone()>
                {gas_to.map(|to| band(FROM, to, "band gas"))}
                {chlorine.then(|| band(ATTACK.0, ATTACK.1, "band attack"))}
                {band(window.low, window.high, "band window")}
                <path d=format!("M{LEFT} {TOP}V{0}H{1}", HEIGHT - BOTTOM, x(TO)) class="axis" />
                {lines.iter().map(|(_, path, dash)| view! {
                    <path d=path.clone() class="species" stroke-dasharray=*dash />
                }).collect_view()}
                <path d=format!("M{0:.1} {TOP}V{1}", x(ph), HEIGHT - BOTTOM) class="here" />
                <text x=x(ph) y=HEIGHT - BOTTOM - 6.0 class="here-words"
                    text-anchor=anchor>
                    {t_with!("liquor-here", &[("ph", &format_value(&Value::Ph(ph)))])}
                </text>
                {key}
                {ticks}
                <text x="4" y=TOP + 8.0>"%"</text>
                <text x=WIDTH - 4.0 y=HEIGHT - 8.0 text-anchor="end">"pH"</text>
            </svg>
            <figcaption class="small">
                <p>{told}</p>
                <p class="key">
                    <span class="band-key window">{t!("liquor-key_window")}</span>
                    {chlorine.then(|| view! { <span class="band-key attack">{t!("liquor-key_attack")}</span> })}
                    {gas_to.map(|_| view! { <span class="band-key gas">{t!("liquor-key_gas")}</span> })}
                </p>
            </figcaption>
        </figure>
        <details class="more" open=as_table.get_untracked()
            on:toggle=move |event| as_table.set(event_target::<HtmlDetailsElement>(&event).open())>
            <summary>{t!("liquor-as_table")}</summary>
            {move || as_table.get().then(|| view! {
                <div class="inside"><Table speciation chlorine /></div>
            })}
        </details>
    }
}

#[component]
fn Table(speciation: Speciation, chlorine: bool) -> impl IntoView {
    let percent = |share: f64| format_number(share * 100.0, 2);
    let rows = speciation.curve(4.0, 12.0, 9).map(|s| {
        let cells = if chlorine {
            vec![s.chlorine, s.hypochlorous_acid, s.hypochlorite]
        } else {
            vec![s.hydrogen_peroxide, s.perhydroxyl]
        };
        view! {
            <tr>
                <th scope="row">{format_number(s.ph, 2)}</th>
                {cells.into_iter().map(|share| view! { <td>{percent(share)}</td> }).collect_view()}
            </tr>
        }
    });
    let rows: Vec<_> = rows.collect();
    let heads = if chlorine {
        vec!["Cl₂ %", "HOCl %", "OCl⁻ %"]
    } else {
        vec!["H₂O₂ %", "HO₂⁻ %"]
    };
    view! {
        <table class="loads">
            <thead><tr>
                <th scope="col">"pH"</th>
                {heads.into_iter().map(|head| view! { <th scope="col">{head}</th> }).collect_view()}
            </tr></thead>
            <tbody>{rows}</tbody>
        </table>
    }
}

/// The speciation in one sentence.
fn told(speciation: &Speciation, ph: f64, chlorine: bool) -> String {
    let s = speciation.at(ph);
    let percent = |share: f64| format_number(share * 100.0, 2);
    let ph = format_value(&Value::Ph(ph));
    if chlorine {
        t_with!(
            "liquor-told_chlorine",
            &[
                ("ph", &ph),
                ("cl2", &percent(s.chlorine)),
                ("hocl", &percent(s.hypochlorous_acid)),
                ("ocl", &percent(s.hypochlorite)),
            ],
        )
    } else {
        t_with!(
            "liquor-told_peroxide",
            &[
                ("ph", &ph),
                ("h2o2", &percent(s.hydrogen_peroxide)),
                ("ho2", &percent(s.perhydroxyl)),
            ],
        )
    }
}

fn x(ph: f64) -> f64 {
    LEFT + (ph.clamp(FROM, TO) - FROM) / (TO - FROM) * (WIDTH - LEFT - 10.0)
}

fn y(share: f64) -> f64 {
    let high = HEIGHT - BOTTOM - TOP;
    TOP + high * (1.0 - share.clamp(0.0, 1.0))
}
