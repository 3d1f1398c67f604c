//! A new bottle or tub.

use bleachfield_core::{
    caution::{Act, Situation, cautions},
    derive::{BOUGHT, MADE, OPENED},
    journal::{Amount, Body, ProductAdded, ProductKind, Storage, Subject},
    message::{Field, Message},
    quantity::{Basis, Estimate, QuantityKind, Unit},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{
    day::{DayField, DayInput},
    kind::{ProductGroup, is_liquid, kind_name, oxidant},
    label::LabelForm,
    state::said_saved,
};
use crate::{
    components::{
        CautionList, NumberField, NumberInput, Page, RadioGroup, TextField, to_first_wrong,
    },
    i18n::t,
    platform::clock,
    route::{Route, go},
    state::{AppState, app_state},
};

const KEPT_AT: Field = Field("kept_at");
const SIZE: Field = Field("product_size");

/// A container is filled to within 2 % (common practice, no source).
const FILLED: f64 = 0.02;

/// `/shelf/new`.
#[component]
pub fn NewProduct() -> impl IntoView {
    let form = NewProductForm::new();
    let saving = RwSignal::new(false);
    let save = move |_| {
        let Some(added) = form.added() else { return to_first_wrong() };
        saving.set(true);
        spawn_local(async move {
            let product = form.studio.fresh_id();
            let about = Subject::Bottle(product);
            let saved = form.studio.write(about, Body::ProductAdded(added)).await;
            saving.try_set(false);
            if let Some(entry) = saved {
                said_saved(form.studio, about, entry, t!("entry-product_added"));
                go(&Route::Product(product));
            }
        });
    };
    view! {
        <Page title=t!("shelf-new-title") back=Route::Shelf>
            <div class="stack wide">
                <section class="card stack">{form.what()}</section>
                <section class="card stack">
                    <h2>{t!("shelf-new-label_head")}</h2>
                    {form.label.view()}
                </section>
                <section class="card stack">
                    <h2>{t!("shelf-new-dates_head")}</h2>
                    <p class="soft small">{t!("shelf-new-dates_hint")}</p>
                    {form.dates()}
                </section>
                <section class="card stack">
                    <h2>{t!("shelf-new-kept_head")}</h2>
                    {form.kept()}
                </section>
                <button class="button touch" disabled=move || saving.get() on:click=save>
                    {t!("shelf-new-save")}
                </button>
                <p role="status">
                    {move || form.stuck.get().then(|| view! {
                        <span class="refused">{t!("shelf-new-stuck")}</span>
                    })}
                </p>
            </div>
        </Page>
    }
}

#[derive(Clone, Copy)]
struct NewProductForm {
    studio: AppState,
    sort: RwSignal<ProductGroup>,
    kind: RwSignal<ProductKind>,
    name: RwSignal<String>,
    label: LabelForm,
    size: NumberInput,
    weight: NumberInput,
    bought: DayInput,
    made: DayInput,
    opened: DayInput,
    celsius: NumberInput,
    dark: RwSignal<Option<bool>>,
    closed: RwSignal<Option<bool>>,
    note: RwSignal<String>,
    /// The person tried to go on and something stands in the way.
    stuck: RwSignal<bool>,
}

impl NewProductForm {
    fn new() -> Self {
        let sort = RwSignal::new(ProductGroup::Bleach);
        let kind = RwSignal::new(ProductKind::Hypochlorite);
        Effect::new(move |_| {
            let kinds = sort.get().kinds();
            if !kinds.contains(&kind.get_untracked()) {
                kind.set(kinds[0]);
            }
        });
        Self {
            studio: app_state(),
            sort,
            kind,
            name: RwSignal::new(String::new()),
            label: LabelForm::new(kind),
            size: NumberInput::new(SIZE, QuantityKind::Volume).between(1.0, 1_000_000.0).optional(),
            weight: NumberInput::new(SIZE, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(1.0, 500_000.0)
                .optional(),
            bought: DayInput::new(BOUGHT),
            made: DayInput::new(MADE),
            opened: DayInput::new(OPENED),
            celsius: NumberInput::new(KEPT_AT, QuantityKind::Temperature)
                .between(0.0, 50.0)
                .optional(),
            dark: RwSignal::new(None),
            closed: RwSignal::new(None),
            note: RwSignal::new(String::new()),
            stuck: RwSignal::new(false),
        }
    }

    /// What to write, or `None` when something is missing or refused; the fields then say what.
    fn added(self) -> Option<ProductAdded> {
        let read = [self.label.try_now(), self.amount().try_now(), self.celsius.try_now()];
        let added = self.as_answered();
        let ready = !read.contains(&false)
            && added.as_ref().is_some_and(|added| added.check_dates(clock::today()).is_ok());
        self.stuck.set(!ready);
        added.filter(|_| ready)
    }

    fn as_answered(self) -> Option<ProductAdded> {
        let kind = self.kind.get();
        let typed = self.name.get().trim().to_owned();
        Some(ProductAdded {
            name: if typed.is_empty() { kind_name(kind) } else { typed },
            strength: self.label.strength()?,
            note: self.note.get().trim().to_owned(),
            ..self.dated(kind)
        })
    }

    /// All but name, strength and note.
    fn dated(self, kind: ProductKind) -> ProductAdded {
        let figure = |value| Estimate::within(value, FILLED, Basis::Label);
        let amount = if is_liquid(kind) { Amount::VolumeMl } else { Amount::MassG };
        ProductAdded {
            name: String::new(),
            product: kind,
            strength: None,
            size: self.amount().base().map(|value| amount(figure(value))),
            bought: self.bought.day(),
            made: self.made.day(),
            opened: self.opened.day(),
            storage: Storage {
                celsius: self.celsius.base(),
                dark: self.dark.get(),
                closed: self.closed.get(),
            },
            note: String::new(),
        }
    }

    fn amount(self) -> NumberInput {
        if is_liquid(self.kind.get()) { self.size } else { self.weight }
    }

    fn what(self) -> AnyView {
        let sorts = ProductGroup::ALL.map(|sort| (sort, sort.name())).to_vec();
        view! {
            <RadioGroup label=t!("shelf-new-sort") value=self.sort options=sorts />
            {move || {
                let kinds = self.sort.get().kinds();
                (kinds.len() > 1).then(|| {
                    let options = kinds.iter().map(|kind| (*kind, kind_name(*kind))).collect();
                    view! { <RadioGroup label=t!("shelf-new-kind") value=self.kind options /> }
                })
            }}
            <TextField label=t!("shelf-new-name") text=self.name hint=t!("shelf-new-name_hint") />
            {move || {
                let ask = self.amount();
                view! { <NumberField ask hint=t!("shelf-new-size_hint") /> }
            }}
        }
        .into_any()
    }

    fn dates(self) -> AnyView {
        let refused: Signal<Option<Message>> = Signal::derive(move || {
            self.dated(self.kind.get()).check_dates(clock::today()).err().map(|e| e.message())
        });
        view! {
            <DayField ask=self.made refused hint=t!("shelf-new-made_hint") />
            <DayField ask=self.bought refused />
            <DayField ask=self.opened refused hint=t!("shelf-new-opened_hint") />
        }
        .into_any()
    }

    fn kept(self) -> AnyView {
        let found = Signal::derive(move || match oxidant(self.kind.get()) {
            Some(oxidant) => cautions(
                Act::Storing,
                &Situation { oxidant: Some(oxidant), ..Situation::default() },
            ),
            None => Vec::new(),
        });
        view! {
            <NumberField ask=self.celsius hint=t!("shelf-new-celsius_hint") />
            <RadioGroup label=t!("shelf-new-dark") value=self.dark options=vec![
                (Some(true), t!("shelf-new-dark_yes")),
                (Some(false), t!("shelf-new-dark_no")),
                (None, t!("shelf-new-not_noted")),
            ] />
            <RadioGroup label=t!("shelf-new-closed") value=self.closed options=vec![
                (Some(true), t!("shelf-new-closed_yes")),
                (Some(false), t!("shelf-new-closed_no")),
                (None, t!("shelf-new-not_noted")),
            ] />
            <TextField label=t!("shelf-new-note") text=self.note long=true />
            <CautionList cautions=found />
        }
        .into_any()
    }
}
