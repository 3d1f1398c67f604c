//! A new bottle or tub.

use bleachfield_core::{
    caution::{Act, Situation, cautions},
    journal::{Amount, BOUGHT, Body, MADE, OPENED, ProductAdded, ProductKind, Storage, Subject},
    message::{Field, Message},
    quantity::{Basis, Kind, Known, Unit},
};
use leptos::prelude::*;
use leptos::task::spawn_local;

use super::{
    day::{AskDay, DayField},
    kind::{Sort, is_liquid, kind_name, oxidant},
    label::LabelForm,
    state::said_saved,
};
use crate::{
    components::{Ask, AskField, CautionList, Choice, Page, TextField, to_first_wrong},
    i18n::t,
    platform::clock,
    route::go,
    state::{Studio, studio},
};

const KEPT_AT: Field = Field("kept_at");
const SIZE: Field = Field("product_size");

/// A container is filled to within 2 % (common practice, no source).
const FILLED: f64 = 0.02;

/// `/shelf/new`.
#[component]
pub fn NewProduct() -> impl IntoView {
    let form = Form::new();
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
                go(&format!("/shelf/{product}"));
            }
        });
    };
    view! {
        <Page title=t!("shelf-new-title") back="/shelf">
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
                <button class="press wet" disabled=move || saving.get() on:click=save>
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
struct Form {
    studio: Studio,
    sort: RwSignal<Sort>,
    kind: RwSignal<ProductKind>,
    name: RwSignal<String>,
    label: LabelForm,
    size: Ask,
    weight: Ask,
    bought: AskDay,
    made: AskDay,
    opened: AskDay,
    celsius: Ask,
    dark: RwSignal<Option<bool>>,
    closed: RwSignal<Option<bool>>,
    note: RwSignal<String>,
    /// The person tried to go on and something stands in the way.
    stuck: RwSignal<bool>,
}

impl Form {
    fn new() -> Self {
        let sort = RwSignal::new(Sort::Bleach);
        let kind = RwSignal::new(ProductKind::Hypochlorite);
        Effect::new(move |_| {
            let kinds = sort.get().kinds();
            if !kinds.contains(&kind.get_untracked()) {
                kind.set(kinds[0]);
            }
        });
        Self {
            studio: studio(),
            sort,
            kind,
            name: RwSignal::new(String::new()),
            label: LabelForm::new(kind),
            size: Ask::new(SIZE, Kind::Volume).between(1.0, 1_000_000.0).optional(),
            weight: Ask::new(SIZE, Kind::Mass).unit(Unit::Gram).between(1.0, 500_000.0).optional(),
            bought: AskDay::new(BOUGHT),
            made: AskDay::new(MADE),
            opened: AskDay::new(OPENED),
            celsius: Ask::new(KEPT_AT, Kind::Temperature).between(0.0, 50.0).optional(),
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
            && added.as_ref().is_some_and(|added| added.refuse_dates(clock::today()).is_ok());
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
        let figure = |value| Known::within(value, FILLED, Basis::Label);
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

    fn amount(self) -> Ask {
        if is_liquid(self.kind.get()) { self.size } else { self.weight }
    }

    fn what(self) -> AnyView {
        let sorts = Sort::ALL.map(|sort| (sort, sort.name())).to_vec();
        view! {
            <Choice label=t!("shelf-new-sort") value=self.sort options=sorts />
            {move || {
                let kinds = self.sort.get().kinds();
                (kinds.len() > 1).then(|| {
                    let options = kinds.iter().map(|kind| (*kind, kind_name(*kind))).collect();
                    view! { <Choice label=t!("shelf-new-kind") value=self.kind options /> }
                })
            }}
            <TextField label=t!("shelf-new-name") text=self.name hint=t!("shelf-new-name_hint") />
            {move || {
                let ask = self.amount();
                view! { <AskField ask hint=t!("shelf-new-size_hint") /> }
            }}
        }
        .into_any()
    }

    fn dates(self) -> AnyView {
        let refused: Signal<Option<Message>> =
            Signal::derive(move || self.dated(self.kind.get()).refuse_dates(clock::today()).err());
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
            <AskField ask=self.celsius hint=t!("shelf-new-celsius_hint") />
            <Choice label=t!("shelf-new-dark") value=self.dark options=vec![
                (Some(true), t!("shelf-new-dark_yes")),
                (Some(false), t!("shelf-new-dark_no")),
                (None, t!("shelf-new-not_noted")),
            ] />
            <Choice label=t!("shelf-new-closed") value=self.closed options=vec![
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
