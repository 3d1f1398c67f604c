//! The wash: how many rinses there are to do, and one of them as it was done.

use bleachfield_core::{
    caution::Act,
    derive::{SignOffEvidence, WashRecord},
    journal::{Batch, Body, Rinsed},
    message::Message,
    pulp::{
        disposal::{SpentLiquor, disposal_advice},
        wash::{DRIEST_SQUEEZE, DRYNESS, WashError},
    },
    quantity::{Basis, QuantityKind, Unit, millilitres, share},
};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, Save, asks};
use crate::{
    components::{NumberField, NumberInput, TextField},
    i18n::{t, t_count},
    screens::calculator::sums::{WashSum, remarks},
};

#[component]
pub fn Rinse(writing: BatchWriter) -> impl IntoView {
    let sum = writing.studio.book_now(|book| WashSum::new(book, book.batches.get(&writing.batch)));
    let water = NumberInput::new(asks::RINSE_WATER, QuantityKind::Volume).unit(Unit::Litre);
    let soaked =
        NumberInput::new(asks::SOAKED, QuantityKind::Duration).unit(Unit::Minute).optional();
    let dryness = NumberInput::new(DRYNESS, QuantityKind::Share).optional();
    let ph = NumberInput::new(asks::PH_SQUEEZED, QuantityKind::Ph).optional();
    let strip = asks::strip().optional();
    let note = RwSignal::new(String::new());
    let (number, pouring) = writing.studio.book_now(|book| {
        let Some(batch) = book.batches.get(&writing.batch) else { return (0, Vec::new()) };
        let record = WashRecord::of(book, batch);
        (record.rinses as usize, pouring(batch, &record))
    });
    let situation = Signal::stored(writing.situation());
    let too_dry = Signal::derive(move || too_dry(dryness));
    let no_water = Signal::derive(move || no_water(water));
    let run = Callback::new(move |()| {
        let refused = too_dry.get_untracked().is_some() || no_water.get_untracked().is_some();
        if !asks::all_well(&[water, soaked, dryness, ph, strip]) || refused {
            return;
        }
        let Some(water_l) = asks::figure(water, 1000.0, Basis::Measured) else { return };
        writing.save(Body::Rinsed(Rinsed {
            water_l,
            minutes: asks::figure(soaked, 1.0, Basis::Measured),
            dryness_after: asks::figure(dryness, 1.0, Basis::Measured),
            ph: asks::figure(ph, 1.0, Basis::Strip),
            strip_mg_per_l: asks::figure(strip, 1e-3, Basis::Strip),
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    view! {
        <div class="stack">
            <p class="soft">{t_count!("form-rinse-so_far", number)}</p>
            <div class="stack" aria-live="polite">{move || sum.summary()}</div>
            {(number == 0).then(|| view! {
                <Cautions act=Act::Draining situation />
                <details class="more">
                    <summary>{t!("drain-before")}</summary>
                    <div class="inside stack">{remarks(&pouring)}</div>
                </details>
            })}
            <details class="more" open=sum.is_incomplete()>
                <summary>{t!("form-rinse-plan")}</summary>
                <div class="inside stack">{sum.view()}</div>
            </details>
            <h3>{t!("form-as_done")}</h3>
            <NumberField ask=water refused=no_water />
            <NumberField ask=soaked hint=t!("form-rinse-soak_hint") />
            <NumberField ask=ph hint=t!("form-rinse-ph_hint") />
            <NumberField ask=strip />
            <NumberField ask=dryness label=t!("figure-dryness_after") refused=too_dry />
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}

/// A squeeze that no hand reaches, in words for beside its field.
pub(super) fn too_dry(dryness: NumberInput) -> Option<Message> {
    let given = share(dryness.base()?);
    (given > share(DRIEST_SQUEEZE))
        .then(|| WashError::SqueezeTooDry { given }.message().beside(dryness.field()))
}

fn no_water(water: NumberInput) -> Option<Message> {
    let given = millilitres(water.base()?);
    let none = given <= millilitres(0.0);
    none.then(|| WashError::NoWater { given }.message().beside(water.field()))
}

/// What to know before the bath's liquor is poured away. How much there is was
/// planned; what is in it was read, or is what nobody has read.
fn pouring(batch: &Batch, record: &WashRecord) -> Vec<Message> {
    let used = SignOffEvidence::of(batch).used;
    let litres = batch.visible_entries().rev().find_map(|told| match &told.body {
        Body::Planned(plan) => Some(plan.water_to_add_ml.value),
        _ => None,
    });
    let strength = record.readings.oxidant.map(|known| known.value);
    disposal_advice(&SpentLiquor {
        volume: millilitres(litres.unwrap_or(1000.0)),
        chlorine: strength.filter(|_| used.hypochlorite),
        peroxide: strength.filter(|_| used.peroxide && !used.hypochlorite),
        ph: record.readings.ph.map(|ph| ph.value),
        acid: batch.visible_entries().any(|told| matches!(told.body, Body::AcidFinished(_))),
    })
}
