//! The wash: how many rinses, of how much water.

mod answer;

use bleachfield_core::{
    journal::{Batch, Book},
    message::{Field, Message},
    pulp::wash::{
        Alkali, BUCKET, DRYNESS, Efficiency, Liquor, Lump, ORGANICS, OXIDANT, PACE, Pace, Record,
        RinsePlan, SALT, Tap, WATER, WET_MASS, Wash, WashRefusal, learnt, own_dryness,
        usual_targets,
    },
    quantity::{
        Basis, Kind, Known, MassConcentration, Unit, grams, grams_per_litre, in_grams,
        in_grams_per_litre, in_share, millilitres, share, weighed,
    },
};

use leptos::prelude::*;

use self::answer::lead_of;
use super::{fields, refusal};
use crate::{
    components::{Ask, AskField, Choice},
    i18n::{format_number, key, t},
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
    wet: Ask,
    dryness: Ask,
    ph: Ask,
    oxidant: Ask,
    salt: Ask,
    organics: Ask,
    tap_ph: Ask,
    hardness: Ask,
    /// Water for each rinse, as the person would do it.
    pub each: Ask,
    bucket: Ask,
    soak: Ask,
    target_ph: Ask,
    target_oxidant: Ask,
    alkali: RwSignal<usize>,
    efficiency: StoredValue<Result<Efficiency, Message>>,
}

const ALKALIS: [Alkali; 2] = [Alkali::SodaAsh, Alkali::Lye];

impl WashSum {
    /// What the book knows is filled in.
    pub fn new(book: &Book, batch: Option<&Batch>) -> Self {
        let record = batch.map_or_else(|| Record::of_studio(book), |b| Record::of(book, b));
        let filled = |ask: Ask, value: Option<f64>| {
            ask.filled(value.map(|value| format_number(value, 3)).unwrap_or_default())
        };
        let strength = |field, unit| {
            Ask::new(field, Kind::Concentration).unit(unit).between(0.0, 200.0).optional()
        };
        let mg = |known: MassConcentration| in_grams_per_litre(known) * 1000.0;
        let (lump, at) = (record.lump, |g: Known<MassConcentration>| mg(g.value));
        Self {
            wet: filled(
                Ask::new(WET_MASS, Kind::Mass),
                lump.map(|lump| in_grams(lump.wet_mass.value)),
            ),
            dryness: filled(
                Ask::new(DRYNESS, Kind::Share),
                lump.map(|lump| in_share(lump.dryness.value) * 100.0),
            ),
            ph: filled(Ask::new(LIQUOR_PH, Kind::Ph).optional(), record.ph),
            oxidant: filled(strength(OXIDANT, Unit::MilligramsPerLitre), record.oxidant.map(at)),
            salt: strength(SALT, Unit::GramsPerLitre),
            organics: strength(ORGANICS, Unit::GramsPerLitre),
            tap_ph: filled(Ask::new(TAP_PH, Kind::Ph).optional(), record.tap_ph),
            hardness: filled(strength(HARDNESS, Unit::MilligramsPerLitre), record.hardness.map(mg)),
            each: Ask::new(WATER, Kind::Volume).unit(Unit::Litre).optional(),
            bucket: Ask::new(BUCKET, Kind::Volume).unit(Unit::Litre).filled("10"),
            soak: Ask::new(PACE, Kind::Duration).unit(Unit::Minute).filled("10"),
            target_ph: Ask::new(TARGET_PH, Kind::Ph).between(7.0, 12.0).optional(),
            target_oxidant: strength(TARGET_OXIDANT, Unit::MilligramsPerLitre),
            alkali: RwSignal::new(usize::from(record.alkali == Alkali::Lye)),
            efficiency: StoredValue::new(learnt(book, WATER_CELSIUS).map_err(|r| r.message())),
        }
    }

    fn alkali(self) -> Alkali {
        ALKALIS[self.alkali.get().min(1)]
    }

    fn efficiency(self) -> Efficiency {
        self.efficiency.with_value(|e| e.clone().unwrap_or_else(|_| Efficiency::assumed()))
    }

    /// The job as answered so far; `None` while the lump or the liquor is open.
    fn wash(self) -> Option<Result<Wash, Message>> {
        let (wet, dryness) = (self.wet.base()?, self.dryness.base()?);
        let liquor_known = [self.ph, self.oxidant, self.salt, self.organics]
            .into_iter()
            .any(|ask| ask.base().is_some());
        liquor_known.then(|| self.job(wet, dryness))
    }

    fn job(self, wet: f64, dryness: f64) -> Result<Wash, Message> {
        let refused = |r: bleachfield_core::chemistry::Refusal| r.message();
        let alkali = self.alkali();
        let given = |ask: Ask, part: f64, basis| {
            ask.base().map(|g| Known::within(grams_per_litre(g), part, basis))
        };
        let liquor = Liquor {
            oxidant: given(self.oxidant, 0.5, Basis::Strip),
            alkali: match self.ph.base() {
                Some(ph) => Some(alkali.by_strip(ph, WATER_CELSIUS).map_err(refused)?),
                None => None,
            },
            salt: given(self.salt, 0.3, Basis::Computed),
            organics: given(self.organics, 0.3, Basis::Computed),
        };
        let tap_ph = self.tap_ph.base();
        let hardness = self.hardness.base().unwrap_or(0.0);
        let tap = match tap_ph {
            Some(ph) => {
                alkali.tap(ph, grams_per_litre(hardness), WATER_CELSIUS).map_err(refused)?
            }
            None => Tap { salt: Some(grams_per_litre(hardness)), ..Tap::default() },
        };
        let mut targets =
            usual_targets(&liquor, &tap, alkali, tap_ph, WATER_CELSIUS).map_err(refused)?;
        if let (Some(own), Some(_)) = (self.target_oxidant.base(), liquor.oxidant) {
            targets.oxidant = Some(grams_per_litre(own));
        }
        if let (Some(own), Some(_)) = (self.target_ph.base(), liquor.alkali) {
            targets.alkali = Some(alkali.strength(own, WATER_CELSIUS).map_err(refused)?);
        }
        Ok(Wash {
            lump: Lump { wet_mass: weighed(grams(wet)), dryness: own_dryness(share(dryness)) },
            liquor,
            targets,
            tap,
            efficiency: self.efficiency(),
            pace: Pace {
                soak_minutes: self.soak.base().unwrap_or(Pace::default().soak_minutes),
                ..Pace::default()
            },
        })
    }

    /// Questions and answer.
    pub fn view(self) -> AnyView {
        let refused = Signal::derive(move || match self.wash() {
            Some(Ok(wash)) => self.plans(&wash).into_iter().find_map(|(_, plan)| plan.err()),
            Some(Err(why)) => Some(why),
            None => None,
        });
        let more = [self.salt, self.organics, self.hardness, self.target_oxidant, self.target_ph];
        let alkalis = vec![(0, t!("wash-alkali-soda_ash")), (1, t!("wash-alkali-lye"))];
        view! {
            <AskField ask=self.wet refused hint=t!("wash-wet_hint") />
            <AskField ask=self.dryness refused hint=t!("wash-dryness_hint") />
            <AskField ask=self.oxidant refused hint=t!("wash-oxidant_hint") />
            {fields(&[self.ph, self.tap_ph, self.each, self.bucket], refused)}
            <details class="more">
                <summary>{t!("wash-more")}</summary>
                <div class="inside stack">
                    {fields(&more, refused)}
                    {fields(&[self.soak], refused)}
                    <Choice label=t!("wash-alkali-which") value=self.alkali options=alkalis />
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
        let say = |plan: Result<RinsePlan, WashRefusal>| plan.map_err(|why| why.message());
        let volume = |ask: Ask| ask.base().map(millilitres);
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
