//! The forms of a product's page: one for each kind of entry.

use std::sync::Arc;

use bleachfield_core::{
    chemistry::bottle::DILUTION,
    derive::OPENED,
    journal::{
        Body, Note, Product, ProductAdded, ProductFinished, ProductKind, ProductOpened, Renamed,
        Storage, StrengthFound,
    },
    message::{Field, Message},
    quantity::{QuantityKind, Unit},
};
use jiff::civil::Date;
use leptos::prelude::*;

use super::{
    cautions,
    date_input::{DateField, DateInput},
    strength::range_text,
    writer::ProductWriter,
};
use crate::{
    components::{
        BottomSheet, CautionList, Figure, NumberField, NumberInput, TextField, to_first_wrong,
    },
    i18n::{format_number, key, render, t},
    platform::{clock, draft},
};

const STRIP_READING: Field = Field("strip_reading");

#[derive(Clone, Copy, Debug, PartialEq, Eq, strum::IntoStaticStr)]
#[strum(serialize_all = "snake_case")]
pub enum ProductForm {
    Opened,
    Strip,
    UsedUp,
    Note,
    Rename,
}

impl ProductForm {
    /// Its heading, and the label of the button that opens it.
    pub fn title(self) -> String {
        t(&format!("shelf-do-{}", <&str>::from(self)))
    }
}

/// The open form, in a bottom sheet.
#[component]
pub fn FormHost(
    form: RwSignal<Option<ProductForm>>,
    writer: ProductWriter,
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
            let draft = format!("/shelf/{}/{kind:?}", writer.product);
            let name = draft.clone();
            let done = Callback::new(move |()| {
                draft::discard(&name);
                form.set(None);
            });
            view! {
                <BottomSheet open title=kind.title() draft>
                    {move || product.get_untracked().map(|product| match kind {
                        ProductForm::Opened => view! { <Opened product writer done /> }.into_any(),
                        ProductForm::Strip => view! { <Strip product writer done /> }.into_any(),
                        ProductForm::UsedUp => view! { <UsedUp product writer done /> }.into_any(),
                        ProductForm::Note => {
                            let body = |text| Body::Note(Note { text });
                            view! { <OneText label=t!("shelf-note") long=true body writer done /> }.into_any()
                        }
                        ProductForm::Rename => {
                            let body = |name| Body::Renamed(Renamed { name });
                            let text = product.name.clone();
                            view! { <OneText label=t!("shelf-new-name") text body writer done /> }.into_any()
                        }
                    })}
                </BottomSheet>
            }
        })
    })
    .into_any()
}

#[component]
fn Opened(product: Arc<Product>, writer: ProductWriter, done: Callback<()>) -> impl IntoView {
    let input = DateInput::new(OPENED).filled(clock::today());
    let made = product.made;
    let refused: Signal<Option<Message>> = Signal::derive(move || date_error(made, input.date()));
    let missing = RwSignal::new(false);
    let save = Callback::new(move |()| {
        missing.set(input.date().is_none());
        if let (Some(on), None) = (input.date(), refused.get_untracked()) {
            writer.save(Body::ProductOpened(ProductOpened { on }), done);
        }
    });
    let problem = Signal::derive(move || {
        let missing = missing.get() && input.date().is_none();
        refused
            .get()
            .or_else(|| missing.then(|| Message::new(key!("refusal-missing")).beside(OPENED)))
    });
    view! {
        <div class="stack">
            <p>{t!("shelf-opened_why")}</p>
            <DateField input refused=problem />
            <Save writer run=save />
            <CautionList cautions=Signal::stored(cautions::opening(&product)) />
        </div>
    }
}

/// What is wrong with the dates of making and opening.
fn date_error(made: Option<Date>, opened: Option<Date>) -> Option<Message> {
    let dates = ProductAdded {
        name: String::new(),
        product: ProductKind::Other,
        strength: None,
        size: None,
        bought: None,
        made,
        opened,
        storage: Storage::default(),
        price: None,
        note: String::new(),
    };
    dates.check_dates(clock::today()).err().map(|error| error.message())
}

#[component]
fn Strip(product: Arc<Product>, writer: ProductWriter, done: Callback<()>) -> impl IntoView {
    let one_in = NumberInput::new(DILUTION, QuantityKind::Number).between(1.0, 100_000.0);
    let reading = NumberInput::new(STRIP_READING, QuantityKind::Concentration)
        .unit(Unit::MilligramsPerLitre)
        .between(0.0, 10.0);
    let found = Memo::new(move |_| {
        // g/L to mg/L.
        Some(StrengthFound::by_strip(reading.base()? * 1000.0, one_in.base()?))
    });
    // An impossible strength most likely comes from a wrong dilution.
    let refused = Signal::derive(move || {
        found.get().and_then(Result::err).map(|error| error.message().beside(DILUTION))
    });
    let save = Callback::new(move |()| {
        let ready = [one_in.try_now(), reading.try_now()];
        if let (false, Some(Ok(found))) = (ready.contains(&false), found.get_untracked()) {
            writer.save(Body::StrengthFound(found), done);
        }
    });
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
                    view! {
                        <Figure mid=true name=t!("shelf-truth-chlorine")
                            number=format_number(figure.value, 2) unit="g/L"
                            range=range_text(figure, "g/L").unwrap_or_default() />
                    }
                })}
            </div>
            <Save writer run=save />
            <CautionList cautions=Signal::stored(cautions::opening(&product)) />
        </div>
    }
}

#[component]
fn UsedUp(product: Arc<Product>, writer: ProductWriter, done: Callback<()>) -> impl IntoView {
    let why = RwSignal::new(String::new());
    let save = Callback::new(move |()| {
        let why = why.get_untracked().trim().to_owned();
        writer.save(Body::ProductFinished(ProductFinished { why }), done);
    });
    view! {
        <div class="stack">
            <p>{t!("shelf-used_up_why")}</p>
            <TextField label=t!("shelf-why") text=why />
            <Save writer run=save />
            // The rest may be poured down a drain.
            <CautionList cautions=Signal::stored(cautions::draining(&product)) />
        </div>
    }
}

/// A form of one text, which may not be empty.
#[component]
fn OneText(
    label: String,
    #[prop(optional)] text: String,
    #[prop(optional)] long: bool,
    body: fn(String) -> Body,
    writer: ProductWriter,
    done: Callback<()>,
) -> impl IntoView {
    let text = RwSignal::new(text);
    let tried = RwSignal::new(false);
    let save = Callback::new(move |()| {
        let trimmed = text.get_untracked().trim().to_owned();
        tried.set(true);
        if !trimmed.is_empty() {
            writer.save(body(trimmed), done);
        }
    });
    let empty = move || tried.get() && text.with(|text| text.trim().is_empty());
    view! {
        <div class="stack">
            <TextField label text long />
            <span class="field" role="status">
                {move || empty().then(|| view! {
                    <span class="wrong">{render(&Message::new(key!("shelf-nothing_written")))}</span>
                })}
            </span>
            <Save writer run=save />
        </div>
    }
}

#[component]
pub fn Save(writer: ProductWriter, run: Callback<()>) -> impl IntoView {
    view! {
        <button class="button touch" disabled=move || writer.busy.get()
            on:click=move |_| { run.run(()); to_first_wrong() }>
            {t!("do-save")}
        </button>
    }
}
