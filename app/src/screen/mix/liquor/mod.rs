//! What is in the liquor: its pH, the forms that its oxidant takes, where it
//! gives off gas, and what brings it into its window.

mod advice;
mod chart;

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, Oxidant},
    caution::{Act, Residual, Situation, cautions},
    chemistry::{
        Refusal,
        alkali::Window,
        equilibrium::{Mix, Picture},
        headspace::{GasRegion, Liquor as Standing},
        substance::{
            CHLORINE, HYDROGEN_PEROXIDE, SODIUM_CARBONATE, in_moles_per_litre, moles_per_litre,
        },
    },
    message::{Field, Value},
    quantity::{Celsius, Kind, PH, Ph, grams_per_litre},
};
use leptos::prelude::*;

use self::{advice::Advise, chart::Chart};
use crate::{
    locale::{decimal, said, word, words, written},
    part::{Ask, AskField, CautionList, Choice, Figure},
};

const ACTIVE: Field = Field("liquor_strength");
const SODA: Field = Field("soda_in_liquor");

/// A liquor worked out.
#[derive(Clone, PartialEq)]
struct Worked {
    oxidant: Oxidant,
    mix: Mix,
    ph: f64,
    gas: Option<GasRegion>,
    window: Window,
}

#[component]
pub fn Liquor() -> impl IntoView {
    let oxidant = RwSignal::new(Oxidant::Hypochlorite);
    let active = Ask::new(ACTIVE, Kind::Concentration).between(0.01, 60.0).filled("2");
    let soda = Ask::new(SODA, Kind::Concentration).between(0.0, 30.0).filled("1");
    let celsius = Ask::new(BATH_TEMPERATURE, Kind::Temperature).between(5.0, 80.0).filled("38");
    let measured = Ask::new(PH, Kind::Ph).optional();
    let worked = Memo::new(move |_| {
        Some(work(oxidant.get(), active.base()?, soda.base()?, celsius.base()?))
    });
    let refused = Signal::derive(move || match worked.get() {
        Some(Err(refusal)) => Some(Refusal::message(&refusal)),
        _ => None,
    });
    let warn = Signal::derive(move || {
        let ph = measured.base().or_else(|| worked.get().and_then(Result::ok).map(|w| w.ph));
        cautions(
            Act::Bath,
            &Situation {
                oxidant: Some(oxidant.get()),
                residual: Residual::None,
                temperature: celsius.base().and_then(|degrees| Celsius::new(degrees).ok()),
                ph: ph.and_then(|ph| Ph::new(ph).ok()),
                strength: active.base().map(grams_per_litre),
                ..Situation::default()
            },
        )
    });
    view! {
        <section class="card stack">
            <Choice label=word("bleach.oxidant") value=oxidant options=vec![
                (Oxidant::Hypochlorite, word("oxidant.hypochlorite")),
                (Oxidant::Percarbonate, word("oxidant.percarbonate")),
            ] />
            {move || {
                let hint = match oxidant.get() {
                    Oxidant::Hypochlorite => word("liquor.counts_chlorine"),
                    _ => word("liquor.counts_peroxide"),
                };
                view! { <AskField ask=active hint refused /> }
            }}
            <AskField ask=soda hint=word("liquor.soda_hint") refused />
            <AskField ask=celsius refused />
            <AskField ask=measured label=word("liquor.measured") hint=word("liquor.measured_hint") refused />
        </section>
        {move || match worked.get() {
            Some(Ok(worked)) => {
                let read = measured.base();
                view! { <Answer worked read /> }.into_any()
            }
            Some(Err(refusal)) => view! {
                <p class="caution care" role="alert">{said(&refusal.message())}</p>
            }.into_any(),
            None => ().into_any(),
        }}
        <CautionList cautions=warn />
    }
}

#[component]
fn Answer(worked: Worked, read: Option<f64>) -> impl IntoView {
    let picture: Option<Picture> = worked.mix.picture().ok();
    let ph_words = decimal(format!("{:.1}", worked.ph));
    let gas = worked.gas.map(|gas| {
        let at = |ph: Option<f64>| ph.map_or_else(|| "–".to_owned(), |ph| written(&Value::Ph(ph)));
        words(
            "liquor.gas",
            &[("dangerous", &at(gas.dangerous)), ("limit", &at(gas.exposure_limit))],
        )
    });
    let shown = read.unwrap_or(worked.ph);
    view! {
        <section class="card stack wide" aria-live="polite">
            <Figure name=word("liquor.ph") number=ph_words unit=String::new()
                range=words("liquor.window", &[
                    ("low", &written(&Value::Ph(worked.window.low))),
                    ("high", &written(&Value::Ph(worked.window.high))),
                ]) />
            {picture.map(|picture| view! {
                <Chart picture ph=shown oxidant=worked.oxidant window=worked.window gas=worked.gas />
            })}
            {gas.map(|gas| view! { <p>{gas}</p> })}
            <Advise mix=worked.mix read ph=worked.ph window=worked.window />
        </section>
    }
}

/// The liquor of so much active (g/L available chlorine or H2O2, the latter
/// from percarbonate) with so much soda ash (g/L) besides.
fn work(oxidant: Oxidant, active: f64, soda: f64, celsius: f64) -> Result<Worked, Refusal> {
    let soda = SODIUM_CARBONATE.molar(grams_per_litre(soda));
    let mix = Mix::new(celsius)?.with_soda_ash(soda);
    let (mix, window) = match oxidant {
        Oxidant::Hypochlorite => {
            (mix.with_bleach(CHLORINE.molar(grams_per_litre(active))), Window::HYPOCHLORITE)
        }
        Oxidant::Percarbonate | Oxidant::Peroxide => {
            let peroxide = in_moles_per_litre(HYDROGEN_PEROXIDE.molar(grams_per_litre(active)));
            (
                mix.with_percarbonate(moles_per_litre(peroxide / PEROXIDE_PER_PERCARBONATE)),
                Window::PEROXIDE,
            )
        }
    };
    let gas = (oxidant == Oxidant::Hypochlorite).then(|| Standing::of(&mix).gas_region());
    Ok(Worked { oxidant, mix, ph: mix.solve()?.ph(), gas, window })
}

/// Moles of H2O2 in one of Na2CO3·1.5H2O2.
const PEROXIDE_PER_PERCARBONATE: f64 = 1.5;
