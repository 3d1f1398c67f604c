//! One rinse, as it was done.

use bleachfield_core::{
    caution::Act,
    journal::{Body, Rinsed},
    pulp::DRYNESS,
    quantity::{Basis, Kind, Unit},
};
use leptos::prelude::*;

use super::{Cautions, Save, Writing, asks};
use crate::{
    locale::{counted, word},
    part::{Ask, AskField, TextField},
};

#[component]
pub fn Rinse(writing: Writing) -> impl IntoView {
    let water = Ask::new(asks::RINSE_WATER, Kind::Volume).unit(Unit::Litre);
    let soaked = Ask::new(asks::SOAKED, Kind::Duration).unit(Unit::Minute).optional();
    let dryness = Ask::new(DRYNESS, Kind::Share).optional();
    let ph = Ask::new(asks::PH_SQUEEZED, Kind::Ph).optional();
    let strip = asks::strip().optional();
    let note = RwSignal::new(String::new());
    let number = writing
        .studio
        .book_now(|book| book.batches.get(&writing.batch).map_or(0, |b| b.rinses.len()));
    let situation = Signal::stored(writing.situation());
    let run = Callback::new(move |()| {
        if !asks::all_well(&[water, soaked, dryness, ph, strip]) {
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
            <p class="soft">{counted("form.rinse.so_far", number)}</p>
            {(number == 0).then(|| view! { <Cautions act=Act::Draining situation /> })}
            <AskField ask=water />
            <AskField ask=soaked />
            <AskField ask=ph hint=word("form.rinse.ph_hint") />
            <AskField ask=strip />
            <AskField ask=dryness label=word("figure.dryness_after") />
            <TextField label=word("form.note.optional") text=note />
            <Save writing run />
        </div>
    }
}
