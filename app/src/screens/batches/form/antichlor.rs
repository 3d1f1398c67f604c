//! The last oxidant: the dose that takes it out, and what was really given.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Antichlored, Body},
    quantity::{Basis, QuantityKind, Unit},
};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, Save, asks};
use crate::{
    components::{NumberField, NumberInput, TextField},
    i18n::{render, t},
    route::BatchForm,
    screens::calculator::sums::AntichlorSum,
};

#[component]
pub fn AntichlorForm(writing: BatchWriter) -> impl IntoView {
    let sum =
        writing.studio.book_now(|book| AntichlorSum::new(book, book.batches.get(&writing.batch)));
    let grams = NumberInput::new(asks::GRAMS, QuantityKind::Mass);
    let soaked =
        NumberInput::new(asks::SOAKED, QuantityKind::Duration).unit(Unit::Minute).optional();
    let strip = asks::strip().optional();
    let note = RwSignal::new(String::new());
    let before = Signal::stored(writing.situation());
    let situation = Signal::derive(move || Situation { sulfite: sum.is_sulfite(), ..before.get() });
    let run = Callback::new(move |()| {
        if !asks::all_well(&[grams, soaked, strip]) {
            return;
        }
        let Some(grams) = asks::on_scale(grams) else { return };
        let (reagent, named) = sum.entry_reagent();
        let note = note.get_untracked();
        let words = named.map(t).into_iter().chain([note.trim().to_owned()]);
        let words: Vec<String> = words.filter(|text| !text.is_empty()).collect();
        writing.save(Body::Antichlored(Antichlored {
            reagent,
            product: None,
            grams,
            minutes: asks::figure(soaked, 1.0, Basis::Measured),
            strip_mg_per_l: asks::figure(strip, 1e-3, Basis::Strip),
            note: words.join(". "),
        }));
    });
    let too_much = move || grams.base().and_then(|given| sum.overdose(given));
    let still_there = move || strip.base().is_some_and(|left| left > 0.0);
    view! {
        <div class="stack">
            <Cautions act=Act::AddingAntichlor situation />
            {move || sum.is_acid().then(|| view! { <Cautions act=Act::AddingAcid situation /> })}
            {sum.view()}
            {move || if sum.adds_reagent() {
                view! {
                    <h3>{t!("form-as_done")}</h3>
                    <NumberField ask=grams />
                    {move || too_much().map(|why| view! { <p class="caution care">{render(&why)}</p> })}
                    <NumberField ask=soaked />
                    <NumberField ask=strip label=t!("form-antichlor-strip_after")
                        hint=t!("form-antichlor-strip_hint") />
                    {move || still_there().then(|| view! {
                        <p class="caution care" role="status">{t!("form-antichlor-top_up")}</p>
                    })}
                    <TextField label=t!("form-note-optional") text=note />
                    <Save writing run />
                }
                .into_any()
            } else {
                view! {
                    <button class="button touch" on:click=move |_| writing.show(BatchForm::EndTest)>
                        {t!("next-end_tests")}
                    </button>
                }
                .into_any()
            }}
        </div>
    }
}
