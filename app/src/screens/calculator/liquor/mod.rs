//! What is in a liquor: pH, forms of the oxidant, gas, incompatibilities, and the alkali that
//! brings it into its safe range of pH.

mod advice;
mod speciation_chart;

use bleachfield_core::{
    bath::{BATH_TEMPERATURE, Oxidant, by_thermometer},
    caution::{Act, Caution, Fact, Situation, cautions},
    chemistry::{
        alkali::{AlkaliReagent, BATH_VOLUME, meter_ph, strip_ph},
        compatibility::{ClashSeverity, Ingredient},
        liquor::{Recipe, SolvedLiquor, VINEGAR},
    },
    message::{Field, Message, Value},
    quantity::{Estimate, Interval, PH, QuantityKind, Unit, grams_per_litre},
};
use leptos::prelude::*;

use self::{advice::AlkaliAdvice, speciation_chart::SpeciationChart};
use super::{
    bench::{ActCautions, Bench},
    inputs::CoSolutesForm,
    session::{keep, keep_choice, keep_inputs},
    sums::{folded, refusal},
};
use crate::{
    components::{Fact, Figure, NumberField, NumberInput, RadioGroup, Term},
    i18n::{format_value, key, render, t, t_with},
    route::Sum,
};

const BLEACHES: [Oxidant; 2] = [Oxidant::Hypochlorite, Oxidant::Percarbonate];

const ACTIVE: Field = Field("liquor_strength");
const SODA: Field = Field("soda_in_liquor");

#[component]
pub fn Liquor() -> impl IntoView {
    let form = LiquorForm::new();
    form.keep();
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
    // Incompatible ingredients: no figures; the clash above says why.
    let liquor = Memo::new(move |_| if is_refused.get() { None } else { solved.get() });
    let short = move || match liquor.get() {
        Some(Ok(liquor)) => estimated_ph(&liquor),
        Some(Err(why)) => refusal(&why),
        None => view! { <p class="soft">{t!("mix-ph_waiting")}</p> }.into_any(),
    };
    let full = move || {
        liquor.get().and_then(Result::ok).map(|liquor| {
            let litres = form.volume.base().unwrap_or(1000.0) / 1000.0;
            view! { <Reasons liquor reading=reading.get() litres alkali /> }
        })
    };
    let ready = Signal::derive(move || liquor.with(|liquor| matches!(liquor, Some(Ok(_)))));
    let standing = Signal::derive(move || {
        let situation =
            Situation { oxidant: form.oxidant.get().into(), ..Situation::without_bleach() };
        cautions(Act::Bath, &situation)
    });
    view! {
        <Bench of=Sum::Ph short=short.into() full=full.into() ready>
            <section class="card stack">{form.view(refused.into())}</section>
            {move || recipe.get().map(|recipe| clashes(&recipe))}
            <ActCautions cautions=warn standing />
            {move || liquor.get().and_then(Result::ok).map(|liquor| {
                view! { <Forms liquor reading=reading.get() as_table /> }
            })}
        </Bench>
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
        }
    }

    /// Keeps what is typed and chosen in this tab.
    fn keep(self) {
        let inputs = [self.active, self.soda, self.celsius, self.measured_ph, self.volume];
        keep_inputs(Sum::Ph, &inputs);
        keep_inputs(Sum::Ph, &[self.vinegar]);
        keep_choice(Sum::Ph, "oxidant", self.oxidant, &BLEACHES);
        keep(Sum::Ph, "by_meter", self.by_meter);
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
            <RadioGroup label=t!("bleach-oxidant") quiet=true value=self.oxidant options=vec![
                (Oxidant::Hypochlorite, t!("oxidant-hypochlorite")),
                (Oxidant::Percarbonate, t!("oxidant-percarbonate")),
            ] />
            {move || {
                let (hint, term) = match self.oxidant.get() {
                    Oxidant::Hypochlorite => (t!("liquor-counts_chlorine"), Term::AvailableChlorine),
                    _ => (t!("liquor-counts_peroxide"), Term::Percarbonate),
                };
                view! { <NumberField ask=self.active hint refused term /> }
            }}
            <div class="bench-fields">
                <NumberField ask=self.soda refused />
                <NumberField ask=self.celsius refused />
            </div>
            {folded(t!("liquor-more"), view! {
                <p class="small soft">{t!("liquor-soda_hint")}</p>
                <NumberField ask=self.measured_ph label=t!("liquor-measured")
                    hint=t!("liquor-measured_hint") refused />
                {move || (!self.measured_ph.is_empty()).then(|| view! {
                    <RadioGroup label=t!("liquor-read_with") value=self.by_meter options=vec![
                        (false, t!("liquor-strip")), (true, t!("liquor-meter")),
                    ] />
                })}
                <NumberField ask=self.volume hint=t!("liquor-volume_hint") />
                <NumberField ask=self.vinegar hint=t!("liquor-vinegar_hint") refused />
                {move || self.co_solutes.view(self.oxidant.get())}
            })}
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

/// The forms of the oxidant at the pH, and where it gives off gas.
#[component]
fn Forms(
    liquor: SolvedLiquor,
    reading: Option<Estimate<f64>>,
    as_table: RwSignal<bool>,
) -> impl IntoView {
    let SolvedLiquor { oxidant, mix, ph, gas, window, .. } = liquor;
    let gas_text = gas.map(|gas| {
        let at = |ph: Option<f64>| ph.map_or_else(|| "–".to_owned(), ph_text);
        t_with!(
            "liquor-gas",
            &[("dangerous", &at(gas.dangerous)), ("limit", &at(gas.exposure_limit))],
        )
    });
    let shown = reading.map_or(ph, |reading| reading.value);
    view! {
        <section class="card stack">
            {mix.speciation().ok().map(|speciation| view! {
                <SpeciationChart speciation ph=shown oxidant window gas as_table />
            })}
            {gas_text.map(|text| view! { <p>{text}</p> })}
        </section>
    }
}

fn estimated_ph(liquor: &SolvedLiquor) -> AnyView {
    let (ph, window) = (ph_text(liquor.ph), liquor.window);
    let range = [("low", ph_text(window.low)), ("high", ph_text(window.high))];
    let range = t_with!("liquor-window", &[("low", &range[0].1), ("high", &range[1].1)]);
    view! {
        <Figure name=t!("liquor-ph") number=ph unit=String::new() />
        <p>{range}</p>
    }
    .into_any()
}

/// What the pH is of a cooled sample, and what brings it into the safe range.
#[component]
fn Reasons(
    liquor: SolvedLiquor,
    reading: Option<Estimate<f64>>,
    litres: f64,
    alkali: RwSignal<AlkaliReagent>,
) -> impl IntoView {
    let (ph, ph_at_25) = (liquor.ph, liquor.ph_at_25);
    view! {
        {estimated_ph(&liquor)}
        {((ph - ph_at_25).abs() > 0.1).then(|| view! {
            <dl class="facts"><Fact name=t!("liquor-ph_cooled") value=ph_text(ph_at_25) /></dl>
            <p class="small">{t!("liquor-ph_which")}</p>
        })}
        <AlkaliAdvice liquor reading litres alkali />
    }
}

fn ph_text(ph: f64) -> String {
    format_value(&Value::Ph(ph))
}
