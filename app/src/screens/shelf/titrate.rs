//! Iodometric titration, step by step: from volumes to a strength.

use std::sync::Arc;

use bleachfield_core::{
    chemistry::{
        StrengthError,
        titration::{
            Agreement, BLANK, BURETTE_ML, DILUTED_TO, NORMALITY, SAMPLE, SYRINGE_ML, TITRE,
            TitrationReadings,
        },
    },
    derive::TitrationSample,
    journal::{Body, Product, ProductKind, StrengthFound},
    message::{Field, Message},
    quantity::{QuantityKind, Unit, Volume, grams, millilitres},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    cautions,
    form::Save,
    kind::is_titrated,
    page::NoSuchProduct,
    strength::{range_text, stated},
    writer::ProductWriter,
};
use crate::{
    components::{
        CautionList, Explain, NumberField, NumberInput, Page, RadioGroup, Term, TextField,
    },
    i18n::{format_number, t, t_with},
    platform::draft,
    route::{Route, go},
    state::app_state,
};

const ALIQUOT: Field = Field("aliquot");
const POWDER_WEIGHED: Field = Field("powder_weighed");

/// Most titrations that can be entered.
const REPEATS: usize = 5;

/// `/shelf/ID/titrate`.
#[component]
pub fn Titrate(id: Ulid) -> impl IntoView {
    let studio = app_state();
    let product = Memo::new(move |_| {
        let product = studio.book(|book| book.products.get(&id).cloned())?;
        is_titrated(product.kind).then(|| Arc::new(product))
    });
    (move || match product.get() {
        Some(product) => view! { <TitrationPage product /> }.into_any(),
        None => view! { <NoSuchProduct /> }.into_any(),
    })
    .into_any()
}

#[component]
fn TitrationPage(product: Arc<Product>) -> impl IntoView {
    let form = TitrationForm::new(product.kind);
    let id = product.id;
    let writer = ProductWriter::new(app_state(), id);
    let done = Callback::new(move |()| {
        draft::discard(&Route::Titrate(id).href());
        go(&Route::Product(id));
    });
    let save = Callback::new(move |()| {
        if let Some(found) = form.validated() {
            writer.save(Body::StrengthFound(found), done);
        }
    });
    let chlorine = product.kind == ProductKind::Hypochlorite;
    let steps = if chlorine { "shelf-titrate-chlorine" } else { "shelf-titrate-peroxide" };
    let step = move |n: &str| t(&format!("{steps}-{n}"));
    view! {
        <Page title=t!("shelf-titrate-title") back=Route::Product(id)>
            <div class="stack wide">
                <p>{t!("shelf-titrate-what")}</p>
                <Explain term=Term::Titration />
                <section class="card stack">
                    <h2>{t!("shelf-titrate-one")}</h2>
                    <p>{step("thin")}</p>
                    {form.sample_fields()}
                </section>
                <section class="card stack">
                    <h2>{t!("shelf-titrate-two")}</h2>
                    <ol>
                        <li>{step("iodide")}</li>
                        <li>{step("sample")}</li>
                        <li>{step("acid")}</li>
                        <li>{step("wait")}</li>
                    </ol>
                    <CautionList cautions=Signal::stored(cautions::titrating(&product)) />
                    {chlorine.then(|| view! { <p>{t!("shelf-titrate-why_acid_here")}</p> })}
                </section>
                <section class="card stack">
                    <h2>{t!("shelf-titrate-three")}</h2>
                    <ol>
                        <li>{t!("shelf-titrate-to_straw")}</li>
                        <li>{t!("shelf-titrate-starch")}</li>
                        <li>{t!("shelf-titrate-to_clear")}</li>
                        <li>{t!("shelf-titrate-again")}</li>
                    </ol>
                    {form.titre_fields()}
                </section>
                <section class="card stack" role="status">
                    <h2>{t!("shelf-titrate-four")}</h2>
                    {move || form.result()}
                </section>
                <TextField label=t!("shelf-note") text=form.note />
                <Save writer run=save />
            </div>
        </Page>
    }
}

/// The form; copies share their signals.
#[derive(Clone, Copy)]
struct TitrationForm {
    kind: ProductKind,
    taken: NumberInput,
    weighed: NumberInput,
    whole: NumberInput,
    aliquot: NumberInput,
    normality: NumberInput,
    blank: NumberInput,
    burette: RwSignal<bool>,
    titres: [NumberInput; REPEATS],
    /// How many fields for titres are shown.
    shown: RwSignal<usize>,
    note: RwSignal<String>,
}

impl TitrationForm {
    fn new(kind: ProductKind) -> Self {
        let volume = |field| NumberInput::new(field, QuantityKind::Volume);
        Self {
            kind,
            taken: volume(SAMPLE).between(0.05, 1000.0),
            weighed: NumberInput::new(POWDER_WEIGHED, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(0.01, 500.0),
            whole: volume(DILUTED_TO).between(1.0, 10_000.0),
            aliquot: volume(ALIQUOT).between(0.05, 1000.0),
            normality: NumberInput::new(NORMALITY, QuantityKind::Number).between(0.0001, 2.0),
            blank: volume(BLANK).between(0.0, 100.0).optional(),
            // The coarser while nobody says otherwise.
            burette: RwSignal::new(false),
            titres: std::array::from_fn(|repeat| {
                let ask = volume(TITRE).between(0.01, 1000.0);
                if repeat == 0 { ask } else { ask.optional() }
            }),
            shown: RwSignal::new(2),
            note: RwSignal::new(String::new()),
        }
    }

    /// The strength; `None` while a field is empty or invalid.
    fn found(self) -> Option<Result<(StrengthFound, Agreement), StrengthError>> {
        let (whole, aliquot) = (millilitres(self.whole.base()?), millilitres(self.aliquot.base()?));
        let sample = match self.kind {
            ProductKind::Percarbonate => TitrationSample::Powder {
                weighed: grams(self.weighed.base()?),
                dissolved_to: whole,
                aliquot,
            },
            _ => TitrationSample::Liquid {
                taken: millilitres(self.taken.base()?),
                diluted_to: whole,
                aliquot,
            },
        };
        let titres: Vec<Volume> =
            self.titres.iter().filter_map(|ask| ask.base()).map(millilitres).collect();
        if titres.is_empty() || self.titres.iter().any(|ask| ask.wrong().is_some()) {
            return None;
        }
        let blank = if self.blank.is_empty() { 0.0 } else { self.blank.base()? };
        let readings = TitrationReadings {
            normality: self.normality.base()?,
            titres: &titres,
            blank: millilitres(blank),
            reading_error: millilitres(if self.burette.get() { BURETTE_ML } else { SYRINGE_ML }),
        };
        Some(StrengthFound::by_titration(self.kind, sample, &readings))
    }

    /// The entry to write; `None` if a field is missing or invalid, which its error then says.
    fn validated(self) -> Option<StrengthFound> {
        let fields = [self.amount(), self.whole, self.aliquot, self.normality, self.blank];
        // All of them, so that each shows its error.
        let errors = fields.into_iter().chain(self.titres).filter(|field| !field.try_now());
        if errors.count() > 0 {
            return None;
        }
        let (found, _) = self.found()?.ok()?;
        let note = self.note.get_untracked().trim().to_owned();
        Some(StrengthFound { note, ..found })
    }

    fn amount(self) -> NumberInput {
        if self.kind == ProductKind::Percarbonate { self.weighed } else { self.taken }
    }

    fn amount_hint(self) -> String {
        if self.kind == ProductKind::Percarbonate {
            t!("shelf-titrate-weighed_hint")
        } else {
            t!("shelf-titrate-taken_hint")
        }
    }

    fn refused(self) -> Signal<Option<Message>> {
        Signal::derive(move || self.found()?.err().map(|refusal| refusal.message()))
    }

    fn sample_fields(self) -> AnyView {
        let refused = self.refused();
        // The core names the sample's field for a powder too.
        let at_amount = Signal::derive(move || {
            let message = refused.get()?;
            let mine = message.field == Some(SAMPLE);
            mine.then(|| message.beside(self.amount().field()))
        });
        view! {
            <NumberField ask=self.amount() hint=self.amount_hint() refused=at_amount />
            <NumberField ask=self.whole hint=t!("shelf-titrate-whole_hint") refused />
            <NumberField ask=self.aliquot hint=t!("shelf-titrate-aliquot_hint") />
        }
        .into_any()
    }

    fn titre_fields(self) -> AnyView {
        let refused = self.refused();
        // All other errors, such as an impossible strength, show beside the first titre.
        let at_titre = Signal::derive(move || {
            let message = refused.get()?;
            let elsewhere = [SAMPLE, DILUTED_TO, NORMALITY, BLANK].map(Some);
            (!elsewhere.contains(&message.field)).then(|| message.beside(TITRE))
        });
        let field = move |repeat: usize| {
            let label = t_with!("shelf-titrate-titre", &[("n", &(repeat + 1).to_string())]);
            let refused = if repeat == 0 { at_titre } else { Signal::default() };
            view! { <NumberField ask=self.titres[repeat] label refused /> }
        };
        view! {
            <NumberField ask=self.normality hint=t!("shelf-titrate-normality_hint") refused />
            <RadioGroup label=t!("shelf-titrate-read_with") value=self.burette options=vec![
                (true, t!("shelf-titrate-burette")),
                (false, t!("shelf-titrate-syringe")),
            ] />
            {(0..REPEATS).map(|repeat| view! {
                <div hidden=move || { repeat >= self.shown.get() }>{field(repeat)}</div>
            }).collect_view()}
            <Show when=move || { self.shown.get() < REPEATS }>
                <button class="button plain" on:click=move |_| self.shown.update(|n| *n += 1)>
                    {t!("shelf-titrate-another")}
                </button>
            </Show>
            <NumberField ask=self.blank hint=t!("shelf-titrate-blank_hint") refused />
        }
        .into_any()
    }

    /// Strength and agreement, or why there is none yet.
    fn result(self) -> AnyView {
        let (found, agreement) = match self.found() {
            Some(Ok(found)) => found,
            Some(Err(_)) => {
                return view! { <p class="refused">{t!("shelf-titrate-cannot_be")}</p> }.into_any();
            }
            None => {
                return view! { <p class="soft">{t!("shelf-titrate-waiting")}</p> }.into_any();
            }
        };
        let range = range_text(found.strength.figure, "");
        let apart = format_number(agreement.spread * 100.0, 2);
        let agreement_words = match agreement {
            Agreement { repeats: 1, .. } => t!("shelf-titrate-one_only"),
            a if a.is_good() => t_with!("shelf-titrate-agree", &[("spread", &apart)]),
            _ => t_with!("shelf-titrate-disagree", &[("spread", &apart)]),
        };
        // The outlier's index counts only filled fields.
        let odd = agreement
            .outlier
            .and_then(|nth| (0..REPEATS).filter(|i| self.titres[*i].base().is_some()).nth(nth));
        let odd = odd.map(|i| t_with!("shelf-titrate-outlier", &[("n", &(i + 1).to_string())]));
        view! {
            <div class="figure">
                <span class="big mid">{stated(&found.strength)}</span>
                {range.map(|range| view! { <span class="range">{range}</span> })}
            </div>
            <p>{agreement_words}</p>
            {odd.map(|odd| view! { <p>{odd}</p> })}
        }
        .into_any()
    }
}
