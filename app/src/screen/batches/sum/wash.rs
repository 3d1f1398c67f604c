//! The wash: how many rinses, of how much water.

use crate::markup::prelude::*;
use bleachfield_core::{
    journal::{Batch, Book},
    message::{Field, Message, Value},
    pulp::wash::{
        Alkali, BUCKET, DRYNESS, Efficiency, Liquor, Lump, ORGANICS, OXIDANT, PACE, Pace, Record,
        RinsePlan, SALT, Solute, Tap, WATER, WET_MASS, Wash, WashRefusal, compare, learnt,
        norden::Washer, own_dryness, usual_targets,
    },
    quantity::{
        Basis, Kind, Known, MassConcentration, Unit, Volume, grams, grams_per_litre, in_grams,
        in_grams_per_litre, in_millilitres, in_share, millilitres, share, weighed,
    },
};

use super::{fields, refusal, table};
use crate::{
    locale::{counted, number, said, word, words, written},
    part::{Ask, AskField, Assumed, Choice, Fact, Figure},
};

const LIQUOR_PH: Field = Field("wash.liquor_ph");
const TAP_PH: Field = Field("tap_ph");
const HARDNESS: Field = Field("wash.hardness");
const TARGET_PH: Field = Field("wash.target_ph");
const TARGET_OXIDANT: Field = Field("wash.target_oxidant");

/// Rinse water from a household tap, °C (common practice, no source).
const WATER_CELSIUS: f64 = 15.0;

/// As many ways to split the same water are set side by side.
const SPLITS: u32 = 5;

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
            ask.filled(value.map(|value| number(value, 3)).unwrap_or_default())
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
        let alkalis = vec![(0, word("wash.alkali.soda_ash")), (1, word("wash.alkali.lye"))];
        view! {
            <AskField ask=self.wet refused hint=word("wash.wet_hint") />
            <AskField ask=self.dryness refused hint=word("wash.dryness_hint") />
            <AskField ask=self.oxidant refused hint=word("wash.oxidant_hint") />
            {fields(&[self.ph, self.tap_ph, self.each, self.bucket], refused)}
            <details class="more">
                <summary>{word("wash.more")}</summary>
                <div class="inside stack">
                    {fields(&more, refused)}
                    {fields(&[self.soak], refused)}
                    <Choice label=word("wash.alkali.which") value=self.alkali options=alkalis />
                </div>
            </details>
            <div class="stack" aria-live="polite">
                {move || match self.wash() {
                    None => view! { <p class="soft">{word("wash.waiting")}</p> }.into_any(),
                    Some(Err(why)) => refusal(&why),
                    Some(Ok(wash)) => self.answer(&wash),
                }}
            </div>
        }
        .into_any()
    }

    /// The plans side by side: with the person's own water, with the least, in
    /// the least time.
    fn plans(self, wash: &Wash) -> Vec<(&'static str, Result<RinsePlan, Message>)> {
        let say = |plan: Result<RinsePlan, WashRefusal>| plan.map_err(|why| why.message());
        let volume = |ask: Ask| ask.base().map(millilitres);
        let own = volume(self.each).map(|each| ("wash.plan.own", say(wash.rinses_of(each))));
        let bucket = volume(self.bucket).map(|bucket| {
            [
                ("wash.plan.least_water", say(wash.least_water(bucket))),
                ("wash.plan.least_time", say(wash.least_time(bucket))),
            ]
        });
        own.into_iter().chain(bucket.into_iter().flatten()).collect()
    }

    fn answer(self, wash: &Wash) -> AnyView {
        let plans = self.plans(wash);
        let Some((_, first)) = plans.first() else {
            return view! { <p class="soft">{word("wash.water_waiting")}</p> }.into_any();
        };
        let plan = match first {
            Ok(plan) => plan.clone(),
            Err(why) => return refusal(why),
        };
        if plan.rinses == 0 {
            return view! { <p class="good">{word("wash.clean_already")}</p> }.into_any();
        }
        let rows = plans
            .iter()
            .map(|(name, plan)| match plan {
                Ok(plan) => vec![
                    word(name),
                    rinses(plan),
                    litres(plan.each),
                    litres(plan.water),
                    written(&Value::Minutes(plan.minutes)),
                ],
                Err(why) => vec![word(name), said(why)],
            })
            .collect();
        let heads = ["plan_head", "rinses", "each", "water", "time"];
        let slowest =
            plan.slowest.map(|slowest| words("wash.slowest", &[("solute", &word(slowest.word()))]));
        view! {
            <Figure name=word("wash.rinses_of") number=plan.rinses.to_string()
                unit=words("wash.times_litres", &[("each", &litres(plan.each))])
                range=spread_of(&plan) />
            {slowest.map(|text| view! { <p>{text}</p> })}
            {table(heads.map(|head| word(&format!("wash.{head}"))).to_vec(), rows)}
            {self.how_well()}
            {self.falls(wash, &plan)}
            {self.splits(wash, &plan)}
            {merit(wash, &plan)}
            <p class="small soft">{word("wash.floor")}</p>
        }
        .into_any()
    }

    /// What the efficiency rests on.
    fn how_well(self) -> AnyView {
        let efficiency = self.efficiency();
        let exponent = number(efficiency.exponent.value, 2);
        let refused = self.efficiency.with_value(|e| e.as_ref().err().map(said));
        let text = match efficiency.pairs {
            0 => words("wash.efficiency.assumed", &[("e", &exponent)]),
            pairs => words(
                "wash.efficiency.learnt",
                &[
                    ("e", &exponent),
                    ("low", &number(efficiency.exponent.low, 2)),
                    ("high", &number(efficiency.exponent.high, 2)),
                    ("readings", &counted("wash.efficiency.pairs", pairs as usize)),
                ],
            ),
        };
        let assumed = efficiency.exponent.basis == Basis::Assumed;
        view! {
            <p class="small">{text}{assumed.then(|| view! { " "<Assumed /> })}</p>
            {refused.map(|why| view! { <p class="small">{why}</p> })}
        }
        .into_any()
    }

    /// What to expect of the readings, rinse by rinse.
    fn falls(self, wash: &Wash, plan: &RinsePlan) -> AnyView {
        let alkali = self.alkali();
        let known: Vec<Solute> =
            Solute::ALL.into_iter().filter(|s| wash.liquor.get(*s).is_some()).collect();
        let mut heads = vec![word("wash.after")];
        heads.extend(known.iter().map(|solute| match solute {
            Solute::Alkali => word("figure.ph"),
            other => words("wash.in_mg", &[("solute", &word(other.word()))]),
        }));
        let row = |n: u32, liquor: &Liquor| {
            let mut row = vec![n.to_string()];
            row.extend(known.iter().map(|solute| {
                let Some(left) = liquor.get(*solute) else { return String::new() };
                match solute {
                    Solute::Alkali => alkali
                        .ph(left.value, WATER_CELSIUS)
                        .map_or_else(|_| "–".to_owned(), |ph| written(&Value::Ph(ph))),
                    _ => number(in_grams_per_litre(left.value) * 1000.0, 2),
                }
            }));
            row
        };
        let mut rows = vec![row(0, &wash.liquor)];
        rows.extend(plan.steps.iter().map(|step| row(step.number, &step.left)));
        view! {
            <details class="more">
                <summary>{word("wash.expect")}</summary>
                <div class="inside">{table(heads, rows)}</div>
            </details>
        }
        .into_any()
    }

    /// The same water in more rinses.
    fn splits(self, wash: &Wash, plan: &RinsePlan) -> AnyView {
        let Ok(splits) = compare(&wash.lump, plan.water, SPLITS, wash.efficiency) else {
            return ().into_any();
        };
        let rows = splits
            .iter()
            .map(|row| {
                let left = written(&Value::Share(row.left.value));
                vec![row.rinses.to_string(), litres(row.each), left]
            })
            .collect();
        let heads = ["rinses", "each", "left"].map(|head| word(&format!("wash.{head}"))).to_vec();
        view! {
            <details class="more">
                <summary>{word("wash.split_head")}</summary>
                <div class="inside stack">
                    <p>{words("wash.split_why", &[("water", &litres(plan.water))])}</p>
                    {table(heads, rows)}
                </div>
            </details>
        }
        .into_any()
    }
}

/// The figures of merit that mills quote, of all rinses as one washer.
fn merit(wash: &Wash, plan: &RinsePlan) -> AnyView {
    let Some(washer) = Washer::of_plan(wash, plan) else { return ().into_any() };
    let fact = |key: &str, value: Option<String>| {
        value.map(|value| view! { <Fact name=word(&format!("wash.merit.{key}")) value /> })
    };
    view! {
        <details class="more">
            <summary>{word("wash.merit.head")}</summary>
            <div class="inside stack">
                <dl class="facts">
                    {fact("norden", washer.norden().map(|n| number(n, 3)))}
                    {fact("dilution", Some(format!("{} L/kg", number(washer.dilution_factor(), 3))))}
                    {fact("displacement", washer.displacement_ratio().map(|d| number(d, 3)))}
                    {fact("yield", washer.wash_yield().map(|y| written(&Value::Share(y))))}
                </dl>
                <p class="small soft">{word("wash.merit.why")}</p>
            </div>
        </details>
    }
    .into_any()
}

fn rinses(plan: &RinsePlan) -> String {
    let spread = spread_of(plan);
    if spread.is_empty() { plan.rinses.to_string() } else { format!("{} ({spread})", plan.rinses) }
}

/// "3 to 6", or "3 or more" where the worst case has no end.
fn spread_of(plan: &RinsePlan) -> String {
    let fewest = plan.fewest.to_string();
    match plan.most {
        Some(most) if most == plan.fewest => String::new(),
        Some(most) => words("figure_range", &[("low", &fewest), ("high", &most.to_string())]),
        None => words("wash.or_more", &[("n", &fewest)]),
    }
}

fn litres(volume: Volume) -> String {
    format!("{} L", number(in_millilitres(volume) / 1000.0, 2))
}
