//! What is in the liquor: its pH, the forms that its oxidant takes, where it
//! gives off gas, what it must not meet, and what brings it into its window.

mod advice;
mod chart;
mod percarbonate;

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, Oxidant},
    caution::{Act, Residual, Situation, cautions},
    chemistry::{
        EquilibriumError,
        alkali::{AlkaliReagent, BATH_VOLUME},
        compatibility::{ClashSeverity, Ingredient},
        liquor::{HARDNESS, Recipe, SolvedLiquor, VINEGAR},
    },
    message::{Field, Value},
    quantity::{Basis, Celsius, PH, Ph, QuantityKind, Unit, grams_per_litre},
};
use leptos::prelude::*;

use self::{
    advice::{Advise, MeasuredPh},
    chart::Chart,
    percarbonate::Truth,
};
use crate::{
    components::{CautionList, Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_value, key, render, t, t_with},
    screens::calculator::inputs::CoSolutesForm,
};

const ACTIVE: Field = Field("liquor_strength");
const SODA: Field = Field("soda_in_liquor");

/// How far a strip and a meter may be off (common practice, no source).
const STRIP_OFF: f64 = 0.5;
const METER_OFF: f64 = 0.1;

#[component]
pub fn Liquor() -> impl IntoView {
    let oxidant = RwSignal::new(Oxidant::Hypochlorite);
    let active =
        NumberInput::new(ACTIVE, QuantityKind::Concentration).between(0.01, 60.0).filled("2");
    let soda = NumberInput::new(SODA, QuantityKind::Concentration).between(0.0, 30.0).filled("1");
    let celsius = NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature)
        .between(5.0, 80.0)
        .filled("38");
    let measured = NumberInput::new(PH, QuantityKind::Ph).optional();
    let by_meter = RwSignal::new(false);
    let litres = NumberInput::new(BATH_VOLUME, QuantityKind::Volume)
        .unit(Unit::Litre)
        .between(1.0, 2e6)
        .filled("10");
    let company = CoSolutesForm::new();
    let vinegar = NumberInput::new(VINEGAR, QuantityKind::Volume).between(0.0, 1000.0).optional();
    let hardness = NumberInput::new(HARDNESS, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 2.0)
        .optional();
    let alkali = RwSignal::new(AlkaliReagent::SodaAsh);
    let as_table = RwSignal::new(false);

    let recipe = Memo::new(move |_| {
        let company = company.with(oxidant.get());
        let acid = company.contains(&Ingredient::Acid);
        if acid && vinegar.wrong().is_some() {
            return None;
        }
        Some(Recipe {
            oxidant: oxidant.get(),
            active: grams_per_litre(active.base()?),
            soda_ash: grams_per_litre(soda.base()?),
            vinegar: if acid { vinegar.base().unwrap_or(0.0) } else { 0.0 },
            celsius: celsius.base()?,
            co_solutes: company,
        })
    });
    let worked = Memo::new(move |_| recipe.get().map(|recipe| recipe.solve()));
    let read = Memo::new(move |_| {
        let ph = measured.base()?;
        Some(match by_meter.get() {
            true => MeasuredPh { ph, off: METER_OFF, basis: Basis::Measured },
            false => MeasuredPh { ph, off: STRIP_OFF, basis: Basis::Strip },
        })
    });
    let refused = Memo::new(move |_| {
        worked.with(|worked| worked.as_ref()?.as_ref().err().map(EquilibriumError::message))
    });
    let warn = Memo::new(move |_| {
        let ph = match read.get() {
            Some(read) => Some(read.ph),
            None => worked.with(|w| w.as_ref()?.as_ref().ok().map(|w| w.ph)),
        };
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
    let acid_ticked = Memo::new(move |_| company.with(oxidant.get()).contains(&Ingredient::Acid));
    view! {
        <section class="card stack">
            <RadioGroup label=t!("bleach-oxidant") value=oxidant options=vec![
                (Oxidant::Hypochlorite, t!("oxidant-hypochlorite")),
                (Oxidant::Percarbonate, t!("oxidant-percarbonate")),
            ] />
            {move || {
                let hint = match oxidant.get() {
                    Oxidant::Hypochlorite => t!("liquor-counts_chlorine"),
                    _ => t!("liquor-counts_peroxide"),
                };
                view! { <NumberField ask=active hint refused /> }
            }}
            <NumberField ask=soda hint=t!("liquor-soda_hint") refused />
            <NumberField ask=celsius refused />
            <NumberField ask=measured label=t!("liquor-measured") hint=t!("liquor-measured_hint") refused />
            {move || (!measured.is_empty()).then(|| view! {
                <RadioGroup label=t!("liquor-read_with") value=by_meter options=vec![
                    (false, t!("liquor-strip")), (true, t!("liquor-meter")),
                ] />
            })}
            <NumberField ask=litres hint=t!("liquor-volume_hint") />
            {move || company.view(oxidant.get())}
            {move || acid_ticked.get().then(|| view! {
                <NumberField ask=vinegar hint=t!("liquor-vinegar_hint") refused />
            })}
        </section>
        {move || recipe.get().map(|recipe| clashes_of(&recipe))}
        {move || {
            let refused = recipe.with(|r| r.as_ref().is_some_and(Recipe::is_refused));
            match worked.get() {
                // What must not be mixed has no figures: the clash above says why.
                _ if refused => ().into_any(),
                Some(Ok(worked)) => {
                    let litres = litres.base().unwrap_or(1000.0) / 1000.0;
                    view! { <Answer worked read=read.get() litres alkali as_table /> }.into_any()
                }
                Some(Err(refusal)) => view! {
                    <p class="caution care" role="alert">{render(&refusal.message())}</p>
                }.into_any(),
                None => ().into_any(),
            }
        }}
        {move || (oxidant.get() != Oxidant::Hypochlorite).then(|| view! { <Truth recipe worked hardness /> })}
        <CautionList cautions=warn />
    }
}

/// What its parts do to each other.
fn clashes_of(recipe: &Recipe) -> AnyView {
    let clash = |clash: bleachfield_core::chemistry::compatibility::Clash| {
        let (class, severity) = match clash.severity {
            ClashSeverity::Refused => ("caution danger", key!("caution-severity-danger")),
            ClashSeverity::Note => ("caution care", key!("caution-severity-care")),
        };
        view! {
            <div class=class role="alert">
                <span class="severity">{t(severity)}</span>
                <p>{render(&clash.message())}</p>
                <p class="source">{t_with!("caution-source", &[("source", clash.reason.source())])}</p>
            </div>
        }
    };
    recipe.clashes().into_iter().map(clash).collect_view().into_any()
}

#[component]
fn Answer(
    worked: SolvedLiquor,
    read: Option<MeasuredPh>,
    litres: f64,
    alkali: RwSignal<AlkaliReagent>,
    as_table: RwSignal<bool>,
) -> impl IntoView {
    let speciation = worked.mix.speciation().ok();
    let at = |ph: f64| format_value(&Value::Ph(ph));
    let gas = worked.gas.map(|gas| {
        let at = |ph: Option<f64>| ph.map_or_else(|| "–".to_owned(), at);
        t_with!(
            "liquor-gas",
            &[("dangerous", &at(gas.dangerous)), ("limit", &at(gas.exposure_limit))],
        )
    });
    let shown = read.map_or(worked.ph, |read| read.ph);
    view! {
        <section class="card stack wide" aria-live="polite">
            <Figure name=t!("liquor-ph") number=at(worked.ph) unit=String::new()
                range=t_with!("liquor-window", &[
                    ("low", &at(worked.window.low)),
                    ("high", &at(worked.window.high)),
                ]) />
            {speciation.map(|speciation| view! {
                <Chart speciation ph=shown oxidant=worked.oxidant window=worked.window gas=worked.gas as_table />
            })}
            {gas.map(|gas| view! { <p>{gas}</p> })}
            <Advise mix=worked.mix read ph=worked.ph window=worked.window litres alkali />
        </section>
    }
}
