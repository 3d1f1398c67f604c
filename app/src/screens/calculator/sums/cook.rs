//! The cook before the bath: alkali, liquor, pot, heat, expected yield, and the rinse after it.

use bleachfield_core::{
    caution::{Act, Caution, Situation, cautions, cook_cautions},
    chemistry::{
        alkali::{PhWindow, strip_ph},
        water::TAP_CELSIUS,
    },
    derive::{WashRecord, own_cooks, table_yield, wash_efficiency},
    journal::{self, Batch, Book, Figure},
    message::{Message, Value},
    pulp::{
        ASSUMED_DRYNESS, FIBRES,
        cook::{
            ASSUMED_YIELD, CHARGE, CookAlkali, CookPlan, CookRequest, FIBRE, LIQUOR, LIQUOR_PH,
            POT, PURITY, TEMPERATURE, TIME, USUAL_CELSIUS, USUAL_CHARGE, USUAL_MINUTES,
            USUAL_RATIO, equivalent, expected_yield, rinse_to_window,
        },
        wash::{
            Alkali, DRYNESS, Efficiency, PulpLiquor, RinseTiming, SqueezedPulp, Targets, WATER,
            Wash, own_dryness, recorded_dryness,
        },
    },
    quantity::{
        Basis, Estimate, Mass, QuantityKind, Ratio, Unit, grams, in_grams, in_millilitres,
        in_share, millilitres, share, weighed,
    },
};
use leptos::prelude::*;

use super::view::{
    answer_view, fact_rows, fields, folded, pour_out, range, refusal, remarks, weigh_out,
};
use crate::{
    components::{
        Assumed, Fact, NumberField, NumberInput, RadioGroup, RecordedInput, Term, TextField,
    },
    i18n::{format_number, format_value, key, render, sentence_case, t, t_with},
    route::Sum,
    screens::calculator::session::{keep, keep_choice, keep_inputs, optional},
    state::app_state,
};

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct CookSum {
    pub fibre: RwSignal<String>,
    raw: RecordedInput<Estimate<Mass>>,
    /// Chosen by the person.
    alkali: RwSignal<Option<CookAlkali>>,
    charge: RecordedInput<Estimate<f64>>,
    purity: NumberInput,
    ratio: NumberInput,
    pot: NumberInput,
    celsius: RecordedInput<Estimate<f64>>,
    minutes: RecordedInput<Estimate<f64>>,
    /// pH of the liquor squeezed out after the cook.
    liquor_ph: NumberInput,
    dryness: RecordedInput<Estimate<Ratio>>,
    /// Water of each rinse.
    rinse: NumberInput,
    /// pH window of the bath to come.
    window: RwSignal<PhWindow>,
}

impl CookSum {
    /// A form filled from the batch's records.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map_or_else(|| WashRecord::of_studio(book), |b| WashRecord::of(book, b));
        let raw = batch.and_then(|b| b.raw_dry_g).map(|figure| figure.map(grams));
        let squeeze = book.studio.figures.get(&journal::OwnFigureOf::SqueezeDryness);
        let dryness = squeeze
            .map(|(figure, _)| recorded_dryness(*figure))
            .or_else(|| record.pulp.map(|pulp| pulp.dryness))
            .unwrap_or_else(|| ASSUMED_DRYNESS.map(share));
        let usual = |field, kind, value: f64, shown: f64| {
            let known = Estimate::exact(value, Basis::Assumed);
            RecordedInput::new(NumberInput::new(field, kind), Some(known), |_| shown)
        };
        Self {
            fibre: RwSignal::new(batch.map(|b| b.fibre.clone()).unwrap_or_default()),
            raw: RecordedInput::new(NumberInput::new(FIBRE, QuantityKind::Mass), raw, |raw| {
                in_grams(raw.value)
            }),
            alkali: RwSignal::new(None),
            charge: usual(CHARGE, QuantityKind::Share, USUAL_CHARGE, USUAL_CHARGE * 100.0),
            purity: NumberInput::new(PURITY, QuantityKind::Share).optional(),
            ratio: NumberInput::new(LIQUOR, QuantityKind::Number).filled(USUAL_RATIO),
            pot: NumberInput::new(POT, QuantityKind::Volume).unit(Unit::Litre),
            celsius: usual(TEMPERATURE, QuantityKind::Temperature, USUAL_CELSIUS, USUAL_CELSIUS),
            minutes: usual(TIME, QuantityKind::Duration, USUAL_MINUTES, USUAL_MINUTES),
            liquor_ph: NumberInput::new(LIQUOR_PH, QuantityKind::Ph).optional(),
            dryness: RecordedInput::new(
                NumberInput::new(DRYNESS, QuantityKind::Share),
                Some(dryness),
                |dryness| in_share(dryness.value) * 100.0,
            ),
            rinse: NumberInput::new(WATER, QuantityKind::Volume).unit(Unit::Litre).filled(5.0),
            window: RwSignal::new(PhWindow::HYPOCHLORITE),
        }
    }

    /// The inputs of the cook itself.
    pub fn inputs(self) -> [NumberInput; 7] {
        [
            self.raw.input,
            self.charge.input,
            self.purity,
            self.ratio,
            self.pot,
            self.celsius.input,
            self.minutes.input,
        ]
    }

    fn request(self) -> Option<CookRequest> {
        Some(CookRequest {
            dry_fibre: self.raw()?,
            alkali: self.alkali.get()?,
            charge: self.charge.get(planned)?.map(share),
            purity: share(self.purity()?),
            litres_per_kilogram: self.ratio.base()?,
            pot: millilitres(self.pot.base()?),
            celsius: self.celsius.get(told)?.value,
            minutes: self.minutes.get(told)?.value,
        })
    }

    fn plan(self) -> Option<Result<CookPlan, Message>> {
        Some(self.request()?.plan().map_err(|error| error.message()))
    }

    /// Dry raw fibre, as recorded or as typed.
    fn raw(self) -> Option<Estimate<Mass>> {
        self.raw.get(|g| weighed(grams(g)))
    }

    /// The purity; pure where nobody said.
    fn purity(self) -> Option<f64> {
        if self.purity.is_empty() { Some(1.0) } else { self.purity.base() }
    }

    /// Dry raw fibre in g, for the journal.
    pub fn raw_dry(self) -> Option<Figure> {
        Some(self.raw()?.map(in_grams))
    }

    /// The fibre's key in the core's table, if its name is in it.
    pub fn fibre_key(self) -> Option<String> {
        let name = self.fibre.get().trim().to_lowercase();
        let row = FIBRES.iter().find(|row| fibre_name(row.id).to_lowercase() == name);
        row.map(|row| row.id.to_owned())
    }

    /// The journal entry of a cook done as planned; `None` while there is no plan. The amounts
    /// are the plan's; a temperature or time that nobody typed is marked as assumed.
    pub fn entry(self, note: String) -> Option<journal::Cook> {
        let (cook, plan) = (self.request()?, self.plan()?.ok()?);
        let alkali = match cook.alkali {
            CookAlkali::SodaAsh | CookAlkali::WashingSodaMonohydrate => journal::Alkali::SodaAsh,
            CookAlkali::WashingSodaDecahydrate => journal::Alkali::WashingSoda,
            CookAlkali::Lye => journal::Alkali::Lye,
        };
        Some(journal::Cook {
            alkali: Some(alkali),
            alkali_g: Some(as_planned(plan.alkali.map(in_grams), self.purity.is_empty())),
            charge_share: Some(cook.charge.map(in_share)),
            liquor_l: Some(planned(in_millilitres(plan.water) / 1000.0)),
            celsius: self.celsius.get(told),
            hours: self.minutes.get(told).map(|minutes| minutes.map(|minutes| minutes / 60.0)),
            ph_after_rinse: None,
            note,
        })
    }

    /// Fields and answer.
    pub fn view(self) -> AnyView {
        let full = move || self.full_answer();
        view! {
            {self.fields_view()}
            <div class="stack" aria-live="polite">{full}</div>
            {self.rinse_section()}
        }
        .into_any()
    }

    /// Alkali, water and yield with their reasons; or what is missing.
    pub fn full_answer(self) -> AnyView {
        answer_view(self.plan(), key!("cook-waiting"), |plan| self.answer(plan))
    }

    /// Alkali and water alone; or what is missing.
    pub fn short_answer(self) -> AnyView {
        answer_view(self.plan(), key!("cook-waiting"), amounts)
    }

    /// The cautions of this cook; before there is a plan those of any. Tracked.
    pub fn cautions(self) -> Vec<Caution> {
        match (self.alkali.get(), self.plan(), self.celsius.input.base()) {
            (Some(alkali), Some(Ok(plan)), Some(celsius)) => cook_cautions(alkali, &plan, celsius),
            _ => cautions(Act::Heating, &Situation::without_bleach()),
        }
    }

    /// Whether there is an answer.
    pub fn is_ready(self) -> bool {
        matches!(self.plan(), Some(Ok(_)))
    }

    /// Keeps what is typed and chosen in this tab.
    pub fn keep(self) {
        const ALKALIS: [Option<CookAlkali>; CookAlkali::ALL.len() + 1] = optional(CookAlkali::ALL);
        keep(Sum::Cook, "fibre", self.fibre);
        keep_choice(Sum::Cook, "alkali", self.alkali, &ALKALIS);
        keep_inputs(Sum::Cook, &self.inputs());
        keep_inputs(Sum::Cook, &[self.liquor_ph, self.dryness.input, self.rinse]);
    }

    pub fn fields_view(self) -> AnyView {
        let refused = Signal::derive(move || self.plan().and_then(Result::err));
        let names: Vec<String> = FIBRES.iter().map(|row| fibre_name(row.id)).collect();
        let alkalis = CookAlkali::ALL.map(|one| (Some(one), sentence_case(t(one.word()))));
        view! {
            <TextField label=t!("start-fibre") text=self.fibre offers=names />
            {fields(&[self.raw.input], refused)}
            <RadioGroup label=t!("cook-with") value=self.alkali options=alkalis.to_vec() />
            <NumberField ask=self.charge.input refused term=Term::Charge />
            <NumberField ask=self.purity hint=t!("cook-purity_hint") refused />
            {fields(&[self.ratio, self.pot, self.celsius.input, self.minutes.input], refused)}
        }
        .into_any()
    }

    /// The rinses between the cook and the bath, folded.
    pub fn rinse_section(self) -> AnyView {
        view! {
            {folded(t!("cook-arrive_head"), view! {
                <p>{t!("cook-arrive_why")}</p>
                <RadioGroup label=t!("cook-bath_to_come") value=self.window options=vec![
                    (PhWindow::HYPOCHLORITE, t!("oxidant-hypochlorite")),
                    (PhWindow::PEROXIDE, t!("oxidant-peroxide")),
                ] />
                {fields(&[self.liquor_ph, self.dryness.input, self.rinse], Signal::stored(None))}
                {move || self.rinse_view()}
            })}
        }
        .into_any()
    }

    fn answer(self, plan: &CookPlan) -> AnyView {
        let others = self.alkali.get().map(|alkali| {
            let others = CookAlkali::ALL.into_iter().filter(move |other| *other != alkali);
            let fact = move |other: CookAlkali| {
                let mass = equivalent(plan.alkali.value, alkali, other);
                let value = format_value(&Value::Mass(mass));
                view! { <Fact name=sentence_case(t(other.word())) value /> }
            };
            others.map(fact).collect_view()
        });
        let severity = format_number(plan.severity, 2);
        view! {
            {amounts(plan)}
            <dl class="facts">{fact_rows([
                (key!("cook-as_na2o"), format_value(&Value::Share(in_share(plan.as_sodium_oxide)))),
                (key!("cook-strength"), format_value(&Value::Concentration(plan.strength))),
                (key!("cook-loads"), plan.loads.to_string()),
                (key!("cook-load_volume"), format_value(&Value::Volume(plan.load_volume))),
                (key!("cook-severity"), t_with!("duration-hours", &[("n", &severity)])),
            ])}</dl>
            {self.yield_view()}
            {remarks(&plan.remarks)}
            {folded(t!("cook-same_alkali"), view! {
                <dl class="facts">{others}</dl>
                <p class="small soft">{t!("cook-same_alkali_why")}</p>
            })}
        }
        .into_any()
    }

    /// The yield to expect, by the studio's own cooks or else by the table.
    fn expected_yield(self) -> Option<Estimate<Ratio>> {
        let (name, key) = (self.fibre.get(), self.fibre_key());
        app_state().book_now(|book| {
            expected_yield(&own_cooks(book, &name), table_yield(book, &name, key.as_deref()))
        })
    }

    fn yield_view(self) -> AnyView {
        let Some(expected) = self.expected_yield() else {
            return view! { <p class="soft">{t!("cook-yield_unknown")}</p> }.into_any();
        };
        let Some(raw) = self.raw().map(|raw| in_grams(raw.value)) else { return ().into_any() };
        let mass = |ratio: Ratio| Value::Mass(grams(raw * in_share(ratio)));
        let assumed = expected.basis == Basis::Assumed;
        let why = if assumed { key!("cook-yield_by_table") } else { key!("cook-yield_by_own") };
        let value = [Value::Share(in_share(expected.value)), mass(expected.value)];
        view! {
            <dl class="facts">
                <dt>{t!("cook-yield")}</dt>
                <dd>
                    {value.map(|value| format_value(&value)).join(", ")}
                    {assumed.then(|| view! { " "<Assumed /> })}
                    <span class="range">{range(expected.low, expected.high, mass)}</span>
                </dd>
            </dl>
            <p class="small soft">{t(why)}</p>
        }
        .into_any()
    }

    /// The rinses that bring the pulp into the pH window of the bath to come.
    fn rinse_view(self) -> Option<AnyView> {
        let (each, alkali) = (millilitres(self.rinse.base()?), self.wash_alkali()?);
        let arrival = self.wash()?.and_then(|wash| {
            rinse_to_window(&wash, each, alkali, TAP_CELSIUS, self.window.get())
                .map_err(|error| error.message())
        });
        let arrival = match arrival {
            Ok(arrival) => arrival,
            Err(why) => return Some(refusal(&why)),
        };
        let steps: Vec<String> =
            arrival.ph.iter().map(|ph| format_value(&Value::Ph(*ph))).collect();
        let view = view! {
            <p role="status"><b>{render(&arrival.remark)}</b></p>
            <p class="small soft">{t_with!("cook-arrive_steps", &[("steps", &steps.join(", "))])}</p>
        };
        Some(view.into_any())
    }

    /// The wash of the cooked and squeezed pulp, without a target.
    fn wash(self) -> Option<Result<Wash, Message>> {
        let ph = strip_ph(self.liquor_ph.base()?);
        let dryness = self.dryness.get(|dryness| own_dryness(share(dryness)))?;
        let (raw, alkali) = (in_grams(self.raw()?.value), self.wash_alkali()?);
        let strength = match alkali.strength_range(ph, TAP_CELSIUS) {
            Ok(strength) => strength,
            Err(error) => return Some(Err(error.message())),
        };
        let yielded = self.expected_yield().map_or(ASSUMED_YIELD, |part| in_share(part.value));
        let (efficiency, readings) = app_state().book_now(|book| {
            let efficiency = wash_efficiency(book, TAP_CELSIUS);
            let readings = WashRecord::of_studio(book).readings;
            (efficiency.unwrap_or_else(|_| Efficiency::assumed()), readings)
        });
        let hardness = readings.hardness.map(|known| known.value).unwrap_or_default();
        let tap = readings.tap_ph.and_then(|ph| alkali.tap(ph.value, hardness, TAP_CELSIUS).ok());
        Some(Ok(Wash {
            pulp: SqueezedPulp {
                wet_mass: Estimate::exact(
                    grams(raw * yielded / in_share(dryness.value)),
                    Basis::Computed,
                ),
                dryness,
            },
            liquor: PulpLiquor { alkali: Some(strength), ..PulpLiquor::default() },
            targets: Targets::default(),
            tap: tap.unwrap_or_default(),
            efficiency,
            timing: RinseTiming::default(),
        }))
    }

    fn wash_alkali(self) -> Option<Alkali> {
        let lye = self.alkali.get()? == CookAlkali::Lye;
        Some(if lye { Alkali::Lye } else { Alkali::SodaAsh })
    }
}

fn amounts(plan: &CookPlan) -> AnyView {
    view! {
        {weigh_out(t!("cook-weigh"), plan.alkali)}
        {pour_out(t!("cook-water"), Estimate::exact(plan.water, Basis::Computed))}
    }
    .into_any()
}

/// That no alkali was chosen, once the cook was to be saved.
pub fn no_alkali(sum: CookSum, tried: RwSignal<bool>) -> Option<Message> {
    (tried.get() && sum.alkali.get().is_none()).then(|| Message::new(key!("cook-not_chosen")))
}

/// A figure that a person told of the cook.
fn told(value: f64) -> Estimate<f64> {
    Estimate::exact(value, Basis::Measured)
}

/// A figure of the plan, not measured.
fn planned(value: f64) -> Estimate<f64> {
    Estimate::exact(value, Basis::Computed)
}

/// An amount that the plan worked out: computed, or assumed if something that it rests on is.
fn as_planned(figure: Figure, assumed: bool) -> Figure {
    let least = if assumed { Basis::Assumed } else { Basis::Computed };
    Estimate { basis: figure.basis.max(least), ..figure }
}

fn fibre_name(id: &str) -> String {
    t(&format!("fibre-{id}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_of_the_plan_is_never_recorded_as_measured() {
        assert_eq!(as_planned(told(80.0), false).basis, Basis::Computed);
        assert_eq!(as_planned(told(80.0), true).basis, Basis::Assumed);
        let assumed = Estimate::exact(80.0, Basis::Assumed);
        assert_eq!(as_planned(assumed, false).basis, Basis::Assumed);
    }
}
