//! What is in a liquor: pH, forms of the oxidant, gas, incompatibilities, and the alkali that
//! brings it into its pH window.

mod advice;
mod percarbonate;
mod speciation_chart;

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, Oxidant, by_thermometer},
    caution::{Act, Caution, Fact, Situation, cautions},
    chemistry::{
        alkali::{AlkaliReagent, BATH_VOLUME, meter_ph, strip_ph},
        compatibility::{ClashSeverity, Ingredient},
        liquor::{HARDNESS, Recipe, SolvedLiquor, VINEGAR},
    },
    message::{Field, Message, Value},
    quantity::{Estimate, Interval, PH, QuantityKind, Unit, grams_per_litre},
};
use leptos::prelude::*;

use self::{
    advice::AlkaliAdvice, percarbonate::PercarbonateCard, speciation_chart::SpeciationChart,
};
use super::{inputs::CoSolutesForm, sums::refusal};
use crate::{
    components::{CautionList, Fact, Figure, NumberField, NumberInput, RadioGroup},
    i18n::{format_value, key, render, t, t_with},
};

const ACTIVE: Field = Field("liquor_strength");
const SODA: Field = Field("soda_in_liquor");

#[component]
pub fn Liquor() -> impl IntoView {
    let form = LiquorForm::new();
    let recipe = Memo::new(move |_| form.recipe());
    let solved = Memo::new(move |_| {
        recipe.get().map(|recipe| recipe.solve().map_err(|error| error.message()))
    });
    let ph = Memo::new(move |_| solved.with(|solved| Some(solved.as_ref()?.as_ref().ok()?.ph)));
    let reading = Memo::new(move |_| form.reading());
    let refused =
        Memo::new(move |_| solved.with(|solved| solved.as_ref()?.as_ref().err().cloned()));
    let warn = Memo::new(move |_| {
        let solved = || ph.get().map(Interval::exact);
        form.cautions(reading.get().map(Interval::from).or_else(solved))
    });
    let is_refused =
        Memo::new(move |_| recipe.with(|recipe| recipe.as_ref().is_some_and(Recipe::is_refused)));
    let alkali = RwSignal::new(AlkaliReagent::SodaAsh);
    let as_table = RwSignal::new(false);
    let answer = move || {
        // Incompatible ingredients: no figures; the clash above says why.
        if is_refused.get() {
            return None;
        }
        Some(match solved.get()? {
            Ok(liquor) => {
                let litres = form.volume.base().unwrap_or(1000.0) / 1000.0;
                view! { <Answer liquor reading=reading.get() litres alkali as_table /> }.into_any()
            }
            Err(why) => refusal(&why),
        })
    };
    view! {
        <section class="card stack">{form.view(refused.into())}</section>
        {move || recipe.get().map(|recipe| clashes(&recipe))}
        {answer}
        {move || (form.oxidant.get().is_peroxide() && !is_refused.get()).then(|| view! {
            <PercarbonateCard recipe ph hardness=form.hardness />
        })}
        <CautionList cautions=warn />
    }
}

/// The form; copies share their signals.
#[derive(Clone, Copy)]
struct LiquorForm {
    oxidant: RwSignal<Oxidant>,
    active: NumberInput,
    soda: NumberInput,
    celsius: NumberInput,
    measured_ph: NumberInput,
    by_meter: RwSignal<bool>,
    volume: NumberInput,
    co_solutes: CoSolutesForm,
    vinegar: NumberInput,
    hardness: NumberInput,
}

impl LiquorForm {
    fn new() -> Self {
        let strength = |field, min, max| {
            NumberInput::new(field, QuantityKind::Concentration).between(min, max)
        };
        Self {
            oxidant: RwSignal::new(Oxidant::Hypochlorite),
            active: strength(ACTIVE, 0.01, 60.0).filled(2.0),
            soda: strength(SODA, 0.0, 30.0).filled(1.0),
            celsius: NumberInput::new(BATH_TEMPERATURE, QuantityKind::Temperature)
                .between(5.0, 80.0)
                .filled(38.0),
            measured_ph: NumberInput::new(PH, QuantityKind::Ph).optional(),
            by_meter: RwSignal::new(false),
            volume: NumberInput::new(BATH_VOLUME, QuantityKind::Volume)
                .unit(Unit::Litre)
                .between(1.0, 2e6)
                .filled(10.0),
            co_solutes: CoSolutesForm::new(),
            vinegar: NumberInput::new(VINEGAR, QuantityKind::Volume)
                .between(0.0, 1000.0)
                .optional(),
            hardness: strength(HARDNESS, 0.0, 2.0).unit(Unit::MilligramsPerLitre).optional(),
        }
    }

    /// Ticked or poured.
    fn has_acid(self) -> bool {
        let ticked = self.co_solutes.with(self.oxidant.get()).contains(&Ingredient::Acid);
        ticked || self.vinegar.base().is_some_and(|vinegar| vinegar > 0.0)
    }

    /// The recipe as answered so far; `None` while a field is empty or refused.
    fn recipe(self) -> Option<Recipe> {
        let oxidant = self.oxidant.get();
        if self.vinegar.wrong().is_some() {
            return None;
        }
        Some(Recipe {
            oxidant,
            active: grams_per_litre(self.active.base()?),
            soda_ash: grams_per_litre(self.soda.base()?),
            vinegar: self.vinegar.base().unwrap_or(0.0),
            celsius: self.celsius.base()?,
            co_solutes: self.co_solutes.with(oxidant),
        })
    }

    /// The measured pH with its range.
    fn reading(self) -> Option<Estimate<f64>> {
        let value = self.measured_ph.base()?;
        Some(if self.by_meter.get() { meter_ph(value) } else { strip_ph(value) })
    }

    /// A liquor has no fibre and no length yet: that these are unknown is not said.
    fn cautions(self, ph: Option<Interval<f64>>) -> Vec<Caution> {
        let act = if self.has_acid() { Act::AddingAcid } else { Act::Bath };
        let temperature =
            self.celsius.base().and_then(|degrees| Interval::celsius(by_thermometer(degrees)));
        let situation = Situation {
            oxidant: self.oxidant.get().into(),
            temperature,
            ph: ph.and_then(Interval::ph),
            strength: self.active.base().map(grams_per_litre).map(Interval::exact),
            ..Situation::without_bleach()
        };
        let mut found = cautions(act, &situation);
        found.retain(|caution| {
            let of_bath = matches!(caution.id.fact(), Some(Fact::Dose | Fact::Time));
            !(caution.id.is_of_unknown() && of_bath)
        });
        found
    }

    fn view(self, refused: Signal<Option<Message>>) -> impl IntoView {
        view! {
            <RadioGroup label=t!("bleach-oxidant") value=self.oxidant options=vec![
                (Oxidant::Hypochlorite, t!("oxidant-hypochlorite")),
                (Oxidant::Percarbonate, t!("oxidant-percarbonate")),
            ] />
            {move || {
                let hint = match self.oxidant.get() {
                    Oxidant::Hypochlorite => t!("liquor-counts_chlorine"),
                    _ => t!("liquor-counts_peroxide"),
                };
                view! { <NumberField ask=self.active hint refused /> }
            }}
            <NumberField ask=self.soda hint=t!("liquor-soda_hint") refused />
            <NumberField ask=self.celsius refused />
            <NumberField ask=self.measured_ph label=t!("liquor-measured")
                hint=t!("liquor-measured_hint") refused />
            {move || (!self.measured_ph.is_empty()).then(|| view! {
                <RadioGroup label=t!("liquor-read_with") value=self.by_meter options=vec![
                    (false, t!("liquor-strip")), (true, t!("liquor-meter")),
                ] />
            })}
            <NumberField ask=self.volume hint=t!("liquor-volume_hint") />
            {move || self.co_solutes.view(self.oxidant.get())}
            <NumberField ask=self.vinegar hint=t!("liquor-vinegar_hint") refused />
        }
    }
}

/// The incompatible ingredients of a recipe.
fn clashes(recipe: &Recipe) -> AnyView {
    let clashes = recipe.clashes().into_iter().map(|clash| {
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
    });
    clashes.collect_view().into_any()
}

#[component]
fn Answer(
    liquor: SolvedLiquor,
    reading: Option<Estimate<f64>>,
    litres: f64,
    alkali: RwSignal<AlkaliReagent>,
    as_table: RwSignal<bool>,
) -> impl IntoView {
    let SolvedLiquor { oxidant, mix, ph, ph_at_25, gas, window } = liquor;
    let at = |ph: f64| format_value(&Value::Ph(ph));
    let gas_text = gas.map(|gas| {
        let at = |ph: Option<f64>| ph.map_or_else(|| "–".to_owned(), at);
        t_with!(
            "liquor-gas",
            &[("dangerous", &at(gas.dangerous)), ("limit", &at(gas.exposure_limit))],
        )
    });
    let shown = reading.map_or(ph, |reading| reading.value);
    view! {
        <section class="card stack wide" aria-live="polite">
            <Figure name=t!("liquor-ph") number=at(ph) unit=String::new()
                range=t_with!("liquor-window", &[("low", &at(window.low)), ("high", &at(window.high))]) />
            {((ph - ph_at_25).abs() > 0.1).then(|| view! {
                <dl class="facts"><Fact name=t!("liquor-ph_cooled") value=at(ph_at_25) /></dl>
                <p class="small">{t!("liquor-ph_which")}</p>
            })}
            {mix.speciation().ok().map(|speciation| view! {
                <SpeciationChart speciation ph=shown oxidant window gas as_table />
            })}
            {gas_text.map(|text| view! { <p>{text}</p> })}
            <AlkaliAdvice liquor reading litres alkali />
        </section>
    }
}
