//! The wash: how many rinses, of how much water.

mod answer;

use bleachfield_core::{
    caution::{Act, Caution, Residual, Situation, cautions},
    chemistry::{oxidant_strip, water::TAP_CELSIUS},
    derive::{WashRecord, wash_efficiency},
    journal::{Batch, Book},
    message::{Field, Message},
    pulp::wash::{
        Alkali, BUCKET, DRYNESS, Efficiency, ORGANICS, OXIDANT, OwnTargets, RinsePlan, RinseTiming,
        SALT, SqueezedPulp, TIMING, WATER, WET_MASS, Wash, WashError, WashReadings, own_dryness,
        strip_ph, worked_out,
    },
    quantity::{
        Basis, Estimate, Interval, Mass, MassConcentration, QuantityKind, Ratio, Unit, grams,
        grams_per_litre, in_grams, in_grams_per_litre, in_share, millilitres, share, weighed,
    },
};
use leptos::prelude::*;

use self::answer::{NamedPlan, rinse_count, wash_answer};
use super::view::{answer_view, fields, folded};
use crate::{
    components::{NumberField, NumberInput, RadioGroup, RecordedInput, Term},
    i18n::{key, t},
    route::Sum,
    screens::calculator::session::{keep_choice, keep_inputs},
};

const LIQUOR_PH: Field = Field("wash-liquor_ph");
const TAP_PH: Field = Field("tap_ph");
const HARDNESS: Field = Field("wash-hardness");
const TARGET_PH: Field = Field("wash-target_ph");
const TARGET_OXIDANT: Field = Field("wash-target_oxidant");

/// The form; copies share their signals.
#[derive(Clone, Copy)]
pub struct WashSum {
    wet: RecordedInput<Estimate<Mass>>,
    dryness: RecordedInput<Estimate<Ratio>>,
    ph: RecordedInput<Estimate<f64>>,
    oxidant: RecordedInput<Estimate<MassConcentration>>,
    salt: NumberInput,
    organics: NumberInput,
    tap_ph: RecordedInput<Estimate<f64>>,
    hardness: RecordedInput<Estimate<MassConcentration>>,
    /// Water of each rinse as the person would do it.
    pub each: NumberInput,
    bucket: NumberInput,
    soak: NumberInput,
    target_ph: NumberInput,
    target_oxidant: NumberInput,
    alkali: RwSignal<Alkali>,
    efficiency: StoredValue<Result<Efficiency, Message>>,
}

impl WashSum {
    /// A form filled from the records of the batch, or of the studio without one.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map_or_else(|| WashRecord::of_studio(book), |b| WashRecord::of(book, b));
        let (pulp, readings) = (record.pulp, record.readings);
        let strength = |field, unit| {
            NumberInput::new(field, QuantityKind::Concentration)
                .unit(unit)
                .between(0.0, 200.0)
                .optional()
        };
        let recorded_strength = |field, recorded| {
            let input = strength(field, Unit::MilligramsPerLitre);
            RecordedInput::new(input, recorded, |known: Estimate<MassConcentration>| {
                in_grams_per_litre(known.value) * 1000.0
            })
        };
        let recorded_ph = |field, recorded| {
            let input = NumberInput::new(field, QuantityKind::Ph).optional();
            RecordedInput::new(input, recorded, |ph: Estimate<f64>| ph.value)
        };
        Self {
            wet: RecordedInput::new(
                NumberInput::new(WET_MASS, QuantityKind::Mass),
                pulp.map(|pulp| pulp.wet_mass),
                |wet| in_grams(wet.value),
            ),
            dryness: RecordedInput::new(
                NumberInput::new(DRYNESS, QuantityKind::Share),
                pulp.map(|pulp| pulp.dryness),
                |dryness| in_share(dryness.value) * 100.0,
            ),
            ph: recorded_ph(LIQUOR_PH, readings.ph),
            oxidant: recorded_strength(OXIDANT, readings.oxidant),
            salt: strength(SALT, Unit::GramsPerLitre),
            organics: strength(ORGANICS, Unit::GramsPerLitre),
            tap_ph: recorded_ph(TAP_PH, readings.tap_ph),
            hardness: recorded_strength(HARDNESS, readings.hardness),
            each: NumberInput::new(WATER, QuantityKind::Volume).unit(Unit::Litre).optional(),
            bucket: NumberInput::new(BUCKET, QuantityKind::Volume).unit(Unit::Litre).filled(10.0),
            soak: NumberInput::new(TIMING, QuantityKind::Duration).unit(Unit::Minute).filled(10.0),
            target_ph: NumberInput::new(TARGET_PH, QuantityKind::Ph).between(7.0, 12.0).optional(),
            target_oxidant: strength(TARGET_OXIDANT, Unit::MilligramsPerLitre),
            alkali: RwSignal::new(readings.alkali),
            efficiency: StoredValue::new(
                wash_efficiency(book, TAP_CELSIUS).map_err(|error| error.message()),
            ),
        }
    }

    fn efficiency(self) -> Efficiency {
        self.efficiency.with_value(|e| e.clone().unwrap_or_else(|_| Efficiency::assumed()))
    }

    /// The wash as answered so far; `None` while the pulp or the liquor is incomplete.
    fn wash(self) -> Option<Result<Wash, Message>> {
        let pulp = SqueezedPulp {
            wet_mass: self.wet.get(|wet| weighed(grams(wet)))?,
            dryness: self.dryness.get(|dryness| own_dryness(share(dryness)))?,
        };
        let liquor_known = [self.ph.input, self.oxidant.input, self.salt, self.organics]
            .into_iter()
            .any(|input| input.base().is_some());
        let own = OwnTargets {
            ph: self.target_ph.base(),
            oxidant: self.target_oxidant.base().map(grams_per_litre),
        };
        let timing = RinseTiming {
            soak_minutes: self.soak.base().unwrap_or(RinseTiming::default().soak_minutes),
            ..RinseTiming::default()
        };
        liquor_known.then(|| {
            self.readings()
                .wash(pulp, own, self.efficiency(), timing, TAP_CELSIUS)
                .map_err(|error| error.message())
        })
    }

    /// The readings: as recorded, or as typed since.
    fn readings(self) -> WashReadings {
        let hardness = |g_per_l| Estimate::exact(grams_per_litre(g_per_l), Basis::Strip);
        let worked_out = |g_per_l| worked_out(grams_per_litre(g_per_l));
        WashReadings {
            alkali: self.alkali.get(),
            ph: self.ph.get(strip_ph),
            oxidant: self.oxidant.get(|g_per_l| oxidant_strip(grams_per_litre(g_per_l))),
            salt: self.salt.base().map(worked_out),
            organics: self.organics.base().map(worked_out),
            tap_ph: self.tap_ph.get(strip_ph),
            hardness: self.hardness.get(hardness),
        }
    }

    /// Fields and answer.
    pub fn view(self) -> AnyView {
        let full = move || self.full_answer();
        view! { {self.fields_view()}<div class="stack" aria-live="polite">{full}</div> }.into_any()
    }

    /// Number of rinses, plans compared, expected readings; or what is missing.
    pub fn full_answer(self) -> AnyView {
        answer_view(self.wash(), key!("wash-waiting"), |wash| {
            let refused = self.efficiency.with_value(|e| e.as_ref().err().cloned());
            wash_answer(wash, &self.plans(wash), self.alkali.get(), refused)
        })
    }

    /// The cautions of draining this liquor. One whose oxidant was not read may hold some. Tracked.
    pub fn cautions(self) -> Vec<Caution> {
        let oxidant = self.readings().oxidant;
        let none = oxidant.is_some_and(|read| in_grams_per_litre(read.high) <= 0.0);
        let residual = if none { Residual::None } else { Residual::Unknown };
        let strength = oxidant.map(Interval::from);
        let situation = Situation { residual, strength, ..Situation::without_bleach() };
        cautions(Act::Draining, &situation)
    }

    /// Whether there is a number of rinses.
    pub fn is_ready(self) -> bool {
        let Some(Ok(wash)) = self.wash() else { return false };
        matches!(self.plans(&wash).first(), Some((_, Ok(plan))) if plan.rinses > 0)
    }

    /// Keeps what is typed and chosen in this tab.
    pub fn keep(self) {
        let Self { wet, dryness, ph, oxidant, tap_ph, hardness, .. } = self;
        keep_inputs(Sum::Wash, &[wet.input, dryness.input, ph.input, oxidant.input]);
        keep_inputs(Sum::Wash, &[tap_ph.input, hardness.input, self.each, self.bucket]);
        keep_inputs(Sum::Wash, &[self.salt, self.organics, self.soak]);
        keep_inputs(Sum::Wash, &[self.target_ph, self.target_oxidant]);
        keep_choice(Sum::Wash, "alkali", self.alkali, &[Alkali::SodaAsh, Alkali::Lye]);
    }

    pub fn fields_view(self) -> AnyView {
        let refused = Signal::derive(move || match self.wash()? {
            Ok(wash) => self.plans(&wash).into_iter().find_map(|(_, plan)| plan.err()),
            Err(why) => Some(why),
        });
        let more = [
            self.salt,
            self.organics,
            self.hardness.input,
            self.target_oxidant,
            self.target_ph,
            self.soak,
        ];
        view! {
            <NumberField ask=self.wet.input refused hint=t!("wash-wet_hint") />
            <NumberField ask=self.dryness.input refused hint=t!("wash-dryness_hint")
                term=Term::Dryness />
            <NumberField ask=self.oxidant.input refused hint=t!("wash-oxidant_hint")
                term=Term::Liquor />
            {fields(&[self.ph.input, self.tap_ph.input, self.each, self.bucket], refused)}
            {folded(t!("wash-more"), view! {
                {fields(&more, refused)}
                <RadioGroup label=t!("wash-alkali-which") value=self.alkali options=vec![
                    (Alkali::SodaAsh, t!("wash-alkali-soda_ash")),
                    (Alkali::Lye, t!("wash-alkali-lye")),
                ] />
            })}
        }
        .into_any()
    }

    /// The number of rinses alone.
    pub fn summary(self) -> AnyView {
        answer_view(self.wash(), key!("wash-waiting"), |wash| {
            let first = self.plans(wash).into_iter().next().map(|(_, plan)| plan);
            answer_view(first, key!("wash-water_waiting"), rinse_count)
        })
    }

    /// Whether the pulp or the liquor is incomplete; not reactive.
    pub fn is_incomplete(self) -> bool {
        untrack(|| self.wash().is_none())
    }

    /// The plans to compare: with the person's own water, with the least water, in the least time.
    fn plans(self, wash: &Wash) -> Vec<NamedPlan> {
        let named = |name, plan: Result<RinsePlan, WashError>| {
            (name, plan.map_err(|error| error.message()))
        };
        let mut plans = Vec::new();
        if let Some(each) = self.each.base().map(millilitres) {
            plans.push(named(key!("wash-plan-own"), wash.rinses_of(each)));
        }
        if let Some(bucket) = self.bucket.base().map(millilitres) {
            plans.push(named(key!("wash-plan-least_water"), wash.least_water(bucket)));
            plans.push(named(key!("wash-plan-least_time"), wash.least_time(bucket)));
        }
        plans
    }
}
