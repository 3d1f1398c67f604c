//! Adding a product.

use bleachfield_core::{
    caution::{Act, Situation, cautions},
    chemistry::bottle::FILLED_OFF,
    derive::{BOUGHT, MADE, OPENED},
    journal::{Amount, Body, ProductAdded, ProductKind, Storage, Strength, Subject},
    message::Field,
    quantity::{Basis, Estimate, QuantityKind, Unit},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{
    date_input::{DateField, DateInput},
    household::HouseholdChoice,
    kind::{ProductGroup, is_liquid, kind_name, oxidant},
    label::LabelForm,
    writer::notify_saved,
};
use crate::{
    components::{
        CautionList, NumberField, NumberInput, Page, RadioGroup, TextField, to_first_wrong,
    },
    i18n::t,
    platform::{clock, draft},
    route::{self, Route},
    state::{AppState, app_state},
};

const KEPT_AT: Field = Field("kept_at");
const SIZE: Field = Field("product_size");
const PRICE: Field = Field("product_price");

/// `/shelf/new`.
#[component]
pub fn NewProduct() -> impl IntoView {
    let form = NewProductForm::new();
    let saving = RwSignal::new(false);
    let save = move |_| {
        let Some(added) = form.validated() else { return to_first_wrong() };
        saving.set(true);
        let from = route::current();
        spawn_local(async move {
            let product = form.studio.fresh_id();
            let subject = Subject::Bottle(product);
            let saved = form.studio.write(subject, Body::ProductAdded(added)).await;
            saving.try_set(false);
            if let Some(entry) = saved {
                draft::discard(&Route::NewProduct.href());
                notify_saved(form.studio, subject, entry, &t!("entry-product_added"));
                route::go_from(&from, &Route::Product(product));
            }
        });
    };
    view! {
        <Page title=t!("shelf-new-title") back=Route::Shelf>
            <div class="stack wide">
                <section class="card stack">{form.product_fields()}</section>
                {move || (!form.household.is_stock_solution()).then(|| view! {
                    <section class="card stack">
                        <h2>{t!("shelf-new-label_head")}</h2>
                        {form.label.view()}
                    </section>
                })}
                <section class="card stack">
                    <h2>{t!("shelf-new-dates_head")}</h2>
                    <p class="soft small">{t!("shelf-new-dates_hint")}</p>
                    {form.date_fields()}
                </section>
                <section class="card stack">
                    <h2>{t!("shelf-new-kept_head")}</h2>
                    {form.storage_fields()}
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
    group: RwSignal<ProductGroup>,
    kind: RwSignal<ProductKind>,
    household: HouseholdChoice,
    name: RwSignal<String>,
    label: LabelForm,
    size: NumberInput,
    weight: NumberInput,
    price: NumberInput,
    bought: DateInput,
    made: DateInput,
    opened: DateInput,
    celsius: NumberInput,
    dark: RwSignal<Option<bool>>,
    closed: RwSignal<Option<bool>>,
    note: RwSignal<String>,
    /// The last attempt to save failed validation.
    stuck: RwSignal<bool>,
}

impl NewProductForm {
    fn new() -> Self {
        let group = RwSignal::new(ProductGroup::Bleach);
        let kind = RwSignal::new(ProductKind::Hypochlorite);
        Effect::new(move |_| {
            let kinds = group.get().kinds();
            if !kinds.contains(&kind.get_untracked()) {
                kind.set(kinds[0]);
            }
        });
        Self {
            studio: app_state(),
            group,
            kind,
            household: HouseholdChoice::new(kind),
            name: RwSignal::new(String::new()),
            label: LabelForm::new(kind),
            size: NumberInput::new(SIZE, QuantityKind::Volume).between(1.0, 1_000_000.0).optional(),
            weight: NumberInput::new(SIZE, QuantityKind::Mass)
                .unit(Unit::Gram)
                .between(1.0, 500_000.0)
                .optional(),
            price: NumberInput::new(PRICE, QuantityKind::Number).between(0.0, 100_000.0).optional(),
            bought: DateInput::new(BOUGHT),
            made: DateInput::new(MADE),
            opened: DateInput::new(OPENED),
            celsius: NumberInput::new(KEPT_AT, QuantityKind::Temperature)
                .between(0.0, 50.0)
                .optional(),
            dark: RwSignal::new(None),
            closed: RwSignal::new(None),
            note: RwSignal::new(String::new()),
            stuck: RwSignal::new(false),
        }
    }

    /// The entry to write; `None` if a field is missing or invalid, which its error then says.
    fn validated(self) -> Option<ProductAdded> {
        let (strength_valid, strength) = if self.household.is_stock_solution() {
            (self.household.try_stock(), self.household.stock_strength().map(Some))
        } else {
            (self.label.try_now(), self.label.strength())
        };
        let fields =
            [strength_valid, self.amount().try_now(), self.price.try_now(), self.celsius.try_now()];
        let added = strength.map(|strength| self.with_strength(strength));
        let valid = !fields.contains(&false)
            && self.household.refused().is_none()
            && added.as_ref().is_some_and(|added| added.check_dates(clock::today()).is_ok());
        self.stuck.set(!valid);
        added.filter(|_| valid)
    }

    fn with_strength(self, strength: Option<Strength>) -> ProductAdded {
        let kind = self.kind.get();
        let name = self.name.get().trim().to_owned();
        let amount = if is_liquid(kind) { Amount::VolumeMl } else { Amount::MassG };
        let size = self.amount().base();
        ProductAdded {
            name: if name.is_empty() { kind_name(kind) } else { name },
            product: kind,
            strength,
            size: size.map(|size| amount(Estimate::within(size, FILLED_OFF, Basis::Label))),
            bought: self.bought.date(),
            made: self.made.date(),
            opened: self.opened.date(),
            storage: Storage {
                celsius: self.celsius.base(),
                dark: self.dark.get(),
                closed: self.closed.get(),
            },
            price: self.price.base(),
            note: self.note.get().trim().to_owned(),
        }
    }

    fn amount(self) -> NumberInput {
        if is_liquid(self.kind.get()) { self.size } else { self.weight }
    }

    fn product_fields(self) -> AnyView {
        let groups = ProductGroup::ALL.map(|group| (group, group.name())).to_vec();
        view! {
            <RadioGroup label=t!("shelf-new-sort") value=self.group options=groups />
            {move || {
                let kinds = self.group.get().kinds();
                (kinds.len() > 1).then(|| {
                    let options = kinds.iter().map(|kind| (*kind, kind_name(*kind))).collect();
                    view! { <RadioGroup label=t!("shelf-new-kind") value=self.kind options /> }
                })
            }}
            {self.household.view()}
            <TextField label=t!("shelf-new-name") text=self.name hint=t!("shelf-new-name_hint") />
            {move || {
                let ask = self.amount();
                view! { <NumberField ask hint=t!("shelf-new-size_hint") /> }
            }}
            <NumberField ask=self.price hint=t!("shelf-new-price_hint") />
        }
        .into_any()
    }

    fn date_fields(self) -> AnyView {
        let refused = Memo::new(move |_| {
            let dates = self.with_strength(None).check_dates(clock::today());
            dates.err().map(|error| error.message())
        });
        view! {
            <DateField input=self.made refused hint=t!("shelf-new-made_hint") />
            <DateField input=self.bought refused />
            <DateField input=self.opened refused hint=t!("shelf-new-opened_hint") />
        }
        .into_any()
    }

    fn storage_fields(self) -> AnyView {
        let found = Signal::derive(move || match oxidant(self.kind.get()) {
            Some(oxidant) => cautions(
                Act::Storing,
                &Situation { oxidant: oxidant.into(), ..Situation::without_bleach() },
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
