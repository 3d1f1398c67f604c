//! The wash: how many rinses, of how much water.

mod answer;

use bleachfield_core::{
    derive::{WashRecord, wash_efficiency},
    journal::{Batch, Book},
    message::{Field, Message},
    pulp::wash::{
        Alkali, BUCKET, DRYNESS, Efficiency, ORGANICS, OXIDANT, OwnTargets, RinsePlan, RinseTiming,
        SALT, SqueezedPulp, TIMING, WATER, WET_MASS, Wash, WashError, WashReadings, own_dryness,
        strip_ph,
    },
    quantity::{
        Basis, Estimate, Mass, MassConcentration, QuantityKind, Ratio, Unit, grams,
        grams_per_litre, in_grams, in_grams_per_litre, in_share, millilitres, share, weighed,
    },
};

use leptos::prelude::*;

use self::answer::lead_of;
use super::{Recorded, fields, refusal};
use crate::{
    components::{NumberField, NumberInput, RadioGroup},
    i18n::{key, t},
};

const LIQUOR_PH: Field = Field("wash-liquor_ph");
const TAP_PH: Field = Field("tap_ph");
const HARDNESS: Field = Field("wash-hardness");
const TARGET_PH: Field = Field("wash-target_ph");
const TARGET_OXIDANT: Field = Field("wash-target_oxidant");

/// Rinse water from a household tap, °C (common practice, no source).
const WATER_CELSIUS: f64 = 15.0;

/// What a wash asks. Copied freely.
#[derive(Clone, Copy)]
pub struct WashSum {
    wet: Recorded<Estimate<Mass>>,
    dryness: Recorded<Estimate<Ratio>>,
    ph: Recorded<Estimate<f64>>,
    oxidant: Recorded<Estimate<MassConcentration>>,
    salt: NumberInput,
    organics: NumberInput,
    tap_ph: Recorded<Estimate<f64>>,
    hardness: Recorded<Estimate<MassConcentration>>,
    /// Water for each rinse, as the person would do it.
    pub each: NumberInput,
    bucket: NumberInput,
    soak: NumberInput,
    target_ph: NumberInput,
    target_oxidant: NumberInput,
    alkali: RwSignal<usize>,
    efficiency: StoredValue<Result<Efficiency, Message>>,
}

const ALKALIS: [Alkali; 2] = [Alkali::SodaAsh, Alkali::Lye];

impl WashSum {
    /// What the book knows is filled in.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map_or_else(|| WashRecord::of_studio(book), |b| WashRecord::of(book, b));
        let (pulp, readings) = (record.pulp, record.readings);
        let strength = |field, unit| {
            NumberInput::new(field, QuantityKind::Concentration)
                .unit(unit)
                .between(0.0, 200.0)
                .optional()
        };
        let ph = |field| NumberInput::new(field, QuantityKind::Ph).optional();
        let mg = |known: MassConcentration| in_grams_per_litre(known) * 1000.0;
        Self {
            wet: Recorded::new(
                NumberInput::new(WET_MASS, QuantityKind::Mass),
                pulp.map(|pulp| pulp.wet_mass),
                |wet| in_grams(wet.value),
            ),
            dryness: Recorded::new(
                NumberInput::new(DRYNESS, QuantityKind::Share),
                pulp.map(|pulp| pulp.dryness),
                |dryness| in_share(dryness.value) * 100.0,
            ),
            ph: Recorded::new(ph(LIQUOR_PH), readings.ph, |ph| ph.value),
            oxidant: Recorded::new(
                strength(OXIDANT, Unit::MilligramsPerLitre),
                readings.oxidant,
                |known| mg(known.value),
            ),
            salt: strength(SALT, Unit::GramsPerLitre),
            organics: strength(ORGANICS, Unit::GramsPerLitre),
            tap_ph: Recorded::new(ph(TAP_PH), readings.tap_ph, |ph| ph.value),
            hardness: Recorded::new(
                strength(HARDNESS, Unit::MilligramsPerLitre),
                readings.hardness,
                |known| mg(known.value),
            ),
            each: NumberInput::new(WATER, QuantityKind::Volume).unit(Unit::Litre).optional(),
            bucket: NumberInput::new(BUCKET, QuantityKind::Volume).unit(Unit::Litre).filled("10"),
            soak: NumberInput::new(TIMING, QuantityKind::Duration).unit(Unit::Minute).filled("10"),
            target_ph: NumberInput::new(TARGET_PH, QuantityKind::Ph).between(7.0, 12.0).optional(),
            target_oxidant: strength(TARGET_OXIDANT, Unit::MilligramsPerLitre),
            alkali: RwSignal::new(usize::from(readings.alkali == Alkali::Lye)),
            efficiency: StoredValue::new(
                wash_efficiency(book, WATER_CELSIUS).map_err(|error| error.message()),
            ),
        }
    }

    fn alkali(self) -> Alkali {
        ALKALIS[self.alkali.get().min(1)]
    }

    fn efficiency(self) -> Efficiency {
        self.efficiency.with_value(|e| e.clone().unwrap_or_else(|_| Efficiency::assumed()))
    }

    /// The wash as answered so far; `None` while the pulp or the liquor is open.
    fn wash(self) -> Option<Result<Wash, Message>> {
        let pulp = SqueezedPulp {
            wet_mass: self.wet.get(|wet| weighed(grams(wet)))?,
            dryness: self.dryness.get(|dryness| own_dryness(share(dryness)))?,
        };
        let liquor_known = [self.ph.ask, self.oxidant.ask, self.salt, self.organics]
            .into_iter()
            .any(|ask| ask.base().is_some());
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
                .wash(pulp, own, self.efficiency(), timing, WATER_CELSIUS)
                .map_err(|refusal| refusal.message())
        })
    }

    /// What was read: as the book has it while it stands as filled in, else as typed.
    fn readings(self) -> WashReadings {
        let typed = |part: f64, basis| {
            move |g_per_l: f64| Estimate::within(grams_per_litre(g_per_l), part, basis)
        };
        WashReadings {
            alkali: self.alkali(),
            ph: self.ph.get(strip_ph),
            oxidant: self.oxidant.get(typed(0.5, Basis::Strip)),
            salt: self.salt.base().map(typed(0.3, Basis::Computed)),
            organics: self.organics.base().map(typed(0.3, Basis::Computed)),
            tap_ph: self.tap_ph.get(strip_ph),
            hardness: self.hardness.get(typed(0.0, Basis::Strip)),
        }
    }

    /// Questions and answer.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || match self.wash() {
            Some(Ok(wash)) => self.plans(&wash).into_iter().find_map(|(_, plan)| plan.err()),
            Some(Err(why)) => Some(why),
            None => None,
        });
        let more =
            [self.salt, self.organics, self.hardness.ask, self.target_oxidant, self.target_ph];
        let alkalis = vec![(0, t!("wash-alkali-soda_ash")), (1, t!("wash-alkali-lye"))];
        view! {
            <NumberField ask=self.wet.ask refused hint=t!("wash-wet_hint") />
            <NumberField ask=self.dryness.ask refused hint=t!("wash-dryness_hint") />
            <NumberField ask=self.oxidant.ask refused hint=t!("wash-oxidant_hint") />
            {fields(&[self.ph.ask, self.tap_ph.ask, self.each, self.bucket], refused)}
            <details class="more">
                <summary>{t!("wash-more")}</summary>
                <div class="inside stack">
                    {fields(&more, refused)}
                    {fields(&[self.soak], refused)}
                    <RadioGroup label=t!("wash-alkali-which") value=self.alkali options=alkalis />
                </div>
            </details>
            <div class="stack" aria-live="polite">
                {move || match self.wash() {
                    None => view! { <p class="soft">{t!("wash-waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(wash)) => self.answer(&wash),
                }}
            </div>
        }
        .into_any()
    }

    /// How many rinses, and what decides it: all that wet hands want to know.
    pub fn lead(self) -> AnyView {
        match self.wash() {
            None => view! { <p class="soft">{t!("wash-waiting")}</p> }.into_any(),
            Some(Err(why)) => refusal(&why),
            Some(Ok(wash)) => match self.plans(&wash).into_iter().next() {
                Some((_, Ok(plan))) => lead_of(&plan),
                Some((_, Err(why))) => refusal(&why),
                None => view! { <p class="soft">{t!("wash-water_waiting")}</p> }.into_any(),
            },
        }
    }

    /// Something is still to be answered before there is a number.
    pub fn waits(self) -> bool {
        untrack(|| self.wash().is_none())
    }

    /// The plans side by side: with the person's own water, with the least, in
    /// the least time.
    fn plans(self, wash: &Wash) -> Vec<(&'static str, Result<RinsePlan, Message>)> {
        let say = |plan: Result<RinsePlan, WashError>| plan.map_err(|why| why.message());
        let volume = |ask: NumberInput| ask.base().map(millilitres);
        let own = volume(self.each).map(|each| (key!("wash-plan-own"), say(wash.rinses_of(each))));
        let bucket = volume(self.bucket).map(|bucket| {
            [
                (key!("wash-plan-least_water"), say(wash.least_water(bucket))),
                (key!("wash-plan-least_time"), say(wash.least_time(bucket))),
            ]
        });
        own.into_iter().chain(bucket.into_iter().flatten()).collect()
    }
}
