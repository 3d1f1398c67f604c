//! Stores the pulp as a lot.

use bleachfield_core::{
    caution::{Act, Situation},
    derive::{Proof, SignOffEvidence},
    journal::{Body, Figure, Stored, StoredForm},
    message::{Message, Value},
    pulp::{
        DRYNESS, WET_MASS,
        sign_off::{UnmetTest, stored_reason},
        storage::{FibreClass, ShelfLife, StoredPulp, Yield, shelf_life},
    },
    quantity::{QuantityKind, grams, in_share},
};
use leptos::prelude::*;

use super::{
    BatchWriter, Cautions, SaveButton, all_valid,
    inputs::{own_dryness_figure, stored_form_options},
    rinse, trimmed, weighed_figure,
};
use crate::{
    components::{
        ChoiceError, Fact, NumberField, NumberInput, RadioGroup, RecordedInput, Term, TextField,
    },
    i18n::{format_value, key, render, t, t_with},
    platform::clock,
    route::BatchForm,
    screens::batches::marks::proof_mark,
};

#[component]
pub fn StoreForm(writer: BatchWriter) -> impl IntoView {
    let inputs = StoreInputs::new(writer);
    let (place, note) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let of_batch = writer.situation();
    let situation = Signal::derive(move || Situation { closed: Some(true), ..of_batch.get() });
    let too_dry = Signal::derive(move || {
        // Only pulp that is kept wet was squeezed, and a squeeze has its limit.
        if inputs.form.get() == Some(StoredForm::Dried) {
            None
        } else {
            rinse::too_dry(inputs.dryness.input)
        }
    });
    let tried = RwSignal::new(false);
    let gap = ProofGap::new(writer);
    let no_form = Signal::derive(move || {
        let missing = tried.get() && inputs.form.get().is_none();
        missing.then(|| Message::new(key!("refusal-not_chosen")))
    });
    let run = Callback::new(move |()| {
        tried.set(true);
        if !all_valid(&[inputs.wet, inputs.dryness.input]) || too_dry.get_untracked().is_some() {
            return;
        }
        let Some(wet_mass_g) = weighed_figure(inputs.wet) else { return };
        let Some(dryness) = inputs.dryness.get(own_dryness_figure) else { return };
        let Some(form) = inputs.form.get_untracked() else { return };
        let Some(untested_why) = gap.map_or(Some(String::new()), ProofGap::reason) else { return };
        writer.save(Body::Stored(Stored {
            lot: writer.studio.fresh_id(),
            wet_mass_g,
            dryness,
            form,
            place: trimmed(place),
            keep_by: inputs.keep_by().parse().ok(),
            untested_why,
            note: trimmed(note),
        }));
    });
    view! {
        <div class="stack">
            {gap.map(|gap| gap.links())}
            <Cautions act=Act::Storing situation />
            <NumberField ask=inputs.wet hint=t!("form-store-wet_hint") />
            <NumberField ask=inputs.dryness.input refused=too_dry term=Term::Dryness />
            <div aria-live="polite">{move || inputs.yields_view()}</div>
            <RadioGroup label=t!("form-store-form") value=inputs.form options=stored_form_options() />
            <ChoiceError problem=no_form />
            <RadioGroup label=t!("form-store-keeper") value=inputs.linter options=vec![
                (Some(false), t!("form-store-plant")), (Some(true), t!("form-store-linter")),
            ] />
            <RadioGroup label=t!("form-store-beaten-which") value=inputs.beaten options=vec![
                (Some(false), t!("form-store-beaten-not")), (Some(true), t!("form-store-beaten-is")),
            ] />
            {move || inputs.shelf_life().map(|life| shelf_life_view(&life))}
            <div class="field">
                <label for="keep-by">{t!("form-store-keep_by")}</label>
                <input id="keep-by" type="date" prop:value=move || inputs.keep_by()
                    on:input=move |event| inputs.own_keep_by.set(Some(event_target_value(&event))) />
            </div>
            <TextField label=t!("form-store-place") text=place />
            <TextField label=t!("form-note-optional") text=note />
            {gap.map(|gap| view! {
                <TextField label=t!("store-untested_why") text=gap.why problem=gap.problem(tried) long=true />
            })}
            <SaveButton writer run />
        </div>
    }
}

/// What keeps the pulp from being proven clean, and the reason to store it all the same. Copied
/// freely.
#[derive(Clone, Copy)]
struct ProofGap {
    writer: BatchWriter,
    proof: Proof,
    /// The tests to do first; filled with the reason of the sign-off, if that has one.
    unmet: StoredValue<Vec<UnmetTest>>,
    why: RwSignal<String>,
}

impl ProofGap {
    /// `None` for pulp that is proven clean.
    fn new(writer: BatchWriter) -> Option<Self> {
        let (proof, unmet, why) = writer.read(|_, batch| {
            let why = batch.signed_off.as_ref().map(|signed| signed.reason.clone());
            let unmet = SignOffEvidence::of(batch).unmet_tests();
            (Proof::of(batch), unmet, why.unwrap_or_default())
        })?;
        (proof != Proof::Clean).then(|| Self {
            writer,
            proof,
            unmet: StoredValue::new(unmet),
            why: RwSignal::new(why),
        })
    }

    /// The reason; `None` while none is given. Untracked.
    fn reason(self) -> Option<String> {
        untrack(|| stored_reason(&self.why.get()))
    }

    fn problem(self, tried: RwSignal<bool>) -> Signal<Option<Message>> {
        Signal::derive(move || {
            let missing = tried.get() && stored_reason(&self.why.get()).is_none();
            missing.then(|| Message::new(key!("store-refusal-untested")))
        })
    }

    /// What is missing, and the way to it.
    fn links(self) -> AnyView {
        let writer = self.writer;
        let unmet = self.unmet.with_value(|unmet| {
            unmet.iter().map(|test| view! { <li>{render(&test.message())}</li> }).collect_view()
        });
        let bleached = writer.read(|_, batch| !batch.baths.is_empty()) == Some(true);
        let (label, form) = match self.proof {
            Proof::Unsigned => (t!("store-sign_first"), Some(BatchForm::SignOff)),
            // The ladder on the page below has the test that is next.
            _ if bleached => (t!("store-test_first"), None),
            _ => (t!("store-test_first"), Some(BatchForm::EndTest)),
        };
        let go = move |_| form.map_or_else(|| writer.close(), |form| writer.open(form));
        view! {
            <div class="caution care">
                {proof_mark(self.proof)}
                <p>{t!("store-not_clean")}</p>
                <ul>{unmet}</ul>
            </div>
            <button class="button touch" on:click=go>{label}</button>
        }
        .into_any()
    }
}

/// Copied freely.
#[derive(Clone, Copy)]
struct StoreInputs {
    /// Dry raw fibre of the batch, g.
    raw_g: Option<f64>,
    /// Dry fibre after the cook, g.
    cooked_g: Option<f64>,
    wet: NumberInput,
    /// Filled in from the last weighing.
    dryness: RecordedInput<Figure>,
    /// Chosen by the person, as the next two; these count as the worse while they are not.
    form: RwSignal<Option<StoredForm>>,
    linter: RwSignal<Option<bool>>,
    beaten: RwSignal<Option<bool>>,
    /// The date as the person set it, if they did.
    own_keep_by: RwSignal<Option<String>>,
}

impl StoreInputs {
    fn new(writer: BatchWriter) -> Self {
        let batch = writer.read(|_, batch| (batch.weighed.clone(), batch.raw_dry_g));
        let (weighed, raw) = batch.unwrap_or_default();
        let weighed = weighed.as_ref();
        Self {
            raw_g: raw.map(|figure| figure.value),
            cooked_g: weighed.map(|w| w.wet_mass_g.value * w.dryness.value),
            wet: NumberInput::new(WET_MASS, QuantityKind::Mass),
            dryness: RecordedInput::new(
                NumberInput::new(DRYNESS, QuantityKind::Share),
                weighed.map(|weighed| weighed.dryness),
                |dryness| dryness.value * 100.0,
            ),
            form: RwSignal::new(None),
            linter: RwSignal::new(None),
            beaten: RwSignal::new(None),
            own_keep_by: RwSignal::new(None),
        }
    }

    /// Fibre that nobody named keeps as plant pulp, and pulp that nobody called unbeaten as
    /// beaten: the shorter time.
    fn shelf_life(self) -> Option<ShelfLife> {
        let linter = self.linter.get() == Some(true);
        let fibre = if linter { FibreClass::Linter } else { FibreClass::Plant };
        Some(shelf_life(self.form.get()?, fibre, self.beaten.get() != Some(false)))
    }

    /// The date by which to use it, as a date field holds it; empty if there is none.
    fn keep_by(self) -> String {
        self.own_keep_by.get().unwrap_or_else(|| {
            let day = self.shelf_life().and_then(|life| life.keep_by(clock::today()));
            day.map(|day| day.to_string()).unwrap_or_default()
        })
    }

    fn yields_view(self) -> Option<AnyView> {
        let (wet, dryness) = (self.wet.base()?, self.dryness.get(own_dryness_figure)?.value);
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
