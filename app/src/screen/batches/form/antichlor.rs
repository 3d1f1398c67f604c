//! The last oxidant taken out with a reagent.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Antichlor, Antichlored, Body},
    quantity::{Basis, Kind, Unit},
};
use leptos::prelude::*;

use super::{Cautions, Save, Writing, asks};
use crate::{
    locale::word,
    part::{Ask, AskField, Choice, TextField},
    screen::batches::telling::name_of,
};

const REAGENTS: [Antichlor; 8] = [
    Antichlor::ThiosulfatePentahydrate,
    Antichlor::ThiosulfateAnhydrous,
    Antichlor::Sulfite,
    Antichlor::Bisulfite,
    Antichlor::Metabisulfite,
    Antichlor::AscorbicAcid,
    Antichlor::Peroxide,
    Antichlor::Other,
];

#[component]
pub fn AntichlorForm(writing: Writing) -> impl IntoView {
    let reagent = RwSignal::new(Antichlor::ThiosulfatePentahydrate);
    let grams = Ask::new(asks::GRAMS, Kind::Mass);
    let soaked = Ask::new(asks::SOAKED, Kind::Duration).unit(Unit::Minute).optional();
    let strip = asks::strip().optional();
    let note = RwSignal::new(String::new());
    let before = Signal::stored(writing.situation());
    let situation = Signal::derive(move || Situation {
        sulfite: !matches!(
            reagent.get(),
            Antichlor::AscorbicAcid | Antichlor::Peroxide | Antichlor::Other
        ),
        ..before.get()
    });
    let acid = move || reagent.get() == Antichlor::AscorbicAcid;
    let run = Callback::new(move |()| {
        if !asks::all_well(&[grams, soaked, strip]) {
            return;
        }
        let Some(grams) = asks::on_scale(grams) else { return };
        writing.save(Body::Antichlored(Antichlored {
            reagent: reagent.get_untracked(),
            product: None,
            grams,
            minutes: asks::figure(soaked, 1.0, Basis::Measured),
            strip_mg_per_l: asks::figure(strip, 1e-3, Basis::Strip),
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    view! {
        <div class="stack">
            <Choice label=word("form.antichlor.reagent") value=reagent
                options=REAGENTS.map(|r| (r, name_of("antichlor", &r))).to_vec() />
            <Cautions act=Act::AddingAntichlor situation />
            <Show when=acid><Cautions act=Act::AddingAcid situation /></Show>
            <AskField ask=grams />
            <AskField ask=soaked />
            <AskField ask=strip label=word("form.antichlor.strip_after") />
            <TextField label=word("form.note.optional") text=note />
            <Save writing run />
        </div>
    }
}
