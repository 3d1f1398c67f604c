//! The cook before the bath: alkali, liquor, pot, heat, and what to expect.

use bleachfield_core::{
    chemistry::alkali::PhWindow,
    derive::{WashRecord, own_cooks, table_yield, wash_efficiency},
    journal::{self, Batch, Book, Figure},
    message::{Message, Value},
    pulp::{
        FIBRES,
        cook::{
            CHARGE, CookAlkali, CookPlan, CookRequest, FIBRE, LIQUOR, LIQUOR_PH, POT, PURITY,
            TEMPERATURE, TIME, equivalent, expected_yield, rinse_to_window,
        },
        wash::{
            Alkali, DRYNESS, Efficiency, PulpLiquor, RinseTiming, SqueezedPulp, Targets, WATER,
            Wash, own_dryness,
        },
    },
    quantity::{
        Basis, Estimate, QuantityKind, Ratio, Unit, grams, in_grams, in_millilitres, in_share,
        millilitres, share, weighed,
    },
};
use leptos::prelude::*;

use super::{fields, pour_out, range, refusal, remarks, weigh_out};
use crate::{
    components::{Assumed, Fact, NumberInput, RadioGroup, TextField},
    i18n::{format_number, format_value, key, render, t, t_with},
    state::app_state,
};

/// Rinse water from a household tap, °C (common practice, no source).
const WATER_CELSIUS: f64 = 15.0;

/// What a cook asks. Copied freely.
#[derive(Clone, Copy)]
pub struct CookSum {
    pub fibre: RwSignal<String>,
    raw: NumberInput,
    alkali: RwSignal<usize>,
    charge: NumberInput,
    purity: NumberInput,
    ratio: NumberInput,
    pot: NumberInput,
    celsius: NumberInput,
    minutes: NumberInput,
    /// pH of what is squeezed out after the cook, and the rinse to follow.
    liquor_ph: NumberInput,
    dryness: NumberInput,
    rinse: NumberInput,
    window: RwSignal<usize>,
}

impl CookSum {
    /// What the batch knows is filled in.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let typed = |value: Option<f64>| value.map(|v| format_number(v, 4)).unwrap_or_default();
        let record = batch.map_or_else(|| WashRecord::of_studio(book), |b| WashRecord::of(book, b));
        let raw = batch.and_then(|b| b.raw_dry_g).map(|figure| figure.value);
        let squeeze = book.studio.figures.get(&journal::OwnFigureOf::SqueezeDryness);
        let dryness = squeeze
            .map(|(figure, _)| figure.value)
            .or_else(|| record.pulp.map(|pulp| in_share(pulp.dryness.value)));
        Self {
            fibre: RwSignal::new(batch.map(|b| b.fibre.clone()).unwrap_or_default()),
            raw: NumberInput::new(FIBRE, QuantityKind::Mass).filled(typed(raw)),
            alkali: RwSignal::new(0),
            charge: NumberInput::new(CHARGE, QuantityKind::Share).filled("20"),
            purity: NumberInput::new(PURITY, QuantityKind::Share).filled("100"),
            ratio: NumberInput::new(LIQUOR, QuantityKind::Number).filled("15"),
            pot: NumberInput::new(POT, QuantityKind::Volume).unit(Unit::Litre),
            celsius: NumberInput::new(TEMPERATURE, QuantityKind::Temperature).filled("98"),
            minutes: NumberInput::new(TIME, QuantityKind::Duration)
                .unit(Unit::Minute)
                .filled("120"),
            liquor_ph: NumberInput::new(LIQUOR_PH, QuantityKind::Ph).optional(),
            dryness: NumberInput::new(DRYNESS, QuantityKind::Share)
                .filled(typed(dryness.map(|dryness| dryness * 100.0).or(Some(20.0)))),
            rinse: NumberInput::new(WATER, QuantityKind::Volume).unit(Unit::Litre).filled("5"),
            window: RwSignal::new(0),
        }
    }

    fn alkali(self) -> CookAlkali {
        CookAlkali::ALL[self.alkali.get().min(CookAlkali::ALL.len() - 1)]
    }

    /// The questions of the cook itself.
    pub fn asks(self) -> [NumberInput; 7] {
        [self.raw, self.charge, self.purity, self.ratio, self.pot, self.celsius, self.minutes]
    }

    fn cook(self) -> Option<CookRequest> {
        Some(CookRequest {
            dry_fibre: weighed(grams(self.raw.base()?)),
            alkali: self.alkali(),
            charge: Estimate::exact(share(self.charge.base()?), Basis::Measured),
            purity: share(self.purity.base()?),
            litres_per_kilogram: self.ratio.base()?,
            pot: millilitres(self.pot.base()?),
            celsius: self.celsius.base()?,
            minutes: self.minutes.base()?,
        })
    }

    /// The plan as answered so far.
    pub fn plan(self) -> Option<Result<CookPlan, Message>> {
        self.cook().map(|cook| cook.plan().map_err(|why| why.message()))
    }

    /// Dry raw fibre, as the entry keeps it.
    pub fn raw_dry(self) -> Option<Figure> {
        self.raw.base().map(|g| weighed(grams(g)).map(in_grams))
    }

    /// The fibre's key in the core's table, where its name is one of them.
    pub fn fibre_key(self) -> Option<String> {
        let name = self.fibre.get().trim().to_lowercase();
        let called = |id: &str| t(&format!("fibre-{id}")).to_lowercase();
        FIBRES.iter().find(|row| called(row.id) == name).map(|row| row.id.to_owned())
    }

    /// The entry of a cook done as planned; `None` while there is no plan.
    pub fn entry(self, note: String) -> Option<journal::Cook> {
        let (cook, plan) = (self.cook()?, self.plan()?.ok()?);
        let measured = |value: f64| Some(Estimate::exact(value, Basis::Measured));
        let alkali = match cook.alkali {
            CookAlkali::SodaAsh | CookAlkali::WashingSodaMonohydrate => journal::Alkali::SodaAsh,
            CookAlkali::WashingSodaDecahydrate => journal::Alkali::WashingSoda,
            CookAlkali::Lye => journal::Alkali::Lye,
        };
        Some(journal::Cook {
            alkali: Some(alkali),
            alkali_g: Some(plan.alkali.map(in_grams)),
            charge_share: Some(cook.charge.map(in_share)),
            liquor_l: measured(in_millilitres(plan.water) / 1000.0),
            celsius: measured(cook.celsius),
            hours: measured(cook.minutes / 60.0),
            ph_after_rinse: None,
            note,
        })
    }

    /// Questions and answer.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || self.plan().and_then(Result::err));
        let names: Vec<String> = FIBRES.iter().map(|row| t(&format!("fibre-{}", row.id))).collect();
        let alkalis = CookAlkali::ALL.map(|a| crate::i18n::sentence_case(t(a.word())));
        view! {
            <TextField label=t!("start-fibre") text=self.fibre offers=names />
            {fields(&[self.raw], refused)}
            <RadioGroup label=t!("cook-with") value=self.alkali
                options=alkalis.into_iter().enumerate().collect() />
            {fields(&[self.charge, self.purity, self.ratio, self.pot, self.celsius, self.minutes], refused)}
            <div class="stack" aria-live="polite">
                {move || match self.plan() {
                    None => view! { <p class="soft">{t!("cook-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(plan)) => self.answer(&plan),
                }}
            </div>
            <details class="more">
                <summary>{t!("cook-arrive_head")}</summary>
                <div class="inside stack">
                    <p>{t!("cook-arrive_why")}</p>
                    <RadioGroup label=t!("cook-bath_to_come") value=self.window options=vec![
                        (0, t!("oxidant-hypochlorite")), (1, t!("oxidant-peroxide")),
                    ] />
                    {fields(&[self.liquor_ph, self.dryness, self.rinse], Signal::stored(None))}
                    {move || self.arrival()}
                </div>
            </details>
        }
        .into_any()
    }

    fn answer(self, plan: &CookPlan) -> AnyView {
        let alkali = self.alkali();
        let others = CookAlkali::ALL.into_iter().filter(|other| *other != alkali);
        let others: Vec<_> = others
            .map(|other| {
                let mass = equivalent(plan.alkali.value, alkali, other);
                view! {
                    <Fact name=crate::i18n::sentence_case(t(other.word()))
                        value=format_value(&Value::Mass(mass)) />
                }
            })
            .collect();
        let facts = [
            (key!("cook-as_na2o"), format_value(&Value::Share(in_share(plan.as_sodium_oxide)))),
            (key!("cook-strength"), format_value(&Value::Concentration(plan.strength))),
            (key!("cook-loads"), plan.loads.to_string()),
            (key!("cook-load_volume"), format_value(&Value::Volume(plan.load_volume))),
            (
                key!("cook-severity"),
                t_with!("duration-hours", &[("n", &format_number(plan.severity, 2))]),
            ),
        ];
        let water = Estimate::exact(plan.water, Basis::Computed);
        view! {
            {weigh_out(t!("cook-weigh"), plan.alkali)}
            {pour_out(t!("cook-water"), water)}
            <dl class="facts">
                {facts.map(|(name, value)| view! { <Fact name=t(name) value /> }).collect_view()}
            </dl>
            {self.expected()}
            {remarks(&plan.remarks)}
            <details class="more">
                <summary>{t!("cook-same_alkali")}</summary>
                <div class="inside stack">
                    <dl class="facts">{others}</dl>
                    <p class="small soft">{t!("cook-same_alkali_why")}</p>
                </div>
            </details>
        }
        .into_any()
    }

    /// The pulp to expect: by this studio's own cooks, else by the table.
    fn expected(self) -> AnyView {
        let (name, key) = (self.fibre.get(), self.fibre_key());
        let (own, table) = app_state()
            .book_now(|book| (own_cooks(book, &name), table_yield(book, &name, key.as_deref())));
        let Some(expected) = expected_yield(&own, table) else {
            return view! { <p class="soft">{t!("cook-yield_unknown")}</p> }.into_any();
        };
        let Some(raw) = self.raw.base() else { return ().into_any() };
        let of = |ratio: Ratio| Value::Mass(grams(raw * in_share(ratio)));
        let assumed = expected.basis == Basis::Assumed;
        let why = if assumed { key!("cook-yield_by_table") } else { key!("cook-yield_by_own") };
        let value = format!(
            "{}, {}",
            format_value(&Value::Share(in_share(expected.value))),
            format_value(&of(expected.value))
        );
        view! {
            <dl class="facts">
                <dt>{t!("cook-yield")}</dt>
                <dd>
                    {value}{assumed.then(|| view! { " "<Assumed /> })}
                    <span class="range">{range(true, of(expected.low), of(expected.high))}</span>
                </dd>
            </dl>
            <p class="small soft">{t(why)}</p>
        }
        .into_any()
    }

    /// The rinses after which the pulp's water suits the bath to come.
    fn arrival(self) -> Option<AnyView> {
        let (ph, dryness) = (self.liquor_ph.base()?, self.dryness.base()?);
        let (each, raw) = (self.rinse.base()?, self.raw.base()?);
        let alkali = if self.alkali() == CookAlkali::Lye { Alkali::Lye } else { Alkali::SodaAsh };
        // What the pulp will weigh is what the yield says, or half of the raw fibre.
        let (name, key) = (self.fibre.get(), self.fibre_key());
        let (efficiency, readings, part) = app_state().book_now(|book| {
            let table = table_yield(book, &name, key.as_deref());
            let part = expected_yield(&own_cooks(book, &name), table);
            let part = part.map_or(0.5, |part| in_share(part.value));
            (
                wash_efficiency(book, WATER_CELSIUS).unwrap_or_else(|_| Efficiency::assumed()),
                WashRecord::of_studio(book).readings,
                part,
            )
        });
        let strength = match alkali.strength(ph, WATER_CELSIUS) {
            Ok(strength) => Estimate::exact(strength, Basis::Strip),
            Err(why) => return Some(refusal(&why.message())),
        };
        let hardness = readings.hardness.map(|known| known.value).unwrap_or_default();
        let tap = readings.tap_ph.and_then(|ph| alkali.tap(ph.value, hardness, WATER_CELSIUS).ok());
        let wash = Wash {
            pulp: SqueezedPulp {
                wet_mass: Estimate::exact(grams(raw * part / dryness), Basis::Computed),
                dryness: own_dryness(share(dryness)),
            },
            liquor: PulpLiquor { alkali: Some(strength), ..PulpLiquor::default() },
            targets: Targets::default(),
            tap: tap.unwrap_or_default(),
            efficiency,
            timing: RinseTiming::default(),
        };
        let window =
            if self.window.get() == 0 { PhWindow::HYPOCHLORITE } else { PhWindow::PEROXIDE };
        let arrival = match rinse_to_window(&wash, millilitres(each), alkali, WATER_CELSIUS, window)
        {
            Ok(arrival) => arrival,
            Err(why) => return Some(refusal(&why.message())),
        };
        let steps = arrival.ph.iter().map(|ph| format_value(&Value::Ph(*ph)));
        let steps: Vec<String> = steps.collect();
        Some(
            view! {
                <p role="status"><b>{render(&arrival.remark)}</b></p>
                <p class="small soft">{t_with!("cook-arrive_steps", &[("steps", &steps.join(", "))])}</p>
            }
            .into_any(),
        )
    }
}
