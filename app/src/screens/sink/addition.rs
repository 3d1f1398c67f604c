//! The form for an addition to a running bath.

use bleachfield_core::{
    caution::{Act, Caution, Situation, cautions},
    journal::{Added, Additive, Amount, Body, ProductKind},
    message::{Field, Message},
    quantity::{QuantityKind, measured_out},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    latest_readings::{oxidant_of, residual_of},
    running_bath::RunningBath,
};
use crate::{
    components::{
        CautionList, ChoiceError, NumberField, NumberInput, RadioGroup, TextField, to_first_wrong,
    },
    i18n::{key, t},
};

const MASS: Field = Field("added_mass");
const VOLUME: Field = Field("added_volume");

/// In the order of the list, the usual first.
const ADDITIVES: [Additive; 10] = [
    Additive::Water,
    Additive::SodaAsh,
    Additive::WashingSoda,
    Additive::BakingSoda,
    Additive::Lye,
    Additive::Hypochlorite,
    Additive::Percarbonate,
    Additive::Peroxide,
    Additive::Stabiliser,
    Additive::Other,
];

/// The answers. Copied freely.
#[derive(Clone, Copy)]
struct Addition {
    /// Chosen by the person.
    what: RwSignal<Option<Additive>>,
    product: RwSignal<Option<Ulid>>,
    by_scale: RwSignal<bool>,
    mass: NumberInput,
    volume: NumberInput,
    note: RwSignal<String>,
    /// [`Additive::Other`] without a note that names it.
    unnamed: RwSignal<bool>,
    /// Saving was tried.
    tried: RwSignal<bool>,
}

#[component]
pub fn AdditionForm(running: RunningBath) -> impl IntoView {
    let addition = Addition::new();
    let Addition { what, product, by_scale, mass, volume, note, unnamed, tried } = addition;
    let latest = running.latest_readings();
    let cautions = Signal::derive(move || {
        // What is not said may be acid.
        let added = what.get().unwrap_or(Additive::Other);
        latest.with(|latest| addition_cautions(&latest.situation, added))
    });
    let no_choice = Signal::derive(move || {
        (tried.get() && what.get().is_none()).then(|| Message::new(key!("refusal-not_chosen")))
    });
    let save = Callback::new(move |()| {
        if let Some(body) = addition.entry(running.bath) {
            running.write(vec![body], t!("sink-said-added"));
        }
    });
    view! {
        <div class="stack">
            <div class="field">
                <label for="added-what">{t!("sink-add-what")}</label>
                <select id="added-what"
                    on:change=move |event| addition.choose(&event_target_value(&event))>
                    <option value="">{t!("do-choose")}</option>
                    {ADDITIVES.map(|option| view! {
                        <option value=option_value(option) selected=move || what.get() == Some(option)>
                            {t(&format!("sink-additive-{}", option_value(option)))}
                        </option>
                    }).collect_view()}
                </select>
                <ChoiceError problem=no_choice />
            </div>
            <CautionList cautions />
            {move || what.get().map(|what| view! { <FromShelf running what product /> })}
            <RadioGroup label=t!("sink-add-by") quiet=true value=by_scale options=vec![
                (false, t!("sink-add-by_jug")),
                (true, t!("sink-add-by_scale")),
            ] />
            {move || {
                let ask = if by_scale.get() { mass } else { volume };
                view! { <NumberField ask label=t!("sink-add-amount") on_enter=save /> }
            }}
            <TextField label=t!("sink-add-note") text=note />
            <p role="status">
                {move || unnamed.get().then(|| view! {
                    <span class="refused">{t!("sink-add-name_it")}</span>
                })}
            </p>
            <button class="button touch" disabled=move || running.sheets.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-add-save")}</button>
        </div>
    }
}

impl Addition {
    fn new() -> Self {
        Self {
            what: RwSignal::new(None),
            product: RwSignal::new(None),
            by_scale: RwSignal::new(false),
            mass: NumberInput::new(MASS, QuantityKind::Mass).between(0.01, 100_000.0),
            volume: NumberInput::new(VOLUME, QuantityKind::Volume).between(0.01, 200_000.0),
            note: RwSignal::new(String::new()),
            unnamed: RwSignal::new(false),
            tried: RwSignal::new(false),
        }
    }

    fn choose(self, chosen: &str) {
        let what = ADDITIVES.into_iter().find(|what| option_value(*what) == chosen);
        self.what.set(what);
        self.product.set(None);
        if let Some(what) = what {
            let liquid =
                matches!(what, Additive::Water | Additive::Hypochlorite | Additive::Peroxide);
            self.by_scale.set(!liquid);
        }
    }

    /// The entry, untracked; `None` while an answer is missing or wrong, which is marked.
    fn entry(self, bath: Ulid) -> Option<Body> {
        let (what, by_scale) = (self.what.get_untracked(), self.by_scale.get_untracked());
        let input = if by_scale { self.mass } else { self.volume };
        let note = self.note.get_untracked().trim().to_owned();
        self.tried.set(true);
        let unnamed = what == Some(Additive::Other) && note.is_empty();
        self.unnamed.set(unnamed);
        if !input.try_now() || unnamed {
            return None;
        }
        let figure = measured_out(input.base()?);
        let amount = if by_scale { Amount::MassG(figure) } else { Amount::VolumeMl(figure) };
        let (what, product) = (what?, self.product.get_untracked());
        Some(Body::Added(Added { bath: Some(bath), what, product, amount, note }))
    }
}

/// The name of an additive in locale keys and `<option>` values.
fn option_value(what: Additive) -> &'static str {
    what.into()
}

/// The cautions for an addition: those that it causes, then those that hold anyway.
fn addition_cautions(before: &Situation, added: Additive) -> Vec<Caution> {
    let oxidant = oxidant_of(added);
    let act = match added {
        // Whatever is not on the list may be acid.
        Additive::Other => Act::AddingAcid,
        _ if oxidant.is_some() => Act::MakingLiquor,
        _ => Act::Bath,
    };
    let residual = oxidant.map_or(before.residual, residual_of);
    let anyway = cautions(act, before);
    let mut all = cautions(act, &Situation { residual, ..before.clone() });
    all.sort_by_key(|caution| anyway.contains(caution));
    all
}

/// The shelf product that it came from, where there is one of that kind.
#[component]
fn FromShelf(
    running: RunningBath,
    what: Additive,
    product: RwSignal<Option<Ulid>>,
) -> Option<impl IntoView> {
    let kind = shelf_kind(what)?;
    let products: Vec<(Ulid, String)> = running.state.book_now(|book| {
        let of_kind = book.shelf().into_iter().filter(|product| product.kind == kind);
        of_kind.map(|product| (product.id, product.name.clone())).collect()
    });
    (!products.is_empty()).then(|| {
        view! {
            <div class="field">
                <label for="added-from">{t!("sink-add-from")}</label>
                <select id="added-from"
                    on:change=move |event| product.set(event_target_value(&event).parse().ok())>
                    <option value="">{t!("sink-add-from_none")}</option>
                    {products.into_iter().map(|(id, name)| view! {
                        <option value=id.to_string()>{name}</option>
                    }).collect_view()}
                </select>
            </div>
        }
    })
}

fn shelf_kind(what: Additive) -> Option<ProductKind> {
    Some(match what {
        Additive::Hypochlorite => ProductKind::Hypochlorite,
        Additive::Percarbonate => ProductKind::Percarbonate,
        Additive::Peroxide => ProductKind::Peroxide,
        Additive::SodaAsh => ProductKind::SodaAsh,
        Additive::WashingSoda => ProductKind::WashingSoda,
        Additive::BakingSoda => ProductKind::BakingSoda,
        Additive::Lye => ProductKind::Lye,
        Additive::Water | Additive::Stabiliser | Additive::Other => return None,
    })
}
