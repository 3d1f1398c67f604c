//! Something was added to a running bath.

use bleachfield_core::{
    caution::{Act, Residual, cautions},
    journal::{Added, Additive, Amount, Body, Oxidant, ProductKind},
    message::Field,
    quantity::{Basis, Estimate, QuantityKind},
};
use leptos::prelude::*;
use ulid::Ulid;

use super::{
    latest::{LatestReadings, oxidant_of},
    running::RunningBath,
};
use crate::{
    components::{
        BottomSheet, CautionList, NumberField, NumberInput, RadioGroup, TextField, to_first_wrong,
    },
    i18n::t,
};

const GRAMS: Field = Field("added_mass");
const MILLILITRES: Field = Field("added_volume");

/// How far what a person pours or tips in may be out, as a part of it. Common
/// practice, no source.
const PART: f64 = 0.05;

/// What a bath is usually given, in the order of the list.
const ADDITIVES: [(Additive, &str); 10] = [
    (Additive::Water, "water"),
    (Additive::SodaAsh, "soda_ash"),
    (Additive::WashingSoda, "washing_soda"),
    (Additive::BakingSoda, "baking_soda"),
    (Additive::Lye, "lye"),
    (Additive::Hypochlorite, "hypochlorite"),
    (Additive::Percarbonate, "percarbonate"),
    (Additive::Peroxide, "peroxide"),
    (Additive::Stabiliser, "stabiliser"),
    (Additive::Other, "other"),
];

#[component]
pub fn Adding(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    view! {
        <BottomSheet open title=t!("sink-add-title")>
            <AddForm running open />
        </BottomSheet>
    }
}

#[component]
fn AddForm(running: RunningBath, open: RwSignal<bool>) -> impl IntoView {
    let what = RwSignal::new(Additive::Water);
    let by_scale = RwSignal::new(false);
    let grams = NumberInput::new(GRAMS, QuantityKind::Mass).between(0.01, 100_000.0);
    let millilitres = NumberInput::new(MILLILITRES, QuantityKind::Volume).between(0.01, 200_000.0);
    let product = RwSignal::new(None::<Ulid>);
    let note = RwSignal::new(String::new());
    let unnamed = RwSignal::new(false);
    let latest =
        Memo::new(move |_| running.studio.book(|book| LatestReadings::of(book, running.bath)));
    let holding = Signal::derive(move || {
        let before = latest.with(LatestReadings::situation);
        let mut situation = before.clone();
        let act = match what.get() {
            // Whatever is not on the list may be acid.
            Additive::Other => Act::AddingAcid,
            what => match oxidant_of(what) {
                Some(Oxidant::Hypochlorite) => {
                    situation.residual = Residual::Hypochlorite;
                    Act::MakingLiquor
                }
                Some(_) => {
                    situation.residual = Residual::Peroxide;
                    Act::MakingLiquor
                }
                None => Act::Bath,
            },
        };
        // What the addition itself brings about comes first.
        let anyway = cautions(act, &before);
        let mut found = cautions(act, &situation);
        found.sort_by_key(|caution| anyway.contains(caution));
        found
    });
    let choose = move |event| {
        let key = event_target_value(&event);
        let chosen = ADDITIVES.iter().find(|(_, name)| *name == key).map(|(what, _)| *what);
        let Some(chosen) = chosen else { return };
        what.set(chosen);
        product.set(None);
        by_scale
            .set(!matches!(chosen, Additive::Water | Additive::Hypochlorite | Additive::Peroxide));
    };
    let save = Callback::new(move |()| {
        let ask = if by_scale.get_untracked() { grams } else { millilitres };
        let note = note.get_untracked().trim().to_owned();
        let nameless = what.get_untracked() == Additive::Other && note.is_empty();
        unnamed.set(nameless);
        if !ask.try_now() || nameless {
            return;
        }
        let Some(value) = ask.base() else { return };
        let figure = Estimate::within(value, PART, Basis::Measured);
        let amount =
            if by_scale.get_untracked() { Amount::MassG(figure) } else { Amount::VolumeMl(figure) };
        let added = Added {
            bath: Some(running.bath),
            what: what.get_untracked(),
            product: product.get_untracked(),
            amount,
            note,
        };
        running.write(vec![Body::Added(added)], t!("sink-said-added"), Some(open));
    });
    view! {
        <div class="stack">
            <div class="field">
                <label for="added-what">{t!("sink-add-what")}</label>
                <select id="added-what" on:change=choose>
                    {ADDITIVES.map(|(option, key)| view! {
                        <option value=key selected=move || what.get() == option>
                            {t(&format!("sink-additive-{key}"))}
                        </option>
                    }).collect_view()}
                </select>
            </div>
            <CautionList cautions=holding />
            {move || view! { <FromShelf running what=what.get() product /> }}
            <RadioGroup label=t!("sink-add-by") quiet=true value=by_scale options=vec![
                (false, t!("sink-add-by_jug")),
                (true, t!("sink-add-by_scale")),
            ] />
            {move || if by_scale.get() {
                view! { <NumberField ask=grams label=t!("sink-add-amount") on_enter=save /> }
            } else {
                view! { <NumberField ask=millilitres label=t!("sink-add-amount") on_enter=save /> }
            }}
            <TextField label=t!("sink-add-note") text=note />
            <p role="status">
                {move || unnamed.get().then(|| view! {
                    <span class="refused">{t!("sink-add-name_it")}</span>
                })}
            </p>
            <button class="button touch" disabled=move || running.busy.get()
                on:click=move |_| { save.run(()); to_first_wrong() }>{t!("sink-add-save")}</button>
        </div>
    }
}

/// Which product of the shelf it came from, where one there could be it.
#[component]
fn FromShelf(
    running: RunningBath,
    what: Additive,
    product: RwSignal<Option<Ulid>>,
) -> Option<impl IntoView> {
    let kind = shelf_kind(what)?;
    let fitting: Vec<(Ulid, String)> = running.studio.book_now(|book| {
        book.shelf()
            .into_iter()
            .filter(|p| p.kind == kind)
            .map(|p| (p.id, p.name.clone()))
            .collect()
    });
    if fitting.is_empty() {
        return None;
    }
    let choose = move |event| product.set(event_target_value(&event).parse().ok());
    Some(view! {
        <div class="field">
            <label for="added-from">{t!("sink-add-from")}</label>
            <select id="added-from" on:change=choose>
                <option value="">{t!("sink-add-from_none")}</option>
                {fitting.into_iter().map(|(id, name)| view! {
                    <option value=id.to_string()>{name}</option>
                }).collect_view()}
            </select>
        </div>
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
