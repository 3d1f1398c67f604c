//! Rinsing: how many rinses are needed, and one of them as it was done.

use bleachfield_core::{
    caution::Act,
    derive::{SignOffEvidence, WashRecord},
    journal::{Batch, Body, Rinsed},
    message::Message,
    pulp::{
        disposal::{SpentLiquor, UNPLANNED_VOLUME_ML, disposal_advice},
        wash::{DRIEST_SQUEEZE, DRYNESS, WashError},
    },
    quantity::{Basis, QuantityKind, Unit, millilitres, share},
};
use leptos::prelude::*;

use super::{
    BatchWriter, Cautions, SaveButton, StripChoice, all_valid, figure, inputs, ph_figure,
    strip_figure, trimmed,
};
use crate::{
    components::{NumberField, NumberInput, Term, TextField},
    i18n::{t, t_count},
    screens::calculator::sums::{WashSum, remarks},
};

#[component]
pub fn RinseForm(writer: BatchWriter) -> impl IntoView {
    let sum = writer.studio.book_now(|book| WashSum::new(book, book.batches.get(&writer.batch)));
    let water = NumberInput::new(inputs::RINSE_WATER, QuantityKind::Volume).unit(Unit::Litre);
    let soaked =
        NumberInput::new(inputs::SOAKED, QuantityKind::Duration).unit(Unit::Minute).optional();
    let dryness = NumberInput::new(DRYNESS, QuantityKind::Share).optional();
    let ph = NumberInput::new(inputs::PH_SQUEEZED, QuantityKind::Ph).optional();
    let strip = inputs::strip_input().optional();
    let used = writer.read(|_, batch| SignOffEvidence::of(batch).used).unwrap_or_default();
    let strip_of = StripChoice::new(used);
    let note = RwSignal::new(String::new());
    let record = writer.read(|book, batch| {
        let record = WashRecord::of(book, batch);
        (record.rinses as usize, before_draining(batch, &record))
    });
    let (rinses, advice) = record.unwrap_or_default();
    let too_dry = Signal::derive(move || too_dry(dryness));
    let no_water = Signal::derive(move || no_water(water));
    let run = Callback::new(move |()| {
        let refused = too_dry.get_untracked().is_some() || no_water.get_untracked().is_some();
        let named = strip_of.is_chosen_for(strip);
        if !all_valid(&[water, soaked, dryness, ph, strip]) || refused || !named {
            return;
        }
        let Some(water_ml) = figure(water, Basis::Measured) else { return };
        writer.save(Body::Rinsed(Rinsed {
            water_l: water_ml.map(|ml| ml / 1000.0),
            minutes: figure(soaked, Basis::Measured),
            dryness_after: dryness.base().map(inputs::own_dryness_figure),
            ph: ph_figure(ph, true),
            strip_mg_per_l: strip_figure(strip),
            strip_of: strip_of.named(strip),
            note: trimmed(note),
        }));
    });
    view! {
        <div class="stack">
            <p class="soft">{t_count!("form-rinse-so_far", rinses)}</p>
            <div class="stack" aria-live="polite">{move || sum.summary()}</div>
            {(rinses == 0).then(|| view! {
                <Cautions act=Act::Draining situation=writer.situation() />
                <details class="more">
                    <summary>{t!("drain-before")}</summary>
                    <div class="inside stack">{remarks(&advice)}</div>
                </details>
            })}
            <details class="more" open=sum.is_incomplete()>
                <summary>{t!("form-rinse-plan")}</summary>
                <div class="inside stack">{sum.view()}</div>
            </details>
            <h3>{t!("form-as_done")}</h3>
            <NumberField ask=water refused=no_water />
            <NumberField ask=soaked hint=t!("form-rinse-soak_hint") />
            <NumberField ask=ph hint=t!("form-rinse-ph_hint") term=Term::Ph />
            <NumberField ask=strip label=strip_of.label() />
            {strip_of.view()}
            <NumberField ask=dryness label=t!("figure-dryness_after") refused=too_dry
                term=Term::Dryness />
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
}

/// The error of a dryness that no squeeze by hand reaches.
pub(super) fn too_dry(dryness: NumberInput) -> Option<Message> {
    let given = share(dryness.base()?);
    (given > share(DRIEST_SQUEEZE))
        .then(|| WashError::SqueezeTooDry { given }.message().beside(dryness.field()))
}

pub fn no_water(water: NumberInput) -> Option<Message> {
    let given = millilitres(water.base()?);
    let none = given <= millilitres(0.0);
    none.then(|| WashError::NoWater { given }.message().beside(water.field()))
}

/// What to know before the spent liquor is drained. Its volume is the planned one; what is
/// in it was read, or is unknown.
pub fn before_draining(batch: &Batch, record: &WashRecord) -> Vec<Message> {
    let used = SignOffEvidence::of(batch).used;
    let volume_ml = batch.visible_entries().rev().find_map(|entry| match &entry.body {
        Body::Planned(plan) => Some(plan.water_to_add_ml.value),
        _ => None,
    });
    let strength = record.readings.oxidant.map(|known| known.value);
    disposal_advice(&SpentLiquor {
        volume: millilitres(volume_ml.unwrap_or(UNPLANNED_VOLUME_ML)),
        chlorine: strength.filter(|_| used.hypochlorite),
        peroxide: strength.filter(|_| used.peroxide && !used.hypochlorite),
        ph: record.readings.ph.map(|ph| ph.value),
        acid: batch.visible_entries().any(|entry| matches!(entry.body, Body::AcidFinished(_))),
    })
}
