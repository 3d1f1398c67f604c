//! Antichlor: the dose that removes the last oxidant, and what was added.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Antichlored, Body},
    message::Message,
    quantity::{Basis, QuantityKind, Unit},
};
use leptos::prelude::*;

use super::{
    BatchWriter, Cautions, SaveButton, all_valid, figure, inputs, strip_figure, trimmed,
    weighed_figure,
};
use crate::{
    components::{ChoiceError, NumberField, NumberInput, TextField},
    i18n::{key, render, t},
    route::BatchForm,
    screens::calculator::sums::AntichlorSum,
};

#[component]
pub fn AntichlorForm(writer: BatchWriter) -> impl IntoView {
    let sum =
        writer.studio.book_now(|book| AntichlorSum::new(book, book.batches.get(&writer.batch)));
    let grams = NumberInput::new(inputs::GRAMS, QuantityKind::Mass);
    let soaked =
        NumberInput::new(inputs::SOAKED, QuantityKind::Duration).unit(Unit::Minute).optional();
    let strip = inputs::strip_input().optional();
    let note = RwSignal::new(String::new());
    let of_batch = writer.situation();
    let situation =
        Signal::derive(move || Situation { sulfite: sum.is_sulfite(), ..of_batch.get() });
    let tried = RwSignal::new(false);
    let run = Callback::new(move |()| {
        tried.set(true);
        if !all_valid(&[grams, soaked, strip]) {
            return;
        }
        let Some(grams) = weighed_figure(grams) else { return };
        let Some((reagent, name)) = sum.entry_reagent() else { return };
        let notes = name.map(t).into_iter().chain([trimmed(note)]);
        let notes: Vec<String> = notes.filter(|text| !text.is_empty()).collect();
        writer.save(Body::Antichlored(Antichlored {
            reagent,
            product: None,
            grams,
            minutes: figure(soaked, Basis::Measured),
            strip_mg_per_l: strip_figure(strip),
            note: notes.join(". "),
        }));
    });
    let too_much = move || grams.base().and_then(|grams| sum.overdose(grams));
    let oxidant_left = move || strip.base().is_some_and(|strip| strip > 0.0);
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
                    {move || oxidant_left().then(|| view! {
                        <p class="caution care" role="status">{t!("form-antichlor-top_up")}</p>
                    })}
                    <TextField label=t!("form-note-optional") text=note />
                    <ChoiceError problem=Signal::derive(move || {
                        let missing = tried.get() && !sum.is_chosen();
                        missing.then(|| Message::new(key!("antichlor-not_chosen")))
                    }) />
                    <SaveButton writer run />
                }
                .into_any()
            } else {
                view! {
                    <button class="button touch" on:click=move |_| writer.open(BatchForm::EndTest)>
                        {t!("next-end_tests")}
                    </button>
                }
                .into_any()
            }}
        </div>
    }
}
