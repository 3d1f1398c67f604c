//! Stores the pulp as a lot.

use bleachfield_core::{
    caution::{Act, Situation},
    journal::{Body, Stored, StoredForm},
    message::Value,
    pulp::{
        DRYNESS, WET_MASS,
        storage::{FibreClass, ShelfLife, StoredPulp, Yield, shelf_life},
    },
    quantity::{Basis, QuantityKind, grams, in_share},
};
use leptos::prelude::*;

use super::{
    BatchWriter, Cautions, SaveButton, all_valid, figure, inputs::stored_form_options, rinse,
    trimmed, weighed_figure,
};
use crate::{
    components::{Fact, NumberField, NumberInput, RadioGroup, TextField},
    i18n::{format_number, format_value, render, t, t_with},
    platform::clock,
};

#[component]
pub fn StoreForm(writer: BatchWriter) -> impl IntoView {
    let inputs = StoreInputs::new(writer);
    let (place, note) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let of_batch = writer.situation();
    let situation = Signal::derive(move || Situation { closed: Some(true), ..of_batch.get() });
    let too_dry = Signal::derive(move || {
        // Only pulp that is kept wet was squeezed, and a squeeze has its limit.
        if inputs.form.get() == StoredForm::Dried { None } else { rinse::too_dry(inputs.dryness) }
    });
    let run = Callback::new(move |()| {
        if !all_valid(&[inputs.wet, inputs.dryness]) || too_dry.get_untracked().is_some() {
            return;
        }
        let Some(wet_mass_g) = weighed_figure(inputs.wet) else { return };
        let Some(dryness) = figure(inputs.dryness, inputs.dryness_basis()) else { return };
        writer.save(Body::Stored(Stored {
            lot: writer.studio.fresh_id(),
            wet_mass_g,
            dryness,
            form: inputs.form.get_untracked(),
            place: trimmed(place),
            keep_by: inputs.keep_by().parse().ok(),
            note: trimmed(note),
        }));
    });
    view! {
        <div class="stack">
            <Cautions act=Act::Storing situation />
            <NumberField ask=inputs.wet hint=t!("form-store-wet_hint") />
            <NumberField ask=inputs.dryness refused=too_dry />
            <div aria-live="polite">{move || inputs.yields_view()}</div>
            <RadioGroup label=t!("form-store-form") value=inputs.form options=stored_form_options() />
            <RadioGroup label=t!("form-store-keeper") value=inputs.linter options=vec![
                (false, t!("form-store-plant")), (true, t!("form-store-linter")),
            ] />
            <RadioGroup label=t!("form-store-beaten-which") value=inputs.beaten options=vec![
                (false, t!("form-store-beaten-not")), (true, t!("form-store-beaten-is")),
            ] />
            {move || shelf_life_view(&inputs.shelf_life())}
            <div class="field">
                <label for="keep-by">{t!("form-store-keep_by")}</label>
                <input id="keep-by" type="date" prop:value=move || inputs.keep_by()
                    on:input=move |event| inputs.own_keep_by.set(Some(event_target_value(&event))) />
            </div>
            <TextField label=t!("form-store-place") text=place />
            <TextField label=t!("form-note-optional") text=note />
            <SaveButton writer run />
        </div>
    }
}

/// Copied freely.
#[derive(Clone, Copy)]
struct StoreInputs {
    /// Dry raw fibre of the batch, g.
    raw_g: Option<f64>,
    /// Dry fibre after the cook, g.
    cooked_g: Option<f64>,
    /// The dryness that was filled in from the last weighing, and its basis.
    filled_dryness: Option<(f64, Basis)>,
    wet: NumberInput,
    dryness: NumberInput,
    form: RwSignal<StoredForm>,
    linter: RwSignal<bool>,
    beaten: RwSignal<bool>,
    /// The date as the person set it, if they did.
    own_keep_by: RwSignal<Option<String>>,
}

impl StoreInputs {
    fn new(writer: BatchWriter) -> Self {
        let batch = writer.read(|_, batch| (batch.weighed.clone(), batch.raw_dry_g));
        let (weighed, raw) = batch.unwrap_or_default();
        let weighed = weighed.as_ref();
        let filled_dryness = weighed.map(|w| (w.dryness.value, w.dryness.basis));
        let percent = filled_dryness.map(|(share, _)| format_number(share * 100.0, 3));
        Self {
            raw_g: raw.map(|figure| figure.value),
            cooked_g: weighed.map(|w| w.wet_mass_g.value * w.dryness.value),
            filled_dryness,
            wet: NumberInput::new(WET_MASS, QuantityKind::Mass),
            dryness: NumberInput::new(DRYNESS, QuantityKind::Share)
                .filled(percent.unwrap_or_default()),
            form: RwSignal::new(StoredForm::WetCold),
            linter: RwSignal::new(false),
            beaten: RwSignal::new(false),
            own_keep_by: RwSignal::new(None),
        }
    }

    /// A dryness that was left as filled in is no better known than it was.
    fn dryness_basis(self) -> Basis {
        let filled = self.filled_dryness.zip(self.dryness.base());
        match filled {
            Some(((filled, basis), typed)) if (filled - typed).abs() < 5e-4 => basis,
            _ => Basis::Measured,
        }
    }

    fn shelf_life(self) -> ShelfLife {
        let fibre = if self.linter.get() { FibreClass::Linter } else { FibreClass::Plant };
        shelf_life(self.form.get(), fibre, self.beaten.get())
    }

    /// The date by which to use it, as a date field holds it; empty if there is none.
    fn keep_by(self) -> String {
        self.own_keep_by.get().unwrap_or_else(|| {
            let day = self.shelf_life().keep_by(clock::today());
            day.map(|day| day.to_string()).unwrap_or_default()
        })
    }

    fn yields_view(self) -> Option<AnyView> {
        let (wet, dryness) = (self.wet.base()?, self.dryness.base()?);
        let dry = wet * dryness;
        let stored = StoredPulp {
            wet: grams(wet),
            dry: grams(dry),
            raw: self.raw_g.map(grams),
            cooked: self.cooked_g.map(grams),
        };
        Some(match stored.yields() {
            Ok(yields) => yield_facts(dry, yields),
            Err(error) => {
                view! { <p class="caution care">{render(&error.message())}</p> }.into_any()
            }
        })
    }
}

/// Dry fibre (g), dryness and yields.
fn yield_facts(dry_g: f64, yields: Yield) -> AnyView {
    let share = |ratio| format_value(&Value::Share(in_share(ratio)));
    let facts = [
        (t!("figure-dry_fibre"), Some(format_value(&Value::Mass(grams(dry_g))))),
        (t!("figure-dryness"), Some(share(yields.dryness))),
        (t!("form-store-from_raw"), yields.from_raw.map(share)),
        (t!("form-store-from_cooked"), yields.from_cooked.map(share)),
    ];
    let facts = facts
        .into_iter()
        .filter_map(|(name, value)| Some(view! { <Fact name value=value? /> }))
        .collect_view();
    view! { <dl class="facts">{facts}</dl> }.into_any()
}

/// How long it keeps, the source of that, and remarks.
fn shelf_life_view(life: &ShelfLife) -> impl IntoView + use<> {
    let days = life.days.map(|days| {
        let [low, high] = [days.low, days.high].map(|days| format_value(&Value::Days(days)));
        t_with!("form-store-days", &[("low", &low), ("high", &high)])
    });
    let grade = t_with!("store-grade", &[("grade", &t(life.source.word()))]);
    let remarks = life.remarks.iter().map(|remark| {
        view! { <p class="soft small">{render(remark)}</p> }
    });
    view! { <p>{days}" "{grade}</p>{remarks.collect_view()} }
}
