//! What a person writes down about a product: one small form for each.

use std::sync::Arc;

use bleachfield_core::{
    caution::{Act, Situation, cautions},
    chemistry::bottle::DILUTION,
    derive::OPENED,
    journal::{
        Body, Note, Product, ProductAdded, ProductFinished, ProductOpened, Renamed, Storage,
        StrengthFound,
    },
    message::{Field, Message},
    quantity::{QuantityKind, Unit},
};
use leptos::prelude::*;

use super::{
    day::{DayField, DayInput},
    kind::oxidant,
    page::situation,
    state::ProductWriter,
};
use crate::{
    components::{
        BottomSheet, CautionList, Figure, NumberField, NumberInput, TextField, to_first_wrong,
    },
    i18n::{format_number, key, render, t},
    platform::clock,
};

const STRIP_READING: Field = Field("strip_reading");

/// Which form is open.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProductForm {
    Opened,
    Strip,
    UsedUp,
    Note,
    Rename,
}

impl ProductForm {
    fn key(self) -> &'static str {
        match self {
            Self::Opened => "opened",
            Self::Strip => "strip",
            Self::UsedUp => "used_up",
            Self::Note => "note",
            Self::Rename => "rename",
        }
    }

    /// What its button says, and its heading.
    pub fn short(self) -> String {
        t(&format!("shelf-do-{}", self.key()))
    }
}

/// Shows the open form in a sheet that rises from below.
#[component]
pub fn FormHost(
    form: RwSignal<Option<ProductForm>>,
    writing: ProductWriter,
    product: Memo<Option<Arc<Product>>>,
) -> impl IntoView {
    (move || {
        form.get().map(|kind| {
            let open = RwSignal::new(true);
            Effect::new(move |_| {
                if !open.get() && form.get_untracked() == Some(kind) {
                    form.set(None);
                }
            });
            let done = Callback::new(move |()| form.set(None));
            view! {
                <BottomSheet open title=kind.short()>
                    {move || product.get_untracked().map(|product| match kind {
                        ProductForm::Opened => view! { <Opened product writing done /> }.into_any(),
                        ProductForm::Strip => view! { <Strip product writing done /> }.into_any(),
                        ProductForm::UsedUp => view! { <UsedUp product writing done /> }.into_any(),
                        ProductForm::Note => view! { <NoteForm writing done /> }.into_any(),
                        ProductForm::Rename => view! { <Rename product writing done /> }.into_any(),
                    })}
                </BottomSheet>
            }
        })
    })
    .into_any()
}

#[component]
fn Opened(product: Arc<Product>, writing: ProductWriter, done: Callback<()>) -> impl IntoView {
    let ask = DayInput::new(OPENED).filled(clock::today());
    let made = product.made;
    let refused: Signal<Option<Message>> = Signal::derive(move || {
        dated(made, ask).check_dates(clock::today()).err().map(|e| e.message())
    });
    let missing = RwSignal::new(false);
    let save = Callback::new(move |()| {
        missing.set(ask.day().is_none());
        if let (Some(on), None) = (ask.day(), refused.get_untracked()) {
            writing.save(Body::ProductOpened(ProductOpened { on }), done);
        }
    });
    let problem = Signal::derive(move || {
        let missing = missing.get() && ask.day().is_none();
        refused
            .get()
            .or_else(|| missing.then(|| Message::new(key!("refusal-missing")).beside(OPENED)))
    });
    let situation =
        oxidant(product.kind).map(|oxidant| situation(&product, oxidant)).unwrap_or_default();
    let found = match oxidant(product.kind) {
        Some(_) => cautions(Act::OpeningBottle, &situation),
        None => Vec::new(),
    };
    view! {
        <div class="stack">
            <p>{t!("shelf-opened_why")}</p>
            <DayField ask refused=problem />
            <Save writing run=save />
            <CautionList cautions=Signal::stored(found) />
        </div>
    }
}

/// A product with no more than these dates, for the core to look at.
fn dated(made: Option<jiff::civil::Date>, opened: DayInput) -> ProductAdded {
    ProductAdded {
        name: String::new(),
        product: bleachfield_core::journal::ProductKind::Other,
        strength: None,
        size: None,
        bought: None,
        made,
        opened: opened.day(),
        storage: Storage::default(),
        note: String::new(),
    }
}

#[component]
fn Strip(product: Arc<Product>, writing: ProductWriter, done: Callback<()>) -> impl IntoView {
    let one_in =
        NumberInput::new(DILUTION, QuantityKind::Number).between(1.0, 100_000.0).filled("500");
    let reading = NumberInput::new(STRIP_READING, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 10.0);
    let found = Memo::new(move |_| {
        // The field's base unit is g/L.
        Some(StrengthFound::by_strip(reading.base()? * 1000.0, one_in.base()?))
    });
    // A strength that cannot be is most likely a wrong thinning.
    let refused = Signal::derive(move || {
        found.get().and_then(Result::err).map(|refusal| refusal.message().beside(DILUTION))
    });
    let save = Callback::new(move |()| {
        let ready = [one_in.try_now(), reading.try_now()];
        if let (false, Some(Ok(found))) = (ready.contains(&false), found.get_untracked()) {
            writing.save(Body::StrengthFound(found), done);
        }
    });
    let situation =
        oxidant(product.kind).map_or_else(Situation::default, |o| situation(&product, o));
    let risks = cautions(Act::OpeningBottle, &situation);
    view! {
        <div class="stack">
            <ol>
                <li>{t!("shelf-strip-thin")}</li>
                <li>{t!("shelf-strip-dip")}</li>
                <li>{t!("shelf-strip-range")}</li>
            </ol>
            <NumberField ask=one_in hint=t!("shelf-strip-one_in_hint") refused />
            <NumberField ask=reading hint=t!("shelf-strip-reading_hint") on_enter=save />
            <div role="status">
                {move || found.get().and_then(Result::ok).map(|found| {
                    let figure = found.strength.figure;
                    let range = super::truth::ranged(figure, "g/L").unwrap_or_default();
                    view! {
                        <Figure mid=true name=t!("shelf-truth-chlorine")
                            number=format_number(figure.value, 2) unit="g/L" range />
                    }
                })}
            </div>
            <Save writing run=save />
            <CautionList cautions=Signal::stored(risks) />
        </div>
    }
}

#[component]
fn UsedUp(product: Arc<Product>, writing: ProductWriter, done: Callback<()>) -> impl IntoView {
    let why = RwSignal::new(String::new());
    let save = Callback::new(move |()| {
        let why = why.get_untracked().trim().to_owned();
        writing.save(Body::ProductFinished(ProductFinished { why }), done);
    });
    // What is left may be poured out: then it goes down a drain.
    let found = match oxidant(product.kind) {
        Some(oxidant) => {
            let situation = situation(&product, oxidant);
            let strength = situation.bottle_strength;
            cautions(Act::Draining, &Situation { strength, ..situation })
        }
        None => Vec::new(),
    };
    view! {
        <div class="stack">
            <p>{t!("shelf-used_up_why")}</p>
            <TextField label=t!("shelf-why") text=why />
            <Save writing run=save />
            <CautionList cautions=Signal::stored(found) />
        </div>
    }
}

#[component]
fn NoteForm(writing: ProductWriter, done: Callback<()>) -> impl IntoView {
    let text = RwSignal::new(String::new());
    let tried = RwSignal::new(false);
    let save = Callback::new(move |()| {
        let note = text.get_untracked().trim().to_owned();
        tried.set(true);
        if !note.is_empty() {
            writing.save(Body::Note(Note { text: note }), done);
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("shelf-note") text long=true />
            <Missing tried text />
            <Save writing run=save />
        </div>
    }
}

#[component]
fn Rename(product: Arc<Product>, writing: ProductWriter, done: Callback<()>) -> impl IntoView {
    let text = RwSignal::new(product.name.clone());
    let tried = RwSignal::new(false);
    let save = Callback::new(move |()| {
        let name = text.get_untracked().trim().to_owned();
        tried.set(true);
        if !name.is_empty() {
            writing.save(Body::Renamed(Renamed { name }), done);
        }
    });
    view! {
        <div class="stack">
            <TextField label=t!("shelf-new-name") text />
            <Missing tried text />
            <Save writing run=save />
        </div>
    }
}

/// An empty text was about to be saved.
#[component]
fn Missing(tried: RwSignal<bool>, text: RwSignal<String>) -> impl IntoView {
    let empty = move || tried.get() && text.with(|text| text.trim().is_empty());
    view! {
        <span class="field" role="status">
            {move || empty().then(|| view! {
                <span class="wrong">{render(&Message::new(key!("shelf-nothing_written")))}</span>
            })}
        </span>
    }
}

/// The button that ends a form.
#[component]
pub fn Save(writing: ProductWriter, run: Callback<()>) -> impl IntoView {
    view! {
        <button class="button touch" disabled=move || writing.busy.get() on:click=move |_| { run.run(()); to_first_wrong() }>
            {t!("do-save")}
        </button>
    }
}
