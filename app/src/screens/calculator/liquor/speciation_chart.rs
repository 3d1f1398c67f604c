//! The forms of the oxidant against pH: as a chart, in one sentence, and as a table.

use bleachfield_core::{
    bath::Oxidant,
    chemistry::{
        alkali::PhWindow,
        bath_limit::HYPOCHLORITE_ATTACK_PH,
        equilibrium::{OxidantShares, Speciation},
        headspace::GasRegion,
    },
    message::Value,
};
use leptos::prelude::*;
use web_sys::HtmlDetailsElement;

use crate::{
    components::{
        FigureTable,
        chart::{Plot, Scale, curve_path, tick_label},
    },
    i18n::{format_number, format_value, t, t_with},
};

/// Size of the drawing and its margins.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 190.0;
const LEFT: f64 = 30.0;
const RIGHT: f64 = 10.0;
const TOP: f64 = 22.0;
const BOTTOM: f64 = 26.0;
/// Baseline of the labels below the axis.
const TICK_BASE: f64 = HEIGHT - 8.0;

/// Range of pH, and points of each curve.
const PH: (f64, f64) = (2.0, 13.0);
const POINTS: usize = 72;

const PLOT: Plot = Plot {
    left: LEFT,
    x: Scale { domain: PH, range: (LEFT, WIDTH - RIGHT) },
    y: Scale { domain: (0.0, 1.0), range: (HEIGHT - BOTTOM, TOP) },
};

/// A form of an oxidant. Its dash pattern tells the curve apart without colour.
struct OxidantForm {
    formula: &'static str,
    dashes: &'static str,
    share: fn(&OxidantShares) -> f64,
}

const CHLORINE_FORMS: [OxidantForm; 3] = [
    OxidantForm { formula: "Cl₂", dashes: "2 4", share: |s| s.chlorine },
    OxidantForm { formula: "HOCl", dashes: "9 4", share: |s| s.hypochlorous_acid },
    OxidantForm { formula: "OCl⁻", dashes: "", share: |s| s.hypochlorite },
];
const PEROXIDE_FORMS: [OxidantForm; 2] = [
    OxidantForm { formula: "H₂O₂", dashes: "9 4", share: |s| s.hydrogen_peroxide },
    OxidantForm { formula: "HO₂⁻", dashes: "", share: |s| s.perhydroxyl },
];

#[component]
pub fn SpeciationChart(
    speciation: Speciation,
    ph: f64,
    oxidant: Oxidant,
    window: PhWindow,
    gas: Option<GasRegion>,
    /// Whether the table is open.
    as_table: RwSignal<bool>,
) -> impl IntoView {
    let chlorine = oxidant == Oxidant::Hypochlorite;
    let forms: &'static [OxidantForm] = if chlorine { &CHLORINE_FORMS } else { &PEROXIDE_FORMS };
    let gas_limit = gas.and_then(|gas| gas.exposure_limit);
    let summary = summary(&speciation, ph, chlorine);
    let anchor = if ph > 9.0 { "end" } else { "start" };
    view! {
        <figure class="picture">
            <svg class="chart" viewBox=format!("0 0 {WIDTH} {HEIGHT}") role="img" aria-label=summary.clone()>
                {gas_limit.map(|limit| band(PH.0, limit, "band gas"))}
                {chlorine.then(|| band(HYPOCHLORITE_ATTACK_PH.0, HYPOCHLORITE_ATTACK_PH.1, "band attack"))}
                {band(window.low, window.high, "band window")}
                {PLOT.axes()}
                {curves(&speciation, forms)}
                {PLOT.mark_x(ph)}
                <text x=PLOT.x.at(ph) y=HEIGHT - BOTTOM - 6.0 class="here-words"
                    text-anchor=anchor>
                    {t_with!("liquor-here", &[("ph", &format_value(&Value::Ph(ph)))])}
                </text>
                {curve_key(forms)}
                {(2..=12).step_by(2).map(|tick: i32| {
                    tick_label(PLOT.x.at(tick.into()), TICK_BASE, "middle", tick.to_string())
                }).collect_view()}
                {tick_label(4.0, TOP + 8.0, "start", "%")}
                {tick_label(WIDTH - 4.0, TICK_BASE, "end", "pH")}
            </svg>
            <figcaption class="small">
                <p>{summary}</p>
                <p class="key">
                    <span class="band-key window">{t!("liquor-key_window")}</span>
                    {chlorine.then(|| view! { <span class="band-key attack">{t!("liquor-key_attack")}</span> })}
                    {gas_limit.map(|_| view! { <span class="band-key gas">{t!("liquor-key_gas")}</span> })}
                </p>
            </figcaption>
        </figure>
        <details class="more" open=as_table.get_untracked()
            on:toggle=move |event| as_table.set(event_target::<HtmlDetailsElement>(&event).open())>
            <summary>{t!("liquor-as_table")}</summary>
            {move || as_table.get().then(|| view! {
                <div class="inside">{table(&speciation, forms)}</div>
            })}
        </details>
    }
}

fn band(low: f64, high: f64, class: &'static str) -> impl IntoView {
    let (left, right) = (PLOT.x.at(low), PLOT.x.at(high));
    view! {
        <rect x=left y=TOP width=(right - left).max(0.0) height=HEIGHT - TOP - BOTTOM class=class />
    }
}

fn curves(speciation: &Speciation, forms: &'static [OxidantForm]) -> impl IntoView + use<> {
    let points: Vec<OxidantShares> = speciation.curve(PH.0, PH.1, POINTS).collect();
    let curve = |form: &OxidantForm| {
        PLOT.curve(points.iter().map(|point| (point.ph, (form.share)(point))), form.dashes)
    };
    forms.iter().map(curve).collect_view()
}

fn curve_key(forms: &'static [OxidantForm]) -> impl IntoView {
    let entry = |(i, form): (usize, &'static OxidantForm)| {
        let left = LEFT + 6.0 + 78.0 * i as f64;
        view! {
            {curve_path(format!("M{left} 10h22"), form.dashes)}
            {tick_label(left + 27.0, 14.0, "start", form.formula)}
        }
    };
    forms.iter().enumerate().map(entry).collect_view()
}

fn table(speciation: &Speciation, forms: &'static [OxidantForm]) -> impl IntoView + use<> {
    let formulas = forms.iter().map(|form| format!("{} %", form.formula));
    let heads = std::iter::once("pH".to_owned()).chain(formulas).collect();
    let row = |shares: OxidantShares| {
        let cells = forms.iter().map(|form| percent((form.share)(&shares))).collect();
        (format_number(shares.ph, 2), cells)
    };
    view! { <FigureTable heads rows=speciation.curve(4.0, 12.0, 9).map(row).collect() /> }
}

/// The shares at this pH in one sentence.
fn summary(speciation: &Speciation, ph: f64, chlorine: bool) -> String {
    let s = speciation.at(ph);
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

fn percent(share: f64) -> String {
    format_number(share * 100.0, 2)
}
