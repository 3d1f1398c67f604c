//! Putting the pulp by as a lot.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Body, Stored, StoredForm},
    pulp::{
        DRYNESS, WET_MASS,
        store::{Keeper, keep_by},
    },
    quantity::{Basis, Kind},
};
use leptos::prelude::*;

use super::{Cautions, Save, Writing, asks};
use crate::{
    device::clock,
    locale::{number, said, word},
    part::{Ask, AskField, Choice, TextField},
    screen::batches::telling::name_of,
};

#[component]
pub fn Store(writing: Writing) -> impl IntoView {
    let weighed = writing
        .studio
        .book_now(|book| book.batches.get(&writing.batch).and_then(|b| b.weighed.clone()));
    let assumed = weighed.as_ref().map(|w| (w.dryness.value, w.dryness.basis));
    let wet = Ask::new(WET_MASS, Kind::Mass);
    let dryness = assumed.map_or(Ask::new(DRYNESS, Kind::Share), |(value, _)| {
        Ask::new(DRYNESS, Kind::Share).filled(number(value * 100.0, 3))
    });
    let form = RwSignal::new(StoredForm::WetCold);
    let place = RwSignal::new(String::new());
    let note = RwSignal::new(String::new());
    let guide = move || keep_by(form.get(), Keeper::Plant, false);
    let guided = move || guide().date(clock::today()).map(|d| d.to_string()).unwrap_or_default();
    // What the person set, if they did; else the guidance.
    let chosen = RwSignal::new(None::<String>);
    let keep = move || chosen.get().unwrap_or_else(guided);
    let before = Signal::stored(writing.situation());
    let situation = Signal::derive(move || Situation { closed: Some(true), ..before.get() });
    let run = Callback::new(move |()| {
        if !asks::all_well(&[wet, dryness]) {
            return;
        }
        let (Some(wet_mass_g), Some(share)) = (asks::on_scale(wet), dryness.base()) else { return };
        // Left as it was filled in, it is no better known than it was.
        let basis = assumed
            .filter(|(value, _)| (value - share).abs() < 5e-4)
            .map_or(Basis::Measured, |(_, basis)| basis);
        let Some(dryness) = asks::figure(dryness, 1.0, basis) else { return };
        writing.save(Body::Stored(Stored {
            lot: writing.studio.fresh_id(),
            wet_mass_g,
            dryness,
            form: form.get_untracked(),
            place: place.get_untracked().trim().to_owned(),
            keep_by: keep().parse().ok(),
            note: note.get_untracked().trim().to_owned(),
        }));
    });
    view! {
        <div class="stack">
            <Cautions act=Act::Storing situation />
            <AskField ask=wet hint=word("form.store.wet_hint") />
            <AskField ask=dryness />
            <Choice label=word("form.store.form") value=form
                options=[StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried]
                    .map(|f| (f, name_of("stored_form", &f))).to_vec() />
            {move || guide().remarks.iter().map(|remark| view! {
                <p class="soft small">{said(remark)}</p>
            }).collect_view()}
            <div class="field">
                <label for="keep-by">{word("form.store.keep_by")}</label>
                <input id="keep-by" type="date" prop:value=keep
                    on:input=move |event| chosen.set(Some(event_target_value(&event))) />
            </div>
            <TextField label=word("form.store.place") text=place />
            <TextField label=word("form.note.optional") text=note />
            <Save writing run />
        </div>
    }
}
