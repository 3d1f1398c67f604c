//! Putting the pulp by as a lot.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Body, Stored, StoredForm},
    message::Value,
    pulp::{
        DRYNESS, WET_MASS,
        storage::{FibreClass, StoredPulp, Yield, shelf_life},
    },
    quantity::{Basis, QuantityKind, grams, in_share},
};
use leptos::prelude::*;

use super::{BatchWriter, Cautions, Save, asks};
use crate::{
    components::{Fact, NumberField, NumberInput, RadioGroup, TextField},
    i18n::{format_number, format_value, render, t, t_with},
    platform::clock,
    screens::batches::telling::name_of,
};

#[component]
pub fn Store(writing: BatchWriter) -> impl IntoView {
    let (weighed, raw) = writing.studio.book_now(|book| {
        let batch = book.batches.get(&writing.batch);
        let raw = batch.and_then(|b| b.raw_dry_g).map(|figure| figure.value);
        (batch.and_then(|b| b.weighed.clone()), raw)
    });
    let cooked = weighed.as_ref().map(|w| w.wet_mass_g.value * w.dryness.value);
    let assumed = weighed.as_ref().map(|w| (w.dryness.value, w.dryness.basis));
    let wet = NumberInput::new(WET_MASS, QuantityKind::Mass);
    let dryness = assumed.map_or(NumberInput::new(DRYNESS, QuantityKind::Share), |(value, _)| {
        NumberInput::new(DRYNESS, QuantityKind::Share).filled(format_number(value * 100.0, 3))
    });
    let form = RwSignal::new(StoredForm::WetCold);
    let place = RwSignal::new(String::new());
    let note = RwSignal::new(String::new());
    let linter = RwSignal::new(false);
    let beaten = RwSignal::new(false);
    let guide = move || {
        let fibre = if linter.get() { FibreClass::Linter } else { FibreClass::Plant };
        shelf_life(form.get(), fibre, beaten.get())
    };
    let guided = move || guide().keep_by(clock::today()).map(|d| d.to_string()).unwrap_or_default();
    // What the person set, if they did; else the guidance.
    let chosen = RwSignal::new(None::<String>);
    let keep = move || chosen.get().unwrap_or_else(guided);
    let before = Signal::stored(writing.situation());
    let situation = Signal::derive(move || Situation { closed: Some(true), ..before.get() });
    // Pulp that is kept wet was squeezed, and no squeeze is drier than that.
    let too_dry = Signal::derive(move || {
        if form.get() == StoredForm::Dried { None } else { super::rinse::too_dry(dryness) }
    });
    // What the lump says of squeeze and yield.
    let yields = move || {
        let (wet, dryness) = (wet.base()?, dryness.base()?);
        let put_by = StoredPulp {
            wet: grams(wet),
            dry: grams(wet * dryness),
            raw: raw.map(grams),
            cooked: cooked.map(grams),
        };
        Some((wet * dryness, put_by.yields()))
    };
    let run = Callback::new(move |()| {
        if !asks::all_well(&[wet, dryness]) || too_dry.get_untracked().is_some() {
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
            <NumberField ask=wet hint=t!("form-store-wet_hint") />
            <NumberField ask=dryness refused=too_dry />
            <div aria-live="polite">{move || yields().map(|(dry, yields)| match yields {
                Ok(yields) => told(dry, yields),
                Err(why) => view! { <p class="caution care">{render(&why.message())}</p> }.into_any(),
            })}</div>
            <RadioGroup label=t!("form-store-form") value=form
                options=[StoredForm::WetCold, StoredForm::Frozen, StoredForm::Dried]
                    .map(|f| (f, name_of("stored_form", f))).to_vec() />
            <RadioGroup label=t!("form-store-keeper") value=linter options=vec![
                (false, t!("form-store-plant")), (true, t!("form-store-linter")),
            ] />
            <RadioGroup label=t!("form-store-beaten-which") value=beaten options=vec![
                (false, t!("form-store-beaten-not")), (true, t!("form-store-beaten-is")),
            ] />
            {move || {
                let guide = guide();
                let days = guide.days.map(|days| t_with!("form-store-days", &[
                    ("low", &format_value(&Value::Days(days.low))),
                    ("high", &format_value(&Value::Days(days.high))),
                ]));
                let grade = t_with!("store-grade", &[("grade", &t(guide.source.word()))]);
                view! { <p>{days}" "{grade}</p> }
            }}
            {move || guide().remarks.iter().map(|remark| view! {
                <p class="soft small">{render(remark)}</p>
            }).collect_view()}
            <div class="field">
                <label for="keep-by">{t!("form-store-keep_by")}</label>
                <input id="keep-by" type="date" prop:value=keep
                    on:input=move |event| chosen.set(Some(event_target_value(&event))) />
            </div>
            <TextField label=t!("form-store-place") text=place />
            <TextField label=t!("form-note-optional") text=note />
            <Save writing run />
        </div>
    }
}

/// Dry fibre, squeeze and yields.
fn told(dry: f64, yields: Yield) -> AnyView {
    let part = |ratio| format_value(&Value::Share(in_share(ratio)));
    let facts = [
        (t!("figure-dry_fibre"), Some(format_value(&Value::Mass(grams(dry))))),
        (t!("figure-dryness"), Some(part(yields.dryness))),
        (t!("form-store-from_raw"), yields.from_raw.map(part)),
        (t!("form-store-from_cooked"), yields.from_cooked.map(part)),
    ];
    let facts = facts
        .into_iter()
        .filter_map(|(name, value)| Some(view! { <Fact name value=value? /> }))
        .collect_view();
    view! { <dl class="facts">{facts}</dl> }.into_any()
}
